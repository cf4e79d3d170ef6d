import type { Model } from '../model.ts';
import { type Trail, WHY } from './trail.ts';

interface Window {
  readonly from: number;
  readonly to: number;
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
}

/**
 * Starts that are forbidden, and lags that depend on when the first of two starts. Bounds stand on allowed
 * starts that leave the other activity one of its own; once both are settled all of it has been checked.
 */
export class Windows {
  readonly #trail: Trail;
  readonly #count: number;
  /** Per activity and period up to its last allowed start: the next allowed one, and the one before. */
  readonly #next: readonly (Int32Array | null)[];
  readonly #previous: readonly (Int32Array | null)[];
  readonly #outOf: readonly (readonly Window[])[];
  readonly #into: readonly (readonly Window[])[];

  constructor(trail: Trail, model: Model) {
    this.#trail = trail;
    this.#count = model.count;
    this.#next = model.allowed.map((starts) => starts && nextOf(starts));
    this.#previous = model.allowed.map((starts) => starts && previousOf(starts));
    const windows = model.windows.map(
      ({ from, to, earliest, latest }): Window => ({
        from,
        to,
        earliest: Int32Array.from(earliest),
        latest: Int32Array.from(latest),
      }),
    );
    const activities = Array.from({ length: model.count }, (_, i) => i);
    this.#outOf = activities.map((i) => windows.filter(({ from }) => from === i));
    this.#into = activities.map((i) => windows.filter(({ to }) => to === i));
  }

  /** Follows up a raised bound. @returns false on a conflict */
  propagate(bound: number): boolean {
    const x = bound >> 1;
    if (x >= this.#count) return true;
    if (!this.#snap(bound)) return false;
    for (const window of this.#outOf[x]!) {
      if (!this.#prune(window) || !this.#push(window)) return false;
    }
    for (const window of this.#into[x]!) if (!this.#prune(window)) return false;
    return true;
  }

  /** Moves a bound onto an allowed start. */
  #snap(bound: number): boolean {
    const trail = this.#trail;
    const x = bound >> 1;
    const next = this.#next[x]!;
    const previous = this.#previous[x]!;
    if (next === null || previous === null) return true;
    const value = trail.low[bound]!;
    if (bound % 2 === 0) {
      const up = next[value]!;
      if (up === value) return true;
      return trail.raise(bound, up, WHY.pool, trail.keep([bound, previous[value]! + 1]));
    }
    const down = previous[-value]!;
    if (down === -value) return true;
    return trail.raise(bound, -down, WHY.pool, trail.keep([bound, 1 - next[-value]!]));
  }

  /** The second must start where some start of the first lets it. */
  #push({ from, to, earliest, latest }: Window): boolean {
    const trail = this.#trail;
    const { low } = trail;
    const next = this.#next[from]!;
    const first = low[2 * from]!;
    const last = -low[2 * from + 1]!;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let s = next[first]!; s <= last; s = next[s + 1] ?? last + 1) {
      least = Math.min(least, earliest[s]!);
      most = Math.max(most, latest[s]!);
    }
    if (least > low[2 * to]!) {
      const why = this.#range(from, first, last, (s) => earliest[s]! >= least);
      if (!trail.raise(2 * to, least, WHY.pool, trail.keep(why))) return false;
    }
    if (-most > low[2 * to + 1]!) {
      const why = this.#range(from, first, last, (s) => latest[s]! <= most);
      if (!trail.raise(2 * to + 1, -most, WHY.pool, trail.keep(why))) return false;
    }
    return true;
  }

  /** The widest range of starts round first..last in which a thing holds, as statements. */
  #range(x: number, first: number, last: number, holds: (s: number) => boolean): number[] {
    const next = this.#next[x]!;
    const previous = this.#previous[x]!;
    let low = first;
    for (let s = previous[first - 1] ?? -1; s >= 0 && holds(s); s = previous[s - 1] ?? -1) low = s;
    let high = last;
    for (let s = next[last + 1] ?? -1; s >= 0 && holds(s); s = next[s + 1] ?? -1) high = s;
    return [2 * x, low, 2 * x + 1, -high];
  }

  /** The first may not start where it leaves the second nothing. */
  #prune(window: Window): boolean {
    const trail = this.#trail;
    const { low } = trail;
    for (const bound of [2 * window.from, 2 * window.from + 1]) {
      for (;;) {
        if (!this.#snap(bound)) return false;
        const why = this.#forbids(window, Math.abs(low[bound]!));
        if (why === null) break;
        why.push(bound, low[bound]!);
        if (!trail.raise(bound, low[bound]! + 1, WHY.pool, trail.keep(why))) return false;
      }
    }
    return true;
  }

  /** Why a start of the first leaves the second nothing, or null where it does not. */
  #forbids({ to, earliest, latest }: Window, s: number): number[] | null {
    const { low } = this.#trail;
    if (earliest[s]! > -low[2 * to + 1]!) return [2 * to + 1, 1 - earliest[s]!];
    if (latest[s]! < low[2 * to]!) return [2 * to, latest[s]! + 1];
    return null;
  }
}

/** Per period up to the last start: the first start at or after it. */
function nextOf(starts: Int32Array): Int32Array {
  const last = starts.at(-1)!;
  const out = new Int32Array(last + 1);
  let at = starts.length - 1;
  for (let s = last; s >= 0; s -= 1) {
    if (at > 0 && starts[at - 1]! >= s) at -= 1;
    out[s] = starts[at]!;
  }
  return out;
}

/** Per period up to the last start: the last start at or before it, -1 where there is none. */
function previousOf(starts: Int32Array): Int32Array {
  const out = new Int32Array(starts.at(-1)! + 1).fill(-1);
  let at = -1;
  for (let s = 0; s < out.length; s += 1) {
    if (starts[at + 1] === s) at += 1;
    if (at >= 0) out[s] = starts[at]!;
  }
  return out;
}
