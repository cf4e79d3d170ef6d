import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import type { QuarterRain } from '../weather/index.ts';
import { errorAnswer, isRecord, quarterShape, show } from './answer-shape.ts';
import { distanceKm } from './place.ts';
import { QUARTER_MODELS } from './quarter-models.ts';
import { type Block, readStamps } from './time-column.ts';
import type { Place } from './types.ts';
import { utcLabel } from './utc-label.ts';
import { VARIABLE_RULES } from './variables.ts';

const QUARTER_MS = 15 * MS_PER_MINUTE;
const QUARTERS_PER_HOUR = MS_PER_HOUR / QUARTER_MS;

export type QuartersRead =
  | { readonly ok: true; readonly rain: QuarterRain }
  /** The sentence why the quarter hours are left out; it never touches the hours beside them. */
  | { readonly ok: false; readonly why: string };

export interface QuartersAbout {
  /** Name for labels, where the answer's keys name no model. */
  readonly model: string;
  /** When the run was known at the latest; null = the answer does not say, and its first stamp counts. */
  readonly knownMs: number | null;
}

/** Rain moves about so far in a quarter hour (60 km/h): farther away its quarter is another one. */
const MAX_CELL_DISTANCE_KM = 15;
/** Wider than any record for a quarter hour (198 mm, from memory), narrow enough for a wrong unit. */
const MAX_MM = 250;
const MAX_LIGHTNING_JKG = 10_000;

/** Reads the quarter hours of one location's answer, alone or beside hours. */
export function readQuarters(
  value: unknown,
  about: QuartersAbout,
  site: Place | null,
): QuartersRead {
  const no = (why: string): QuartersRead => ({ ok: false, why });
  if (Array.isArray(value) && value.length === 1) return readQuarters(value[0], about, site);
  const refusal = errorAnswer.safeParse(value);
  if (refusal.success) return no(`the service answers ${show(refusal.data.reason)}`);
  if (!isRecord(value)) return no(`the answer is ${show(value)}`);
  const parsed = quarterShape.safeParse(value);
  if (!parsed.success) return no(sentence(parsed.error.issues[0]!.message));
  const { minutely_15: columns, minutely_15_units: units, latitude, longitude } = parsed.data;
  const { utc_offset_seconds, timezone } = parsed.data;
  const block: Block = { name: 'minutely_15', columns, units, utc_offset_seconds, timezone };

  const km =
    site === null ? 0 : distanceKm({ latitudeDeg: latitude, longitudeDeg: longitude }, site);
  if (km > MAX_CELL_DISTANCE_KM)
    return no(
      `it is for a place ${Math.round(km)} km away; up to ${MAX_CELL_DISTANCE_KM} km is read`,
    );
  const times = readStamps(block);
  if ('issues' in times) return no(sentence(times.issues[0]!.message));
  if (times.startMs % QUARTER_MS !== 0)
    return no(`minutely_15.time starts at ${utcLabel(times.startMs)}Z, between two quarter hours`);

  const keys = keysOf(columns);
  if (keys === null) return no('minutely_15.precipitation is missing');
  const rain = readColumn(block, keys.rain, times, {
    ...VARIABLE_RULES.precipitation,
    high: MAX_MM,
  });
  if (typeof rain === 'string') return no(rain);
  const rainMm = rain;
  if (rainMm === null) return no('it has no value for this place');
  if (isInterpolated(rainMm, times.startMs)) return no('it is hours spread over their quarters');
  const lightning = readColumn(block, keys.lightning, times, LIGHTNING_RULE);
  return {
    ok: true,
    rain: {
      model: keys.model ?? about.model,
      startMs: times.startMs,
      rainMm,
      // Beside rain it is an extra: unreadable, it is left out.
      lightningJkg: typeof lightning === 'string' ? null : lightning,
      knownMs: about.knownMs ?? times.startMs,
    },
  };
}

const LIGHTNING_RULE = {
  units: { 'J/kg': (value: number) => value },
  ourUnit: 'J/kg',
  low: 0,
  high: MAX_LIGHTNING_JKG,
};

/** The rain column, plain or with the id of one of the models known to have quarter hours. */
function keysOf(columns: Block['columns']) {
  if ('precipitation' in columns)
    return { rain: 'precipitation', lightning: 'lightning_potential', model: null };
  const found = QUARTER_MODELS.find(({ id }) => `precipitation_${id}` in columns);
  if (found === undefined) return null;
  const { id, name } = found;
  return { rain: `precipitation_${id}`, lightning: `lightning_potential_${id}`, model: name };
}

type Rule = Pick<(typeof VARIABLE_RULES)['precipitation'], 'units' | 'ourUnit' | 'low' | 'high'>;

/** @returns values with NaN for null, null where there is none at all, or the sentence what is wrong */
function readColumn(
  { columns, units }: Block,
  key: string,
  { startMs, count }: { readonly startMs: number; readonly count: number },
  rule: Rule,
): Float64Array | string | null {
  const raw = columns[key];
  const path = `minutely_15.${key}`;
  if (raw === undefined) return null;
  if (!Array.isArray(raw)) return `${path} is ${show(raw)}, not a list of numbers`;
  if (raw.length !== count) return `${path} has ${raw.length} values for ${count} times`;
  // A variable the model lacks comes as nulls with the unit "undefined".
  if (raw.every((value) => value === null)) return null;
  const unit = units[key];
  const convert =
    typeof unit === 'string' && Object.hasOwn(rule.units, unit) ? rule.units[unit] : undefined;
  if (convert === undefined) return `minutely_15_units.${key} is ${show(unit)}`;
  const values = new Float64Array(count);
  for (let q = 0; q < count; q++) {
    const given: unknown = raw[q];
    const value = typeof given === 'number' ? convert(given) : Number.NaN;
    if (given !== null && !(value >= rule.low && value <= rule.high)) {
      const at = `${utcLabel(startMs + q * QUARTER_MS)}Z`;
      return `${path} at ${at} is ${show(given)}; accepted: ${rule.low} to ${rule.high} ${rule.ourUnit}, or null`;
    }
    values[q] = value;
  }
  return values;
}

/** By chance a single hour of real quarters may be even. */
const PROOF_HOURS = 2;

/**
 * True where every wet hour has four like quarters: outside its models' regions the provider spreads
 * hours evenly. An hour that is even for other reasons says nothing of its timing either.
 */
function isInterpolated(rainMm: Float64Array, startMs: number): boolean {
  let wet = 0;
  const first = (startMs - QUARTER_MS) % MS_PER_HOUR;
  const skip = first === 0 ? 0 : (MS_PER_HOUR - first) / QUARTER_MS;
  for (let q = skip; q + QUARTERS_PER_HOUR <= rainMm.length; q += QUARTERS_PER_HOUR) {
    const four = rainMm.subarray(q, q + QUARTERS_PER_HOUR);
    const sum = four.reduce((total, mm) => total + mm, 0);
    if (!(sum > 0)) continue;
    if (four.some((mm) => mm !== four[0])) return false;
    wet++;
  }
  return wet >= PROOF_HOURS;
}

/** A message as part of a longer sentence. */
const sentence = (message: string): string => message.replace(/\.$/, '');
