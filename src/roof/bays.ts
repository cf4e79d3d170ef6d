import { inRange } from '../units/index.ts';
import { sideLengthM } from './take-off.ts';
import type { Bay, BayEdgeKind, EdgeSide, Roof } from './types.ts';

/**
 * Splits a roof into equal strips, one per laying day, in working order.
 *
 * The strips lie the way that gives the shorter inner edge, for it is lapped and night-sealed. Where
 * that edge runs across the fall the high strip goes first: its loose edge lies over what is below and
 * sheds water, and the next sheet slips under it. Where the edge runs up the fall no water crosses it,
 * and work starts at an abutment if one side has one, else at the left.
 * @param maxBayM2 largest bay [m2], above 0
 * @returns bays whose areas add up to the roof's
 * @throws RangeError on a size outside its range, NaN included
 * @source common practice
 */
export function splitIntoBays(roof: Roof, maxBayM2: number): readonly Bay[] {
  inRange('maxBayM2', maxBayM2, Number.MIN_VALUE, Number.MAX_VALUE);
  const areaM2 = roof.lengthM * roof.widthM;
  const count = Math.max(1, Math.ceil(areaM2 / maxBayM2 - 1e-9));
  inRange('number of bays', count, 1, 1000);
  const stacked = roof.lengthM < roof.widthM;
  const first: EdgeSide = stacked
    ? 'high'
    : roof.edges.right === 'abutment' && roof.edges.left !== 'abutment'
      ? 'right'
      : 'left';
  const last: EdgeSide = stacked ? 'low' : first === 'left' ? 'right' : 'left';
  return Array.from({ length: count }, (_, i): Bay => {
    const edges: Record<EdgeSide, BayEdgeKind> = { ...roof.edges };
    if (i > 0) edges[first] = 'earlier-bay';
    if (i < count - 1) edges[last] = 'next-bay';
    const part = {
      ...roof,
      lengthM: stacked ? roof.lengthM : roof.lengthM / count,
      widthM: stacked ? roof.widthM / count : roof.widthM,
      edges,
      outlets: stacked ? (i === count - 1 ? roof.outlets : 0) : share(roof.outlets, i, count),
      pipes: share(roof.pipes, i, count),
      rooflights: share(roof.rooflights, i, count),
    };
    return {
      number: i + 1,
      of: count,
      part,
      areaM2: areaM2 / count,
      nightSealM: i < count - 1 ? sideLengthM(part, last) : 0,
      joinM: i > 0 ? sideLengthM(part, first) : 0,
    };
  });
}

/** Whole features spread evenly over the bays; the parts add up to the whole. */
function share(total: number, index: number, count: number): number {
  return Math.floor((total * (index + 1)) / count) - Math.floor((total * index) / count);
}
