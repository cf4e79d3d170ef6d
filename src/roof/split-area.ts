import { clipToBand, extentM, pieceOf } from './outline/bands.ts';
import { onSurface, pieceOnSurface } from './outline/surface.ts';
import type { Feature, OutlinePiece, Point, RoofArea } from './outline/types.ts';
import { dot, planDirection, signedAreaM2 } from './outline/vectors.ts';
import { placeCuts } from './place-cuts.ts';

/** Bays narrower than this are not worth their laps [m]; a narrower area is still one bay wide. */
const NARROWEST_BAY_M = 1;
/** More bays than asked for are taken if they save inner edge, up to this many times as many. */
const MORE_BAYS = 1.1;
/** And no more than this many where a cut would run through a rooflight. */
const MORE_TRIED = 4;
/** A bay may be this many times the size asked for where a cut goes round something for it. */
const LARGER_BAY = 1.05;

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
  /** What a cut runs through or close by, because no other place leaves the bays small enough. */
  readonly through: readonly Feature[];
}

export interface SplitOptions {
  /** Where people and material come up. */
  readonly access: Point | null;
  /** False where the places of features are only counted, not known: bays are then even. */
  readonly placed: boolean;
}

/**
 * Splits an area into bays of about equal size: strips across or along the fall, or rows of strips, by the
 * least inner edge. Work starts on the high side, so that a loose edge lies over what is below and sheds
 * water; along a row it goes towards the access point, so that nobody crosses the finished roof.
 *
 * Cuts keep clear of what stands on the roof as far as that makes no bay more than 5 % larger than asked
 * for. Where one would still run through a rooflight, one bay more is tried, or up to a tenth and four more.
 * @param maxBayM2 largest bay [m2], above 0
 * @throws RangeError where more than 5000 bays would be needed
 * @source common practice
 */
export function splitArea(area: RoofArea, maxBayM2: number, options: SplitOptions): SplitArea {
  const whole = pieceOnSurface(pieceOf(area), area);
  const down = planDirection(area.fallPlanDeg);
  const { access } = options;
  const ahead = aheadOf(whole, down, access === null ? null : onSurface([access], area)[0]!);
  const areaM2 = signedAreaM2(whole.points);
  const least = Math.max(1, Math.ceil(areaM2 / maxBayM2 - 1e-9));
  if (least > 5000) throw new RangeError(`number of bays (${least}) must be at most 5000`);
  const clearOf = options.placed ? lyingFeatures(area) : [];
  const most = Math.max(least + 1, Math.min(least + MORE_TRIED, Math.floor(least * MORE_BAYS)));
  let best: Cut | null = null;
  let bestCut = Number.POSITIVE_INFINITY;
  for (let count = least; count <= most && bestCut > 0; count += 1) {
    const grid = shortestSplit(whole, down, ahead, count);
    const tried = cutInto(whole, { ...grid, down, ahead, clearOf, maxBayM2 });
    const rooflights = tried.through.filter(({ kind }) => kind === 'rooflight').length;
    if (rooflights < bestCut) [best, bestCut] = [tried, rooflights];
  }
  return { ...best!, down, ahead };
}

/** What stands on an area, where it lies on the surface. */
export function lyingFeatures(area: RoofArea): readonly Feature[] {
  return area.features.map((f) => ({ ...f, at: onSurface([f.at], area)[0]! }));
}

type Cut = Pick<SplitArea, 'bays' | 'through'>;

interface Grid {
  readonly down: Point;
  readonly ahead: Point;
  readonly rows: number;
  readonly columns: number;
  readonly clearOf: readonly Feature[];
  readonly maxBayM2: number;
}

function cutInto(
  whole: OutlinePiece,
  { down, ahead, rows, columns, clearOf, maxBayM2 }: Grid,
): Cut {
  const through: Feature[] = [];
  const cut = (
    pieces: readonly OutlinePiece[],
    direction: Point,
    bands: number,
    mostM2: number,
  ): readonly (readonly OutlinePiece[])[] => {
    if (bands === 1) return [pieces];
    const places = placeCuts({ pieces, direction, count: bands, clearOf, mostM2 });
    through.push(...places.through);
    return bandsBetween(pieces, direction, places.atM);
  };
  // Half of what a bay may grow is for the cuts across the fall, the rest for those along it.
  const larger = columns > 1 ? (1 + LARGER_BAY) / 2 : LARGER_BAY;
  const bays = cut([whole], down, rows, columns * maxBayM2 * larger).flatMap((row) =>
    cut(row, ahead, columns, maxBayM2 * LARGER_BAY),
  );
  return {
    bays: bays
      .filter((pieces) => pieces.length > 0)
      .map((pieces) => ({ pieces, areaM2: areaOf(pieces) })),
    through: [...new Set(through)],
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

/** Rows down the fall and columns along it with the least inner edge; a tie keeps water off the edges. */
function shortestSplit(
  whole: OutlinePiece,
  down: Point,
  ahead: Point,
  least: number,
): { readonly rows: number; readonly columns: number } {
  const size = (direction: Point): number => {
    const { fromM, toM } = extentM(whole, direction);
    return toM - fromM;
  };
  const [heightM, lengthM] = [size(down), size(ahead)];
  const mostRows = Math.max(1, Math.floor(heightM / NARROWEST_BAY_M));
  const mostColumns = Math.max(1, Math.floor(lengthM / NARROWEST_BAY_M));
  let best: { rows: number; columns: number } | null = null;
  let bestM = Number.POSITIVE_INFINITY;
  for (let rows = 1; rows <= Math.min(least, mostRows); rows += 1) {
    const columns = Math.ceil(least / rows);
    const tooMany = rows * columns > Math.max(least, Math.floor(least * MORE_BAYS));
    if (columns > mostColumns || tooMany) continue;
    const innerM = (rows - 1) * lengthM + (columns - 1) * heightM;
    if (innerM < bestM - 1e-9) {
      best = { rows, columns };
      bestM = innerM;
    }
  }
  if (best !== null) return best;
  // No split of that many: the nearest one with enough bays, or as many as fit on the roof.
  const rows = Math.min(mostRows, Math.ceil(least / mostColumns));
  return { rows, columns: Math.min(mostColumns, Math.ceil(least / rows)) };
}

function bandsBetween(
  pieces: readonly OutlinePiece[],
  direction: Point,
  cutsM: readonly number[],
): readonly (readonly OutlinePiece[])[] {
  const ends = pieces.map((piece) => extentM(piece, direction));
  const bounds = [
    Math.min(...ends.map((end) => end.fromM)) - 1,
    ...cutsM,
    Math.max(...ends.map((end) => end.toM)) + 1,
  ];
  return bounds
    .slice(1)
    .map((m, i) => pieces.flatMap((piece) => clipToBand(piece, direction, bounds[i]!, m)));
}
