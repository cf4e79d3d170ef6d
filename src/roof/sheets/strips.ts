import type { Point } from '../outline/types.ts';
import { type Frame, toFrame } from './frame.ts';
import { type Ground, isInnerEdge } from './ground.ts';
import type { Interval } from './intervals.ts';
import { LAP_OFF_CORNER_M, LAP_OFF_EDGE_M, LAP_OFF_OUTLET_M, LEAST_GAP_M } from './rules.ts';
import { areaIn, cutIntoSlabs, extent, extentInto, levels, type Slabs } from './slabs.ts';
import type { RollOffer, SheetQuestion } from './types.ts';

/** A roof seen along one direction of the rolls: what any course or side lap there would cost. */
export interface Strips {
  readonly frame: Frame;
  readonly slabs: Slabs;
  readonly low: number;
  readonly high: number;
  readonly question: SheetQuestion;
  /** Widest first. */
  readonly rolls: readonly RollOffer[];
  readonly corners: readonly Point[];
  readonly outlets: readonly { readonly u: number; readonly v: number; readonly r: number }[];
  readonly sideEdges: readonly { readonly v: number; readonly u: Interval }[];
  /** Levels at which it can pay to end a course, ascending. */
  readonly ends: readonly number[];
}

/** Slope of an edge against the rolls below which a lap runs alongside it. */
const ALONGSIDE = 0.02;

export function stripsOf(ground: Ground, question: SheetQuestion, frame: Frame): Strips {
  const slabs = cutIntoSlabs(ground.region, frame);
  const [low, high] = levels(slabs);
  const rolls = [...question.rolls].sort((a, b) => b.widthM - a.widthM || b.lengthM - a.lengthM);
  const n = ground.points.length;
  const uv = ground.points.map((p) => toFrame(frame, p));
  const inner = ground.edges.map(isInnerEdge);
  const corners = uv.filter((_, i) => !(inner[i]! && inner[(i + n - 1) % n]!));
  const sideEdges = uv.flatMap((p, i) => {
    const q = uv[(i + 1) % n]!;
    const du = Math.abs(q[0] - p[0]);
    // A fold or a valley between two areas is no edge, but no place for a lap either.
    const fold = (ground.edges[i]!.runOnM ?? 0) > 0;
    if ((inner[i]! && !fold) || Math.abs(q[1] - p[1]) > ALONGSIDE * du) return [];
    const u: Interval = [Math.min(p[0], q[0]), Math.max(p[0], q[0])];
    return [{ v: (p[1] + q[1]) / 2, u }];
  });
  // A lap across a pointed end leaves a sliver, like one along an edge.
  const all: Interval = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const v of [Math.min(...uv.map((p) => p[1])), Math.max(...uv.map((p) => p[1]))]) {
    if (!sideEdges.some((e) => Math.abs(e.v - v) < LAP_OFF_CORNER_M)) sideEdges.push({ v, u: all });
  }
  const outlets = question.part.features
    .filter((f) => f.kind === 'outlet')
    .map((f) => {
      const [u, v] = toFrame(frame, f.at);
      return { u, v, r: Math.max(...f.sizeM) / 2 };
    });
  const lapM = question.lapM;
  const ends = new Set<number>([high]);
  const offer = (v: number): void => {
    if (v > low + lapM && v < high) ends.add(Math.round(v * 1e9) / 1e9);
  };
  for (const v of slabs.v) [v, v + lapM].forEach(offer);
  for (const [, v] of corners) {
    [v - LAP_OFF_CORNER_M, v + LAP_OFF_CORNER_M + lapM].forEach(offer);
  }
  for (const { v } of sideEdges) [v - LAP_OFF_EDGE_M, v + LAP_OFF_EDGE_M + lapM].forEach(offer);
  for (const { v, r } of outlets) {
    const off = LAP_OFF_OUTLET_M + r;
    [v - off, v + off + lapM].forEach(offer);
  }
  const sorted = [...ends].sort((a, b) => a - b);
  return {
    frame,
    slabs,
    low,
    high,
    question,
    rolls,
    corners,
    outlets,
    sideEdges,
    ends: sorted.filter((v, i) => i === 0 || v - sorted[i - 1]! > 1e-6),
  };
}

export interface BandCost {
  readonly lengthM: number;
  readonly cost: number;
}

/** A side lap from `start` to `start` + lap. */
export function bandCost(strips: Strips, start: number): BandCost {
  const { lapM, weights } = strips.question;
  const end = start + lapM;
  const band = extent(strips.slabs, start, end, 1e-9);
  let lengthM = 0;
  let cost = 0;
  for (const [a, b] of band) lengthM += b - a;
  cost += lengthM * weights.lapPerM;
  for (const { v, u } of strips.sideEdges) {
    if (v <= start - LAP_OFF_EDGE_M + TOUCH || v >= end + LAP_OFF_EDGE_M - TOUCH) continue;
    for (const [a, b] of band) {
      cost += Math.max(0, Math.min(b, u[1]) - Math.max(a, u[0])) * weights.nearEdgePerM;
    }
  }
  const beside = (u: number, off: number): boolean =>
    band.some(([a, b]) => u > a - off && u < b + off);
  for (const [u, v] of strips.corners) {
    if (v <= start - LAP_OFF_CORNER_M + TOUCH || v >= end + LAP_OFF_CORNER_M - TOUCH) continue;
    if (beside(u, LAP_OFF_CORNER_M)) cost += weights.nearCorner;
  }
  for (const { u, v, r } of strips.outlets) {
    const off = LAP_OFF_OUTLET_M + r;
    if (v <= start - off + TOUCH || v >= end + off - TOUCH) continue;
    if (beside(u, 0)) cost += weights.nearOutlet;
  }
  return { lengthM, cost };
}

/** Slack on distances kept, so that rounding does not break a rule that is just met [m]. */
export const TOUCH = 1e-6;

/** Stretches of a course that need sheet. */
export function spansOf(strips: Strips, start: number, end: number): Interval[] {
  return extent(strips.slabs, start, end, LEAST_GAP_M + TOUCH);
}

/** Fewest pieces that a stretch takes. */
export function piecesFor(lengthM: number, rollM: number, endLapM: number): number {
  if (lengthM <= rollM + TOUCH) return 1;
  return Math.ceil((lengthM - endLapM) / (rollM - endLapM) - 1e-9);
}

/** Filled and read within one call, so that the search leaves nothing to clear away. */
const scratch: number[] = [];

/** A course of cut width start..end from a roll: sheet, pieces and end laps. */
export function courseCost(strips: Strips, start: number, end: number, roll: RollOffer): number {
  const { endLapM, weights } = strips.question;
  let cost = 0;
  const count = extentInto(strips.slabs, start, end, LEAST_GAP_M + TOUCH, scratch);
  for (let i = 0; i < count; i += 1) {
    const lengthM = scratch[2 * i + 1]! - scratch[2 * i]!;
    const ends = piecesFor(lengthM, roll.lengthM, endLapM) - 1;
    cost += (lengthM + ends * endLapM) * roll.widthM * weights.sheet;
    cost +=
      ends * ((end - start) * weights.lapPerM + 2 * weights.tJoint) + (ends + 1) * weights.piece;
  }
  return cost;
}

/** Region above a level [m2]: at least this much sheet is still to come. */
export function areaAbove(strips: Strips, level: number): number {
  const wide = Number.POSITIVE_INFINITY;
  return areaIn(strips.slabs, -wide, wide, level, strips.high);
}
