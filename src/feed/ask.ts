import { inRange } from '../units/index.ts';
import { cacheKey, roundedPlace } from './cache.ts';
import { callWeight } from './call-weight.ts';
import { BEST_MATCH, findModel } from './models.ts';
import type { Place } from './types.ts';

/** What a caller wants to know the weather of. */
export interface Wish extends Place {
  /** Height of the site [m]; null = the provider's terrain model decides. */
  readonly elevationM: number | null;
  /** Coming days from 00:00 UTC today, 1..16. */
  readonly days: number;
  /** Days before today, 0..5: what fell on a bare deck, as it was forecast. */
  readonly pastDays?: number;
}

/** A wish made into one request. */
export interface Ask {
  readonly endpoint: 'ensemble' | 'forecast';
  readonly model: string;
  readonly place: Place;
  readonly elevationM: number | null;
  readonly days: number;
  readonly pastDays: number;
  readonly key: string;
  readonly weight: number;
  /** Forecasts a whole answer carries; null = not known. */
  readonly count: number | null;
}

/** Dew point comes with a decimal, relative humidity without; the provider makes one from the other. */
const WANTED = [
  'temperature_2m',
  'dew_point_2m',
  'wind_speed_10m',
  'wind_gusts_10m',
  'precipitation',
  'cloud_cover',
  'shortwave_radiation',
  'cape',
];
/** A single forecast has a chance of rain of its own; of an ensemble the forecasts are counted. */
const wantedOf = (endpoint: Ask['endpoint']): readonly string[] =>
  endpoint === 'forecast' ? [...WANTED, 'precipitation_probability'] : WANTED;

/** Past days asked for where the caller says nothing; members of ensembles are kept about three days. */
const PAST_DAYS = { ensemble: 1, forecast: 2 };

function wholeInRange(name: string, value: number, low: number, high: number): number {
  if (Number.isInteger(value)) return inRange(name, value, low, high);
  throw new RangeError(`${name} (${value}) must be a whole number in ${low}..${high}`);
}

/** @throws RangeError for a place or height outside what the provider offers */
export function checkWish(wish: Omit<Wish, 'days'>): void {
  inRange('latitudeDeg', wish.latitudeDeg, -90, 90);
  inRange('longitudeDeg', wish.longitudeDeg, -180, 180);
  if (wish.elevationM !== null) inRange('elevationM', wish.elevationM, -500, 9000);
}

/** @throws RangeError for a place, height or length outside what the provider offers */
export function makeAsk(endpoint: Ask['endpoint'], model: string, wish: Wish): Ask {
  checkWish(wish);
  const days = wholeInRange('days', wish.days, 1, 16);
  const pastDays = wholeInRange('pastDays', wish.pastDays ?? PAST_DAYS[endpoint], 0, 5);
  const asked = endpoint === 'ensemble' ? model : BEST_MATCH;
  const count = endpoint === 'ensemble' ? (findModel(model)?.count ?? null) : 1;
  return {
    endpoint,
    model: asked,
    place: roundedPlace(wish),
    elevationM: wish.elevationM,
    days,
    pastDays,
    key: cacheKey(endpoint, asked, wish),
    weight: callWeight({
      variables: wantedOf(endpoint).length,
      forecasts: count ?? 1,
      days: days + pastDays,
    }),
    count,
  };
}

export function askUrl(ask: Ask, baseUrl: string): URL {
  const url = utcUrl(ask, baseUrl);
  const set = (name: string, value: string | number) => url.searchParams.set(name, String(value));
  set('hourly', wantedOf(ask.endpoint).join(','));
  if (ask.model !== BEST_MATCH) set('models', ask.model);
  set('forecast_days', ask.days);
  set('past_days', ask.pastDays);
  return url;
}

/** UTC unix times and m/s, so that neither clock changes nor the km/h default can shift anything. */
export function utcUrl(
  { endpoint, place, elevationM }: Pick<Ask, 'endpoint' | 'place' | 'elevationM'>,
  baseUrl: string,
): URL {
  const url = new URL(`${baseUrl.replace(/\/+$/, '')}/v1/${endpoint}`);
  const set = (name: string, value: string | number) => url.searchParams.set(name, String(value));
  set('latitude', place.latitudeDeg);
  set('longitude', place.longitudeDeg);
  if (elevationM !== null) set('elevation', Math.round(elevationM));
  set('timezone', 'GMT');
  set('timeformat', 'unixtime');
  set('wind_speed_unit', 'ms');
  return url;
}
