import { seededRandom } from '../../units/index.ts';
import { NO_PATH } from './closure.ts';
import { ListScheduler } from './list-schedule.ts';
import type { Model } from './model.ts';
import type { Packed } from './packed.ts';
import { ListSampler } from './sampling.ts';

/** Share of neighbours that change places. With less, a population soon settles on one family of schedules. */
const SWAP_SHARE = 0.3;
/** Draws to begin with, per list kept. */
const DRAWS_PER_LIST = 1.5;

/** How many lists a population holds: few find something fast, many keep finding (tried on 30 activities). */
function listCount(schedules: number): number {
  return Math.max(10, Math.min(200, Math.round(1.2 * Math.sqrt(schedules))));
}

/** Lists for one direction of time, and the makespan of the schedule each was read from. */
interface Population {
  readonly lists: readonly Int32Array[];
  readonly spans: Float64Array;
  readonly marks: Int32Array;
}

export interface Evolved {
  readonly starts: Int32Array;
  readonly makespan: number;
  readonly made: number;
}

/**
 * Evolves lists into short schedules of a plain project. Two populations take turns: lists read from forward
 * schedules (by end, last first) are crossed and run backwards from the end of the project, lists read from
 * those are crossed and run forwards. So every schedule made is also a justification pass of its parents.
 * @param schedules  most schedules to make, at least 1
 * @param lower      stops once a schedule is as short as this
 */
export function evolve(
  model: Model,
  packed: Packed,
  schedules: number,
  lower: number,
  seed: number,
  shouldStop: () => boolean,
): Evolved {
  const evolution = new Evolution(model, packed, listCount(schedules), seed);
  const enough = (): boolean => {
    const { made, makespan } = evolution;
    return (
      made > 0 && (made >= schedules || makespan <= lower || (made % 32 === 1 && shouldStop()))
    );
  };
  evolution.begin(enough);
  for (let backward = true; !enough(); backward = !backward) evolution.generation(backward, enough);
  const { starts, makespan, made } = evolution;
  return { starts, makespan, made };
}

class Evolution {
  readonly starts: Int32Array;
  makespan = Number.POSITIVE_INFINITY;
  readonly #model: Model;
  readonly #scheduler: ListScheduler;
  readonly #random: () => number;
  /** Lists to run forwards, lists to run backwards. */
  readonly #populations: readonly [Population, Population];
  readonly #size: number;
  readonly #list: Int32Array;
  readonly #start: Int32Array;
  readonly #taken: Uint8Array;

  constructor(model: Model, packed: Packed, size: number, seed: number) {
    const { count } = model;
    this.#size = size;
    this.#model = model;
    this.#scheduler = new ListScheduler(model, packed);
    this.#random = seededRandom(seed);
    this.#populations = [populationOf(size, count), populationOf(size, count)];
    this.#list = new Int32Array(count);
    this.#start = new Int32Array(count);
    this.#taken = new Uint8Array(count);
    this.starts = new Int32Array(count);
  }

  get made(): number {
    return this.#scheduler.made;
  }

  /** Draws lists, runs them forwards and keeps the best for the first turn backwards. */
  begin(enough: () => boolean): void {
    const { count } = this.#model;
    const sampler = new ListSampler(this.#model, this.#random);
    const drawn: { list: Int32Array; span: number }[] = [];
    while (drawn.length < DRAWS_PER_LIST * this.#size && !enough()) {
      sampler.draw(this.#list);
      const span = this.#run(false);
      const list = new Int32Array(count);
      this.#scheduler.turn(this.#list, this.#start, list, false);
      drawn.push({ list, span });
    }
    drawn.sort((a, b) => a.span - b.span);
    const { lists, spans } = this.#populations[1];
    for (let n = 0; n < this.#size; n += 1) {
      const { list, span } = drawn[n % drawn.length]!;
      lists[n]!.set(list);
      spans[n] = span;
    }
  }

  /** One child for each list of one direction, run in that direction. */
  generation(backward: boolean, enough: () => boolean): void {
    const parents = this.#populations[backward ? 1 : 0];
    const children = this.#populations[backward ? 0 : 1];
    for (let n = 0; n < this.#size && !enough(); n += 1) {
      const mate = this.#better(parents.spans);
      if (mate === n) this.#list.set(parents.lists[n]!);
      else if (this.#random() < 0.5) this.#cross(parents.lists[n]!, parents.lists[mate]!);
      else this.#cross(parents.lists[mate]!, parents.lists[n]!);
      this.#swapNeighbours(backward);
      const span = this.#run(backward);
      if (span > children.spans[n]!) continue;
      const mark = this.#mark();
      // A second copy of a schedule brings nothing new, unless the place is still empty.
      const known = children.marks.indexOf(mark);
      if (known >= 0 && known !== n && Number.isFinite(children.spans[n]!)) continue;
      this.#scheduler.turn(this.#list, this.#start, children.lists[n]!, backward);
      children.spans[n] = span;
      children.marks[n] = mark;
    }
  }

  #run(backward: boolean): number {
    const span = this.#scheduler.run(this.#list, this.#start, backward);
    if (span < this.makespan) {
      this.makespan = span;
      const { duration } = this.#model;
      for (let i = 0; i < this.starts.length; i += 1) {
        this.starts[i] = backward ? span - this.#start[i]! - duration[i]! : this.#start[i]!;
      }
    }
    return span;
  }

  #below(limit: number): number {
    return Math.floor(this.#random() * limit);
  }

  /** The better of two drawn at random. */
  #better(spans: Float64Array): number {
    const one = this.#below(this.#size);
    const other = this.#below(this.#size);
    return spans[other]! < spans[one]! ? other : one;
  }

  /** Start and end in the order of one parent, what is left between them in the order of the other. */
  #cross(outer: Int32Array, inner: Int32Array): void {
    const list = this.#list;
    const taken = this.#taken.fill(0);
    const a = this.#below(list.length);
    const b = this.#below(list.length);
    const to = Math.max(a, b);
    let n = Math.min(a, b);
    for (let i = 0; i < n; i += 1) {
      list[i] = outer[i]!;
      taken[outer[i]!] = 1;
    }
    for (let i = 0; n < to; i += 1) {
      const j = inner[i]!;
      if (taken[j] === 1) continue;
      list[n] = j;
      taken[j] = 1;
      n += 1;
    }
    for (const j of outer) {
      if (taken[j] === 1) continue;
      list[n] = j;
      n += 1;
    }
  }

  #swapNeighbours(backward: boolean): void {
    const list = this.#list;
    const { dist, count } = this.#model;
    for (let n = 0; n + 1 < count; n += 1) {
      if (this.#random() >= SWAP_SHARE) continue;
      const a = list[n]!;
      const b = list[n + 1]!;
      if (dist[backward ? b * count + a : a * count + b] !== NO_PATH) continue;
      list[n] = b;
      list[n + 1] = a;
    }
  }

  /** A number that tells schedules apart. */
  #mark(): number {
    let mark = 0;
    for (const at of this.#start) mark = (Math.imul(mark, 31) + at + 1) | 0;
    return mark;
  }
}

function populationOf(size: number, count: number): Population {
  return {
    lists: Array.from({ length: size }, () => new Int32Array(count)),
    spans: new Float64Array(size).fill(Number.POSITIVE_INFINITY),
    marks: new Int32Array(size),
  };
}
