import type { DayPlan } from '../day-plan.ts';
import type { DayRun, OutcomeKind } from '../day-run.ts';
import { simulateDay } from '../simulate.ts';
import { idleCost, outcomeCost } from '../value.ts';
import { DayBounds } from './bounds.ts';
import { startsOn } from './starts.ts';
import { type LayingWay, type OrderId, wayOf } from './way.ts';

/** One start of one list, as far as it has been run. */
export interface Candidate {
  readonly line: Line;
  readonly startMs: number;
  /** Per forecast, NaN where it has not been run; without what extra laying days cost. */
  readonly costs: Float64Array;
  readonly kinds: (OutcomeKind | null)[];
  /** Where a run finished: no earlier knocking-off than this would have changed it; else Infinity. */
  readonly neededMs: Float64Array;
  readonly idleMs: Float64Array;
  /** Least that all forecasts cost together, extra laying days included: exact once all are run. */
  total: number;
  /** Forecasts whose runs are those of the same list with a later knocking-off. */
  inherited: number;
}

/** A day's list laid one way, from any start. */
export class Line {
  readonly plan: DayPlan;
  readonly way: LayingWay;
  /** What its extra laying days cost, whatever comes. */
  readonly extraCost: number;
  readonly starts: readonly number[];
  readonly bounds: DayBounds;
  /** The same list with a later knocking-off: what that did in time, this does too. */
  readonly longer: Line | null;
  readonly #tried = new Map<number, Candidate>();
  readonly #longestToSafeMs: number;

  constructor(
    plan: DayPlan,
    extraCost: number,
    order: OrderId = 'as listed',
    longer: Line | null = null,
  ) {
    this.plan = plan;
    this.way = wayOf(plan, order);
    this.extraCost = extraCost;
    this.starts = startsOn(plan);
    this.bounds = new DayBounds(plan);
    this.longer = longer;
    this.#longestToSafeMs = Math.max(0, ...plan.steps.map(({ toRainSafeMs }) => toRainSafeMs));
  }

  /** No plan of this list from a start costs less, in all forecasts together. */
  least(startMs: number): number {
    const { memberCount } = this.plan.prepared.grid;
    let sum = this.extraCost * memberCount;
    for (let m = 0; m < memberCount; m += 1) sum += this.bounds.least(startMs, m);
    return sum;
  }

  at(startMs: number): Candidate {
    const before = this.#tried.get(startMs);
    if (before !== undefined) return before;
    const { memberCount } = this.plan.prepared.grid;
    const made: Candidate = {
      line: this,
      startMs,
      costs: new Float64Array(memberCount).fill(Number.NaN),
      kinds: new Array<OutcomeKind | null>(memberCount).fill(null),
      neededMs: new Float64Array(memberCount).fill(Number.POSITIVE_INFINITY),
      idleMs: new Float64Array(memberCount),
      total: this.least(startMs),
      inherited: 0,
    };
    if (this.longer !== null) this.#inherit(made, this.longer.#tried.get(startMs));
    this.#tried.set(startMs, made);
    return made;
  }

  /** A run that was over in time goes just the same when the gang is to knock off sooner. */
  #inherit(candidate: Candidate, longer: Candidate | undefined): void {
    if (longer === undefined) return;
    const { endMs } = this.plan.shift;
    for (let m = 0; m < candidate.costs.length; m += 1) {
      if (longer.neededMs[m]! > endMs) continue;
      this.#note(candidate, m, {
        kind: 'finished',
        idleMs: longer.idleMs[m]!,
        neededMs: longer.neededMs[m]!,
        laid: true,
      });
      candidate.inherited += 1;
    }
  }

  run(candidate: Candidate, m: number): void {
    const run = simulateDay(this.plan, m, { startMs: candidate.startMs });
    this.#note(candidate, m, { ...run, neededMs: this.#neededMs(run) });
  }

  #note(
    candidate: Candidate,
    m: number,
    run: Pick<DayRun, 'kind' | 'idleMs' | 'laid'> & { readonly neededMs: number },
  ): void {
    const { prepared, shift } = this.plan;
    const { costs } = prepared.job;
    const cost = outcomeCost(run, costs) + idleCost(run.idleMs, shift.endMs - shift.startMs, costs);
    candidate.costs[m] = cost;
    candidate.kinds[m] = run.kind;
    candidate.neededMs[m] = run.neededMs;
    candidate.idleMs[m] = run.idleMs;
    candidate.total += cost - this.bounds.least(candidate.startMs, m);
  }

  /**
   * A crew looks at its knocking-off in three places: before it opens, whether fair weather would get it
   * rain-safe in time; before each task and wait, whether time to close up is left; and at the end.
   */
  #neededMs({ kind, openedMs, endMs }: DayRun): number {
    if (kind !== 'finished' || openedMs === null) return Number.POSITIVE_INFINITY;
    return Math.max(endMs + this.plan.nightSealMs, openedMs + this.#longestToSafeMs) + 1;
  }
}
