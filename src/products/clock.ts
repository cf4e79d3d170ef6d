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
  readonly footTraffic: ClockRange | null;
  readonly fullCure: ClockRange | null;
}

/** Share of forecasts cut off at each end of a range. */
const TAIL = 0.1;

/** Fast, ordinary and slow within a product's own scatter. */
export type ScatterLevel = 'lowMin' | 'typicalMin' | 'highMin';

/** Early, middle and late: which share of forecasts goes with which end of the scatter. */
export const SHARES: Readonly<Record<ScatterLevel, number>> = {
  lowMin: TAIL,
  typicalMin: 0.5,
  highMin: 1 - TAIL,
};

/** For a forecast: does the film lie outside its data sheet there? */
export type Outside = (m: number) => boolean;

/**
 * The clock of an area coated at `coatedMs`: early is the fast end of the product's scatter in the
 * faster forecasts, late the slow end in the slower ones. Forecasts that end first count as late.
 * @param outside  where it says yes, the end of open time runs on the fast end of its scatter only:
 *   nobody vouches for more of a film outside its data sheet
 * @throws RangeError on a time of coating that is not a number
 */
export function readClock(
  product: Product,
  table: DoseTable,
  coatedMs: number,
  outside: Outside | null = null,
): Clock {
  if (!Number.isFinite(coatedMs)) throw new RangeError(`coatedMs (${coatedMs}) must be a time`);
  return {
    touchDry: range(product.touchDry, 'touchDry', table, coatedMs, null),
    usableUntil:
      product.openEndsBy === 'time'
        ? fixed(product.openUntil, coatedMs, table.film.memberCount, outside)
        : range(product.openUntil, 'openUntil', table, coatedMs, outside),
    rainAfter: range(product.rainAfter, 'rainAfter', table, coatedMs, null),
    footTraffic: range(product.footTraffic, 'footTraffic', table, coatedMs, null),
    fullCure: range(product.fullCure, 'fullCure', table, coatedMs, null),
  };
}

function range(
  time: RefTime | null,
  event: ClockEvent,
  table: DoseTable,
  coatedMs: number,
  outside: Outside | null,
): ClockRange | null {
  if (time === null) return null;
  const { memberCount } = table.film;
  const at = (level: ScatterLevel): number | null =>
    atShare(memberCount, SHARES[level], (m) =>
      whenReached(table, event, m, coatedMs, outside?.(m) ? time.lowMin : time[level]),
    );
  return { earlyMs: at('lowMin'), midMs: at('typicalMin'), lateMs: at('highMin') };
}

/** Plain time runs alike in every forecast. */
function fixed(
  time: RefTime | null,
  coatedMs: number,
  memberCount: number,
  outside: Outside | null,
): ClockRange | null {
  if (time === null) return null;
  const at = (level: ScatterLevel): number | null =>
    atShare(
      memberCount,
      SHARES[level],
      (m) => coatedMs + (outside?.(m) ? time.lowMin : time[level]) * MS_PER_MINUTE,
    );
  return { earlyMs: at('lowMin'), midMs: at('typicalMin'), lateMs: at('highMin') };
}

/** The time that a share of the forecasts have come to; null where that lies beyond what they reach. */
export function atShare(
  memberCount: number,
  share: number,
  at: (m: number) => number | null,
): number | null {
  if (memberCount === 1) return at(0);
  const times = new Float64Array(memberCount);
  for (let m = 0; m < memberCount; m += 1) times[m] = at(m) ?? Number.POSITIVE_INFINITY;
  times.sort();
  const found = times[Math.min(memberCount - 1, Math.floor(share * memberCount))]!;
  return Number.isFinite(found) ? found : null;
}
