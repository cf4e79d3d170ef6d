import { MS_PER_MINUTE } from '../units/index.ts';
import type { DoseTable } from './dose.ts';
import { whenReached } from './dose.ts';
import type { ClockEvent, Product, RefTime } from './types.ts';

/** Early, middle and late of one event, over product scatter and forecasts; null = not in the time looked at. */
export interface ClockRange {
  readonly earlyMs: number | null;
  readonly midMs: number | null;
  readonly lateMs: number | null;
}

export interface Clock {
  readonly touchDry: ClockRange | null;
  readonly usableUntil: ClockRange | null;
  readonly rainAfter: ClockRange | null;
}

/** Share of forecasts cut off at each end of a range. */
const TAIL = 0.1;

/**
 * The clock of an area coated at `coatedMs`: early is the fast end of the product's scatter in the
 * faster forecasts, late the slow end in the slower ones. Forecasts that end first count as late.
 */
export function readClock(product: Product, table: DoseTable, coatedMs: number): Clock {
  return {
    touchDry: range(product, 'touchDry', table, coatedMs),
    usableUntil:
      product.openEndsBy === 'time'
        ? fixed(product.openUntil, coatedMs)
        : range(product, 'openUntil', table, coatedMs),
    rainAfter: range(product, 'rainAfter', table, coatedMs),
  };
}

function range(
  product: Product,
  event: ClockEvent,
  table: DoseTable,
  coatedMs: number,
): ClockRange | null {
  const time = product[event];
  if (time === null) return null;
  return {
    earlyMs: quantile(table, event, coatedMs, time.lowMin, TAIL),
    midMs: quantile(table, event, coatedMs, time.typicalMin, 0.5),
    lateMs: quantile(table, event, coatedMs, time.highMin, 1 - TAIL),
  };
}

/** Plain time runs alike in every forecast. */
function fixed(time: RefTime | null, coatedMs: number): ClockRange | null {
  if (time === null) return null;
  const after = (minutes: number): number => coatedMs + minutes * MS_PER_MINUTE;
  return {
    earlyMs: after(time.lowMin),
    midMs: after(time.typicalMin),
    lateMs: after(time.highMin),
  };
}

function quantile(
  table: DoseTable,
  event: ClockEvent,
  coatedMs: number,
  refMin: number,
  share: number,
): number | null {
  const times: number[] = [];
  for (let m = 0; m < table.film.memberCount; m += 1) {
    times.push(whenReached(table, event, m, coatedMs, refMin) ?? Number.POSITIVE_INFINITY);
  }
  times.sort((a, b) => a - b);
  const found =
    times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? Number.POSITIVE_INFINITY;
  return Number.isFinite(found) ? found : null;
}
