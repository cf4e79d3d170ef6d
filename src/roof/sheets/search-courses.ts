import { NARROWEST_COURSE_M } from '../practice.ts';
import type { Strips } from './strips.ts';
import { areaAbove, bandCost, courseCost } from './strips.ts';
import type { FixedSheet, RollOffer } from './types.ts';

export interface Course {
  readonly start: number;
  readonly end: number;
  readonly roll: RollOffer;
}

export interface CourseSearch {
  /** From the low side up; null = nothing within the limit, or fixed sheets that leave no way. */
  readonly courses: readonly Course[] | null;
  readonly cost: number;
  readonly searchedAll: boolean;
}

interface State {
  readonly start: number;
  cost: number;
  from: State | null;
  course: Course | null;
}

/** More course positions than this are not tried: the likelier ones are. */
const MOST_POSITIONS = 4000;
/** With no more than this, every course may end at any of them, not only the first. */
const FEW_POSITIONS = 250;
const SAME = 1e-6;

/**
 * Courses side by side from the low edge up, least cost. A course is as wide as its roll, or cut down to
 * end at a level where something changes; the first may also be cut so that a later one ends at such a
 * level. On an outline of straight edges the cost is linear between these positions, so one of them is best.
 * @param limit cost above which a layout is not wanted
 */
export function searchCourses(strips: Strips, limit = Number.POSITIVE_INFINITY): CourseSearch {
  const { shiftM, sheets } = strips.question.choices;
  const fixed = fixedCourses(sheets ?? []);
  if (shiftM !== undefined) {
    return { ...run(strips, fixed, { cutM: shiftM, ends: [] }, limit), searchedAll: true };
  }
  // Uncut first courses give a limit soon, which keeps the full search short.
  const straight = run(strips, fixed, { cutM: 0, ends: [] }, limit);
  const chained = chainStarts(strips);
  const limited = Math.min(limit, straight.cost);
  const firstEnds = sorted([...chained.starts, ...strips.ends]);
  // Where there are few, any course may end there.
  const ends =
    chained.every.length <= FEW_POSITIONS ? sorted([...chained.every, ...strips.ends]) : null;
  const wide = ends === null ? strips : { ...strips, ends };
  const best = run(wide, fixed, { cutM: 0, ends: ends ?? firstEnds }, limited);
  const searchedAll = chained.all && ends !== null;
  return { ...(best.courses === null ? straight : best), searchedAll };
}

function sorted(list: readonly number[]): number[] {
  return [...list].sort((a, b) => a - b);
}

/** The first course: how much narrower than its roll, and other levels it may end at. */
interface FirstCourse {
  readonly cutM: number;
  readonly ends: readonly number[];
}

function fixedCourses(sheets: readonly FixedSheet[]): Course[] {
  const courses: Course[] = [];
  for (const s of [...sheets].sort((a, b) => a.startM - b.startM)) {
    const last = courses[courses.length - 1];
    if (last !== undefined && Math.abs(last.start - s.startM) < SAME) continue;
    // How long the roll is, is looked up among those on offer.
    const roll = { widthM: s.rollWidthM, lengthM: 0 };
    courses.push({ start: s.startM, end: s.startM + s.widthM, roll });
  }
  return courses;
}

function run(
  strips: Strips,
  fixed: readonly Course[],
  firstCourse: FirstCourse,
  limit: number,
): Omit<CourseSearch, 'searchedAll'> {
  const { lapM, weights } = strips.question;
  const { low, high, rolls, ends } = strips;
  const states = new Map<number, State>();
  const queue = new Queue();
  let bestEnd: State | null = null;
  let bestCost = limit;
  const first: State = {
    start: Math.min(low, fixed[0]?.start ?? low),
    cost: 0,
    from: null,
    course: null,
  };
  const bands = new Map<number, number>();

  const step = (state: State, end: number, roll: RollOffer): void => {
    const cost = state.cost + courseCost(strips, state.start, end, roll);
    const course = { start: state.start, end, roll };
    if (end >= high - SAME) {
      if (cost < bestCost - 1e-9) {
        bestCost = cost;
        bestEnd = { start: end, cost, from: state, course };
      }
      return;
    }
    const start = end - lapM;
    const key = Math.round(start * 1e6);
    let band = bands.get(key);
    if (band === undefined) {
      band = bandCost(strips, start).cost;
      bands.set(key, band);
    }
    const total = cost + band;
    if (total + areaAbove(strips, start) * weights.sheet >= bestCost) return;
    const known = states.get(key);
    if (known === undefined) {
      const next: State = { start, cost: total, from: state, course };
      states.set(key, next);
      queue.push(next);
    } else if (total < known.cost - 1e-9) {
      known.cost = total;
      known.from = state;
      known.course = course;
    }
  };

  const widest = rolls[0]!.widthM;
  queue.push(first);
  for (let state = queue.pop(); state !== null; state = queue.pop()) {
    const { start } = state;
    if (state.cost + areaAbove(strips, start) * weights.sheet >= bestCost && state !== first)
      continue;
    const ahead = fixed.find((f) => f.start > start - SAME);
    if (ahead !== undefined && Math.abs(ahead.start - start) < SAME) {
      const roll = rolls.find((r) => Math.abs(r.widthM - ahead.roll.widthM) < SAME);
      if (roll !== undefined) step(state, Math.min(ahead.end, high), roll);
      continue;
    }
    const most = ahead === undefined ? high : ahead.start + lapM;
    const least = start + lapM + NARROWEST_COURSE_M;
    const cut = state === first ? firstCourse.cutM : 0;
    if (most - start <= widest - cut + SAME) offer(state, most, rolls, step);
    for (const roll of rolls) {
      const end = start + roll.widthM - cut;
      if (end < Math.min(high, most) - SAME && end >= least) step(state, end, roll);
    }
    const levels = state === first ? firstCourse.ends : ends;
    for (let i = firstAbove(levels, least - SAME); i < levels.length; i += 1) {
      const end = levels[i]!;
      if (end > start + widest + SAME || end > Math.min(high, most) - SAME) break;
      offer(state, end, rolls, step);
    }
  }
  if (bestEnd === null) return { courses: null, cost: Number.POSITIVE_INFINITY };
  const courses: Course[] = [];
  for (let s: State | null = bestEnd as State; s?.course; s = s.from) courses.unshift(s.course);
  return { courses, cost: bestCost };
}

/** A course cut down to end there, from the narrowest roll; a wider one is of use only where it is longer. */
function offer(
  state: State,
  end: number,
  rolls: readonly RollOffer[],
  step: (state: State, end: number, roll: RollOffer) => void,
): void {
  let longestM = 0;
  for (let i = rolls.length - 1; i >= 0; i -= 1) {
    const roll = rolls[i]!;
    if (roll.widthM < end - state.start - SAME || roll.lengthM <= longestM) continue;
    longestM = roll.lengthM;
    step(state, end, roll);
  }
}

function firstAbove(sorted: readonly number[], level: number): number {
  let lo = 0;
  let hi = sorted.length;
  while (lo < hi) {
    const middle = (lo + hi) >> 1;
    if (sorted[middle]! < level) lo = middle + 1;
    else hi = middle;
  }
  return lo;
}

interface Chains {
  /** Ends of a first course. */
  readonly starts: readonly number[];
  /** Ends of any course. */
  readonly every: readonly number[];
  readonly all: boolean;
}

/** Ends of a course that let a run of uncut courses after it end at a level worth it. */
function chainStarts(strips: Strips): Chains {
  const { low, rolls, ends, question } = strips;
  const widest = rolls[0]!.widthM;
  const least = low + question.lapM + NARROWEST_COURSE_M;
  const back = (widths: readonly number[]): Set<number> | null => {
    const known = new Set<number>();
    const open = ends.map((end) => Math.round(end * 1e6));
    while (open.length > 0) {
      const end = open.pop()!;
      for (const width of widths) {
        const before = end - Math.round((width - question.lapM) * 1e6);
        if (before < least * 1e6 || known.has(before)) continue;
        known.add(before);
        if (known.size > MOST_POSITIONS) return null;
        open.push(before);
      }
    }
    return known;
  };
  const whole = back(rolls.map((r) => r.widthM));
  const known = whole ?? new Set(rolls.flatMap((r) => [...(back([r.widthM]) ?? [])]));
  const every = [...known].map((key) => key / 1e6);
  return { starts: every.filter((end) => end < low + widest), every, all: whole !== null };
}

/** Lowest start first. */
class Queue {
  readonly heap: State[] = [];

  push(state: State): void {
    const { heap } = this;
    heap.push(state);
    let i = heap.length - 1;
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (heap[parent]!.start <= state.start) break;
      heap[i] = heap[parent]!;
      i = parent;
    }
    heap[i] = state;
  }

  pop(): State | null {
    const { heap } = this;
    const top = heap[0];
    const last = heap.pop();
    if (top === undefined || last === undefined) return null;
    const n = heap.length;
    if (n === 0) return top;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= n) break;
      if (child + 1 < n && heap[child + 1]!.start < heap[child]!.start) child += 1;
      if (heap[child]!.start >= last.start) break;
      heap[i] = heap[child]!;
      i = child;
    }
    heap[i] = last;
    return top;
  }
}
