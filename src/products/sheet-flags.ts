import { MS_PER_HOUR } from '../units/index.ts';
import type { FilmWeather } from './film-weather.ts';
import {
  breaksLimit,
  brokenLimits,
  type Conditions,
  type LimitBreak,
  WEATHER_LIMITS,
  type WeatherLimit,
} from './limits.ts';
import type { Product } from './types.ts';

/** The weather over a film with what permission to use it hangs on. */
export interface SheetWeather extends FilmWeather {
  readonly airTempC: Float32Array;
  /** [mm] in each step. */
  readonly rainMm: Float32Array;
}

/** What can be wrong while a film lies open: a limit of its sheet, rain on it, and cold afterwards. */
export const SHEET_FLAGS = [...WEATHER_LIMITS, 'rain', 'cold'] as const;
export type SheetFlag = (typeof SHEET_FLAGS)[number];

const BIT = Object.fromEntries(SHEET_FLAGS.map((flag, n) => [flag, 1 << n])) as Readonly<
  Record<SheetFlag, number>
>;

/**
 * Permission, kept apart from speed: which limits of a product are broken when. A broken limit never
 * stops the clock; it puts the film outside its data sheet.
 */
export interface SheetFlags {
  readonly product: Product;
  readonly weather: SheetWeather;
  /** Per member and step [memberCount * steps]: a set of bits in the order of SHEET_FLAGS. */
  readonly bits: Uint8Array;
  /**
   * First moment of an interval, its ends included, at which a flag is up. One look-up, however long
   * the interval.
   * @returns epoch ms, or null where there is none in what the forecast reaches
   */
  first(flag: SheetFlag, m: number, fromMs: number, toMs: number): number | null;
}

/**
 * @param rainMmPerHour  rain that counts [mm/h]
 * @throws RangeError on a known step without air, surface or dew point temperature
 */
export function buildSheetFlags(
  product: Product,
  weather: SheetWeather,
  rainMmPerHour: number,
): SheetFlags {
  const { startMs, stepMs, steps, knownSteps } = weather;
  const bits = bitsOf(product, weather, rainMmPerHour);
  const nextUp: Partial<Record<SheetFlag, Int32Array>> = {};
  return {
    product,
    weather,
    bits,
    first(flag, m, fromMs, toMs) {
      const i = Math.max(0, Math.floor((fromMs - startMs) / stepMs));
      if (i >= knownSteps[m]!) return null;
      const next = nextUp[flag] ?? nextColumn(bits, BIT[flag], weather);
      nextUp[flag] = next;
      const step = next[m * steps + i]!;
      if (step >= knownSteps[m]!) return null;
      const atMs = Math.max(fromMs, startMs + step * stepMs);
      return atMs <= toMs ? atMs : null;
    },
  };
}

function bitsOf(product: Product, weather: SheetWeather, rainMmPerHour: number): Uint8Array {
  const { steps, memberCount, knownSteps, stepMs } = weather;
  const bits = new Uint8Array(memberCount * steps);
  const asked = WEATHER_LIMITS.filter((limit) => product.limits[limit] !== undefined);
  const rainInStep = (rainMmPerHour * stepMs) / MS_PER_HOUR;
  const { afterMinC } = product.limits;
  const coldC = afterMinC === undefined ? Number.NEGATIVE_INFINITY : Math.fround(afterMinC.value);
  for (let m = 0; m < memberCount; m += 1) {
    for (let at = m * steps; at < m * steps + knownSteps[m]!; at += 1) {
      const now = conditionsAt(weather, at);
      let up = weather.rainMm[at]! >= rainInStep ? BIT.rain : 0;
      if (now.airTempC < coldC) up |= BIT.cold;
      for (const limit of asked) if (breaksLimit(product, limit, now)) up |= BIT[limit];
      bits[at] = up;
    }
  }
  return bits;
}

function conditionsAt({ airTempC, surfaceTempC, dewPointC }: SheetWeather, at: number): Conditions {
  return {
    airTempC: airTempC[at]!,
    surfaceTempC: surfaceTempC[at]!,
    dewPointC: dewPointC[at]!,
  };
}

/** Per member and step: the next step from here on with the bit, `steps` where there is none. */
function nextColumn(bits: Uint8Array, bit: number, weather: SheetWeather): Int32Array {
  const { steps, memberCount } = weather;
  const out = new Int32Array(memberCount * steps);
  for (let m = 0; m < memberCount; m += 1) {
    let next = steps;
    for (let i = steps - 1; i >= 0; i -= 1) {
      if ((bits[m * steps + i]! & bit) !== 0) next = i;
      out[m * steps + i] = next;
    }
  }
  return out;
}

/** The limits broken while a film lies between two moments, each where it first is. */
export function sheetBreaks(
  flags: SheetFlags,
  m: number,
  fromMs: number,
  toMs: number,
): { readonly limit: WeatherLimit; readonly atMs: number }[] {
  return WEATHER_LIMITS.flatMap((limit) => {
    const atMs = flags.first(limit, m, fromMs, toMs);
    return atMs === null ? [] : [{ limit, atMs }];
  });
}

/** What is and what is asked at a moment when a limit is broken. */
export function breakAt(flags: SheetFlags, limit: WeatherLimit, m: number, ms: number): LimitBreak {
  const { weather, product } = flags;
  const i = Math.floor((ms - weather.startMs) / weather.stepMs);
  const found = brokenLimits(product, conditionsAt(weather, m * weather.steps + i)).find(
    (broken) => broken.limit === limit,
  );
  if (found === undefined) throw new Error(`${limit} is not broken in forecast ${m} at ${ms}`);
  return found;
}

export type ColdAfter =
  | { readonly kind: 'warm' | 'unknown' }
  | { readonly kind: 'cold'; readonly atMs: number };

/** Does the air stay warm enough for the hours the sheet asks after laying? Null where it asks none. */
export function coldAfter(flags: SheetFlags, m: number, laidMs: number): ColdAfter | null {
  const { afterMinC, hoursAfter } = flags.product.limits;
  if (afterMinC === undefined || hoursAfter === undefined) return null;
  const { startMs, stepMs, knownSteps } = flags.weather;
  const untilMs = laidMs + hoursAfter.value * MS_PER_HOUR;
  const atMs = flags.first('cold', m, laidMs, untilMs);
  if (atMs !== null) return { kind: 'cold', atMs };
  // Near its end a forecast may show a cold night, but never a warm one.
  const reaches = laidMs >= startMs && untilMs <= startMs + knownSteps[m]! * stepMs;
  return { kind: reaches ? 'warm' : 'unknown' };
}
