/** A forecast without an ensemble, made into members by the errors such forecasts usually have. */
import { dewPointC } from '../physics/index.ts';
import { inRange, MS_PER_HOUR } from '../units/index.ts';
import { blend, drawErrors, type Errors, evenDraws } from './members-from-one-draws.ts';
import {
  AMOUNT_MEMORY_HOURS,
  airTempSpreadK,
  CLOUD_WITH_RAIN,
  cloudSpreadPct,
  DEW_WITH_AIR,
  dewPointSpreadK,
  GUST_SPREAD_MPS,
  GUST_WITH_WIND,
  QUICK_HOURS,
  SLOW_HOURS,
  type Spread,
  SUN_LOG_SPREAD,
  TIMING_MEMORY_HOURS,
  WET_CLOUD_PCT,
  WET_DEPRESSION_K,
  WET_MEMORY_HOURS,
  windSpreadMps,
} from './members-from-one-growth.ts';
import { rainOf } from './members-from-one-rain.ts';
import { clearSkyByHour, lightThroughCloud } from './members-from-one-sun.ts';
import type { HourlyMember, HourlyWeather } from './types.ts';

export const MADE_NOTE =
  'made from one forecast; spread by common error growth, not by the weather centre';
export const NO_RAIN_CHANCE_NOTE =
  'no rain probability in this forecast: the chance of rain is taken from its amounts and the lead time';
export const GROWS_FROM_START_NOTE =
  'issue time not stated: errors are taken to grow from the first hour of the forecast';

export interface MadeOptions {
  /** Same seed, same members. Whole number; its lowest 32 bits count. */
  readonly seed: number;
  /** For the clear sky that no member may outshine. */
  readonly place: { readonly latitudeDeg: number; readonly longitudeDeg: number };
}

/**
 * Makes 31 members of a single forecast: temperature, dew point, wind, gust and cloud with errors that
 * hang together over hours and grow with lead time, sunlight by the cloud, rain by its hourly chance. Air
 * temperature, wind and cloud have the forecast as their exact middle at every hour, cloud but for hours of
 * rain. Dew point stays at or below the air, wind and gust at or above 0 and gust at or above wind,
 * sunlight at or below the clear sky's (or the forecast's own where that is more) and unchanged by night.
 *
 * Hours the forecast lacks stay unknown in every member, and a gust column it lacks stays null. What a
 * member has at an hour hangs on the forecast up to then but for rain, which may come some hours earlier.
 *
 * @returns the members, marked `madeFromOne` with notes; the same object where there is more than one
 *   forecast, or where the weather is invented for the demo
 * @throws RangeError on a seed that is not a whole number or a place off the globe
 * @source tables and weak points in docs/accuracy.md; tests/laws/members-from-one.test.ts
 * @accuracy one error growth for all places and seasons: see docs/accuracy.md
 */
export function membersFromOne(hourly: HourlyWeather, opts: MadeOptions): HourlyWeather {
  const { seed, place } = opts;
  if (!Number.isInteger(seed)) throw new RangeError(`seed (${seed}) must be a whole number`);
  inRange('latitudeDeg', place.latitudeDeg, -90, 90);
  inRange('longitudeDeg', place.longitudeDeg, -180, 180);
  const [one] = hourly.members;
  if (one === undefined || hourly.members.length > 1 || hourly.source.invented) return hourly;

  const leadDays = leadDaysOf(hourly);
  const errors = errorsOf(seed, leadDays);
  const chancePct = hourly.rainChancePct ?? null;
  const rain = rainOf(one.rainMm, chancePct, leadDays, errors.rain);
  const clearWm2 = clearSkyByHour({ ...place, startMs: hourly.startMs, hours: hourly.hours });
  const dew = one.dewPointC ?? dewPointsOf(one);
  const members = rain.map((rainMm, m) => memberOf({ one, dew, clearWm2, errors, rainMm, m }));
  const { issuedMs, fetchedMs, notes } = hourly.source;
  const source = {
    ...hourly.source,
    madeFromOne: true as const,
    notes: [
      MADE_NOTE,
      ...(chancePct === null ? [NO_RAIN_CHANCE_NOTE] : []),
      ...(issuedMs === null && fetchedMs === null ? [GROWS_FROM_START_NOTE] : []),
      ...notes,
    ],
  };
  return { ...hourly, members, source };
}

/** Days from issue to each stamp; hours before that err as today's. */
function leadDaysOf({ source, startMs, hours, members }: HourlyWeather): Float64Array {
  const known = members[0]!.airTempC.findIndex((t) => !Number.isNaN(t));
  const fromMs = source.issuedMs ?? source.fetchedMs ?? startMs + Math.max(0, known) * MS_PER_HOUR;
  return Float64Array.from({ length: hours }, (_, h) =>
    Math.max(0, (startMs + h * MS_PER_HOUR - fromMs) / (24 * MS_PER_HOUR)),
  );
}

/** Numbers of the series; they fix the draws, so none may ever be given to another thing. */
const WHAT = {
  airQuick: 0,
  airSlow: 1,
  dewQuick: 2,
  dewSlow: 3,
  windQuick: 4,
  windSlow: 5,
  gust: 6,
  cloudQuick: 7,
  cloudSlow: 8,
  sun: 9,
  wetness: 10,
  timing: 11,
  amount: 12,
  rounding: 13,
} as const;

function errorsOf(seed: number, leadDays: Float64Array) {
  const hours = leadDays.length;
  const draw = (what: keyof typeof WHAT, memory: number, smooth = false): Errors =>
    drawErrors({ seed, hours, what: WHAT[what] }, { hours: memory, smooth });
  const both = (name: 'air' | 'dew' | 'wind' | 'cloud', spread: (lead: number) => Spread): Errors =>
    blend([draw(`${name}Quick`, QUICK_HOURS), draw(`${name}Slow`, SLOW_HOURS, true)], (h) => {
      const { quick, slow } = spread(leadDays[h]!);
      return [quick, slow];
    });
  const withAnother = (own: Errors, other: Errors, share: number): Errors =>
    blend([own, other], () => [Math.sqrt(1 - share ** 2), share]);

  const air = both('air', airTempSpreadK);
  const wetness = draw('wetness', WET_MEMORY_HOURS);
  return {
    air: scaled(air, leadDays, airTempSpreadK),
    dew: scaled(
      withAnother(both('dew', dewPointSpreadK), air, DEW_WITH_AIR),
      leadDays,
      dewPointSpreadK,
    ),
    wind: scaled(both('wind', windSpreadMps), leadDays, windSpreadMps),
    gust: draw('gust', QUICK_HOURS),
    cloud: scaled(
      withAnother(both('cloud', cloudSpreadPct), wetness, CLOUD_WITH_RAIN),
      leadDays,
      cloudSpreadPct,
    ),
    sun: draw('sun', QUICK_HOURS),
    rain: {
      wetness,
      timing: draw('timing', TIMING_MEMORY_HOURS, true),
      amount: draw('amount', AMOUNT_MEMORY_HOURS),
      rounding: evenDraws({ seed, hours, what: WHAT.rounding }),
    },
  };
}

function scaled(unit: Errors, leadDays: Float64Array, spread: (lead: number) => Spread): Errors {
  const size = leadDays.map((lead) => {
    const { quick, slow } = spread(lead);
    return Math.hypot(quick, slow);
  });
  return unit.map((column) => column.map((x, h) => x * size[h]!));
}

/** Dew points where only relative humidity is given; a 0 % is a rounded value, as on the grid. */
function dewPointsOf({ airTempC, relHumPct }: HourlyMember): Float64Array {
  if (relHumPct === null) throw new Error('a forecast has neither dew point nor relative humidity');
  return airTempC.map((air, h) => {
    const rh = relHumPct[h]!;
    if (Number.isNaN(air) || Number.isNaN(rh)) return Number.NaN;
    return dewPointC({ airTempC: air, relHumPct: Math.max(1, rh) });
  });
}

function memberOf(args: {
  readonly one: HourlyMember;
  readonly dew: Float64Array;
  readonly clearWm2: Float64Array;
  readonly errors: ReturnType<typeof errorsOf>;
  readonly rainMm: Float64Array;
  readonly m: number;
}): HourlyMember {
  const { one, dew, clearWm2, errors, rainMm, m } = args;
  const at = (of: Errors, h: number): number => of[m]![h]!;
  const wet = (h: number): boolean => rainMm[h]! > 0;
  const airTempC = one.airTempC.map((air, h) => air + at(errors.air, h));
  const windMps = one.windMps.map((wind, h) => Math.max(0, wind + at(errors.wind, h)));
  const cloudPct = one.cloudPct.map((cloud, h) => {
    const drawn = Math.min(100, Math.max(0, cloud + at(errors.cloud, h)));
    return wet(h) ? Math.max(WET_CLOUD_PCT, drawn) : drawn;
  });
  return {
    airTempC,
    // Of two columns that say the same only one can be kept true to the other.
    relHumPct: null,
    dewPointC: dew.map((dewC, h) => {
      const drawn = dewC + at(errors.dew, h);
      return Math.min(
        airTempC[h]!,
        wet(h) ? Math.max(drawn, airTempC[h]! - WET_DEPRESSION_K) : drawn,
      );
    }),
    windMps,
    gustMps:
      one.gustMps?.map((gust, h) => {
        const own = GUST_SPREAD_MPS * at(errors.gust, h);
        const drawn = gust + GUST_WITH_WIND * at(errors.wind, h) + own;
        return Math.max(windMps[h]!, drawn);
      }) ?? null,
    rainMm,
    solarWm2: one.solarWm2.map((sun, h) => {
      if (!(sun > 0)) return sun;
      const through = lightThroughCloud(cloudPct[h]!) / lightThroughCloud(one.cloudPct[h]!);
      const drawn = sun * through * Math.exp(SUN_LOG_SPREAD * at(errors.sun, h));
      return Math.min(drawn, Math.max(sun, clearWm2[h]!));
    }),
    cloudPct,
    capeJkg: one.capeJkg ?? null,
  };
}
