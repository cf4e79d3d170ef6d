import type { Product } from '../products/index.ts';
import { USABLE_SHARE } from './context.ts';
import { type LabourRate, type LabourRates, TASK_SHARES } from './rates.ts';

/** Longest length coated at once, however long the window [m]; common practice. */
export const LONGEST_AT_ONCE_M = { edges: 20, upstands: 10, laps: 15 } as const;

/** How the field is spread: which rate, which share of it is coating, how many hands. */
export interface FieldMethod {
  readonly rate: LabourRate;
  readonly coatShare: number;
  readonly people: number;
}

export function fieldMethod(field: Product, rates: LabourRates, people: number): FieldMethod {
  const touchDry = field.closing === 'touch-dry';
  const polyurethane = field.mechanism === 'moisture-cure' || field.mechanism === 'chemical';
  const rate = touchDry
    ? rates.fieldContact
    : polyurethane
      ? rates.fieldPolyurethane
      : rates.fieldWet;
  // A gang of the usual size, one more to hand up; from there on a second gang beside it.
  const gangs = Math.ceil(people / (rate.crew + 1));
  return {
    rate,
    coatShare: touchDry ? TASK_SHARES.fieldContactCoat : TASK_SHARES.fieldWetCoat,
    people: Math.min(people, gangs * rate.crew),
  };
}

/**
 * Largest area whose coating and closing together take no more than two thirds of the usable minutes.
 *
 * Wet: the first square metre must still be wet when the last is rolled in, so coating + closing count.
 * Touch dry: the last metre coated is ready last and the first expires first, so of the window between
 * ready and expired coating and closing together take their part as well.
 * @param usableMin wet: open time; touch dry: minutes from touch dry to the end of open time
 * @returns [m2]
 */
export function largestSectionM2(method: FieldMethod, usableMin: number): number {
  return ((usableMin * USABLE_SHARE) / 60) * method.people * method.rate.typical;
}

/** Minutes a touch-dry product can be closed in, at its sheet's typical figures; 30 where it has none. */
export function windowMin(product: Product): number {
  if (product.openUntil === null) return 30;
  return Math.max(1, product.openUntil.typicalMin - (product.touchDry?.typicalMin ?? 0));
}
