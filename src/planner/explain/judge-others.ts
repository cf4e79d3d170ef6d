import { type AdjustedChance, adjustChance } from '../chance.ts';
import { chooseStart } from '../choose-start.ts';
import { bestStart, type DayOption, type Verdict } from '../day-option.ts';
import type { DayRun } from '../day-run.ts';
import { extraDaysCost } from '../search/way.ts';
import { simulateDay } from '../simulate.ts';
import { idleCost, outcomeCost } from '../value.ts';
import type { Other } from './other-ways.ts';

/** Another way through a day at its best start. */
export interface Judged {
  readonly other: Other;
  readonly startMs: number;
  /** Less what picking it out of several ways and starts flatters. */
  readonly chance: AdjustedChance;
  readonly verdict: Verdict;
  readonly expectedCost: number;
}

/** What a way is picked by, in one forecast: less is better. */
type Pick = (cost: number, run: DayRun) => number;

/**
 * Runs each way from each of its starts in every forecast and keeps the best.
 * @param by  what to pick by: expected cost where left out
 * @returns null where there is none to run
 */
export function judgeOthers(
  option: DayOption,
  others: readonly Other[],
  by: Pick = (cost) => cost,
): Judged | null {
  const ways = others.flatMap((other) => other.starts.map((startMs) => ({ other, startMs })));
  if (ways.length === 0) return null;
  const members = option.runs.map((_, m) => m);
  const runs = ways.map(({ other, startMs }) =>
    members.map((m) => simulateDay(other.plan, m, { startMs })),
  );
  const costs = runs.map((of, w) => {
    const extra = extraCost(option, ways[w]!.other);
    return of.map((run) => by(costOf(option, run) + extra, run));
  });
  const { chosen, crossFit } = chooseStart(
    runs.map((of) => of.map(({ kind }) => kind)),
    costs,
  );
  const { other, startMs } = ways[chosen]!;
  const alone = bestStart(other.plan, [startMs]);
  const { grid, record } = other.plan.prepared;
  const chance = adjustChance({
    count: alone.chance.count,
    of: alone.chance.of,
    crossFit,
    leadDays: option.leadDays,
    made: grid.source.madeFromOne === true,
    record,
  });
  // What the day as found costs beside its weather (a smaller bay's further days) comes with all of them.
  const beside = option.expectedCost - mean(option.runs.map((run) => costOf(option, run)));
  const expectedCost = alone.expectedCost + beside + extraCost(option, other);
  return { other, startMs, chance, verdict: alone.verdict, expectedCost };
}

function costOf({ plan }: DayOption, run: DayRun): number {
  const { costs } = plan.prepared.job;
  const shiftMs = plan.shift.endMs - plan.shift.startMs;
  return outcomeCost(run, costs) + idleCost(run.idleMs, shiftMs, costs);
}

function extraCost({ plan }: DayOption, { plan: { work } }: Other): number {
  const extraDays = Math.max(0, work.bay.of - plan.work.bay.of);
  return extraDaysCost(extraDays, plan.prepared.job.costs);
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
