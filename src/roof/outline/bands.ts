import { type CutLine, cutBoth, cutLeft, isConvex } from './cut.ts';
import type { Feature, OutlinePiece, Point, RoofArea } from './types.ts';
import { cross, distanceM, dot, edgeDistanceM, isInside, minus, towards } from './vectors.ts';

/** An area as a piece that has not been cut: edge i comes from edge i. */
export function pieceOf(area: Pick<RoofArea, 'points' | 'edges'>): OutlinePiece {
  const edges = area.edges.map((edge, source) => ({ ...edge, source }));
  return { points: area.points, edges };
}

/** Least and greatest distance of a piece's corners along a unit vector, from the drawing's origin [m]. */
export function extentM(
  piece: Pick<OutlinePiece, 'points'>,
  across: Point,
): { readonly fromM: number; readonly toM: number } {
  const places = piece.points.map((p) => dot(p, across));
  return { fromM: Math.min(...places), toM: Math.max(...places) };
}

/**
 * The part of an outline in a straight band: where the distance along `across`, counted from the drawing's
 * origin, is between two figures. Bays, courses of sheet and the strips they are cut into are such bands.
 * @param across unit vector at right angles to the band
 * @param fromM  must be below toM
 * @returns several pieces where the outline bends back, none where the band misses it; edges keep kind and source
 * @throws RangeError on a band without width, NaN included, or a direction that is no unit vector
 */
export function clipToBand(
  piece: OutlinePiece,
  across: Point,
  fromM: number,
  toM: number,
): readonly OutlinePiece[] {
  if (!(toM > fromM)) throw new RangeError(`fromM (${fromM}) must be below toM (${toM})`);
  const line = lineAt(across, fromM);
  const back = opposite(lineAt(across, toM));
  return cutLeft(piece, line).flatMap((part) => cutLeft(part, back));
}

/** The line at a distance along `across`; what lies further along is on its left. */
export function lineAt(across: Point, atM: number): CutLine {
  const length = Math.hypot(...across);
  if (!(Math.abs(length - 1) < 1e-9))
    throw new RangeError(`across (${across}) must be of length 1, is ${length}`);
  return { through: [across[0] * atM, across[1] * atM], direction: [across[1], -across[0]] };
}

function opposite(line: CutLine): CutLine {
  return { through: line.through, direction: [-line.direction[0], -line.direction[1]] };
}

/**
 * Pieces between cuts at right angles to `across`, in order along it. Cuts outside the piece cut nothing.
 * @param cutsM distances along `across` from the drawing's origin, in any order
 */
export function splitAcross(
  piece: OutlinePiece,
  across: Point,
  cutsM: readonly number[],
): readonly (readonly OutlinePiece[])[] {
  const { fromM, toM } = extentM(piece, across);
  const inside = [...new Set(cutsM)].filter((m) => m > fromM && m < toM).sort((a, b) => a - b);
  const bounds = [fromM - 1, ...inside, toM + 1];
  return bounds.slice(1).map((m, i) => clipToBand(piece, across, bounds[i]!, m));
}

/** Cuts every piece by every line; the parts add up to the piece. */
export function splitByLines(
  piece: OutlinePiece,
  lines: readonly CutLine[],
): readonly OutlinePiece[] {
  let parts: readonly OutlinePiece[] = [piece];
  for (const line of lines) {
    parts = parts.flatMap((part) => {
      const { left, right } = cutBoth(part, line);
      return [...left, ...right];
    });
  }
  return parts;
}

/**
 * Parts without a corner that bends back, cut along the edges that meet in such a corner, the shorter cut
 * first. An L gives two rectangles.
 */
export function convexParts(piece: OutlinePiece): readonly OutlinePiece[] {
  if (isConvex(piece.points)) return [piece];
  const n = piece.points.length;
  const deepest = piece.points.reduce(
    (best, b, i) => {
      const [a, c] = [piece.points[(i + n - 1) % n]!, piece.points[(i + 1) % n]!];
      const turn = cross(towards(a, b), towards(b, c));
      return turn < best.turn ? { turn, i } : best;
    },
    { turn: 0, i: 0 },
  );
  const at = piece.points[deepest.i]!;
  const before = piece.points[(deepest.i + n - 1) % n]!;
  const after = piece.points[(deepest.i + 1) % n]!;
  const tries = [towards(before, at), towards(at, after)].map((direction) => {
    const { left, right } = cutBoth(piece, { through: at, direction });
    const parts = [...left, ...right];
    return { parts, innerM: parts.reduce((sum, part) => sum + innerLengthM(part), 0) };
  });
  const best = tries[0]!.innerM <= tries[1]!.innerM ? tries[0]! : tries[1]!;
  if (best.parts.length < 2) throw new RangeError(`no cut parts the outline at ${at}`);
  return best.parts.flatMap(convexParts);
}

/** Length of the edges that were cut [m]. */
export function innerLengthM(piece: OutlinePiece): number {
  return piece.edges.reduce((sum, edge, i) => {
    const b = piece.points[(i + 1) % piece.points.length]!;
    return sum + (edge.kind === 'inner' ? distanceM(piece.points[i]!, b) : 0);
  }, 0);
}

/** Each feature to the one piece its middle lies in; on a cut, to the first piece of the two. */
export function shareFeatures(
  pieces: readonly Pick<OutlinePiece, 'points'>[],
  features: readonly Feature[],
): readonly (readonly Feature[])[] {
  const shares: Feature[][] = pieces.map(() => []);
  for (const feature of features) {
    const off = pieces.map((piece) =>
      isInside(feature.at, piece.points) ? 0 : edgeDistanceM(feature.at, piece.points),
    );
    const nearest = off.indexOf(Math.min(...off));
    shares[nearest]?.push(feature);
  }
  return shares;
}

/** Features that a cut would run through: the line passes nearer their middle than half their diagonal. */
export function featuresOnCut(line: CutLine, features: readonly Feature[]): readonly Feature[] {
  return features.filter(
    (f) => Math.abs(cross(line.direction, minus(f.at, line.through))) < Math.hypot(...f.sizeM) / 2,
  );
}
