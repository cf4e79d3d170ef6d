import { inventedValue, type UnitWishes } from './values.ts';

/** Reasons as the provider words them (documentation and server behaviour; see docs/feed.md). */
export const REASONS = {
  minute: 'Minutely API request limit exceeded. Please try again in one minute.',
  hour: 'Hourly API request limit exceeded. Please try again in the next hour.',
  day: 'Daily API request limit exceeded. Please try again tomorrow.',
  concurrent: 'Too many concurrent requests',
  overloaded: 'The service is overloaded',
  keyWrong: 'The supplied API key is invalid.',
  keyMissing: 'API key required. Please add &apikey= to the URL.',
  plan: 'This API endpoint requires the API Professional or Enterprise plan',
  noData: 'No data is available for this location',
  zone: 'Invalid timezone',
  stream: 'Unexpected error while streaming data: channel closed',
} as const;

/** Forecasts per answer and the first hour after which a model has no values, by model id. */
const MODELS: Readonly<
  Record<string, { count: number; lastHour: number; lacks: readonly string[] }>
> = {
  ecmwf_ifs025_ensemble: { count: 51, lastHour: 360, lacks: [] },
  icon_eu_eps: { count: 40, lastHour: 120, lacks: [] },
  gem_global_ensemble: { count: 21, lastHour: 384, lacks: ['wind_gusts_10m'] },
  best_match: { count: 1, lastHour: 384, lacks: [] },
};

/** Fixed offsets at the moment of asking; the provider applies one to the whole answer. */
const OFFSETS: Readonly<Record<string, number>> = {
  GMT: 0,
  'Europe/Berlin': 7200,
  'America/Chicago': -18_000,
  'Asia/Kolkata': 19_800,
};

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

export class Refused extends Error {
  readonly status: number;
  constructor(status: number, reason: string) {
    super(reason);
    this.status = status;
  }
}

export interface Clock {
  readonly nowMs: number;
  readonly runMs: number;
}

/** Answers a /v1/forecast or /v1/ensemble query as documented: an object for one place, else a list. */
export function forecastAnswer(query: URLSearchParams, clock: Clock, endpoint: string): unknown {
  const numbers = (name: string): number[] => (query.get(name) ?? '').split(',').map(Number);
  const latitudes = numbers('latitude');
  const longitudes = numbers('longitude');
  const outOfRange = latitudes.find((lat) => !(Math.abs(lat) <= 90));
  if (outOfRange !== undefined) {
    throw new Refused(
      400,
      `Latitude must be in range of -90 to 90°. Given: ${outOfRange.toFixed(2)}.`,
    );
  }
  const places = latitudes.map((latitude, i) =>
    oneAnswer(query, clock, endpoint, latitude, longitudes[i] ?? 0),
  );
  if (places.length === 1) return places[0];
  return places.map((p, i) => (i === 0 ? p : { ...p, location_id: i }));
}

function oneAnswer(
  query: URLSearchParams,
  clock: Clock,
  endpoint: string,
  latitude: number,
  longitude: number,
) {
  const zone = query.get('timezone') ?? 'GMT';
  const offset = OFFSETS[zone];
  if (offset === undefined) throw new Refused(400, REASONS.zone);
  const models = (
    query.get('models') ?? (endpoint === 'forecast' ? 'best_match' : 'ecmwf_ifs025_ensemble')
  ).split(',');
  const unknown = models.find((m) => MODELS[m] === undefined);
  if (unknown !== undefined) {
    const said = `Data corrupted at path ''. Cannot initialize MultiDomains from invalid String value ${models.join(',')}.`;
    throw new Refused(400, said);
  }
  const days = Number(query.get('forecast_days') ?? 7) + Number(query.get('past_days') ?? 0);
  const localMidnight = Math.floor((clock.nowMs + offset * 1000) / DAY_MS) * DAY_MS - offset * 1000;
  const startMs = localMidnight - Number(query.get('past_days') ?? 0) * DAY_MS;
  const stamps = Array.from({ length: days * 24 }, (_, h) => startMs + h * HOUR_MS);
  const unix = query.get('timeformat') === 'unixtime';

  const units: Record<string, string> = { time: unix ? 'unixtime' : 'iso8601' };
  const hourly: Record<string, unknown[]> = {
    time: stamps.map((ms) =>
      unix ? ms / 1000 : new Date(ms + offset * 1000).toISOString().slice(0, 16),
    ),
  };
  const wishes: UnitWishes = {
    temperature: query.get('temperature_unit') ?? 'celsius',
    wind: query.get('wind_speed_unit') ?? 'kmh',
    rain: query.get('precipitation_unit') ?? 'mm',
  };
  for (const name of (query.get('hourly') ?? '').split(',')) {
    for (const model of models) fill(name, model);
  }
  return {
    latitude: Math.round(latitude * 4) / 4,
    longitude: Math.round(longitude * 4) / 4,
    generationtime_ms: 0.5,
    utc_offset_seconds: offset,
    timezone: zone,
    timezone_abbreviation: zone,
    elevation: Number(query.get('elevation') ?? 38),
    hourly_units: units,
    hourly,
  };

  function fill(name: string, model: string): void {
    const about = MODELS[model] as (typeof MODELS)[string];
    const suffix = models.length > 1 ? `_${model}` : '';
    for (let n = 0; n < about.count; n++) {
      const key = `${name}${n === 0 ? '' : `_member${String(n).padStart(2, '0')}`}${suffix}`;
      const probe = inventedValue(
        name,
        { atMs: startMs, number: n, latitude, runMs: clock.runMs },
        wishes,
      );
      if (probe === null) return; // unknown names are left out without a word
      const lacking = about.lacks.includes(name);
      units[key] = lacking ? 'undefined' : probe.unit;
      hourly[key] = stamps.map((atMs) => {
        const past = atMs - startMs > about.lastHour * HOUR_MS;
        return lacking || past
          ? null
          : (inventedValue(name, { atMs, number: n, latitude, runMs: clock.runMs }, wishes)
              ?.value ?? null);
      });
    }
  }
}

/** Run file of a model; times in unix seconds. */
export function runFile(availableMs: number): unknown {
  return {
    last_run_initialisation_time: availableMs / 1000 - 6 * 3600,
    last_run_modification_time: availableMs / 1000 - 60,
    last_run_availability_time: availableMs / 1000,
    temporal_resolution_seconds: 10_800,
    update_interval_seconds: 21_600,
    data_end_time: availableMs / 1000 + 360 * 3600,
  };
}
