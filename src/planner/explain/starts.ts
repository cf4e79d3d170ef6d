import { MS_PER_MINUTE } from '../../units/index.ts';
import type { DayPlan } from '../day-plan.ts';
import { startsOn } from '../search/starts.ts';

/** A few of a day's starts, so far apart, from the first on. */
export function startsOver(plan: DayPlan, everyMs: number): number[] {
  const all = startsOn(plan);
  return all.filter((ms) => (ms - all[0]!) % everyMs === 0);
}

/** Starts so many minutes from one already found, as far as the day has them, on the minute. */
export function startsRound(
  plan: DayPlan,
  startMs: number,
  offsetsMin: readonly number[],
): number[] {
  const all = startsOn(plan);
  const [first, last] = [all[0] ?? Number.POSITIVE_INFINITY, all.at(-1) ?? 0];
  return offsetsMin
    .map((minutes) => startMs + minutes * MS_PER_MINUTE)
    .filter((ms) => ms >= first && ms <= last);
}
