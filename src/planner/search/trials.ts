import { chooseStart } from '../choose-start.ts';
import type { OutcomeKind } from '../day-run.ts';
import type { Candidate, Line } from './line.ts';

/** A hair: two sums of the same costs in another order. */
const HAIR = 1e-6;

export interface TryLimits {
  /** Total cost from which on it is of no interest. */
  readonly most?: number;
  /** It is of no interest either where no forecast lets it finish. */
  readonly mustFinish?: boolean;
}

/** All that has been tried of one day, and what of it was run in every forecast. */
export class Trials {
  readonly memberCount: number;
  /** What standing down costs in all forecasts together: no plan need be dearer. */
  readonly #standDown: number;
  readonly #slack: number;
  readonly #run = new Set<Candidate>();
  /** Forecasts, those that have cost most so far first: they tell soonest that a plan is too dear. */
  #hardestFirst: number[];
  #cheapest = Number.POSITIVE_INFINITY;
  /** Single runs made. */
  runs = 0;

  /** @param slack  what an earlier start, or the usual way, may cost more than the cheapest, a forecast */
  constructor(memberCount: number, standDown: number, slack: number) {
    this.memberCount = memberCount;
    this.#standDown = standDown * memberCount;
    this.#slack = slack * memberCount;
    this.#hardestFirst = Array.from({ length: memberCount }, (_, m) => m);
  }

  /** Total cost that a plan must be under to be the cheapest so far. */
  get cheaper(): number {
    return this.#cheapest - HAIR;
  }

  /** Total cost that a plan must be under to be better than the best so far or than standing down. */
  get better(): number {
    return Math.min(this.#cheapest, this.#standDown) - HAIR;
  }

  /** The same for one that may be taken though another is a little cheaper. */
  get goodEnough(): number {
    return this.better + this.#slack + 2 * HAIR;
  }

  /** Mean cost of the cheapest plan run in every forecast. */
  get leastCost(): number {
    return this.#cheapest / this.memberCount;
  }

  /** Runs a candidate in every forecast, unless its costs reach `most` before that. */
  try(
    line: Line,
    startMs: number,
    { most = Number.POSITIVE_INFINITY, mustFinish = false }: TryLimits = {},
  ): void {
    const candidate = line.at(startMs);
    // In no forecast cheaper than the same with a later knocking-off.
    if (this.#run.has(candidate) || candidate.inherited === this.memberCount) return;
    for (const m of this.#hardestFirst) {
      if (candidate.total >= most) return;
      if (candidate.kinds[m] !== null) continue;
      line.run(candidate, m);
      this.runs += 1;
    }
    if (candidate.total >= most) return;
    if (mustFinish && !candidate.kinds.includes('finished')) return;
    this.#run.add(candidate);
    this.#cheapest = Math.min(this.#cheapest, candidate.total);
  }

  /** Puts the forecasts that cost most in what has been run first. */
  learnOrder(): void {
    const sums = new Float64Array(this.memberCount);
    for (const { costs } of this.#run)
      for (let m = 0; m < sums.length; m += 1) sums[m]! += costs[m]!;
    this.#hardestFirst.sort((a, b) => sums[b]! - sums[a]! || a - b);
  }

  /**
   * Of those that some forecast lets finish, if any: a start that only ever stands down is no plan, however
   * cheap. The first that costs hardly more than the cheapest, in the order of `lines` and then of starts, and
   * how often it would finish if none had been chosen for having done well in the forecasts it is judged by.
   */
  choose(lines: readonly Line[]): { readonly chosen: Candidate; readonly crossFit: number } {
    const rank = new Map(lines.map((line, n) => [line, n]));
    const run = [...this.#run];
    const finishing = run.filter(({ kinds }) => kinds.includes('finished'));
    const inOrder = (finishing.length > 0 ? finishing : run).sort(
      (a, b) => rank.get(a.line)! - rank.get(b.line)! || a.startMs - b.startMs,
    );
    const { chosen, crossFit } = chooseStart(
      inOrder.map(({ kinds }) => kinds as OutcomeKind[]),
      inOrder.map(({ costs, line }) => Array.from(costs, (cost) => cost + line.extraCost)),
      this.#slack / this.memberCount,
    );
    return { chosen: inOrder[chosen]!, crossFit };
  }
}
