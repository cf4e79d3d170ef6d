import { stepAt, stepStartMs } from '../../weather/index.ts';
import type { DayPlan, Step } from '../day-plan.ts';
import { idleCost } from '../value.ts';

/**
 * What a run can at least cost and what it will likely cost, in one look-up for each start and forecast,
 * from sums and next-times worked out once for a day's list.
 */
export class DayBounds {
  readonly #plan: DayPlan;
  readonly #firstStep: number;
  readonly #lastStep: number;
  readonly #width: number;
  /** Column (member, step of the day): the next step in which the opening task may start. */
  readonly #mayOpen: Int32Array;
  /** The same, and it stays dry for as long as the work to rain-safe lasts. */
  readonly #mayFinish: Int32Array;
  /** Steps so far in which the first film may not be coated. */
  readonly #heldSoFar: Int32Array;
  readonly #opener: Step | null;
  /** Work on hand before the roof can be opened, and the same in fair weather with its waits [ms]. */
  readonly #leadMs: number;
  readonly #fairLeadMs: number;
  /** Work between opening and rain-safe, and from opening to the end of the list [ms]. */
  readonly #openMs: number;
  readonly #allMs: number;
  readonly #leastFailure: number;
  /** All that can be done without opening, and the breaks [ms]; null where films may have to be laid twice. */
  readonly #beforehandMs: number | null;
  readonly #longestToSafeMs: number;

  constructor(plan: DayPlan) {
    const { grid, job } = plan.prepared;
    const { steps, shift } = plan;
    this.#plan = plan;
    const opens = steps.findIndex(({ activity }) => activity.opens);
    this.#opener = steps[opens] ?? null;
    const before = steps.map((_, n) => waitedFor(steps, n));
    this.#leadMs = workOf(steps.filter((_, n) => before[opens]?.has(n)));
    // What does not wait for the opening may be done before it.
    this.#openMs = workOf(
      steps.filter(
        ({ activity }, n) => activity.forRainSafe && (n === opens || before[n]!.has(opens)),
      ),
    );
    this.#allMs = workOf(steps);
    this.#fairLeadMs = Math.max(
      0,
      (steps[0]?.toRainSafeMs ?? 0) - (this.#opener?.toRainSafeMs ?? 0),
    );
    const beforehand = steps.filter((_, n) => n !== opens && !before[n]!.has(opens));
    const breaksMs = shift.breaks.reduce((sum, { lengthMs }) => sum + lengthMs, 0);
    this.#beforehandMs = beforehand.some(({ film }) => film !== null)
      ? null
      : workOf(beforehand) + breaksMs;
    this.#longestToSafeMs = Math.max(0, ...steps.map(({ toRainSafeMs }) => toRainSafeMs));
    const { costs } = job;
    this.#leastFailure = Math.min(costs.shortened, costs.standDown, costs.caughtOpen);
    this.#firstStep = Math.max(0, stepAt(grid, shift.startMs));
    this.#lastStep = Math.max(this.#firstStep, Math.min(grid.steps, stepAt(grid, shift.endMs) + 1));
    this.#width = this.#lastStep - this.#firstStep + 1;
    const size = grid.memberCount * this.#width;
    this.#mayOpen = new Int32Array(size);
    this.#mayFinish = new Int32Array(size);
    this.#heldSoFar = new Int32Array(size);
    for (let m = 0; m < grid.memberCount; m += 1) this.#fill(m);
  }

  #fill(m: number): void {
    const { grid, nextRain } = this.#plan.prepared;
    const film = this.#plan.steps.find((step) => step.film !== null) ?? null;
    const column = m * grid.steps;
    const row = m * this.#width;
    const openSteps = Math.ceil(this.#openMs / grid.stepMs - 1e-9);
    const end = Math.min(this.#lastStep, grid.knownSteps[m]!);
    let [open, finish] = [grid.steps, grid.steps];
    for (let i = this.#lastStep; i >= this.#firstStep; i -= 1) {
      const opener = this.#opener;
      if (opener !== null && i < end && (opener.mask.broken[column + i]! & opener.bits) === 0) {
        open = i;
        // What need not be rain-safe for the roof to be is not bound by the rain.
        if (!opener.activity.forRainSafe || nextRain[column + i]! - i >= openSteps) finish = i;
      }
      this.#mayOpen[row + i - this.#firstStep] = open;
      this.#mayFinish[row + i - this.#firstStep] = finish;
    }
    let held = 0;
    for (let i = this.#firstStep; i <= this.#lastStep; i += 1) {
      this.#heldSoFar[row + i - this.#firstStep] = held;
      if (film !== null && i < end && (film.mask.broken[column + i]! & film.bits) !== 0) held += 1;
    }
  }

  /** No run of the day's list from a start in a forecast costs less than this. */
  least(startMs: number, m: number): number {
    if (this.#opener === null) return 0;
    const { prepared, shift } = this.#plan;
    const { grid } = prepared;
    const from = this.#cell(startMs + this.#leadMs, m);
    if (from < 0 || this.#mayOpen[from]! >= this.#lastStep) return this.#leastStoodDown(startMs, m);
    const step = this.#mayFinish[from]!;
    if (step >= this.#lastStep) return this.#leastFailure;
    const openMs = Math.max(startMs + this.#leadMs, stepStartMs(grid, step));
    const endMs = Math.max(openMs + this.#openMs, startMs + this.#allMs);
    return endMs <= shift.endMs ? 0 : this.#leastFailure;
  }

  /** A crew that never opens stands about once it has done what can be done beforehand. */
  #leastStoodDown(startMs: number, m: number): number {
    const { prepared, shift } = this.#plan;
    const { grid, job } = prepared;
    const { standDown } = job.costs;
    if (this.#beforehandMs === null || stepStartMs(grid, grid.knownSteps[m]!) < shift.endMs)
      return standDown;
    const goesMs = shift.endMs - this.#longestToSafeMs;
    const idleMs = Math.max(0, goesMs - startMs - this.#beforehandMs);
    return standDown + idleCost(idleMs, shift.endMs - shift.startMs, job.costs);
  }

  /** Can the roof be opened at all in a forecast, from a start on? */
  opens(startMs: number, m: number): boolean {
    if (this.#opener === null) return true;
    const from = this.#cell(startMs + this.#leadMs, m);
    return from >= 0 && this.#mayOpen[from]! < this.#lastStep;
  }

  /**
   * What a run will about cost: the crew opens when it first may, films dry as on their sheets, and the
   * hours in which the first film may not be coated come on top.
   */
  likely(startMs: number, m: number): number {
    const { prepared, shift } = this.#plan;
    const { grid, nextRain, job } = prepared;
    const { costs } = job;
    const opener = this.#opener;
    if (opener === null) return 0;
    const shiftMs = shift.endMs - shift.startMs;
    const idle = (ms: number): number => idleCost(ms, shiftMs, costs);
    const readyMs = startMs + this.#fairLeadMs;
    const from = this.#cell(readyMs, m);
    if (from < 0 || this.#mayOpen[from]! >= this.#lastStep)
      return costs.standDown + idle(Math.max(0, shift.endMs - opener.toRainSafeMs - readyMs));
    const step = this.#mayOpen[from]!;
    const openMs = Math.max(readyMs, stepStartMs(grid, step));
    const closed = Math.min(this.#lastStep, stepAt(grid, openMs + opener.toRainSafeMs));
    const row = m * this.#width - this.#firstStep;
    const heldMs = (this.#heldSoFar[row + closed]! - this.#heldSoFar[row + step]!) * grid.stepMs;
    const safeMs = openMs + opener.toRainSafeMs + heldMs;
    const waited = idle(openMs - readyMs + heldMs);
    if (openMs + opener.toRainSafeMs > shift.endMs) return costs.standDown + waited;
    const rainStep = nextRain[m * grid.steps + step]!;
    const rainMs = rainStep < grid.steps ? stepStartMs(grid, rainStep) : Number.POSITIVE_INFINITY;
    if (rainMs < Math.min(safeMs, shift.endMs))
      return (this.#plan.underIsTight ? costs.shortened : costs.caughtOpen) + waited;
    return (safeMs > shift.endMs ? costs.shortened : 0) + waited;
  }

  /** Where a moment stands in the columns; negative = after the day or before it. */
  #cell(ms: number, m: number): number {
    const step = stepAt(this.#plan.prepared.grid, ms);
    if (step > this.#lastStep) return -1;
    return m * this.#width + Math.max(0, step - this.#firstStep);
  }
}

const workOf = (steps: readonly Step[]): number =>
  steps.reduce((sum, { durationMs }) => sum + durationMs, 0);

/** What a task itself waits for. */
export const waitsOf = ({ after, rest, closes }: Step): number[] => [
  ...after,
  ...(rest === null ? [] : [rest.after]),
  ...(closes === null ? [] : [closes]),
];

/** All that has to be done before a task. */
function waitedFor(steps: readonly Step[], n: number): Set<number> {
  const found = new Set<number>();
  const ask = (one: number): void => {
    for (const before of waitsOf(steps[one]!)) {
      if (found.has(before)) continue;
      found.add(before);
      ask(before);
    }
  };
  ask(n);
  return found;
}
