import { dropPerM } from './surface.ts';
import type { Point, RoofArea } from './types.ts';
import { cross, distanceM, dot, leftOf, minus, towards } from './vectors.ts';

/** Edges this near to one another are one line [m]. */
export const SAME_LINE_M = 0.005;
/** A common stretch shorter than this is a corner, not an edge [m]. */
const SHORTEST_SHARED_M = 0.01;

/**
 * How two areas meet. ridge = water leaves the line on both sides; valley = it comes to the line from
 * both; change-of-fall = it crosses; level = it runs along; step = both keep an edge of their own there.
 */
export type Meeting = 'ridge' | 'valley' | 'change-of-fall' | 'level' | 'step';

export interface SharedEdge {
  /** Place in the list of areas, and edge of that area. */
  readonly one: { readonly area: number; readonly edge: number };
  readonly other: { readonly area: number; readonly edge: number };
  readonly from: Point;
  readonly to: Point;
  /** On the drawing [m]. */
  readonly lengthM: number;
  readonly meeting: Meeting;
  /** Whose sheet runs on past the line, by place in the list; null at a step. */
  readonly sheetOf: number | null;
  /** How far past the line its lap begins [m]; 0 at a step. */
  readonly runOnM: number;
  /** By how much the two surfaces come apart in height over the stretch [m]. */
  readonly heightsPartM: number;
}

/** @source common practice: no lap in a valley nor within 300 mm of it; elsewhere the lap clears the fold by 150 mm */
const RUN_ON_M: Readonly<Record<Meeting, number>> = {
  ridge: 0.15,
  valley: 0.3,
  'change-of-fall': 0.15,
  level: 0.15,
  step: 0,
};

/**
 * Where areas lie edge to edge. Each area is laid for itself; at a common line that both call 'shared' the
 * sheet of one runs on over it and is lapped beyond: at a change of fall the upper one, so that the lap
 * sheds water; at ridge, valley and level the larger one.
 */
export function sharedEdges(
  areas: readonly RoofArea[],
  areasM2: readonly number[],
): readonly SharedEdge[] {
  const found: SharedEdge[] = [];
  const boxes = areas.map((area) => boxOf(area.points));
  for (let i = 0; i < areas.length; i += 1) {
    for (let j = i + 1; j < areas.length; j += 1) {
      if (!near(boxes[i]!, boxes[j]!)) continue;
      for (let e = 0; e < areas[i]!.points.length; e += 1) {
        for (let f = 0; f < areas[j]!.points.length; f += 1) {
          const stretch = commonStretch(edgeOf(areas[i]!, e), edgeOf(areas[j]!, f));
          if (stretch === null) continue;
          found.push(meet(areas, areasM2, { area: i, edge: e }, { area: j, edge: f }, stretch));
        }
      }
    }
  }
  return found;
}

type Segment = readonly [Point, Point];

const edgeOf = (area: RoofArea, edge: number): Segment => [
  area.points[edge]!,
  area.points[(edge + 1) % area.points.length]!,
];

/** The stretch of the first that the second runs along the other way; null where there is none. */
export function commonStretch([a, b]: Segment, [c, d]: Segment): Segment | null {
  const direction = towards(a, b);
  const t = (p: Point): number => dot(minus(p, a), direction);
  const off = (p: Point): number => cross(direction, minus(p, a));
  const [tc, td] = [t(c), t(d)];
  if (td >= tc) return null;
  const [fromM, toM] = [Math.max(0, td), Math.min(distanceM(a, b), tc)];
  if (toM - fromM < SHORTEST_SHARED_M) return null;
  const offAt = (m: number): number => off(c) + ((off(d) - off(c)) * (m - tc)) / (td - tc);
  if (Math.max(Math.abs(offAt(fromM)), Math.abs(offAt(toM))) > SAME_LINE_M) return null;
  const at = (m: number): Point => [a[0] + direction[0] * m, a[1] + direction[1] * m];
  return [at(fromM), at(toM)];
}

function meet(
  areas: readonly RoofArea[],
  areasM2: readonly number[],
  one: SharedEdge['one'],
  other: SharedEdge['other'],
  [from, to]: Segment,
): SharedEdge {
  const [a, b] = [areas[one.area]!, areas[other.area]!];
  const lengthM = distanceM(from, to);
  const direction = towards(from, to);
  const outwards = leftOf([-direction[0], -direction[1]]);
  const base = { one, other, from, to, lengthM };
  if (a.edges[one.edge]!.kind !== 'shared' && b.edges[other.edge]!.kind !== 'shared') {
    return { ...base, meeting: 'step', sheetOf: null, runOnM: 0, heightsPartM: 0 };
  }
  const outOfA = dropPerM(a, outwards);
  const outOfB = dropPerM(b, [-outwards[0], -outwards[1]]);
  const meeting = meetingOf(outOfA, outOfB);
  const larger = areasM2[other.area]! > areasM2[one.area]! ? other.area : one.area;
  const upper = outOfA > 0 ? one.area : other.area;
  return {
    ...base,
    meeting,
    sheetOf: meeting === 'change-of-fall' ? upper : larger,
    runOnM: RUN_ON_M[meeting],
    heightsPartM: Math.abs(dropPerM(a, direction) - dropPerM(b, direction)) * lengthM,
  };
}

/** From how far each surface drops per metre towards the line; a tenth of a millimetre is none. */
function meetingOf(outOfA: number, outOfB: number): Meeting {
  const sign = (drop: number): number => (Math.abs(drop) < 1e-4 ? 0 : Math.sign(drop));
  const [a, b] = [sign(outOfA), sign(outOfB)];
  if (a * b < 0) return 'change-of-fall';
  if (a + b > 0) return 'valley';
  return a + b < 0 ? 'ridge' : 'level';
}

type Box = readonly [number, number, number, number];

function boxOf(points: readonly Point[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

const near = (a: Box, b: Box): boolean =>
  a[0] <= b[2] + SAME_LINE_M &&
  b[0] <= a[2] + SAME_LINE_M &&
  a[1] <= b[3] + SAME_LINE_M &&
  b[1] <= a[3] + SAME_LINE_M;
