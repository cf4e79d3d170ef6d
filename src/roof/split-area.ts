import { clipToBand, extentM, featuresOnCut, lineAt, pieceOf } from './outline/bands.ts';
import { onSurface, pieceOnSurface } from './outline/surface.ts';
import type { Feature, OutlinePiece, Point, RoofArea } from './outline/types.ts';
import { dot, planDirection, signedAreaM2 } from './outline/vectors.ts';

/** Bays narrower than this are not worth their laps [m]; a narrower area is still one bay wide. */
const NARROWEST_BAY_M = 1;
/** More bays than asked for are taken if they save inner edge, up to this many times as many. */
const MORE_BAYS = 1.1;
/** A cut that would run through a rooflight, pipe or outlet goes round it at this distance [m]. */
const CLEAR_OF_FEATURE_M = 0.3;
/** Share of a band by which a cut may move for that. */
const MOST_SHIFT = 0.25;

/** Part of an area laid in one day; several pieces where the outline bends back. As it lies on the roof. */
export interface BayShape {
  readonly pieces: readonly OutlinePiece[];
  readonly areaM2: number;
}

/** An area cut into bays in working order, with the directions that the work takes. */
export interface SplitArea {
  readonly bays: readonly BayShape[];
  /** Unit vectors: down the fall from row to row, and along a row from bay to bay. */
  readonly down: Point;
  readonly ahead: Point;
  readonly features: readonly Feature[];
}

/**
 * Splits an area into bays of about equal size: strips across or along the fall, or rows of strips, by the
 * least inner edge. Work starts on the high side, so that a loose edge lies over what is below and sheds
 * water; along a row it goes towards the access point, so that nobody crosses the finished roof.
 * @param maxBayM2 largest bay [m2], above 0
 * @throws RangeError where more than 5000 bays would be needed
 * @source common practice
 */
export function splitArea(area: RoofArea, maxBayM2: number, access: Point | null): SplitArea {
  const whole = pieceOnSurface(pieceOf(area), area);
  const features = area.features.map((f) => ({ ...f, at: onSurface([f.at], area)[0]! }));
  const down = planDirection(area.fallPlanDeg);
  const ahead = aheadOf(whole, down, access === null ? null : onSurface([access], area)[0]!);
  const areaM2 = signedAreaM2(whole.points);
  const least = Math.max(1, Math.ceil(areaM2 / maxBayM2 - 1e-9));
  if (least > 5000) throw new RangeError(`number of bays (${least}) must be at most 5000`);
  const { rows, columns } = shortestSplit(whole, down, ahead, least);
  const bays = cutEvenly([whole], down, rows, features).flatMap((row) =>
    cutEvenly(row, ahead, columns, features),
  );
  return {
    bays: bays
      .filter((pieces) => pieces.length > 0)
      .map((pieces) => ({ pieces, areaM2: areaOf(pieces) })),
    down,
    ahead,
    features,
  };
}

const areaOf = (pieces: readonly OutlinePiece[]): number =>
  pieces.reduce((sum, piece) => sum + signedAreaM2(piece.points), 0);

/** Along the row, towards where people and material come up; else towards +x, or +y on a roof that falls that way. */
function aheadOf(whole: OutlinePiece, down: Point, access: Point | null): Point {
  const across: Point = [-down[1], down[0]];
  const turned: Point = [-across[0], -across[1]];
  if (access === null) return across[0] + across[1] >= 0 ? across : turned;
  const { fromM, toM } = extentM(whole, across);
  return dot(access, across) >= (fromM + toM) / 2 ? across : turned;
}

function shortestSplit(
  whole: OutlinePiece,
  down: Point,
  ahead: Point,
  least: number,
): { rows: number; columns: number } {
  const size = (direction: Point): number => {
    const { fromM, toM } = extentM(whole, direction);
    return toM - fromM;
  };
  const [heightM, lengthM] = [size(down), size(ahead)];
  const mostRows = Math.max(1, Math.floor(heightM / NARROWEST_BAY_M));
  const mostColumns = Math.max(1, Math.floor(lengthM / NARROWEST_BAY_M));
  let best = { rows: Math.min(least, mostRows), columns: 1 };
  let bestM = Number.POSITIVE_INFINITY;
  for (let rows = 1; rows <= best.rows || rows <= Math.min(least, mostRows); rows += 1) {
    const columns = Math.ceil(least / rows);
    const tooMany = rows * columns > Math.max(least, Math.floor(least * MORE_BAYS));
    if (columns > mostColumns || tooMany) continue;
    const innerM = (rows - 1) * lengthM + (columns - 1) * heightM;
    if (innerM < bestM - 1e-9) {
      best = { rows, columns };
      bestM = innerM;
    }
    if (rows >= Math.min(least, mostRows)) break;
  }
  return best;
}

/** Bands of equal area, in order along a direction; cuts keep clear of what stands on the roof. */
function cutEvenly(
  pieces: readonly OutlinePiece[],
  direction: Point,
  count: number,
  features: readonly Feature[],
): readonly (readonly OutlinePiece[])[] {
  if (count === 1) return [pieces];
  const ends = pieces.map((piece) => extentM(piece, direction));
  const fromM = Math.min(...ends.map((end) => end.fromM));
  const toM = Math.max(...ends.map((end) => end.toM));
  const upTo = (atM: number): number =>
    areaOf(pieces.flatMap((piece) => clipToBand(piece, direction, fromM - 1, atM)));
  const total = areaOf(pieces);
  const cuts = Array.from({ length: count - 1 }, (_, i) => {
    let [low, high] = [fromM, toM];
    for (let k = 0; k < 40; k += 1) {
      const middle = (low + high) / 2;
      if (upTo(middle) < (total * (i + 1)) / count) low = middle;
      else high = middle;
    }
    return clearOf(low, direction, features, ((toM - fromM) / count) * MOST_SHIFT);
  });
  const bounds = [fromM - 1, ...cuts, toM + 1];
  return bounds
    .slice(1)
    .map((m, i) => pieces.flatMap((piece) => clipToBand(piece, direction, bounds[i]!, m)));
}

/** The nearest place to a cut at which it runs through nothing; the cut itself where there is none near. */
function clearOf(
  atM: number,
  direction: Point,
  features: readonly Feature[],
  mostM: number,
): number {
  const grown = features.map(
    (f): Feature => ({
      ...f,
      sizeM: [f.sizeM[0] + 2 * CLEAR_OF_FEATURE_M, f.sizeM[1] + 2 * CLEAR_OF_FEATURE_M],
    }),
  );
  const free = (m: number): boolean => featuresOnCut(lineAt(direction, m), grown).length === 0;
  for (let offM = 0; offM <= mostM; offM += 0.1) {
    for (const m of [atM - offM, atM + offM]) if (free(m)) return m;
  }
  return atM;
}
