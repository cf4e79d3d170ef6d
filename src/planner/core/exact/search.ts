import { clash, mayPrecede } from '../bounds.ts';
import type { Model } from '../model.ts';
import { Arcs } from './arcs.ts';
import { Branching } from './branching.ts';
import { Clauses } from './clauses.ts';
import { Learner } from './learn.ts';
import { Timetable } from './timetable.ts';
import { Trail, WHY } from './trail.ts';
import { Windows } from './windows.ts';

/** More pairs than this are left to the timetables. */
const MOST_PAIRS = 6000;
const ASK_EVERY = 128;

export interface SearchEnd {
  /** True when nothing better than what was found exists. */
  readonly complete: boolean;
  readonly starts: Int32Array | null;
  readonly makespan: number;
  /** No schedule of interest ends sooner than this. */
  readonly lowerBound: number;
}

/**
 * Complete search with learning: decides, follows up, and turns each dead end into a clause that rules out
 * every other dead end of the same cause. Restarts; each schedule found must be beaten by the next.
 */
export class CompleteSearch {
  readonly #model: Model;
  readonly #trail: Trail;
  readonly #arcs: Arcs;
  readonly #windows: Windows | null;
  readonly #clauses: Clauses;
  readonly #learner: Learner;
  readonly #branching: Branching;
  readonly #timetables: readonly Timetable[];
  /** Per variable, the timetables it has a part in, as bits. */
  readonly #partIn: Int32Array;
  readonly #end: number;
  #stale = -1;
  #round = 0;
  #started = false;
  #possible: boolean;
  #starts: Int32Array | null = null;
  #makespan: number;
  /** Schedules found here. */
  schedules = 0;
  /** Decisions and dead ends so far. */
  nodes = 0;

  /**
   * @param lower   no schedule ends sooner
   * @param atMost  longest makespan of interest
   */
  constructor(model: Model, lower: number, atMost: number) {
    const { count, head, latest, tail, duration, dist } = model;
    const pairs: [number, number][] = [];
    for (let i = 0; i < count; i += 1) {
      for (let j = 0; j < i; j += 1) if (clash(model, i, j)) pairs.push([i, j]);
    }
    if (pairs.length > MOST_PAIRS) pairs.length = 0;
    const open = pairs.filter(
      ([i, j]) =>
        mayPrecede(dist, count, duration, i, j) && mayPrecede(dist, count, duration, j, i),
    );
    this.#model = model;
    this.#end = count;
    this.#makespan = atMost + 1;
    const trail = new Trail(count + 1 + open.length);
    this.#trail = trail;
    this.#clauses = new Clauses(trail);
    this.#learner = new Learner(trail);
    this.#branching = new Branching(trail, count);
    this.#arcs = new Arcs(trail);
    this.#windows = model.allowed.some((starts) => starts !== null)
      ? new Windows(trail, model)
      : null;
    this.#timetables = Array.from(
      model.capacity.keys(),
      (k) => new Timetable(trail, model, k),
    ).filter((timetable) => timetable.binds);
    this.#partIn = new Int32Array(trail.low.length / 2);
    this.#timetables.forEach(({ users }, k) => {
      for (const i of users) this.#partIn[i]! |= 1 << (k % 31);
    });
    for (let i = 0; i < count; i += 1) {
      trail.low[2 * i] = head[i]!;
      trail.low[2 * i + 1] = -Math.min(latest[i]!, atMost - tail[i]!);
      this.#arcs.add(i, this.#end, tail[i]!);
    }
    trail.low[2 * count] = lower;
    trail.low[2 * count + 1] = -atMost;
    for (let k = 0; k < model.minLag.length; k += 1) {
      this.#arcs.add(model.lagFrom[k]!, model.lagTo[k]!, model.minLag[k]!);
    }
    this.#possible = lower <= atMost && (pairs.length === 0 || this.#orderPairs(pairs, open));
    for (let x = 0; x <= count; x += 1) {
      if (trail.low[2 * x]! + trail.low[2 * x + 1]! > 0) this.#possible = false;
    }
  }

  /** @returns false when two that clash can be in neither order */
  #orderPairs(pairs: readonly [number, number][], open: readonly [number, number][]): boolean {
    const { count, dist, duration } = this.#model;
    let possible = true;
    for (const [i, j] of pairs) {
      const forward = mayPrecede(dist, count, duration, i, j);
      const backward = mayPrecede(dist, count, duration, j, i);
      if (forward && backward) continue;
      if (forward) this.#arcs.add(i, j, duration[i]!);
      else if (backward) this.#arcs.add(j, i, duration[j]!);
      else possible = false;
    }
    open.forEach(([i, j], n) => {
      const x = count + 1 + n;
      this.#trail.low[2 * x + 1] = -1;
      this.#arcs.add(i, j, duration[i]!, 2 * x);
      this.#arcs.add(j, i, duration[j]!, 2 * x + 1);
    });
    return possible;
  }

  /** A schedule found elsewhere: only shorter ones are of interest from here on. */
  beat(starts: Int32Array, makespan: number): void {
    if (makespan >= this.#makespan) return;
    this.#makespan = makespan;
    this.#starts = starts.slice();
    const end = 2 * this.#end + 1;
    if (this.#possible && !this.#trail.raise(end, 1 - makespan, WHY.decision, -1))
      this.#possible = false;
  }

  /** Goes on until complete, stopped, or so many nodes have been gone through in all. */
  run(mostNodes: number, shouldStop: () => boolean): SearchEnd {
    if (this.#possible && !this.#started) this.#possible = this.#start();
    this.#started = true;
    let asked = this.nodes;
    let stopped = shouldStop();
    while (this.#possible && !stopped && this.nodes < mostNodes) {
      this.#round += 1;
      const round = this.#round;
      const patience = 100 * luby(round);
      let deadEnds = 0;
      while (this.#possible && deadEnds < patience && this.nodes < mostNodes) {
        if (this.nodes >= asked + ASK_EVERY) {
          asked = this.nodes;
          if (shouldStop()) {
            stopped = true;
            break;
          }
        }
        this.nodes += 1;
        if (!this.#propagate()) {
          deadEnds += 1;
          this.#learn();
        } else if (!this.#branching.decide(round % 2 === 1)) {
          this.#found();
        }
      }
      this.#toRoot();
    }
    return {
      complete: !this.#possible,
      starts: this.#starts,
      makespan: this.#makespan,
      lowerBound: this.#possible ? this.#trail.low[2 * this.#end]! : this.#makespan,
    };
  }

  /** Follows up every bound once. */
  #start(): boolean {
    for (let bound = 0; bound < this.#trail.low.length; bound += 1) {
      if (!this.#arcs.propagate(bound)) return false;
      if (this.#windows?.propagate(bound) === false) return false;
    }
    return this.#propagate();
  }

  #propagate(): boolean {
    const trail = this.#trail;
    for (;;) {
      for (let bound = trail.next(); bound >= 0; bound = trail.next()) {
        this.#stale |= this.#partIn[bound >> 1]!;
        if (!this.#clauses.propagate(bound) || !this.#arcs.propagate(bound)) return false;
        if (this.#windows?.propagate(bound) === false) return false;
      }
      if (this.#stale === 0) return true;
      const stale = this.#stale;
      this.#stale = 0;
      for (let k = 0; k < this.#timetables.length; k += 1) {
        if (((stale >> (k % 31)) & 1) === 0) continue;
        if (!this.#timetables[k]!.propagate()) {
          this.#stale = -1;
          return false;
        }
      }
      if (trail.queue.length === 0) return true;
    }
  }

  #learn(): void {
    const trail = this.#trail;
    this.#stale = -1;
    if (trail.levels.length === 0) {
      this.#possible = false;
      return;
    }
    const { clause, level, span } = this.#learner.learn((bound) => this.#branching.blame(bound));
    this.#branching.fade();
    trail.backTo(level);
    const unit = clause.length === 2;
    const ref = unit ? -1 : this.#clauses.add(clause, span);
    if (!trail.raise(clause[0]!, clause[1]!, unit ? WHY.decision : WHY.clause, ref))
      this.#possible = false;
  }

  #found(): void {
    const trail = this.#trail;
    const values = Int32Array.from({ length: trail.low.length / 2 }, (_, x) => trail.low[2 * x]!);
    this.schedules += 1;
    this.#makespan = values[this.#end]!;
    this.#starts = values.slice(0, this.#model.count);
    this.#branching.follow(values);
    trail.backTo(0);
    this.#stale = -1;
    if (!trail.raise(2 * this.#end + 1, 1 - this.#makespan, WHY.decision, -1))
      this.#possible = false;
  }

  #toRoot(): void {
    this.#trail.backTo(0);
    this.#stale = -1;
    if (!this.#possible || !this.#propagate()) {
      this.#possible = false;
      return;
    }
    this.#trail.settle();
    if (this.#clauses.count > 4000 + this.nodes / 50) this.#clauses.reduce();
  }
}

/** 1 1 2 1 1 2 4 1 1 2 ...: how long the rounds last. */
function luby(n: number): number {
  let size = 1;
  let power = 1;
  while (size < n) {
    size = 2 * size + 1;
    power *= 2;
  }
  let at = n;
  while (size !== at) {
    size = (size - 1) / 2;
    power /= 2;
    if (at > size) at -= size;
  }
  return power;
}
