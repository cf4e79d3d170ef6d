import type { Model } from './model.ts';
import type { Packed } from './packed.ts';

/** Lags in one direction of time, by the activity that waits. */
interface Waits {
  /** [activity .. activity + 1] into the two below. */
  readonly first: Int32Array;
  readonly on: Int32Array;
  readonly lag: Int32Array;
}

/**
 * Makes schedules from lists: each activity in its turn starts as early as lags and what is left of the
 * resources allow (the serial scheme). Backwards it does the same from the project's end. Only for plain
 * projects.
 */
export class ListScheduler {
  readonly #model: Model;
  readonly #packed: Packed;
  readonly #waits: readonly [Waits, Waits];
  readonly #left: Int32Array;
  readonly #order: Float64Array;
  readonly #placed: Uint8Array;
  readonly #queue: Int32Array;
  /** False when a successor may end before its predecessor: then lists need sorting out. */
  readonly #endsInOrder: boolean;
  #usedTo = 0;
  /** Schedules made so far. */
  made = 0;

  constructor(model: Model, packed: Packed) {
    this.#model = model;
    this.#packed = packed;
    const forward = waitsOf(model, false);
    const backward = waitsOf(model, true);
    this.#waits = [forward, backward];
    this.#endsInOrder =
      forward.lag.every((lag) => lag >= 0) && backward.lag.every((lag) => lag >= 0);
    this.#left = new Int32Array((model.horizon + 1) * packed.words);
    this.#order = new Float64Array(model.count);
    this.#placed = new Uint8Array(model.count);
    this.#queue = new Int32Array(model.count);
    this.#usedTo = model.horizon;
  }

  /**
   * @param list   all activities, each after those it waits for
   * @param start  filled with the starts, counted from the end of the project when `backward`
   * @returns the makespan
   */
  run(list: Int32Array, start: Int32Array, backward: boolean): number {
    this.made += 1;
    const { duration, count } = this.#model;
    const { first, on, lag } = this.#waits[backward ? 1 : 0]!;
    this.#clear();
    let makespan = 0;
    for (let n = 0; n < count; n += 1) {
      const j = list[n]!;
      let earliest = 0;
      for (let a = first[j]!; a < first[j + 1]!; a += 1) {
        const after = start[on[a]!]! + lag[a]!;
        if (after > earliest) earliest = after;
      }
      const at = duration[j] === 0 ? earliest : this.#place(j, earliest, duration[j]!);
      start[j] = at;
      if (at + duration[j]! > makespan) makespan = at + duration[j]!;
    }
    this.#usedTo = makespan;
    return makespan;
  }

  #clear(): void {
    const { words, full } = this.#packed;
    if (words === 1) this.#left.fill(full[0]!, 0, this.#usedTo);
    else for (let at = 0; at < this.#usedTo * words; at += 1) this.#left[at] = full[at % words]!;
  }

  #place(j: number, earliest: number, length: number): number {
    const { words, spare, need } = this.#packed;
    const left = this.#left;
    let at = earliest;
    if (words === 1) {
      const takes = need[j]!;
      if (takes === 0) return at;
      const over = spare[0]!;
      // From the back: the last short period moves the start furthest.
      let checked = at;
      for (let t = at + length - 1; t >= checked; ) {
        if (((left[t]! - takes) & over) === over) {
          t -= 1;
          continue;
        }
        checked = at + length;
        at = t + 1;
        t = at + length - 1;
      }
      for (let t = at; t < at + length; t += 1) left[t]! -= takes;
      return at;
    }
    for (let w = 0; w < words; w += 1) {
      const takes = need[j * words + w]!;
      if (takes === 0) continue;
      const short = this.#lastShort(at, length, w, takes);
      if (short < 0) continue;
      at = short + 1;
      w = -1;
    }
    for (let w = 0; w < words; w += 1) {
      const takes = need[j * words + w]!;
      if (takes === 0) continue;
      for (let t = at; t < at + length; t += 1) left[t * words + w]! -= takes;
    }
    return at;
  }

  /** Last period of a run in which this word falls short, or -1. */
  #lastShort(at: number, length: number, word: number, takes: number): number {
    const { words, spare } = this.#packed;
    const over = spare[word]!;
    for (let t = at + length - 1; t >= at; t -= 1) {
      if (((this.#left[t * words + word]! - takes) & over) !== over) return t;
    }
    return -1;
  }

  /**
   * The list for the other direction of time: what ended last comes first.
   * @param list   the list `start` came from
   * @param into   filled; may not be `list`
   */
  turn(list: Int32Array, start: Int32Array, into: Int32Array, backward: boolean): void {
    const { count, duration, horizon } = this.#model;
    const order = this.#order;
    for (let n = 0; n < count; n += 1) {
      const j = list[n]!;
      // Equal ends: later in the list comes first, so that empty activities keep their place.
      order[n] = ((horizon - start[j]! - duration[j]!) * count + count - 1 - n) * count + j;
    }
    order.sort();
    for (let n = 0; n < count; n += 1) into[n] = order[n]! % count;
    if (!this.#endsInOrder) this.sortOut(into, !backward);
  }

  /** Puts each activity after those it waits for, otherwise keeping the order. */
  sortOut(list: Int32Array, backward: boolean): void {
    const { count } = this.#model;
    const { first, on } = this.#waits[backward ? 1 : 0]!;
    const placed = this.#placed.fill(0);
    const queue = this.#queue;
    queue.set(list);
    for (let n = 0; n < count; n += 1) {
      const next = queue.findIndex((j) => {
        if (placed[j] === 1) return false;
        for (let a = first[j]!; a < first[j + 1]!; a += 1) if (placed[on[a]!] === 0) return false;
        return true;
      });
      const j = queue[next]!;
      placed[j] = 1;
      list[n] = j;
    }
  }
}

/** Lags that can hold an activity back; those implied by the start at 0 alone still order the lists. */
function waitsOf(model: Model, backward: boolean): Waits {
  const { count, lagFrom, lagTo, minLag, duration } = model;
  const first = new Int32Array(count + 1);
  const waiting = backward ? lagFrom : lagTo;
  const awaited = backward ? lagTo : lagFrom;
  for (let k = 0; k < minLag.length; k += 1) first[waiting[k]! + 1]! += 1;
  for (let i = 0; i < count; i += 1) first[i + 1]! += first[i]!;
  const on = new Int32Array(minLag.length);
  const lag = new Int32Array(minLag.length);
  const next = first.slice();
  for (let k = 0; k < minLag.length; k += 1) {
    const at = next[waiting[k]!]!;
    next[waiting[k]!]! += 1;
    on[at] = awaited[k]!;
    // Counted from the end, what lies between two ends is what lay between two starts and the durations.
    const fromEnd = minLag[k]! + duration[lagTo[k]!]! - duration[lagFrom[k]!]!;
    lag[at] = backward ? fromEnd : minLag[k]!;
  }
  return { first, on, lag };
}
