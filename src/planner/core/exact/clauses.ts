import { type Trail, WHY } from './trail.ts';

/**
 * What the search has learned: clauses, each saying that at least one of its statements holds. Two
 * statements of each are watched; a clause is looked at only when one of them turns false.
 */
export class Clauses {
  readonly #trail: Trail;
  /** Per bound: value from which a watched statement is false, then its clause. */
  readonly #watches: number[][];
  #end = 0;
  /** Clauses in the order learned, with how many levels each spanned. */
  #all: { ref: number; span: number }[] = [];

  constructor(trail: Trail) {
    this.#trail = trail;
    this.#watches = Array.from({ length: trail.low.length }, () => []);
    trail.arena = new Int32Array(1 << 14);
  }

  get count(): number {
    return this.#all.length;
  }

  /** @param statements  pairs, at least two statements; the first two are watched */
  add(statements: readonly number[], span: number): number {
    const ref = this.#end;
    const need = ref + 1 + statements.length;
    if (need > this.#trail.arena.length) {
      const larger = new Int32Array(2 * need);
      larger.set(this.#trail.arena);
      this.#trail.arena = larger;
    }
    const arena = this.#trail.arena;
    arena[ref] = statements.length / 2;
    for (let n = 0; n < statements.length; n += 1) arena[ref + 1 + n] = statements[n]!;
    this.#end = need;
    this.#watch(ref, ref + 1);
    this.#watch(ref, ref + 3);
    this.#all.push({ ref, span });
    return ref;
  }

  #watch(ref: number, at: number): void {
    const arena = this.#trail.arena;
    this.#watches[arena[at]! ^ 1]!.push(1 - arena[at + 1]!, ref);
  }

  /** Follows up a raised bound. @returns false on a conflict */
  propagate(bound: number): boolean {
    const trail = this.#trail;
    const { low, arena } = trail;
    const list = this.#watches[bound]!;
    let kept = 0;
    let n = 0;
    let fine = true;
    for (; fine && n < list.length; n += 2) {
      const from = list[n]!;
      const ref = list[n + 1]!;
      if (from > low[bound]!) {
        list[kept] = from;
        list[kept + 1] = ref;
        kept += 2;
        continue;
      }
      if (arena[ref + 1] === (bound ^ 1) && arena[ref + 2] === 1 - from)
        swap(arena, ref + 1, ref + 3);
      const first = arena[ref + 1]!;
      const value = arena[ref + 2]!;
      if (low[first]! < value && this.#moveWatch(ref)) continue;
      list[kept] = from;
      list[kept + 1] = ref;
      kept += 2;
      if (low[first]! < value) fine = trail.raise(first, value, WHY.clause, ref);
    }
    for (; n < list.length; n += 2) {
      list[kept] = list[n]!;
      list[kept + 1] = list[n + 1]!;
      kept += 2;
    }
    list.length = kept;
    return fine;
  }

  /** Watches another statement that is not false in place of the second. */
  #moveWatch(ref: number): boolean {
    const { low, arena } = this.#trail;
    const end = ref + 1 + 2 * arena[ref]!;
    for (let at = ref + 5; at < end; at += 2) {
      if (low[arena[at]! ^ 1]! >= 1 - arena[at + 1]!) continue;
      swap(arena, at, ref + 3);
      this.#watch(ref, ref + 3);
      return true;
    }
    return false;
  }

  /** Forgets the half that spans most levels, and what holds for good. Only at the root. */
  reduce(): void {
    const { arena, low } = this.#trail;
    const young = Math.floor(this.#all.length / 4);
    const judged = this.#all.slice(0, this.#all.length - young);
    const kept = judged
      .map((clause, age) => ({ ...clause, age }))
      .sort((a, b) => a.span - b.span || b.age - a.age)
      .slice(0, Math.ceil(judged.length / 2))
      .concat(
        this.#all.slice(judged.length).map((clause, n) => ({ ...clause, age: judged.length + n })),
      )
      .sort((a, b) => a.age - b.age);
    const old = arena.slice(0, this.#end);
    for (const list of this.#watches) list.length = 0;
    this.#all = [];
    this.#end = 0;
    for (const { ref, span } of kept) {
      const statements: number[] = [];
      let held = false;
      for (let n = 0; n < old[ref]!; n += 1) {
        const bound = old[ref + 1 + 2 * n]!;
        const value = old[ref + 2 + 2 * n]!;
        if (low[bound]! >= value) held = true;
        if (low[bound ^ 1]! < 1 - value) statements.push(bound, value);
      }
      // At a root at rest a clause not yet satisfied has at least two statements left.
      if (!held && statements.length >= 4) this.add(statements, span);
    }
  }
}

function swap(arena: Int32Array, a: number, b: number): void {
  const bound = arena[a]!;
  const value = arena[a + 1]!;
  arena[a] = arena[b]!;
  arena[a + 1] = arena[b + 1]!;
  arena[b] = bound;
  arena[b + 1] = value;
}
