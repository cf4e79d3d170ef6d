import type { Trail } from './trail.ts';

/** What to try next: by time, as a foreman would, or where the last dead ends were. */
export class Branching {
  readonly #trail: Trail;
  readonly #activities: number;
  readonly #variables: number;
  readonly #weight: Float64Array;
  #step = 1;
  /** Values of the best schedule so far, tried first; null before there is one. */
  #pattern: Int32Array | null = null;

  constructor(trail: Trail, activities: number) {
    this.#trail = trail;
    this.#activities = activities;
    this.#variables = trail.low.length / 2;
    this.#weight = new Float64Array(this.#variables);
  }

  follow(values: Int32Array): void {
    this.#pattern = values;
  }

  /** @param bound  had a part in a dead end */
  blame(bound: number): void {
    this.#weight[bound >> 1]! += this.#step;
  }

  /** Older blame counts less. */
  fade(): void {
    this.#step *= 1.05;
    if (this.#step < 1e100) return;
    this.#step *= 1e-100;
    for (let x = 0; x < this.#variables; x += 1) this.#weight[x]! *= 1e-100;
  }

  /** Decides one more thing. @returns false when every start is settled */
  decide(byTime: boolean): boolean {
    const x = byTime ? this.#soonest() : this.#mostBlamed();
    if (x < 0) return false;
    const { low } = this.#trail;
    const from = low[2 * x]!;
    const to = -low[2 * x + 1]!;
    const wish = byTime ? from : (this.#pattern?.[x] ?? from);
    if (wish >= to)
      this.#trail.decide(2 * x, x < this.#activities ? from + Math.ceil((to - from) / 2) : to);
    else this.#trail.decide(2 * x + 1, -Math.max(from, wish));
    return true;
  }

  #soonest(): number {
    const { low } = this.#trail;
    let best = -1;
    for (let x = 0; x < this.#activities; x += 1) {
      const room = -low[2 * x + 1]! - low[2 * x]!;
      if (room === 0) continue;
      if (best < 0 || low[2 * x]! < low[2 * best]!) best = x;
      // Of those that may start at once, the one that can wait least.
      else if (low[2 * x] === low[2 * best] && low[2 * x + 1]! > low[2 * best + 1]!) best = x;
    }
    return best;
  }

  #mostBlamed(): number {
    const { low } = this.#trail;
    let best = -1;
    for (let x = 0; x < this.#variables; x += 1) {
      if (x === this.#activities || low[2 * x] === -low[2 * x + 1]!) continue;
      if (best < 0 || this.#weight[x]! > this.#weight[best]!) best = x;
    }
    return best;
  }
}
