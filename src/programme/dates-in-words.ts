import { longDayText, shortDayText } from '../time/index.ts';

/** How dates are said, from the fullest to the shortest; the last names the ends and how many days. */
export type DatesInWords = 'long' | 'short' | 'ends';
export const DATE_FORMS = ['long', 'short', 'ends'] as const;

const MS_PER_DAY = 86_400_000;

/**
 * Days in words: three and more that follow one another as a run, the rest one by one.
 * @param days  days since 1970-01-01, ascending, at least one
 */
export function datesInWords(days: readonly number[], form: DatesInWords): string {
  const said = (day: number): string =>
    // A calendar date has no zone: as days since 1970 it is read in the one zone that counts from there.
    (form === 'long' ? longDayText : shortDayText)(day * MS_PER_DAY, 'UTC');
  const runs = runsOf(days);
  const [first, last] = [days[0]!, days.at(-1)!];
  if (form === 'ends' && runs.length > 2)
    return `${said(first)} to ${said(last)} (${days.length} days of work)`;
  const parts = runs.flatMap(([from, to]) => {
    if (to - from > 1) return [`${said(from)} to ${said(to)}`];
    return from === to ? [said(from)] : [said(from), said(to)];
  });
  const before = parts.slice(0, -1).join(', ');
  return before === '' ? parts[0]! : `${before} and ${parts.at(-1)}`;
}

function runsOf(days: readonly number[]): (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (const day of days) {
    const run = runs.at(-1);
    if (run !== undefined && day === run[1] + 1) run[1] = day;
    else runs.push([day, day]);
  }
  return runs;
}
