import type { BayCorner } from './bay-take-off.ts';
import { pieceOf } from './outline/bands.ts';
import { type CornerPatch, cornerOf, insideAngleDeg } from './outline/corners.ts';
import { isOuterEdge } from './outline/kinds.ts';
import type { RoofMeasures } from './outline/measure.ts';
import { SAME_LINE_M } from './outline/shared-edges.ts';
import { onSurface, pieceOnSurface } from './outline/surface.ts';
import type { OutlinePiece, OutlineRoof, Point, RoofArea } from './outline/types.ts';
import { distanceM, edgeDistanceM, nearestOn } from './outline/vectors.ts';
import { edgeName, outerId } from './outline-edges.ts';

/** A corner of the roof that takes a patch, and where it lies on each area that it belongs to. */
export interface PlacedCorner extends BayCorner {
  readonly at: readonly { readonly area: number; readonly on: Point }[];
}

/** Every corner of a roof that takes a patch, those where two areas meet among them. */
export function patchedCorners(roof: OutlineRoof, measures: RoofMeasures): readonly PlacedCorner[] {
  const many = roof.areas.length > 1;
  const own = roof.areas.flatMap((area, a): PlacedCorner[] => {
    const { points } = pieceOnSurface(pieceOf(area), area);
    const n = points.length;
    return points.flatMap((on, i): PlacedCorner[] => {
      const before = (i + n - 1) % n;
      const [one, other] = [area.edges[before]!, area.edges[i]!];
      if (!isOuterEdge(one.kind) || !isOuterEdge(other.kind)) return [];
      const angle = insideAngleDeg(points[before]!, on, points[(i + 1) % n]!);
      const patch = cornerOf(on, angle, one, other)?.patch ?? null;
      if (patch === null) return [];
      const ends = [
        { area, edge: before },
        { area, edge: i },
      ] as const;
      return [named(patch, ends, [{ area: a, on }], many)];
    });
  });
  const met = measures.junctions.flatMap(({ at, patch }): PlacedCorner[] => {
    if (patch === null) return [];
    const ends = edgesAt(roof, at);
    const [one, other] = ends;
    if (one === undefined || other === undefined) return [];
    const places = roof.areas.flatMap((area, a) =>
      edgeDistanceM(at, area.points) > SAME_LINE_M
        ? []
        : [{ area: a, on: onSurface([at], area)[0]! }],
    );
    return [named(patch, [one, other], places, many)];
  });
  return [...own, ...met];
}

interface End {
  readonly area: RoofArea;
  readonly edge: number;
}

/** Edges of the roof that end at a place where areas meet, or run through it. */
function edgesAt(roof: OutlineRoof, at: Point): readonly End[] {
  return roof.areas.flatMap((area) =>
    area.points.flatMap((p, edge): End[] => {
      if (!isOuterEdge(area.edges[edge]!.kind)) return [];
      const q = area.points[(edge + 1) % area.points.length]!;
      return distanceM(at, nearestOn(at, p, q)) > SAME_LINE_M ? [] : [{ area, edge }];
    }),
  );
}

const PATCH_WORDS: Readonly<Record<CornerPatch, string>> = {
  internal: 'inner, ',
  external: 'outer, ',
  'upstand-end': '',
};

function named(
  patch: CornerPatch,
  [one, other]: readonly [End, End],
  at: PlacedCorner['at'],
  many: boolean,
): PlacedCorner {
  const name = ({ area, edge }: End): string => edgeName(area, edge, many);
  return {
    name: `${PATCH_WORDS[patch]}${name(one)} / ${name(other)}`,
    edges: [outerId(one.area, one.edge), outerId(other.area, other.edge)],
    at,
  };
}

/** One day's pieces, in the order of the days. */
export interface DayPieces {
  readonly area: number;
  readonly pieces: readonly OutlinePiece[];
}

/** Each corner to the last day that reaches it: only then is all of it there to be patched. */
export function cornersByDay(
  corners: readonly PlacedCorner[],
  days: readonly DayPieces[],
): readonly (readonly BayCorner[])[] {
  const shares: BayCorner[][] = days.map(() => []);
  for (const { at, name, edges } of corners) {
    let last = -1;
    let nearest = { offM: Number.POSITIVE_INFINITY, day: 0 };
    days.forEach((day, d) => {
      for (const { area, on } of at) {
        if (area !== day.area) continue;
        for (const { points } of day.pieces) {
          const offM = edgeDistanceM(on, points);
          if (offM <= SAME_LINE_M) last = d;
          if (offM < nearest.offM) nearest = { offM, day: d };
        }
      }
    });
    shares[last >= 0 ? last : nearest.day]!.push({ name, edges });
  }
  return shares;
}
