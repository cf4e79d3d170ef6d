import type { RefTime, SpeedCorrection } from '../products/index.ts';
import { inRange, MS_PER_HOUR } from '../units/index.ts';
import { type Normal, SD_PER_80_PCT, type Seen, updateNormal } from './normal-update.ts';

const MS_PER_DAY = 24 * MS_PER_HOUR;

/*
 * Speeds are compared on the logarithmic scale, where twice as fast and half as fast lie equally far
 * from the sheet: x = ln(speed over the sheet's).
 */

/** After this long an entry counts half: new batches, another season, other hands (from memory). */
export const HALF_LIFE_DAYS = 180;
/** Entries older than this are left out: they would count less than a sixteenth. */
export const OLDEST_DAYS = 4 * HALF_LIFE_DAYS;
/**
 * Share of the sheet's variance that stays the same for one firm from film to film (its rollers, its way
 * of spreading, its supplier); the rest differs from one film to the next (from memory).
 */
export const LASTING_SHARE = 0.5;
/** A sheet that prints one number has scatter all the same (from memory). */
export const LEAST_SHEET_SD = 0.15;
/**
 * What the reckoned speed of drying is off by on one day, alike for all films of a job that day: surface
 * temperature to about 2 K and wind over the film to about a third (from memory).
 */
export const WEATHER_SD = 0.2;
/** Somebody looks every few minutes and writes whole minutes down [min] (from memory). */
export const LOOK_SD_MIN = 3;

/** How the sheet's own scatter splits; standard deviations of ln speed. */
export interface SheetScatter {
  /** From firm to firm: what there is to learn. */
  readonly lastingSd: number;
  /** From film to film: what stays however much is logged. */
  readonly filmSd: number;
}

/** The sheet's low to high is read as the middle 80 % of films; a data sheet does not say how many. */
export function sheetScatter(touchDry: RefTime): SheetScatter {
  const printedSd = Math.log(touchDry.highMin / touchDry.lowMin) / (2 * SD_PER_80_PCT);
  const sd = Math.max(LEAST_SHEET_SD, printedSd);
  return { lastingSd: sd * Math.sqrt(LASTING_SHARE), filmSd: sd * Math.sqrt(1 - LASTING_SHARE) };
}

/** One film's speed as it was seen. */
export interface Sighting {
  readonly id: string;
  /** ln(speed over the sheet's). */
  readonly logSpeed: number;
  /** Reckoned minutes to touch dry by the sheet under that weather, above 0. */
  readonly expectedMin: number;
  /** Scatter of ln drying between the forecasts for that time. */
  readonly forecastSd: number;
  /** Job and local day: films of one day share one weather error. */
  readonly dayKey: string;
  readonly dryMs: number;
}

/** What the firm's films say of one product. */
export interface FirmSpeed {
  /** ln(speed over the sheet's) of this firm's films in general. */
  readonly logSpeed: Normal;
  readonly scatter: SheetScatter;
  readonly films: number;
  readonly days: number;
  /** Films, each counted by its age: 1 when new, 0.5 after the half-life. */
  readonly effectiveFilms: number;
}

/** Variance of one film's sighting by itself, without the weather error it shares with its day. */
function ownVariance(sighting: Sighting, { filmSd }: SheetScatter): number {
  const lookSd = LOOK_SD_MIN / inRange('expectedMin', sighting.expectedMin, 1e-6, 1e7);
  return filmSd ** 2 + lookSd ** 2 + inRange('forecastSd', sighting.forecastSd, 0, 10) ** 2;
}

/** True where an entry is too old to be learned from. */
export function isTooOld(dryMs: number, nowMs: number): boolean {
  return nowMs - dryMs > OLDEST_DAYS * MS_PER_DAY;
}

/** Counted in whole days, so that an answer does not change from one second to the next. */
function ageWeight(dryMs: number, nowMs: number): number {
  return 2 ** (-Math.max(0, Math.floor((nowMs - dryMs) / MS_PER_DAY)) / HALF_LIFE_DAYS);
}

/**
 * How fast this firm's films of a product dry: the sheet (ln speed 0, scattering from firm to firm by
 * `lastingSd`) corrected by what was seen. Films of one day are first put together, because the weather
 * of that day was misjudged for all of them alike; days are then weighted by age.
 * More sightings never widen the result. With none it is the sheet.
 * @param sightings  [n], any order: the result is the same to the last bit
 * @param nowMs  for the age; entries later than this count as new
 * @throws RangeError on a value out of range, NaN included
 * @source conjugate normal, see `updateNormal`; tests/laws/learning.test.ts integrates it numerically
 */
export function firmSpeed(
  scatter: SheetScatter,
  sightings: readonly Sighting[],
  nowMs: number,
): FirmSpeed {
  const ordered = [...sightings].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  const days = new Map<string, { precision: number; sum: number; newestMs: number }>();
  let effectiveFilms = 0;
  for (const sighting of ordered) {
    const { dayKey, dryMs, logSpeed } = sighting;
    const precision = 1 / ownVariance(sighting, scatter);
    const day = days.get(dayKey) ?? { precision: 0, sum: 0, newestMs: dryMs };
    days.set(dayKey, {
      precision: day.precision + precision,
      sum: day.sum + precision * inRange('logSpeed', logSpeed, -20, 20),
      newestMs: Math.max(day.newestMs, dryMs),
    });
    effectiveFilms += ageWeight(dryMs, nowMs);
  }
  const seen = [...days.values()].map(
    ({ precision, sum, newestMs }): Seen => ({
      value: sum / precision,
      variance: WEATHER_SD ** 2 + 1 / precision,
      weight: ageWeight(newestMs, nowMs),
    }),
  );
  return {
    logSpeed: updateNormal({ mean: 0, sd: scatter.lastingSd }, seen),
    scatter,
    films: ordered.length,
    days: days.size,
    effectiveFilms,
  };
}

/** Standard deviation of ln speed of the next film itself, whoever looks at it. */
export function nextFilmSd({ logSpeed, scatter }: FirmSpeed): number {
  return Math.hypot(logSpeed.sd, scatter.filmSd);
}

/** How far a sighting lies from what was expected of it, in standard deviations; above 0 = faster. */
export function surprise(speed: FirmSpeed, sighting: Sighting): number {
  const variance = speed.logSpeed.sd ** 2 + WEATHER_SD ** 2 + ownVariance(sighting, speed.scatter);
  return (sighting.logSpeed - speed.logSpeed.mean) / Math.sqrt(variance);
}

/** The same as `withSpeed` of products takes it. */
export function correctionOf(speed: FirmSpeed): SpeedCorrection {
  if (speed.films === 0) return { factor: 1, spread: 1 };
  const { lastingSd, filmSd } = speed.scatter;
  return {
    factor: Math.exp(speed.logSpeed.mean),
    spread: Math.min(1, nextFilmSd(speed) / Math.hypot(lastingSd, filmSd)),
  };
}
