import { type AnyRoof, outlineOf } from './any-roof.ts';
import type { LayingBay } from './bay-take-off.ts';
import { outlineBays } from './outline-bays.ts';

/**
 * The laying days of a roof in working order.
 * @param roof a rectangle by its sizes, or a drawing that `roofIssues` finds nothing to refuse in
 * @param maxBayM2 largest bay [m2], above 0
 * @throws RangeError on a size outside its range, NaN included, or a refused drawing
 */
export function layingBays(roof: AnyRoof, maxBayM2: number): readonly LayingBay[] {
  return outlineBays(outlineOf(roof), maxBayM2);
}
