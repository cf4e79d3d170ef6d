import { type Trail, WHY } from './trail.ts';

/**
 * Lags between variables, some of which hold only while a 0/1 variable has a given value (which of two
 * activities that need the same people goes first).
 */
export class Arcs {
  readonly #trail: Trail;
  /** Per bound, three numbers each: the bound it pushes, by how much, bound of the condition or -1. */
  readonly #out: number[][];
  /** Per bound of a condition, three numbers each: pushing bound, pushed bound, by how much. */
  readonly #waiting: number[][];

  constructor(trail: Trail) {
    this.#trail = trail;
    this.#out = Array.from({ length: trail.low.length }, () => []);
    this.#waiting = Array.from({ length: trail.low.length }, () => []);
  }

  /** x[to] >= x[from] + lag, always or while the 0/1 bound `given` is at its top. */
  add(from: number, to: number, lag: number, given = -1): void {
    this.#push(2 * from, 2 * to, lag, given);
    this.#push(2 * to + 1, 2 * from + 1, lag, given);
  }

  #push(from: number, to: number, lag: number, given: number): void {
    this.#out[from]!.push(to, lag, given);
    if (given >= 0) this.#waiting[given]!.push(from, to, lag);
  }

  /** Follows up a raised bound. @returns false on a conflict */
  propagate(bound: number): boolean {
    const trail = this.#trail;
    const { low } = trail;
    const out = this.#out[bound]!;
    for (let n = 0; n < out.length; n += 3) {
      const to = out[n]!;
      const value = low[bound]! + out[n + 1]!;
      if (low[to]! >= value) continue;
      const given = out[n + 2]!;
      if (given < 0 || low[given] === 1 - (given & 1)) {
        if (!trail.raise(to, value, WHY.diff, bound, out[n + 1]!, given)) return false;
      } else if (low[to ^ 1]! >= 1 - value && low[given ^ 1]! < (given & 1)) {
        const reason = trail.keep([bound, low[bound]!, to ^ 1, 1 - value]);
        if (!trail.raise(given ^ 1, given & 1, WHY.pool, reason)) return false;
      }
    }
    const waiting = this.#waiting[bound]!;
    if (waiting.length === 0 || low[bound] !== 1 - (bound & 1)) return true;
    for (let n = 0; n < waiting.length; n += 3) {
      const from = waiting[n]!;
      const lag = waiting[n + 2]!;
      if (!trail.raise(waiting[n + 1]!, low[from]! + lag, WHY.diff, from, lag, bound)) return false;
    }
    return true;
  }
}
