import { type DayOption, dayOption, SLACK_SHARE } from '../day-option.ts';
import type { DayPlan } from '../day-plan.ts';
import { simulateDay } from '../simulate.ts';
import { Line } from './line.ts';
import { Trials } from './trials.ts';

/**
 * Runs every start under every forecast and keeps the earliest that costs hardly more than the
 * cheapest: time in hand is worth a little waiting, but nobody is called in to stand about.
 * @param starts  candidate starts, epoch ms, at least one
 */
export function bestStart(plan: DayPlan, starts: readonly number[]): DayOption {
  const trials = trialsOf(plan);
  const line = new Line(plan, 0);
  for (const startMs of starts) trials.try(line, startMs);
  return settled(trials, [line], 'quick');
}

export function trialsOf({ prepared }: DayPlan): Trials {
  const { standDown } = prepared.job.costs;
  return new Trials(prepared.grid.memberCount, standDown, SLACK_SHARE * standDown);
}

/** The option that the trials come to. */
export function settled(
  trials: Trials,
  lines: readonly Line[],
  searched: DayOption['searched'],
): DayOption {
  const { chosen, crossFit } = trials.choose(lines);
  const { line, startMs } = chosen;
  const { plan, way, extraCost } = line;
  const runs = Array.from({ length: trials.memberCount }, (_, m) =>
    simulateDay(plan, m, { startMs }),
  );
  const { leastCost } = trials;
  return dayOption({ plan, way, startMs, runs, crossFit, extraCost, leastCost, searched });
}
