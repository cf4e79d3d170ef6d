import { PERIMETER_STRIP_M } from '../practice.ts';
import { grown } from './features.ts';
import { isOuterEdge } from './kinds.ts';
import { common, type Rings, ringsAreaM2, united, without } from './polygons.ts';
import type { OutlinePiece, Point } from './types.ts';
import { along, dot, leftOf, towards } from './vectors.ts';

export interface BondingAreas {
  /** Takes field adhesive, laps not yet taken off. */
  readonly field: Rings;
  /** Contact-bonded on both faces: inside outer edges and upstands, and round rooflights. */
  readonly strip: Rings;
  readonly fieldM2: number;
  readonly stripM2: number;
}

/**
 * The strip along the edges of the roof and round rooflights, and the field left inside it.
 * @param piece    outline as it lies on the roof
 * @param openings outlines of rooflights as they lie on the roof; taken off both areas
 * @param beyond   bands of areas next to this one that reach over a shared edge, see `stripBands`
 * @param stripM   width of the strip [m], above 0; common practice 0.15
 * @returns rings; corners of the strip are mitred, and squared off where they are sharper than a right angle
 * @source plane geometry; width of the strip common practice
 */
export function bondingAreas(
  piece: OutlinePiece,
  openings: Rings,
  beyond: Rings = [],
  stripM: number = PERIMETER_STRIP_M,
): BondingAreas {
  const bands = [...stripBands(piece, openings, stripM), ...beyond];
  const net = without([piece.points], openings);
  const field = without([piece.points], bands);
  const strip = common(net, united(bands));
  const fieldM2 = ringsAreaM2(field);
  return { field, strip, fieldM2, stripM2: Math.max(0, ringsAreaM2(net) - fieldM2) };
}

/** The share of a whole area's bonding that lies in one piece of it; over all pieces they add up to the whole. */
export function bondingWithin(whole: BondingAreas, piece: OutlinePiece): BondingAreas {
  const field = common(whole.field, [piece.points]);
  const strip = common(whole.strip, [piece.points]);
  return { field, strip, fieldM2: ringsAreaM2(field), stripM2: ringsAreaM2(strip) };
}

/** Loose bands along outer edges and round openings, which may reach past the outline. */
export function stripBands(
  piece: OutlinePiece,
  openings: Rings,
  widthM: number = PERIMETER_STRIP_M,
): Rings {
  const { points, edges } = piece;
  const n = points.length;
  const bands: (readonly Point[])[] = [];
  points.forEach((a, i) => {
    if (!isOuterEdge(edges[i]!.kind)) return;
    const b = points[(i + 1) % n]!;
    const direction = towards(a, b);
    const inwards = leftOf(direction);
    bands.push([a, b, along(b, inwards, widthM), along(a, inwards, widthM)]);
    if (!isOuterEdge(edges[(i + 1) % n]!.kind)) return;
    const filler = fillerAt(b, direction, towards(b, points[(i + 2) % n]!), widthM);
    if (filler !== null) bands.push(filler);
  });
  bands.push(...openings.map((opening) => grown(opening, widthM)));
  return bands;
}

/**
 * The gap between two bands round a corner that bends back; null where the bands overlap.
 * @param before unit vector of the edge that comes to the corner, `after` of the one that leaves it
 */
export function fillerAt(
  at: Point,
  before: Point,
  after: Point,
  widthM: number = PERIMETER_STRIP_M,
): readonly Point[] | null {
  const [inBefore, inAfter] = [leftOf(before), leftOf(after)];
  const sine = before[0] * after[1] - before[1] * after[0];
  const cosine = dot(before, after);
  if (sine >= 0 && cosine > -1 + 1e-12) return null;
  // tan of half the turn; a right angle and less is mitred, a sharper turn squared off a width past the corner.
  const reach = Math.min(1, cosine <= 0 ? 1 : -sine / (1 + cosine)) * widthM;
  const one = along(at, inBefore, widthM);
  const two = along(at, inAfter, widthM);
  return [at, two, along(two, after, -reach), along(one, before, reach), one];
}
