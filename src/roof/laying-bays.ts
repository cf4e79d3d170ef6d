import { inRange } from '../units/index.ts';
import { type AnyRoof, isDrawn, outlineOf } from './any-roof.ts';
import type { LayingBay } from './bay-take-off.ts';
import { outlineBays } from './outline-bays.ts';

/** Splits of a roof that are kept: a search for its days asks for many and goes back to the last. */
const SPLITS_KEPT = 4;

const splits = new WeakMap<AnyRoof, Map<number, readonly LayingBay[]>>();

/**
 * The laying days of a roof in working order. Of a rectangle by its sizes the features are only counted:
 * its bays are even, whatever stands where.
 * @param roof a rectangle by its sizes, or a drawing that `roofIssues` finds nothing to refuse in
 * @param maxBayM2 largest bay [m2], above 0; a bay is at most 5 % larger, but for strips under 1 m wide
 * @throws RangeError on a size outside its range, NaN included, or a refused drawing
 */
export function layingBays(roof: AnyRoof, maxBayM2: number): readonly LayingBay[] {
  inRange('maxBayM2', maxBayM2, Number.MIN_VALUE, Number.MAX_VALUE);
  const known = splits.get(roof) ?? new Map<number, readonly LayingBay[]>();
  splits.set(roof, known);
  const bays = known.get(maxBayM2) ?? outlineBays(outlineOf(roof), maxBayM2, isDrawn(roof));
  // Asked for again, it is the youngest.
  known.delete(maxBayM2);
  known.set(maxBayM2, bays);
  const [oldest] = known.keys();
  if (known.size > SPLITS_KEPT && oldest !== undefined) known.delete(oldest);
  return bays;
}
