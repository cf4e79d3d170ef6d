import type { LocalDay } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import { type AdjustedChance, adjustChance } from './chance.ts';
import { chooseStart } from './choose-start.ts';
import type { DayPlan } from './day-plan.ts';
import type { DayRun, OutcomeKind } from './day-run.ts';
import { quantile } from './quantile.ts';
import { type Reason, reasonsOf } from './reasons.ts';
import { simulateDay } from './simulate.ts';
import { costLossThreshold, idleCost, outcomeCost } from './value.ts';

export type Verdict = 'go' | 'doubtful' | 'no' | 'unknown';
export type OutcomeCounts = Readonly<Record<OutcomeKind, number>>;

/** One laying day with the best start found for it. */
export interface DayOption {
  readonly day: LocalDay;
  readonly plan: DayPlan;
  readonly verdict: Verdict;
  readonly startMs: number | null;
  readonly runs: readonly DayRun[];
  readonly outcomes: OutcomeCounts;
  readonly chance: AdjustedChance;
  readonly expectedCost: number;
  /** From now to the start of the working day [days]. */
  readonly leadDays: number;
  /** Times kept in the share of finished forecasts that the job asks for. */
  readonly finishMs: number | null;
  readonly rainSafeByMs: number | null;
  readonly lastAdhesiveMs: number | null;
  readonly reasons: readonly Reason[];
}

/** From this chance on a day is a 'go', and below the other a 'no' (common practice, the firm's to change). */
const GO_FROM = 0.7;
const NO_BELOW = 0.35;
/** More forecasts than this ending before the work does, and the day cannot be judged. */
const UNKNOWN_SHARE = 0.2;

/** Share of the cost of an aborted day that an earlier start may cost more (common practice). */
export const SLACK_SHARE = 0.03;

/**
 * Runs every start under every forecast and keeps the earliest that costs hardly more than the
 * cheapest: time in hand is worth a little waiting, but nobody is called in to stand about.
 * @param starts  candidate starts, epoch ms, at least one
 */
export function bestStart(plan: DayPlan, starts: readonly number[]): DayOption {
  const { prepared, shift } = plan;
  const { costs } = prepared.job;
  const memberCount = prepared.grid.memberCount;
  const runsByStart = starts.map((startMs) =>
    Array.from({ length: memberCount }, (_, m) => simulateDay(plan, m, { startMs })),
  );
  const shiftMs = shift.endMs - shift.startMs;
  const costByStart = runsByStart.map((runs) =>
    runs.map((run) => outcomeCost(run, costs) + idleCost(run.idleMs, shiftMs, costs)),
  );
  const { chosen, crossFit } = chooseStart(
    runsByStart.map((runs) => runs.map((run) => run.kind)),
    costByStart,
    SLACK_SHARE * costs.standDown,
  );
  const runs = runsByStart[chosen]!;
  const outcomes = countOutcomes(runs);
  const known = memberCount - outcomes.unknown;
  const leadDays = Math.max(0, (shift.startMs - prepared.nowMs) / (24 * MS_PER_HOUR));
  const chance = adjustChance({
    count: outcomes.finished,
    of: known,
    crossFit,
    leadDays,
    made: prepared.grid.source.madeFromOne === true,
  });
  const finished = runs.filter((run) => run.kind === 'finished');
  const { confidence } = prepared.job;
  return {
    day: shift.day,
    plan,
    verdict: verdictOf({
      outcomes,
      known,
      memberCount,
      chance,
      threshold: costLossThreshold(costs),
    }),
    // A start that never leads anywhere is no start to offer.
    startMs: outcomes.finished > 0 ? starts[chosen]! : null,
    runs,
    outcomes,
    chance,
    expectedCost: meanOf(costByStart[chosen]!),
    leadDays,
    finishMs: quantile(
      finished.map((run) => run.endMs),
      confidence,
    ),
    rainSafeByMs: quantile(
      finished.map((run) => run.rainSafeMs!),
      confidence,
    ),
    lastAdhesiveMs: quantile(
      finished.map((run) => lastCoatMs(plan, run)),
      confidence,
    ),
    reasons: reasonsOf(plan, runs),
  };
}

function verdictOf(args: {
  readonly outcomes: OutcomeCounts;
  readonly known: number;
  readonly memberCount: number;
  readonly chance: AdjustedChance;
  readonly threshold: number;
}): Verdict {
  const { outcomes, known, memberCount, chance, threshold } = args;
  if (known === 0 || outcomes.unknown > UNKNOWN_SHARE * memberCount) return 'unknown';
  // Shrinking a small count towards even must not make hope out of none.
  if (outcomes.finished === 0 || outcomes.caughtOpen / known > threshold) return 'no';
  // One forecast knows nothing of its own uncertainty.
  if (chance.adjusted === null) return 'doubtful';
  const share = chance.adjusted;
  if (share >= GO_FROM) return 'go';
  return share >= NO_BELOW ? 'doubtful' : 'no';
}

export function countOutcomes(runs: readonly DayRun[]): OutcomeCounts {
  const counts = { finished: 0, shortened: 0, stoodDown: 0, caughtOpen: 0, unknown: 0 };
  for (const run of runs) counts[run.kind] += 1;
  return counts;
}

function lastCoatMs(plan: DayPlan, run: DayRun): number {
  let last = Number.NEGATIVE_INFINITY;
  plan.steps.forEach((step, n) => {
    if (step.activity.coats !== undefined && step.activity.forRainSafe)
      last = Math.max(last, run.startMs[n]!);
  });
  return last;
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
