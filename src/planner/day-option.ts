import type { LocalDay } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import { type AdjustedChance, adjustChance } from './chance.ts';
import type { DayPlan } from './day-plan.ts';
import type { DayRun, OutcomeKind } from './day-run.ts';
import { quantile } from './quantile.ts';
import { type Reason, reasonsOf } from './reasons.ts';
import type { LayingWay } from './search/way.ts';
import { idleCost, outcomeCost, type ValueFigures, valueFigures } from './value.ts';

export type Verdict = 'go' | 'doubtful' | 'no' | 'unknown';
export type OutcomeCounts = Readonly<Record<OutcomeKind, number>>;

/** One laying day with the best plan found for it. */
export interface DayOption {
  readonly day: LocalDay;
  /** Laid in this way: its crew, bay, hours and order are those of `way`. */
  readonly plan: DayPlan;
  readonly way: LayingWay;
  /** 'quick': some starts of the list as it stands; 'full': starts, orders, bays, gangs and hours. */
  readonly searched: 'quick' | 'full';
  readonly verdict: Verdict;
  readonly startMs: number | null;
  readonly runs: readonly DayRun[];
  readonly outcomes: OutcomeCounts;
  readonly chance: AdjustedChance;
  /** The two figures of the cost-loss rule, and the chance they are held against. */
  readonly value: ValueFigures;
  /** In the job's own costs, a forecast; with what the extra laying days of a smaller bay cost. */
  readonly expectedCost: number;
  /** The same of the cheapest plan found: an earlier start or the usual way may cost a little more. */
  readonly leastCost: number;
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

/** What a day's search has settled on. */
export interface Choice {
  readonly plan: DayPlan;
  readonly way: LayingWay;
  readonly startMs: number;
  readonly runs: readonly DayRun[];
  /** Share finished when no forecast has a say in choosing what it is judged by, see `chooseStart`. */
  readonly crossFit: number;
  /** What laying days more than by the job's own split cost. */
  readonly extraCost: number;
  readonly leastCost: number;
  readonly searched: DayOption['searched'];
}

/** A day as it is told of, from what its search has settled on. */
export function dayOption(choice: Choice): DayOption {
  const { plan, startMs, runs, crossFit } = choice;
  const { prepared, shift } = plan;
  const { costs } = prepared.job;
  const memberCount = prepared.grid.memberCount;
  const outcomes = countOutcomes(runs);
  const known = memberCount - outcomes.unknown;
  const leadDays = Math.max(0, (shift.startMs - prepared.nowMs) / (24 * MS_PER_HOUR));
  const chance = adjustChance({
    count: outcomes.finished,
    of: known,
    crossFit,
    leadDays,
    made: prepared.grid.source.madeFromOne === true,
    record: prepared.record,
  });
  const finished = runs.filter((run) => run.kind === 'finished');
  const { confidence } = prepared.job;
  const made = prepared.grid.source.madeFromOne === true;
  const value = valueFigures(costs, { count: outcomes.caughtOpen, of: known, made });
  const expectedCost = meanOf(runs.map((run) => costOf(plan, run))) + choice.extraCost;
  return {
    day: shift.day,
    plan,
    way: choice.way,
    searched: choice.searched,
    verdict: verdictOf({ outcomes, known, memberCount, chance, value }),
    // A start that never leads anywhere is no start to offer.
    startMs: outcomes.finished > 0 ? startMs : null,
    runs,
    outcomes,
    chance,
    value,
    expectedCost,
    leastCost: choice.leastCost,
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

/** What one run costs: the way it ended, and the crew standing about. */
export function costOf({ prepared, shift }: DayPlan, run: DayRun): number {
  const { costs } = prepared.job;
  return outcomeCost(run, costs) + idleCost(run.idleMs, shift.endMs - shift.startMs, costs);
}

function verdictOf(args: {
  readonly outcomes: OutcomeCounts;
  readonly known: number;
  readonly memberCount: number;
  readonly chance: AdjustedChance;
  readonly value: ValueFigures;
}): Verdict {
  const { outcomes, known, memberCount, chance, value } = args;
  if (known === 0 || outcomes.unknown > UNKNOWN_SHARE * memberCount) return 'unknown';
  // Shrinking a small count towards even must not make hope out of none.
  if (outcomes.finished === 0 || (value.caughtChance ?? 0) > value.threshold) return 'no';
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
