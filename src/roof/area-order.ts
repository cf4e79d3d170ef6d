import type { SharedEdge } from './outline/shared-edges.ts';
import { onSurface } from './outline/surface.ts';
import type { OutlinePiece, PieceEdge, Point, RoofArea } from './outline/types.ts';
import { distanceM, dot, minus, towards } from './outline/vectors.ts';
import type { SheetEdge } from './sheets/types.ts';

/** A shorter stretch is a corner [m]. */
const SHORTEST_M = 1e-6;

/** What a stretch of a shared edge is to the area on this side of it. */
export interface Meet {
  /** Edge of the area. */
  readonly edge: number;
  /** As it lies on this area's surface. */
  readonly from: Point;
  readonly to: Point;
  readonly as: SheetEdge;
}

/**
 * Areas in the order they are laid: as drawn, but first the one whose sheet runs on past a common line, so
 * that it is there to be lapped onto. Where areas wait for each other in a ring, the first drawn begins.
 * @returns places in the list of areas
 */
export function layingOrder(count: number, met: readonly SharedEdge[]): readonly number[] {
  const waitsFor = Array.from({ length: count }, () => new Set<number>());
  for (const { one, other, sheetOf } of met) {
    if (sheetOf === null) continue;
    const second = sheetOf === one.area ? other.area : one.area;
    waitsFor[second]!.add(sheetOf);
  }
  const order: number[] = [];
  const left = new Set(waitsFor.keys());
  while (left.size > 0) {
    const ready = [...left].find((area) => [...waitsFor[area]!].every((first) => !left.has(first)));
    const next = ready ?? [...left][0]!;
    order.push(next);
    left.delete(next);
  }
  return order;
}

/**
 * The stretches in which an area meets others at 'shared' edges. The sheet of the one laid first runs on
 * past the line, and the other one begins beyond it: no lap lies on the line itself.
 */
export function meetsOf(
  area: RoofArea,
  place: number,
  order: readonly number[],
  met: readonly SharedEdge[],
): readonly Meet[] {
  return met.flatMap(({ one, other, from, to, meeting, runOnM }): Meet[] => {
    if (meeting === 'step' || (one.area !== place && other.area !== place)) return [];
    const [mine, theirs] = one.area === place ? [one, other] : [other, one];
    const first = order.indexOf(place) < order.indexOf(theirs.area);
    const kind = first ? 'next-bay' : 'earlier-bay';
    const [a, b] = onSurface([from, to], area);
    return [{ edge: mine.edge, from: a!, to: b!, as: { kind, upstandMm: 0, runOnM } }];
  });
}

/**
 * Breaks the shared edges of a piece up where what lies beyond them changes.
 * @param piece as it lies on the roof
 * @returns the piece with more corners, and for each of its shared edges what it is to the order of work
 */
export function atMeets(
  piece: OutlinePiece,
  meets: readonly Meet[],
): { readonly piece: OutlinePiece; readonly as: readonly (SheetEdge | null)[] } {
  const points: Point[] = [];
  const edges: PieceEdge[] = [];
  const as: (SheetEdge | null)[] = [];
  piece.points.forEach((a, i) => {
    const edge = piece.edges[i]!;
    const b = piece.points[(i + 1) % piece.points.length]!;
    const here = edge.kind === 'shared' ? meets.filter((m) => m.edge === edge.source) : [];
    for (const stretch of stretches(a, b, here)) {
      points.push(stretch.from);
      edges.push(edge);
      as.push(stretch.as);
    }
  });
  return { piece: { points, edges }, as };
}

function stretches(
  a: Point,
  b: Point,
  meets: readonly Meet[],
): readonly { readonly from: Point; readonly as: SheetEdge | null }[] {
  const first = meets[0];
  if (first === undefined) return [{ from: a, as: null }];
  const direction = towards(a, b);
  const lengthM = distanceM(a, b);
  const placed = meets
    .map(({ from, to, as }) => {
      const ends = [dot(minus(from, a), direction), dot(minus(to, a), direction)];
      return { fromM: Math.min(...ends), toM: Math.max(...ends), as };
    })
    .filter(({ fromM, toM }) => toM > SHORTEST_M && fromM < lengthM - SHORTEST_M)
    .sort((x, y) => x.fromM - y.fromM);
  // Drawn to the millimetre, stretches may leave a hair between them: each goes on to where the next begins.
  return placed.map(({ fromM, as }, k) => ({
    from:
      k === 0 || fromM <= SHORTEST_M
        ? a
        : ([a[0] + direction[0] * fromM, a[1] + direction[1] * fromM] as const),
    as,
  }));
}
