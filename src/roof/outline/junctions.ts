import { fillerAt } from './bonding.ts';
import { type Corner, cornerOf, insideAngleDeg } from './corners.ts';
import { isOuterEdge } from './kinds.ts';
import { SAME_LINE_M } from './shared-edges.ts';
import { onSurface } from './surface.ts';
import type { OutlineEdge, Point, RoofArea } from './types.ts';
import { distanceM, nearestOn, towards } from './vectors.ts';

export interface Junction {
  readonly corner: Corner;
  /** Contact-bonded round a corner that bends back, on the drawing; null where nothing is left between the strips. */
  readonly filler: readonly Point[] | null;
}

/**
 * Corners at the ends of shared edges. Seen from one area they are ends of its outline; of the roof as a
 * whole they may be a corner, a straight run or no edge at all. Their angles are added up over the areas
 * that meet there; where more than one pair of edges meets, nothing can be said and nothing is counted.
 */
export function junctionCorners(areas: readonly RoofArea[]): readonly Junction[] {
  const places: Point[] = [];
  for (const { points, edges } of areas) {
    points.forEach((at, i) => {
      const before = edges[(i + points.length - 1) % points.length]!;
      const ends = !isOuterEdge(before.kind) || !isOuterEdge(edges[i]!.kind);
      if (ends && !places.some((p) => distanceM(p, at) <= SAME_LINE_M)) places.push(at);
    });
  }
  return places.flatMap((at) => cornerAt(at, areas));
}

interface EdgeThere {
  readonly edge: OutlineEdge;
  readonly direction: Point;
}

function cornerAt(at: Point, areas: readonly RoofArea[]): readonly Junction[] {
  let angleDeg = 0;
  const before: EdgeThere[] = [];
  const after: EdgeThere[] = [];
  const meet = (list: EdgeThere[], edge: OutlineEdge, from: Point, to: Point): void => {
    if (isOuterEdge(edge.kind)) list.push({ edge, direction: towards(from, to) });
  };
  for (const area of areas) {
    const { points, edges } = area;
    const n = points.length;
    const i = points.findIndex((p) => distanceM(p, at) <= SAME_LINE_M);
    if (i >= 0) {
      const [p, q, r] = [points[(i + n - 1) % n]!, points[i]!, points[(i + 1) % n]!];
      const [a, b, c] = onSurface([p, q, r], area);
      angleDeg += insideAngleDeg(a!, b!, c!);
      meet(before, edges[(i + n - 1) % n]!, p, q);
      meet(after, edges[i]!, q, r);
      continue;
    }
    const passes = points.findIndex(
      (p, e) => distanceM(at, nearestOn(at, p, points[(e + 1) % n]!)) <= SAME_LINE_M,
    );
    if (passes >= 0) {
      angleDeg += 180;
      for (const list of [before, after])
        meet(list, edges[passes]!, points[passes]!, points[(passes + 1) % n]!);
    }
  }
  const [one, other] = [before[0], after[0]];
  if (one === undefined || other === undefined || before.length + after.length > 2) return [];
  const corner = cornerOf(at, angleDeg, one.edge, other.edge);
  if (corner === null) return [];
  const bends = corner.turn === 'in';
  return [{ corner, filler: bends ? fillerAt(at, one.direction, other.direction) : null }];
}
