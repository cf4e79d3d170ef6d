import { type Product, rateAt } from '../products/index.ts';
import { wallTimeMs } from '../time/index.ts';
import type { SurfaceSpec } from '../weather/index.ts';
import type { Prepared } from './prepare.ts';
import { quantile } from './quantile.ts';
import type { Shift } from './shift.ts';

/** Sections are sized for the hour the deck is likely at its busiest. */
const SIZING_HOUR = '11:00';
/** Share of forecasts that may dry faster than sized for; the crew holds in those. */
const FASTER_SHARE = 0.25;
/** Usable minutes worked with; in between, the next lower one, so that days share their lists. */
const USABLE_MINUTES = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 60, 90, 120, 180, 240];
const LONGEST = 240;

/** Usable minutes of one day's weather by where the adhesive goes. */
export interface Usable {
  readonly usableMin: number;
  readonly usablePerimeterMin: number;
  readonly usablePrimerMin: number;
}

export function usableOn(prepared: Prepared, shift: Shift): Usable {
  const { field, perimeter, primer } = prepared.products;
  return {
    usableMin: usable(prepared, shift, field, 'deck'),
    usablePerimeterMin: usable(prepared, shift, perimeter, 'deck'),
    usablePrimerMin: usable(prepared, shift, primer, 'sheet'),
  };
}

function usable(
  prepared: Prepared,
  shift: Shift,
  product: Product,
  kind: SurfaceSpec['kind'],
): number {
  const atMs = wallTimeMs(shift.day, SIZING_HOUR, prepared.job.site.timeZone);
  const doses = prepared.doses(product.id, kind);
  const speeds: number[] = [];
  for (let m = 0; m < prepared.grid.memberCount; m += 1) {
    const speed = rateAt(doses, 'openUntil', m, atMs);
    if (speed > 0) speeds.push(speed);
  }
  return closingWindow(product, quantile(speeds, 1 - FASTER_SHARE) ?? 1);
}

/**
 * Minutes in which a coated section may be closed: the whole open time of a film closed wet, from
 * touch dry to the end of open time otherwise.
 * @param speed  drying speed, 1 = as at the product's reference conditions
 */
export function closingWindow(product: Product, speed: number): number {
  if (product.openUntil === null) return LONGEST;
  const readyMin = product.closing === 'touch-dry' ? (product.touchDry?.typicalMin ?? 0) : 0;
  const minutes =
    product.openEndsBy === 'time'
      ? product.openUntil.typicalMin - readyMin / speed
      : (product.openUntil.typicalMin - readyMin) / speed;
  return USABLE_MINUTES.findLast((step) => step <= minutes) ?? USABLE_MINUTES[0]!;
}
