import { inRange } from '../units/index.ts';
import { sideLengthM } from './take-off.ts';
import type { Bay, BayEdgeKind, EdgeSide, Roof, RoofPart } from './types.ts';

/** Bays narrower than this are not worth their laps [m]; a narrower roof is still one bay wide. */
const NARROWEST_BAY_M = 1;
/** More bays than asked for are taken if they save inner edge, up to this many times as many. */
const MORE_BAYS = 1.1;
const SIDES: readonly EdgeSide[] = ['low', 'high', 'left', 'right'];

/**
 * Splits a roof into equal rectangles, one per laying day, in working order: strips where that is
 * shortest, rows of strips on a large roof.
 *
 * Inner edges are lapped and night-sealed, so the split with the least of them wins. Work starts on the
 * high side: the loose edge of a high bay lies over what is below and sheds water, and the next sheet
 * slips under it. Along a row no water crosses the edge between bays; a row starts at an abutment if
 * only its right end has one, else at the left.
 * @param maxBayM2 largest bay [m2], above 0
 * @returns bays whose areas add up to the roof's
 * @throws RangeError on a size outside its range, NaN included
 * @source common practice
 */
export function splitIntoBays(roof: Roof, maxBayM2: number): readonly Bay[] {
  inRange('maxBayM2', maxBayM2, Number.MIN_VALUE, Number.MAX_VALUE);
  const areaM2 =
    inRange('lengthM', roof.lengthM, 0.5, 200) * inRange('widthM', roof.widthM, 0.5, 100);
  const least = Math.max(1, Math.ceil(areaM2 / maxBayM2 - 1e-9));
  inRange('number of bays', least, 1, 5000);
  const { rows, columns } = shortestSplit(roof, least);
  const fromRight = roof.edges.right === 'abutment' && roof.edges.left !== 'abutment';
  const of = rows * columns;
  return Array.from({ length: of }, (_, i): Bay => {
    const row = Math.floor(i / columns);
    const step = i % columns;
    const edges: Record<EdgeSide, BayEdgeKind> = { ...roof.edges };
    if (row > 0) edges.high = 'earlier-bay';
    if (row < rows - 1) edges.low = 'next-bay';
    const [behind, ahead]: [EdgeSide, EdgeSide] = fromRight ? ['right', 'left'] : ['left', 'right'];
    if (step > 0) edges[behind] = 'earlier-bay';
    if (step < columns - 1) edges[ahead] = 'next-bay';
    const part: RoofPart = {
      ...roof,
      lengthM: roof.lengthM / columns,
      widthM: roof.widthM / rows,
      edges,
      // Outlets lie low: in the last row.
      outlets: row === rows - 1 ? share(roof.outlets, step, columns) : 0,
      pipes: share(roof.pipes, i, of),
      rooflights: share(roof.rooflights, i, of),
    };
    return {
      number: i + 1,
      of,
      part,
      areaM2: areaM2 / of,
      nightSealM: edgeLengthM(part, 'next-bay'),
      joinM: edgeLengthM(part, 'earlier-bay'),
    };
  });
}

/** Rows up the fall and columns along it with the least inner edge; a tie keeps water off the edges. */
function shortestSplit(roof: Roof, least: number): { rows: number; columns: number } {
  const mostRows = Math.max(1, Math.floor(roof.widthM / NARROWEST_BAY_M));
  const mostColumns = Math.max(1, Math.floor(roof.lengthM / NARROWEST_BAY_M));
  let best = { rows: Math.min(least, mostRows), columns: mostColumns };
  let bestM = Number.POSITIVE_INFINITY;
  for (let rows = 1; rows <= Math.min(least, mostRows); rows += 1) {
    const columns = Math.ceil(least / rows);
    if (columns > mostColumns || rows * columns > Math.max(least, Math.floor(least * MORE_BAYS)))
      continue;
    const innerM = (rows - 1) * roof.lengthM + (columns - 1) * roof.widthM;
    if (innerM < bestM - 1e-9) {
      best = { rows, columns };
      bestM = innerM;
    }
  }
  if (Number.isFinite(bestM)) return best;
  // No split of that many: the nearest one with enough bays, or as many as fit on the roof.
  const rows = Math.min(mostRows, Math.ceil(least / mostColumns));
  return { rows, columns: Math.min(mostColumns, Math.ceil(least / rows)) };
}

function edgeLengthM(part: RoofPart, kind: BayEdgeKind): number {
  return SIDES.reduce((sum, s) => sum + (part.edges[s] === kind ? sideLengthM(part, s) : 0), 0);
}

/** Whole features spread evenly over the bays; the parts add up to the whole. */
function share(total: number, index: number, count: number): number {
  return Math.floor((total * (index + 1)) / count) - Math.floor((total * index) / count);
}
