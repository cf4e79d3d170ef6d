import { fillerAt } from './bonding.ts';
import { type Corner, cornerOf, insideAngleDeg } from './corners.ts';
import { isOuterEdge } from './kinds.ts';
import { SAME_LINE_M } from './shared-edges.ts';
import { onDrawing, onSurface } from './surface.ts';
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
  readonly area: RoofArea;
  readonly edge: OutlineEdge;
  /** As it lies on the roof. */
  readonly direction: Point;
}

function cornerAt(at: Point, areas: readonly RoofArea[]): readonly Junction[] {
  let angleDeg = 0;
  const before: EdgeThere[] = [];
  const after: EdgeThere[] = [];
  const meet = (list: EdgeThere[], area: RoofArea, index: number): void => {
    const edge = area.edges[index]!;
    if (!isOuterEdge(edge.kind)) return;
    const ends = [area.points[index]!, area.points[(index + 1) % area.points.length]!];
    const [from, to] = onSurface(ends, area);
    list.push({ area, edge, direction: towards(from!, to!) });
  };
  for (const area of areas) {
    const { points } = area;
    const n = points.length;
    const i = points.findIndex((p) => distanceM(p, at) <= SAME_LINE_M);
    if (i >= 0) {
      const [p, q, r] = [points[(i + n - 1) % n]!, points[i]!, points[(i + 1) % n]!];
      const [a, b, c] = onSurface([p, q, r], area);
      angleDeg += insideAngleDeg(a!, b!, c!);
      meet(before, area, (i + n - 1) % n);
      meet(after, area, i);
      continue;
    }
    const passes = points.findIndex(
      (p, e) => distanceM(at, nearestOn(at, p, points[(e + 1) % n]!)) <= SAME_LINE_M,
    );
    if (passes >= 0) {
      angleDeg += 180;
      meet(before, area, passes);
      meet(after, area, passes);
    }
  }
  const [one, other] = [before[0], after[0]];
  if (one === undefined || other === undefined || before.length + after.length > 2) return [];
  const corner = cornerOf(at, angleDeg, one.edge, other.edge);
  if (corner === null) return [];
  if (corner.turn !== 'in') return [{ corner, filler: null }];
  const [lying] = onSurface([at], one.area);
  const filler = fillerAt(lying!, one.direction, other.direction);
  return [{ corner, filler: filler === null ? null : onDrawing(filler, one.area) }];
}
