import { chooseStart } from '../choose-start.ts';
import { costOf, type DayOption, dayOption } from '../day-option.ts';
import type { DayRun } from '../day-run.ts';
import { extraDaysCost } from '../search/way.ts';
import { simulateDay } from '../simulate.ts';
import type { Other } from './other-ways.ts';

/** Another way through a day, at its best start. */
export interface Judged {
  readonly other: Other;
  /** Its chance less what picking it out of several ways and starts flatters. */
  readonly found: DayOption;
  readonly startMs: number;
}

/** What a way is picked by, in one forecast: less is better. */
type PickBy = (cost: number, run: DayRun) => number;

/**
 * Runs each way from each of its starts in every forecast and keeps the best.
 * @param by  what to pick by: expected cost where left out
 * @returns null where there is none to run
 */
export function judgeOthers(
  option: DayOption,
  others: readonly Other[],
  by: PickBy = (cost) => cost,
): Judged | null {
  const ways = others.flatMap((other) => other.starts.map((startMs) => ({ other, startMs })));
  if (ways.length === 0) return null;
  const runs = ways.map(({ other, startMs }) =>
    option.runs.map((_, m) => simulateDay(other.plan, m, { startMs })),
  );
  const costs = runs.map((of, w) => {
    const { other } = ways[w]!;
    const extra = extraCost(option, other);
    return of.map((run) => by(costOf(other.plan, run) + extra, run));
  });
  const { chosen, crossFit } = chooseStart(
    runs.map((of) => of.map(({ kind }) => kind)),
    costs,
  );
  const { other, startMs } = ways[chosen]!;
  const { plan, way } = other;
  const found = dayOption({
    plan,
    way,
    startMs,
    runs: runs[chosen]!,
    crossFit,
    extraCost: besideOf(option) + extraCost(option, other),
    leastCost: option.leastCost,
    searched: option.searched,
  });
  return { other, found, startMs };
}

/** What a day as found costs beside its weather: a smaller bay's further days. */
function besideOf({ plan, runs, expectedCost }: DayOption): number {
  const ofTheRuns = runs.reduce((sum, run) => sum + costOf(plan, run), 0) / runs.length;
  return expectedCost - ofTheRuns;
}

function extraCost({ plan }: DayOption, { plan: { work } }: Other): number {
  const extraDays = Math.max(0, work.bay.of - plan.work.bay.of);
  return extraDaysCost(extraDays, plan.prepared.job.costs);
}
