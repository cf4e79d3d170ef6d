import { type Trail, WHY } from './trail.ts';

export interface Lesson {
  /** Clause as pairs of statements: the one it asserts first, then one of the highest level left. */
  readonly clause: number[];
  /** Level to go back to. */
  readonly level: number;
  /** Number of different levels in the clause. */
  readonly span: number;
}

/**
 * From statements that cannot hold together to a clause that would have told earlier: entries of the present
 * level are replaced by their reasons, latest first, until one of them is left (first unique implication point).
 */
export class Learner {
  readonly #trail: Trail;
  #need = new Int32Array(0);
  #marked = new Uint8Array(0);
  readonly #below: number[] = [];
  readonly #reasons: number[] = [];
  #open = 0;
  #latest = -1;

  constructor(trail: Trail) {
    this.#trail = trail;
  }

  /** @param seen  called with each bound that had a part in the conflict */
  learn(seen: (bound: number) => void): Lesson {
    const trail = this.#trail;
    if (this.#need.length < trail.bound.length) {
      this.#need = new Int32Array(trail.bound.length);
      this.#marked = new Uint8Array(trail.bound.length);
    }
    this.#open = 0;
    this.#latest = -1;
    this.#below.length = 0;
    this.#addAll(trail.conflict, trail.size, seen);
    let at = this.#latest;
    for (;;) {
      while (this.#marked[at] === 0) at -= 1;
      if (this.#open === 1) break;
      this.#marked[at] = 0;
      this.#open -= 1;
      this.#reasons.length = 0;
      trail.explain(at, this.#need[at]!, this.#reasons);
      this.#addAll(this.#reasons, at, seen);
      at -= 1;
    }
    const lesson = this.#lesson(at);
    this.#marked[at] = 0;
    for (const entry of this.#below) this.#marked[entry] = 0;
    return lesson;
  }

  #addAll(statements: readonly number[], before: number, seen: (bound: number) => void): void {
    const trail = this.#trail;
    const present = trail.levels[trail.levels.length - 1]!;
    const root = trail.levels[0]!;
    for (let n = 0; n < statements.length; n += 2) {
      const bound = statements[n]!;
      const value = statements[n + 1]!;
      let at = trail.last[bound]!;
      while (at >= before) at = trail.previous[at]!;
      at = trail.since(value, at);
      if (at < root) continue;
      if (this.#marked[at] === 1) {
        if (value > this.#need[at]!) this.#need[at] = value;
        continue;
      }
      this.#marked[at] = 1;
      this.#need[at] = value;
      seen(bound);
      if (at >= present) {
        this.#open += 1;
        if (at > this.#latest) this.#latest = at;
      } else {
        this.#below.push(at);
      }
    }
  }

  #lesson(asserting: number): Lesson {
    const trail = this.#trail;
    const strongest = new Map<number, { at: number; value: number }>();
    for (const at of this.#below) {
      if (this.#impliedByOthers(at)) continue;
      const bound = trail.bound[at]!;
      const value = this.#need[at]!;
      const known = strongest.get(bound);
      if (known === undefined || known.value < value) strongest.set(bound, { at, value });
    }
    const parts = [...strongest.values()].sort((a, b) => b.at - a.at);
    const clause = [trail.bound[asserting]! ^ 1, 1 - this.#need[asserting]!];
    const levels = new Set<number>();
    for (const { at, value } of parts) {
      clause.push(trail.bound[at]! ^ 1, 1 - value);
      levels.add(levelOf(trail.levels, at));
    }
    const level = parts.length === 0 ? 0 : levelOf(trail.levels, parts[0]!.at);
    return { clause, level, span: levels.size + 1 };
  }

  /** Do the other statements of the lesson already imply this one, by one step? */
  #impliedByOthers(at: number): boolean {
    const trail = this.#trail;
    if (trail.why[at] === WHY.decision) return false;
    const root = trail.levels[0]!;
    this.#reasons.length = 0;
    trail.explain(at, this.#need[at]!, this.#reasons);
    for (let n = 0; n < this.#reasons.length; n += 2) {
      const bound = this.#reasons[n]!;
      const value = this.#reasons[n + 1]!;
      let from = trail.last[bound]!;
      while (from >= at) from = trail.previous[from]!;
      const entry = trail.since(value, from);
      if (entry < root) continue;
      if (this.#marked[entry] === 0 || this.#need[entry]! < value) return false;
    }
    return true;
  }
}

/** 1 = first decision. */
function levelOf(levels: readonly number[], at: number): number {
  let level = levels.length;
  while (level > 0 && levels[level - 1]! > at) level -= 1;
  return level;
}
