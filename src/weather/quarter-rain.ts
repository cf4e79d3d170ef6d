/** Rain of one short-range run by the quarter hour: when within its hour a forecast's rain falls. */
import { inRange, MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import type { QuarterRain } from './types.ts';

export const QUARTER_MS = 15 * MS_PER_MINUTE;
export const QUARTERS_PER_HOUR = MS_PER_HOUR / QUARTER_MS;

/**
 * So long after its issue the run's quarter hours hold for every forecast [h]; then for fewer and fewer, 1/e
 * of them after each further `FADE_H`. Judged, not fitted (runs by the quarter hour with what fell
 * afterwards were not at hand): rain that is on its way keeps its minute for some hours, a shower half
 * a day out has none.
 */
const WHOLE_H = 3;
const FADE_H = 6;
/** Fewer than this and the run times nothing: its last forecast would stand for chance alone. */
const LEAST_SHARE = 0.02;

/** How the rain of the hour that ends at an instant is shared among its quarters, for whom. */
export interface HourTiming {
  /** Four, oldest first; they add up to 1 but for the last digit. */
  readonly shares: readonly number[];
  /** Share of the forecasts that take this timing, over 0 to 1. */
  readonly taken: number;
}

/**
 * The timing of the hour ending at `hourEndMs`.
 *
 * It fades by forecasts, not by amounts: a little rain in every quarter would be rain all hour to a rule that
 * asks whether it rains, so that nothing would be timed at all. So some forecasts take it whole and the
 * others have rain all hour, as likely as the timing is good.
 *
 * @returns null where a quarter is missing, where the run is dry, where its quarters are even (all an
 *   interpolated hour can be), and where the run is too old
 */
export function timingOf(quarters: QuarterRain, hourEndMs: number): HourTiming | null {
  const { startMs, rainMm } = quarters;
  const last = (hourEndMs - startMs) / QUARTER_MS;
  const first = last - (QUARTERS_PER_HOUR - 1);
  if (!Number.isInteger(last) || first < 0 || last >= rainMm.length) return null;
  const four = rainMm.subarray(first, last + 1);
  const sumMm = four.reduce((sum, mm) => sum + mm, 0);
  // NaN where one is missing.
  if (!(sumMm > 0) || four.every((mm) => mm === four[0])) return null;
  const taken = shareTaken(quarters, hourEndMs - MS_PER_HOUR);
  return taken < LEAST_SHARE ? null : { shares: Array.from(four, (mm) => mm / sumMm), taken };
}

/** Of all forecasts, how many take the timing of an hour that begins at an instant, 0..1. */
function shareTaken({ knownMs }: QuarterRain, hourStartMs: number): number {
  const leadH = (hourStartMs - knownMs) / MS_PER_HOUR;
  return Math.exp(-Math.max(0, leadH - WHOLE_H) / FADE_H);
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Whether forecast `m` takes the timing. The same forecasts take it for as long as any do, and of any number
 * of forecasts about the right share do.
 * @param m  place in the list of forecasts, 0...
 */
export function takesTiming(m: number, taken: number): boolean {
  return ((m + 0.5) * GOLDEN) % 1 < taken;
}

/**
 * An hour's rain in its four quarters.
 * @param sumMm  [mm], 0 or more
 * @returns [mm]; they add up, in any order, to exactly `sumMm`; a quarter without a share stays dry
 * @throws RangeError on a sum below 0 or NaN
 */
export function quartersOf(sumMm: number, { shares }: Pick<HourTiming, 'shares'>): number[] {
  inRange('sumMm', sumMm, 0, 1e6);
  // Rounded to a multiple of the sum's last digit: such numbers below the sum add without error.
  const parts = shares.map((share) => sumMm + sumMm * share - sumMm);
  const largest = shares.indexOf(Math.max(...shares));
  const others = parts.reduce((sum, mm, i) => (i === largest ? sum : sum + mm), 0);
  parts[largest] = sumMm - others;
  return parts;
}

/** The run's rain by whole hours, for what asks for hours; NaN where a quarter is missing. */
export function hourlyOf(quarters: QuarterRain): { startMs: number; rainMm: Float64Array } {
  const { startMs, rainMm } = quarters;
  const firstEndMs =
    Math.ceil((startMs + (QUARTERS_PER_HOUR - 1) * QUARTER_MS) / MS_PER_HOUR) * MS_PER_HOUR;
  const skip = (firstEndMs - startMs) / QUARTER_MS - (QUARTERS_PER_HOUR - 1);
  const hours = Math.max(0, Math.floor((rainMm.length - skip) / QUARTERS_PER_HOUR));
  return {
    startMs: firstEndMs,
    rainMm: Float64Array.from({ length: hours }, (_, h) => {
      const from = skip + h * QUARTERS_PER_HOUR;
      return rainMm.subarray(from, from + QUARTERS_PER_HOUR).reduce((sum, mm) => sum + mm, 0);
    }),
  };
}
