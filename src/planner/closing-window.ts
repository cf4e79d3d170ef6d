import { type Product, waitsFor } from '../products/index.ts';

/** Usable minutes worked with; in between, the next lower one, so that days share their lists. */
export const USABLE_MINUTES = [
  1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 60, 90, 120, 180, 240,
];
const LONGEST = 240;

export const stepDown = (minutes: number): number =>
  USABLE_MINUTES.findLast((step) => step <= minutes) ?? USABLE_MINUTES[0]!;

/**
 * Minutes in which a coated section may be closed: from touch dry, or cream time, to the end of open
 * time; the whole open time of a film that is closed wet at once.
 * @param speed  drying speed, 1 = as at the product's reference conditions
 */
export function closingWindow(product: Product, speed: number): number {
  if (product.openUntil === null) return LONGEST;
  const readyMin = waitsFor(product)?.time.typicalMin ?? 0;
  return stepDown(
    product.openEndsBy === 'time'
      ? product.openUntil.typicalMin - readyMin / speed
      : (product.openUntil.typicalMin - readyMin) / speed,
  );
}
