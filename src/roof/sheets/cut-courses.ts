import { placeEndLaps } from './end-laps.ts';
import type { Interval } from './intervals.ts';
import { LAP_OFF_CORNER_M, LAP_OFF_OUTLET_M } from './rules.ts';
import type { Course } from './search-courses.ts';
import { type Strips, spansOf, TOUCH } from './strips.ts';
import type { FixedSheet } from './types.ts';

/** A course cut into pieces: where each starts and ends along the roll. */
export interface CutCourse extends Course {
  readonly pieces: readonly Interval[];
}

export interface CutCourses {
  readonly courses: readonly CutCourse[];
  readonly notes: readonly string[];
}

const NOT_KEPT = [
  'End laps of neighbouring courses are closer together than the stagger asked for',
  'An end lap is close to an outlet',
  'An end lap is close to a corner of the roof',
];

/** Cuts courses into pieces, end laps staggered against the course below and off outlets and corners. */
export function cutCourses(strips: Strips, courses: readonly Course[]): CutCourses {
  const { endLapM, staggerM, choices } = strips.question;
  const notes: string[] = [];
  let below: readonly number[] = [];
  const cut = courses.map((course, i): CutCourse => {
    const roll = rollOf(strips, course);
    const fixed = (choices.sheets ?? []).filter((s) => Math.abs(s.startM - course.start) < TOUCH);
    const apart = staggerM - TOUCH;
    const keepOff = [
      below.map((u): Interval => [u - apart, u + apart]),
      offOutlets(strips, course),
      offCorners(strips, course),
    ];
    const starts: number[] = [];
    const pieces = spansOf(strips, course.start, course.end).flatMap((span) => {
      const parts = betweenFixed(span, fixed, endLapM);
      return parts.flatMap((part): Interval[] => {
        if (part.fixed) {
          if (part.span[0] > span[0] + TOUCH) starts.push(part.span[0]);
          return [part.span];
        }
        const laps = placeEndLaps({ span: part.span, rollM: roll.lengthM, endLapM, keepOff });
        if (laps.kept < keepOff.length) {
          notes.push(`${NOT_KEPT[laps.kept]}: course ${i + 1}.`);
        }
        if (part.span[0] > span[0] + TOUCH) starts.push(part.span[0]);
        starts.push(...laps.starts);
        const from = [part.span[0], ...laps.starts];
        return from.map((u, k): Interval => {
          const next = from[k + 1];
          return [u, next === undefined ? part.span[1] : next + endLapM];
        });
      });
    });
    below = starts;
    return { ...course, roll, pieces };
  });
  return { courses: cut, notes };
}

function rollOf(strips: Strips, course: Course): Course['roll'] {
  const roll = strips.rolls.find((r) => Math.abs(r.widthM - course.roll.widthM) < TOUCH);
  if (roll === undefined) throw new RangeError(`no roll is ${course.roll.widthM} m wide`);
  return course.roll.lengthM > 0 ? course.roll : roll;
}

interface Stretch {
  readonly span: Interval;
  readonly fixed: boolean;
}

/** A stretch with the sheets the user fixed in it, and what is left before, between and after them. */
function betweenFixed(span: Interval, fixed: readonly FixedSheet[], endLapM: number): Stretch[] {
  const inside = fixed
    .map((s): Interval => [Math.max(s.fromM, span[0]), Math.min(s.toM, span[1])])
    .filter(([a, b]) => b - a > TOUCH)
    .sort((a, b) => a[0] - b[0]);
  const out: Stretch[] = [];
  let [at] = span;
  for (const [a, b] of inside) {
    if (a > at + TOUCH) out.push({ span: [at, a + (a > span[0] ? endLapM : 0)], fixed: false });
    out.push({ span: [a, b], fixed: true });
    at = b - endLapM;
  }
  if (inside.length === 0 || at + endLapM < span[1] - TOUCH) {
    out.push({ span: [at, span[1]], fixed: false });
  }
  return out;
}

function offOutlets(strips: Strips, course: Course): Interval[] {
  const { endLapM } = strips.question;
  return strips.outlets.flatMap(({ u, v, r }): Interval[] => {
    const off = LAP_OFF_OUTLET_M + r - TOUCH;
    if (v < course.start - off || v > course.end + off) return [];
    return [[u - off - endLapM, u + off]];
  });
}

function offCorners(strips: Strips, course: Course): Interval[] {
  const { endLapM } = strips.question;
  const off = LAP_OFF_CORNER_M - TOUCH;
  return strips.corners.flatMap(([u, v]): Interval[] =>
    v < course.start - off || v > course.end + off ? [] : [[u - off - endLapM, u + off]],
  );
}
