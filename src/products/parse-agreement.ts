import { LIMIT_QUANTITY } from './number-words.ts';
import type { Draft, Say } from './parse-draft.ts';
import { TIMES } from './parse-times.ts';
import {
  brief,
  convertCoverage,
  convertPrinted,
  type Quantity,
  standsFor,
} from './printed-units.ts';
import { LIMIT_KEYS, type Printed, type PrintedTable, SUBSTRATES } from './types.ts';

/** Printed figures that do not say the same as ours beside them, or are in a unit nobody can read. */
export function checkPrinted(draft: Draft, say: Say): void {
  const same = (path: string, quantity: Quantity, ours: readonly number[], printed?: Printed) => {
    if (printed !== undefined) compare(path, ours, printed, oursIn(quantity), say);
  };
  for (const key of TIMES) {
    const time = draft[key];
    if (time?.printed === undefined) continue;
    const count = Array.isArray(time.printed.value) ? time.printed.value.length : 1;
    const { lowMin, typicalMin, highMin } = time;
    same(
      key,
      'time',
      count === 2 ? [lowMin, highMin] : [lowMin, typicalMin, highMin],
      spread(time.printed, 3),
    );
  }
  for (const key of LIMIT_KEYS) {
    const limit = draft.limits[key];
    if (limit) same(`limits.${key}`, LIMIT_QUANTITY[key], [limit.value], limit.printed);
  }
  const { coverage, materialTempC, sheet, tables } = draft;
  if (materialTempC) {
    const { low, high, printed } = materialTempC;
    same('materialTempC', 'temperature', [low, high], printed);
  }
  if (coverage) {
    const convert: Convert = (value, unit) => {
      const read = convertCoverage(value, unit);
      if (!read.ok || read.unit === coverage.unit) return read;
      return { ok: false, accepted: `but coverage.unit is ${coverage.unit}: they do not compare.` };
    };
    const { value, printed, on } = coverage;
    if (printed) compare('coverage', [value], middle(printed), convert, say);
    for (const substrate of SUBSTRATES) {
      const there = on?.[substrate];
      if (there?.printed) {
        compare(`coverage.on.${substrate}`, [there.value], middle(there.printed), convert, say);
      }
    }
  }
  if (sheet) {
    const { weightKgM2, rollWidthsM, relaxMin, relaxColdMin } = sheet;
    const { low, high, printed } = weightKgM2;
    same('sheet.weightKgM2', 'weight', [low, high], printed && spread(printed, 2));
    same('sheet.rollWidthsM', 'length', rollWidthsM.values, rollWidthsM.printed);
    same('sheet.relaxMin', 'time', [relaxMin.value], relaxMin.printed);
    same('sheet.relaxColdMin', 'time', [relaxColdMin.value], relaxColdMin.printed);
  }
  tables?.forEach((table, n) => {
    const { printed, tempC, minutes } = table;
    if (printed === undefined) return;
    const { temps, times } = asPrinted(printed);
    same(`tables.${n}.tempC`, 'temperature', tempC, temps);
    same(`tables.${n}.minutes`, 'time', minutes.flat(), times);
  });
}

type Convert = (
  value: number,
  unit: string,
) =>
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly accepted: string };
const oursIn =
  (quantity: Quantity): Convert =>
  (value, unit) =>
    convertPrinted(quantity, value, unit);

function compare(
  path: string,
  ours: readonly number[],
  printed: Printed,
  convert: Convert,
  say: Say,
): void {
  const figures = figuresOf(printed);
  if (figures.length !== ours.length) {
    say(
      `${path}.printed`,
      `${path}.printed has ${count(figures.length)}, but ${path} has ${count(ours.length)}; both must say the same.`,
    );
    return;
  }
  for (const [n, figure] of figures.entries()) {
    const exact = convert(figure, printed.unit);
    const our = ours[n]!;
    if (!exact.ok) {
      say(`${path}.printed.unit`, `${path}.printed.unit is '${printed.unit}'; ${exact.accepted}`);
      return;
    }
    if (standsFor(our, exact.value)) continue;
    say(
      path,
      `${path} is ${brief(our)}, but printed beside it is ${brief(figure)} ${printed.unit}, which is ${brief(exact.value)}: one of the two is wrong.`,
    );
  }
}

const count = (n: number): string => `${n} figure${n === 1 ? '' : 's'}`;

export const figuresOf = ({ value }: Printed): readonly number[] =>
  typeof value === 'number' ? [value] : value;

/** One printed figure that stands for the whole range. */
function spread(printed: Printed, times: number): Printed {
  const figures = figuresOf(printed);
  return figures.length === 1
    ? { ...printed, value: Array.from({ length: times }, () => figures[0]!) }
    : printed;
}

/** A coverage printed as a range stands for its middle. */
export function middle(printed: Printed): Printed {
  const figures = figuresOf(printed);
  return { ...printed, value: figures.reduce((sum, figure) => sum + figure, 0) / figures.length };
}

/** The two halves of a printed table, each as a list of figures with its unit. */
export function asPrinted({ temps, tempUnit, times, timeUnit }: PrintedTable): {
  readonly temps: Printed;
  readonly times: Printed;
} {
  return {
    temps: { value: temps, unit: tempUnit },
    times: { value: times.flat(), unit: timeUnit },
  };
}
