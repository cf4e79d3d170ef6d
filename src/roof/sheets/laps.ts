import type { Point } from '../outline/types.ts';
import type { CutCourse } from './cut-courses.ts';
import { fromFrame, rectCorners, toFrame } from './frame.ts';
import type { Ground } from './ground.ts';
import type { Interval } from './intervals.ts';
import { areaIn, extent } from './slabs.ts';
import { type Strips, TOUCH } from './strips.ts';
import type { Sheet, SheetLap } from './types.ts';

export interface Laps {
  readonly laps: readonly SheetLap[];
  readonly tJoints: readonly Point[];
  /** Own laps; joins to other parts not among them [m2]. */
  readonly lapM2: number;
}

type OwnLap = Omit<SheetLap, 'number'>;

/**
 * Laps between the sheets of a layout. Courses and pieces stand in the order of laying, up the fall
 * where there is one, so the later sheet is on top and water runs off it onto the earlier.
 */
export function lapsOf(
  strips: Strips,
  courses: readonly CutCourse[],
  sheets: readonly Sheet[],
): Laps {
  const { slabs, frame, question } = strips;
  const found: OwnLap[] = [];
  const tJoints: Point[] = [];
  const inCourse = (c: number): Sheet[] => sheets.filter((s) => s.course === c + 1);
  const meets =
    ([a, b]: Interval) =>
    (s: Sheet): boolean =>
      s.fromM < b - TOUCH && s.toM > a + TOUCH;
  const numbers = (list: readonly Sheet[]): number[] => list.map((s) => s.number);
  const bandOf = (c: number): readonly Interval[] => {
    const course = courses[c];
    if (course === undefined || c === 0) return [];
    return extent(slabs, course.start, course.start + question.lapM, 1e-9);
  };
  courses.forEach((course, c) => {
    const here = inCourse(c);
    const bands = [bandOf(c), bandOf(c + 1)];
    here.slice(1).forEach((sheet, i) => {
      const before = here[i]!;
      if (before.toM <= sheet.fromM + TOUCH) return;
      const ends: Interval = [sheet.fromM, before.toM];
      found.push({
        kind: 'end',
        lengthM: course.end - course.start,
        areaM2: areaIn(slabs, ...ends, course.start, course.end),
        corners: rectCorners(frame, ...ends, course.start, course.end),
        over: [sheet.number],
        under: [before.number],
      });
      const middle = (ends[0] + ends[1]) / 2;
      bands.forEach((band, k) => {
        if (!band.some(([a, b]) => a < middle && b > middle)) return;
        const v = k === 0 ? course.start + question.lapM / 2 : course.end - question.lapM / 2;
        tJoints.push(fromFrame(frame, middle, v));
      });
    });
    const end = course.start + question.lapM;
    for (const band of bands[0]!) {
      found.push({
        kind: 'side',
        lengthM: band[1] - band[0],
        areaM2: areaIn(slabs, ...band, course.start, end),
        corners: rectCorners(frame, ...band, course.start, end),
        over: numbers(here.filter(meets(band))),
        under: numbers(inCourse(c - 1).filter(meets(band))),
      });
    }
  });
  const laps = found.map((lap, i): SheetLap => ({ number: i + 1, ...lap }));
  return { laps, tJoints, lapM2: found.reduce((sum, lap) => sum + lap.areaM2, 0) };
}

/**
 * Laps with the sheets of an earlier part, along its edges; the part higher up the fall is on top. At
 * an edge shared with the next area, half its length is this area's.
 */
export function joinLaps(
  ground: Ground,
  strips: Strips,
  sheets: readonly Sheet[],
  count: number,
): {
  readonly laps: readonly SheetLap[];
  readonly joinM: number;
  readonly tJoints: readonly Point[];
} {
  const { lapM, part } = strips.question;
  const down = (part.fallPlanDeg * Math.PI) / 180;
  const laps: SheetLap[] = [];
  const tJoints: Point[] = [];
  let joinM = 0;
  ground.edges.forEach(({ kind, runOnM = 0 }, i) => {
    if (kind !== 'earlier-bay' && kind !== 'shared') return;
    const [p, q] = kind === 'shared' ? edgeOf(ground, i) : sheetedEdge(ground, i);
    const lengthM = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const inwards: Point = [-(q[1] - p[1]) / lengthM, (q[0] - p[0]) / lengthM];
    const out = kind === 'shared' ? -lapM / 2 : runOnM;
    const move = (a: Point, by: number): Point => [a[0] + inwards[0] * by, a[1] + inwards[1] * by];
    const corners = [move(p, out), move(q, out), move(q, out + lapM), move(p, out + lapM)] as const;
    const at = sheets
      .map((s) => ({ s, along: stretchOn(strips, s, move(p, runOnM), move(q, runOnM)) }))
      .filter(({ along }) => along[1] - along[0] > TOUCH)
      .sort((a, b) => a.along[0] - b.along[0]);
    const numbers = at.map(({ s }) => s.number);
    // Where two of this part's own sheets lap on the line, a third is met.
    at.slice(1).forEach(({ along }, k) => {
      const u = (along[0] + Math.min(at[k]!.along[1], along[1])) / 2;
      tJoints.push([p[0] + (q[0] - p[0]) * u, p[1] + (q[1] - p[1]) * u]);
    });
    const higher =
      part.fallDeg > 0 ? -(inwards[0] * Math.sin(down) + inwards[1] * Math.cos(down)) : 0;
    const onTop = higher >= -0.02;
    joinM += kind === 'shared' ? lengthM / 2 : lengthM;
    laps.push({
      number: count + laps.length + 1,
      kind: 'join',
      lengthM,
      areaM2: lengthM * lapM,
      corners,
      over: onTop ? numbers : [],
      under: onTop ? [] : numbers,
    });
  });
  return { laps, joinM, tJoints };
}

function edgeOf({ points }: Ground, i: number): readonly [Point, Point] {
  return [points[i]!, points[(i + 1) % points.length]!];
}

/** A corner sharper than this does not lengthen the edge any more: sine of its angle. */
const SHARP = 0.25;

/** An edge with what the sheet runs on past its ends: up the wall, over the verge, onto the next bay. */
function sheetedEdge(ground: Ground, i: number): readonly [Point, Point] {
  const { points, allowancesM } = ground;
  const n = points.length;
  const [p, q] = edgeOf(ground, i);
  const [before, after] = [points[(i + n - 1) % n]!, points[(i + 2) % n]!];
  const lengthM = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const direction: Point = [(q[0] - p[0]) / lengthM, (q[1] - p[1]) / lengthM];
  // Only where the outline points outwards does the sheet go on in line with the edge.
  const onM = (a: Point, b: Point, allowanceM: number): number => {
    const across = direction[0] * (b[1] - a[1]) - direction[1] * (b[0] - a[0]);
    const sine = across / Math.hypot(b[0] - a[0], b[1] - a[1]);
    return sine > SHARP ? allowanceM / sine : 0;
  };
  const fromM = onM(p, before, allowancesM[(i + n - 1) % n]!);
  const toM = onM(q, after, allowancesM[(i + 1) % n]!);
  return [
    [p[0] - direction[0] * fromM, p[1] - direction[1] * fromM],
    [q[0] + direction[0] * toM, q[1] + direction[1] * toM],
  ];
}

/** The share of a line p to q that lies in a sheet's rectangle. */
function stretchOn(strips: Strips, sheet: Sheet, p: Point, q: Point): Interval {
  const a = toFrame(strips.frame, p);
  const b = toFrame(strips.frame, q);
  let lo = 0;
  let hi = 1;
  const bounds = [
    [sheet.fromM, sheet.toM],
    [sheet.startM, sheet.startM + sheet.widthM],
  ] as const;
  for (const axis of [0, 1] as const) {
    const [from, to] = bounds[axis];
    const d = b[axis] - a[axis];
    if (Math.abs(d) < 1e-12) {
      if (a[axis] < from - TOUCH || a[axis] > to + TOUCH) return [0, 0];
      continue;
    }
    const t = [(from - a[axis]) / d, (to - a[axis]) / d] as const;
    lo = Math.max(lo, Math.min(...t));
    hi = Math.min(hi, Math.max(...t));
  }
  return lo < hi ? [lo, hi] : [0, 0];
}
