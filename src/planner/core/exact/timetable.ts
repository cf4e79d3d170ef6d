import type { Model } from '../model.ts';
import { type Trail, WHY } from './trail.ts';

/**
 * One resource. An activity surely runs from its latest start to its earliest end, where these lie that way
 * round; the sum over activities is the surely taken amount, over which nothing else may run.
 * Reasons name one period and just the activities needed there.
 */
export class Timetable {
  readonly #trail: Trail;
  readonly #capacity: number;
  readonly #users: Int32Array;
  readonly #need: Int32Array;
  readonly #length: Int32Array;
  readonly #byStart: Int32Array;
  readonly #byEnd: Int32Array;
  /** Surely running [latest start, earliest end) per user when the profile was made. */
  readonly #sureFrom: Int32Array;
  readonly #sureTo: Int32Array;
  /** Profile: from, and amount until the next one. */
  readonly #from: Int32Array;
  readonly #taken: Int32Array;
  #pieces = 0;
  #most = 0;
  readonly #why: number[] = [];

  constructor(trail: Trail, model: Model, resource: number) {
    const { demand, duration, resources } = model;
    this.#trail = trail;
    this.#capacity = model.capacity[resource]!;
    this.#users = Int32Array.from(
      Array.from(duration.keys()).filter(
        (i) => duration[i]! > 0 && demand[i * resources + resource]! > 0,
      ),
    );
    const count = this.#users.length;
    this.#need = this.#users.map((i) => demand[i * resources + resource]!);
    this.#length = this.#users.map((i) => duration[i]!);
    this.#byStart = Int32Array.from({ length: count }, (_, u) => u);
    this.#byEnd = this.#byStart.slice();
    this.#sureFrom = new Int32Array(count);
    this.#sureTo = new Int32Array(count);
    this.#from = new Int32Array(2 * count + 1);
    this.#taken = new Int32Array(2 * count + 1);
  }

  get users(): Int32Array {
    return this.#users;
  }

  /** Can the users of this resource ever ask for more than there is? */
  get binds(): boolean {
    return this.#need.reduce((sum, need) => sum + need, 0) > this.#capacity;
  }

  /** @returns false on a conflict */
  propagate(): boolean {
    if (!this.#makeProfile()) return false;
    if (this.#pieces === 0) return true;
    for (let u = 0; u < this.#users.length; u += 1) {
      if (this.#most + this.#need[u]! <= this.#capacity) continue;
      const i = this.#users[u]!;
      if (this.#trail.low[2 * i] === -this.#trail.low[2 * i + 1]!) continue;
      if (!this.#pushLater(u) || !this.#pushEarlier(u)) return false;
    }
    return true;
  }

  #makeProfile(): boolean {
    const { low } = this.#trail;
    const count = this.#users.length;
    for (let u = 0; u < count; u += 1) {
      const i = this.#users[u]!;
      this.#sureFrom[u] = -low[2 * i + 1]!;
      this.#sureTo[u] = low[2 * i]! + this.#length[u]!;
    }
    sortBy(this.#byStart, this.#sureFrom);
    sortBy(this.#byEnd, this.#sureTo);
    this.#pieces = 0;
    this.#most = 0;
    let amount = 0;
    let s = 0;
    let e = 0;
    for (;;) {
      while (s < count && !this.#isSure(this.#byStart[s]!)) s += 1;
      while (e < count && !this.#isSure(this.#byEnd[e]!)) e += 1;
      if (e === count) break;
      const starts = s < count ? this.#sureFrom[this.#byStart[s]!]! : Number.MAX_SAFE_INTEGER;
      const ends = this.#sureTo[this.#byEnd[e]!]!;
      const at = Math.min(starts, ends);
      if (ends <= starts) {
        amount -= this.#need[this.#byEnd[e]!]!;
        e += 1;
      } else {
        amount += this.#need[this.#byStart[s]!]!;
        s += 1;
      }
      if (this.#pieces > 0 && this.#from[this.#pieces - 1] === at) {
        this.#taken[this.#pieces - 1] = amount;
      } else {
        this.#from[this.#pieces] = at;
        this.#taken[this.#pieces] = amount;
        this.#pieces += 1;
      }
    }
    for (let p = 0; p < this.#pieces; p += 1) {
      if (this.#taken[p]! > this.#most) this.#most = this.#taken[p]!;
      if (this.#taken[p]! <= this.#capacity) continue;
      this.#trail.conflict.length = 0;
      this.#explain(this.#from[p]!, this.#capacity + 1, -1, this.#trail.conflict);
      return false;
    }
    return true;
  }

  #isSure(u: number): boolean {
    return this.#sureFrom[u]! < this.#sureTo[u]!;
  }

  /** Statements that make users other than `but` take at least `amount` in a period. */
  #explain(period: number, amount: number, but: number, into: number[]): void {
    let left = amount;
    for (let u = 0; u < this.#users.length && left > 0; u += 1) {
      if (u === but || this.#sureFrom[u]! > period || this.#sureTo[u]! <= period) continue;
      left -= this.#need[u]!;
      const i = this.#users[u]!;
      into.push(2 * i, period - this.#length[u]! + 1, 2 * i + 1, -period);
    }
  }

  #blocks(piece: number, u: number): boolean {
    const at = this.#from[piece]!;
    const own = this.#sureFrom[u]! <= at && at < this.#sureTo[u]!;
    return !own && this.#taken[piece]! + this.#need[u]! > this.#capacity;
  }

  #pushLater(u: number): boolean {
    const trail = this.#trail;
    const i = this.#users[u]!;
    const length = this.#length[u]!;
    let p = 0;
    while (p + 1 < this.#pieces && this.#from[p + 1]! <= trail.low[2 * i]!) p += 1;
    for (; p + 1 < this.#pieces && this.#from[p]! < trail.low[2 * i]! + length; p += 1) {
      const end = this.#from[p + 1]!;
      if (!this.#blocks(p, u)) continue;
      while (trail.low[2 * i]! < end) {
        const period = Math.min(end, trail.low[2 * i]! + length) - 1;
        this.#why.length = 0;
        this.#why.push(2 * i, period - length + 1);
        this.#explain(period, this.#capacity - this.#need[u]! + 1, u, this.#why);
        if (!trail.raise(2 * i, period + 1, WHY.pool, trail.keep(this.#why))) return false;
      }
    }
    return true;
  }

  #pushEarlier(u: number): boolean {
    const trail = this.#trail;
    const i = this.#users[u]!;
    const length = this.#length[u]!;
    let p = this.#pieces - 2;
    while (p > 0 && this.#from[p]! >= length - trail.low[2 * i + 1]!) p -= 1;
    for (; p >= 0 && this.#from[p + 1]! > -trail.low[2 * i + 1]!; p -= 1) {
      const start = this.#from[p]!;
      if (!this.#blocks(p, u)) continue;
      while (length - trail.low[2 * i + 1]! > start) {
        const period = Math.max(start, -trail.low[2 * i + 1]!);
        this.#why.length = 0;
        this.#why.push(2 * i + 1, -period);
        this.#explain(period, this.#capacity - this.#need[u]! + 1, u, this.#why);
        if (!trail.raise(2 * i + 1, length - period, WHY.pool, trail.keep(this.#why))) return false;
      }
    }
    return true;
  }
}

/** Insertion sort: between two calls hardly anything moves. */
function sortBy(order: Int32Array, key: Int32Array): void {
  for (let n = 1; n < order.length; n += 1) {
    const item = order[n]!;
    let at = n - 1;
    while (at >= 0 && key[order[at]!]! > key[item]!) {
      order[at + 1] = order[at]!;
      at -= 1;
    }
    order[at + 1] = item;
  }
}
