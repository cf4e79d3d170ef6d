/**
 * How far forecasts err, and how that grows with lead time [days]. Typical of hourly values at one
 * place in the mid-latitudes; no forecast of this firm has been checked yet.
 */

/** Spread [unit of the thing] of what errs from hour to hour and of what errs for days. */
export interface Spread {
  /** Local and short: a cloud, a shower, the lie of the land. Does not grow. */
  readonly quick: number;
  /** The weather map itself; grows. */
  readonly slow: number;
}

/** Memory of the two parts [h] (from memory: a passing cloud, a passing front). */
export const QUICK_HOURS = 5;
export const SLOW_HOURS = 16;

const growing =
  (quick: number, slowToday: number, perDay: number, slowMost: number) =>
  (leadDays: number): Spread => ({
    quick,
    slow: Math.min(slowMost, slowToday + perDay * leadDays),
  });

/**
 * Air temperature at 2 m [K]: in all 1.5 today, 1.6 at one day, 2.4 at four, 3.7 from nine days on.
 * Lead to two days set beside issued daily highs of the US National Weather Service and what came
 * (root mean square 1.5 K at half a day, 1.9 K at two); 3 to 4 K at ten days is common practice.
 */
export const airTempSpreadK = growing(1.3, 0.65, 0.33, 3.5);

/** Dew point [K]: a little more than air temperature (from memory). */
export const dewPointSpreadK = growing(1.5, 0.75, 0.38, 4);
/** Share of the dew point's error that goes with that of the air, as a correlation (from memory). */
export const DEW_WITH_AIR = 0.5;

/** Mean wind at 10 m [m/s]: 1.2 today to 2.5 at ten days (from memory). */
export const windSpreadMps = growing(1, 0.6, 0.17, 2.3);
/** A gust errs by this much for each m/s of the mean wind (inland gust factor, common practice). */
export const GUST_WITH_WIND = 1.6;
/** And on its own account [m/s] (from memory). */
export const GUST_SPREAD_MPS = 1;

/** Cloud cover [% of sky]: 20 today to 40 (from memory). */
export const cloudSpreadPct = growing(18, 10, 3, 35);
/** How far cloud goes with rain, as a correlation (from memory). */
export const CLOUD_WITH_RAIN = 0.6;
/** Spread of the logarithm of sunlight at the same cloud cover: thin and thick cloud (from memory). */
export const SUN_LOG_SPREAD = 0.15;

/**
 * When rain comes, earlier or later [h]: half an hour now, 1 h at one day, 6 h at five days and beyond
 * (common practice).
 */
export function timingSpreadHours(leadDays: number): number {
  return leadDays < 1 ? 0.5 + 0.5 * leadDays : Math.min(6, 1 + 1.25 * (leadDays - 1));
}
export const TIMING_MEMORY_HOURS = 24;

/**
 * Memory of being wetter or drier than forecast [h]. An hour of rain at De Bilt is followed by one in
 * 66 of 100 cases, after 3 h in 44, after 6 h in 29: as normal numbers cut at one level that hang
 * together over 7 h (KNMI 2018-2019). A forecast's own chances tell part of that already, so that spells
 * come out rather long and dry stretches rather many.
 */
export const WET_MEMORY_HOURS = 7;
export const AMOUNT_MEMORY_HOURS = 3;

/** Chance of rain in an hour nobody forecast (De Bilt 2018-2020: 9 to 12 of 100 hours). */
const ANY_HOUR = 0.12;
/** Lead over which an hourly amount loses its meaning, after the first day (from memory). */
const SKILL_DAYS = 6;

/**
 * Chance of rain in an hour for which an amount but no chance is given, the time being right.
 * @param amountMm  0 or more
 * @returns 0.03..0.85 (from memory), fading towards that of any hour with lead
 */
export function chanceFromAmount(amountMm: number, leadDays: number): number {
  const fresh = amountMm >= 1 ? 0.85 : amountMm >= 0.1 ? 0.65 : amountMm > 0 ? 0.25 : 0.03;
  const skill = Math.exp(-Math.max(0, leadDays - 1) / SKILL_DAYS);
  return ANY_HOUR + (fresh - ANY_HOUR) * skill;
}

/** Spread of the logarithm of an hour's rain about the forecast's own amount (from memory). */
export const AMOUNT_LOG_SPREAD = 0.8;
/** Rain in an hour that the forecast has dry: median [mm] and spread of its logarithm at De Bilt 2018-2020. */
export const UNFORECAST_MM = 0.4;
export const UNFORECAST_LOG_SPREAD = 1.1;

/** In hours with rain at De Bilt 96 to 98 of 100 have 7 eighths of cloud or more. */
export const WET_CLOUD_PCT = 90;
/** And 9 of 10 have the dew point within 3 K of the air. */
export const WET_DEPRESSION_K = 3;
