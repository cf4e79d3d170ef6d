import type { Draft, Say } from './parse-draft.ts';
import { brief } from './printed-units.ts';

/** The membrane's own facts: there where they belong, and in order. */
export function checkSheet({ does, sheet }: Draft, say: Say): void {
  if (does === undefined) return;
  if (does.includes('sheet') && sheet === undefined) {
    say(
      'sheet',
      "sheet is missing, but does names 'sheet': give weightKgM2, rollWidthsM, relaxMin and relaxColdMin.",
    );
  }
  if (sheet === undefined) return;
  if (!does.includes('sheet')) {
    say(
      'sheet',
      `sheet is given, but does is ${does.join(', ')}: only a product that does 'sheet' has it.`,
    );
  }
  const { weightKgM2, rollWidthsM, relaxMin, relaxColdMin } = sheet;
  if (weightKgM2.low > weightKgM2.high) {
    say(
      'sheet.weightKgM2.low',
      `sheet.weightKgM2.low (${brief(weightKgM2.low)}) is above sheet.weightKgM2.high (${brief(weightKgM2.high)}).`,
    );
  }
  rollWidthsM.values.forEach((width, n) => {
    const before = rollWidthsM.values[n - 1];
    if (before === undefined || width > before) return;
    say(
      `sheet.rollWidthsM.values.${n}`,
      `sheet.rollWidthsM.values.${n} (${brief(width)} m) is not above the one before it (${brief(before)} m); widths must rise.`,
    );
  });
  if (relaxColdMin.value < relaxMin.value) {
    say(
      'sheet.relaxColdMin.value',
      `sheet.relaxColdMin.value (${brief(relaxColdMin.value)} min) is below sheet.relaxMin.value (${brief(relaxMin.value)} min): a cold or folded sheet does not relax sooner.`,
    );
  }
}
