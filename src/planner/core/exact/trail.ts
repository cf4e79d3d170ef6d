/**
 * The bounds of all whole-number variables of the search, and how each came about.
 *
 * Variable x has two bounds: 2x bounds x from below, 2x + 1 bounds -x from below (so x from above). A
 * statement is a pair (bound, value): 'low[bound] is at least value'. The opposite of (b, v) is (b ^ 1, 1 - v).
 */
export class Trail {
  /** Present value of each bound. */
  readonly low: Int32Array;
  /** Latest entry of each bound, -1 while it stands as it did at the root. */
  readonly last: Int32Array;
  /** Entries, oldest first. */
  bound = new Int32Array(1024);
  value = new Int32Array(1024);
  before = new Int32Array(1024);
  previous = new Int32Array(1024);
  why = new Uint8Array(1024);
  ref = new Int32Array(1024);
  extra = new Int32Array(1024);
  given = new Int32Array(1024);
  size = 0;
  /** First entry of each decision level above the root. */
  readonly levels: number[] = [];
  /** Statements that explain entries: length, then pairs. */
  pool = new Int32Array(4096);
  poolSize = 0;
  readonly #poolMarks: number[] = [];
  /** Statements that cannot hold together, as pairs; set when `raise` fails. */
  readonly conflict: number[] = [];
  /** Bounds raised and not yet followed up. */
  readonly queue: number[] = [];
  readonly #queued: Uint8Array;
  /** Where the clauses lie. */
  arena: Int32Array = new Int32Array(0);

  constructor(variables: number) {
    this.low = new Int32Array(2 * variables);
    this.last = new Int32Array(2 * variables).fill(-1);
    this.#queued = new Uint8Array(2 * variables);
  }

  /**
   * Raises a bound for a reason.
   * @param why    one of WHY
   * @param ref    DIFF: the bound it follows; CLAUSE: the clause; POOL: place in the pool
   * @param extra  DIFF: by how much it lies above
   * @param given  DIFF: bound of the 0/1 variable it depends on, or -1
   * @returns false when it would pass the opposite bound; `conflict` then says why
   */
  raise(bound: number, value: number, why: number, ref: number, extra = 0, given = -1): boolean {
    if (this.low[bound]! >= value) return true;
    if (this.low[bound ^ 1]! >= 1 - value) {
      this.conflict.length = 0;
      this.conflict.push(bound ^ 1, 1 - value);
      this.#reasons(value, why, ref, extra, given, this.conflict);
      return false;
    }
    const at = this.size;
    if (at === this.bound.length) this.#grow();
    this.bound[at] = bound;
    this.value[at] = value;
    this.before[at] = this.low[bound]!;
    this.previous[at] = this.last[bound]!;
    this.why[at] = why;
    this.ref[at] = ref;
    this.extra[at] = extra;
    this.given[at] = given;
    this.size = at + 1;
    this.low[bound] = value;
    this.last[bound] = at;
    if (this.#queued[bound] === 0) {
      this.#queued[bound] = 1;
      this.queue.push(bound);
    }
    return true;
  }

  /** The next bound to follow up, or -1. */
  next(): number {
    const bound = this.queue.pop();
    if (bound === undefined) return -1;
    this.#queued[bound] = 0;
    return bound;
  }

  decide(bound: number, value: number): void {
    this.levels.push(this.size);
    this.#poolMarks.push(this.poolSize);
    this.raise(bound, value, WHY.decision, -1);
  }

  /** Takes everything above a level back. */
  backTo(level: number): void {
    for (const bound of this.queue) this.#queued[bound] = 0;
    this.queue.length = 0;
    if (level >= this.levels.length) return;
    const first = this.levels[level]!;
    for (let at = this.size - 1; at >= first; at -= 1) {
      this.low[this.bound[at]!] = this.before[at]!;
      this.last[this.bound[at]!] = this.previous[at]!;
    }
    this.size = first;
    this.poolSize = this.#poolMarks[level]!;
    this.levels.length = level;
    this.#poolMarks.length = level;
  }

  /** What holds at the root holds for good: its reasons are forgotten. */
  settle(): void {
    for (let at = 0; at < this.size; at += 1) this.last[this.bound[at]!] = -1;
    this.size = 0;
    this.poolSize = 0;
  }

  /** Keeps statements (pairs) that explain an entry to come. */
  keep(statements: readonly number[]): number {
    const at = this.poolSize;
    const length = statements.length;
    if (at + length + 1 > this.pool.length) {
      const larger = new Int32Array(2 * (this.pool.length + length + 1));
      larger.set(this.pool);
      this.pool = larger;
    }
    this.pool[at] = length;
    for (let n = 0; n < length; n += 1) this.pool[at + 1 + n] = statements[n]!;
    this.poolSize = at + length + 1;
    return at;
  }

  /** Adds to `into` the statements from which entry `at` follows, as far as `value` is concerned. */
  explain(at: number, value: number, into: number[]): void {
    const { why, ref, extra, given } = this;
    this.#reasons(value, why[at]!, ref[at]!, extra[at]!, given[at]!, into);
  }

  /** The entry by which a bound first reached a value, looking back from its entry `from`; -1 = at the root. */
  since(value: number, from: number): number {
    let at = from;
    while (at >= 0 && this.before[at]! >= value) at = this.previous[at]!;
    return at;
  }

  #reasons(
    value: number,
    why: number,
    ref: number,
    extra: number,
    given: number,
    into: number[],
  ): void {
    if (why === WHY.diff) {
      into.push(ref, value - extra);
      if (given >= 0) into.push(given, 1 - (given & 1));
    } else if (why === WHY.clause) {
      const end = ref + 1 + 2 * this.arena[ref]!;
      // The first statement of a clause is the one it implies.
      for (let n = ref + 3; n < end; n += 2) into.push(this.arena[n]! ^ 1, 1 - this.arena[n + 1]!);
    } else if (why === WHY.pool) {
      const end = ref + 1 + this.pool[ref]!;
      for (let n = ref + 1; n < end; n += 1) into.push(this.pool[n]!);
    }
  }

  #grow(): void {
    const wider = (old: Int32Array): Int32Array<ArrayBuffer> => {
      const larger = new Int32Array(2 * old.length);
      larger.set(old);
      return larger;
    };
    this.bound = wider(this.bound);
    this.value = wider(this.value);
    this.before = wider(this.before);
    this.previous = wider(this.previous);
    this.ref = wider(this.ref);
    this.extra = wider(this.extra);
    this.given = wider(this.given);
    const why = new Uint8Array(2 * this.why.length);
    why.set(this.why);
    this.why = why;
  }
}

/** Where an entry comes from. */
export const WHY = { decision: 0, diff: 1, clause: 2, pool: 3 } as const;
