import type { HourlyWeather, WeatherSource } from '../weather/index.ts';
import { type AnswerShape, answerShape, errorAnswer, isRecord, show } from './answer-shape.ts';
import { attributionFor } from './attribution.ts';
import { type Built, buildForecast } from './build-forecast.ts';
import { tellOnce } from './columns.ts';
import { type ForecastKeys, forecastKeys } from './forecast-keys.ts';
import { notesOn } from './notes.ts';
import { type QuartersRead, readQuarters } from './read-quarters.ts';
import { readTimeColumn } from './time-column.ts';
import type { ReadIssue, WeatherRead } from './types.ts';
import { NEEDED_SENTENCE, REQUIRED, type Variable } from './variables.ts';

export interface ReadOptions {
  readonly fetchedMs: number | null;
  readonly kind: 'live' | 'file';
  /** Model asked for; a model named in the response's own keys wins. */
  readonly model?: string | null;
  /** Issue time known from elsewhere: responses do not carry it. */
  readonly issuedMs?: number | null;
}

/**
 * Reads one location of a /v1/forecast or /v1/ensemble response; a list of one is taken as that one. Every problem is told at once, each
 * as a sentence; nothing is filled in, and what had to be changed is in `source.notes`.
 */
export function readWeatherResponse(value: unknown, opts: ReadOptions): WeatherRead {
  const outside = readOutside(value, opts);
  if ('issues' in outside) return { ok: false, issues: outside.issues };
  const { answer } = outside;

  const time = readTimeColumn(answer);
  const keys = forecastKeys(Object.keys(answer.hourly));
  const absent = keys.length > MAX_FORECASTS ? [tooMany(keys.length)] : absentVariables(keys);
  if ('issues' in time || absent.length > 0) {
    return { ok: false, issues: [...('issues' in time ? time.issues : []), ...absent] };
  }

  const built = keys.map((k) => buildForecast(answer, k, time));
  const problems = built.flatMap((b) => (b.kind === 'wrong' ? b.problems : []));
  if (problems.length > 0) return { ok: false, issues: tellOnce(problems) };
  const whole = built.flatMap((b) => (b.kind === 'whole' ? [b] : []));
  if (whole.length === 0) return { ok: false, issues: [noneWhole(built)] };

  const source = sourceOf(answer, keys, opts, notesOn(built, keys, time));
  const quarters = quartersBeside(answer, source);
  const weather: HourlyWeather = {
    latitudeDeg: answer.latitude,
    longitudeDeg: answer.longitude,
    elevationM: answer.elevation ?? null,
    startMs: time.startMs,
    hours: time.hours,
    members: whole.map((b) => b.member),
    // Of an ensemble the forecasts themselves are counted.
    ...(whole.length === 1 ? { rainChancePct: whole[0]!.rainChancePct } : {}),
    ...(quarters?.ok ? { quarterRain: quarters.rain } : {}),
    source:
      quarters === null || quarters.ok
        ? source
        : {
            ...source,
            notes: [...source.notes, `15-minute rain in this answer left out: ${quarters.why}`],
          },
  };
  return { ok: true, weather };
}

/** Rain by the quarter hour in the same answer; what is wrong with it never costs the hours. Null = none. */
function quartersBeside(answer: AnswerShape, source: WeatherSource): QuartersRead | null {
  if (!('minutely_15' in answer)) return null;
  const { model, issuedMs, fetchedMs } = source;
  const about = { model: model ?? 'the saved forecast', knownMs: issuedMs ?? fetchedMs };
  return readQuarters(answer, about, null);
}

function readOutside(
  value: unknown,
  opts: ReadOptions,
): { answer: AnswerShape } | { issues: ReadIssue[] } {
  const refusal = errorAnswer.safeParse(value);
  if (refusal.success) {
    const message = `This is an error answer of the weather service, not a forecast: ${show(refusal.data.reason)}.`;
    return { issues: [{ path: 'reason', message }] };
  }
  if (Array.isArray(value) && value.length === 1) return readOutside(value[0], opts);
  if (!isRecord(value)) {
    const message = `The response is ${show(value)}; it must be one object with an hourly block.`;
    return { issues: [{ path: '', message }] };
  }
  const parsed = answerShape.safeParse(value);
  if (!parsed.success) {
    return {
      issues: parsed.error.issues.map((i) => ({ path: i.path.join('.'), message: i.message })),
    };
  }
  if (parsed.data.layfair !== undefined && opts.kind === 'live') {
    const message =
      'layfair marks this weather as invented; invented weather is never taken from a live service.';
    return { issues: [{ path: 'layfair', message }] };
  }
  return { answer: parsed.data };
}

/** The largest ensembles have 51; several models together stay far below this. */
const MAX_FORECASTS = 500;

const tooMany = (count: number): ReadIssue => ({
  path: 'hourly',
  message: `hourly holds ${count} forecasts; Layfair reads up to ${MAX_FORECASTS}.`,
});

/** Variables that no forecast of the response carries at all. */
function absentVariables(keys: readonly ForecastKeys[]): ReadIssue[] {
  const has = (v: Variable) => keys.some((k) => k.keys.has(v));
  const absent: string[] = REQUIRED.filter((v) => !has(v));
  const issues = absent.map((v) => ({
    path: `hourly.${v}`,
    message: `hourly.${v} is missing; ${NEEDED_SENTENCE}.`,
  }));
  if (!has('dew_point_2m') && !has('relative_humidity_2m')) {
    issues.push({
      path: 'hourly.dew_point_2m',
      message: `hourly.dew_point_2m and hourly.relative_humidity_2m are both missing; ${NEEDED_SENTENCE}.`,
    });
  }
  return issues;
}

function noneWhole(built: readonly Built[]): ReadIssue {
  const lacking = built.flatMap((b) => (b.kind === 'lacking' ? [b.lacks] : []));
  const everywhere = (lacking[0] ?? []).filter((v) => lacking.every((l) => l.includes(v)));
  const named = everywhere.length > 0 ? everywhere : [...new Set(lacking.flat())];
  const where =
    everywhere.length > 0 ? 'in any forecast' : 'in one forecast or another, so none is whole';
  const path = `hourly.${(named[0] ?? '').split(' ')[0]}`;
  return { path, message: `${named.join(', ')}: no values ${where}; ${NEEDED_SENTENCE}.` };
}

function sourceOf(
  answer: AnswerShape,
  keys: readonly ForecastKeys[],
  opts: ReadOptions,
  notes: readonly string[],
): WeatherSource {
  const named = [...new Set(keys.flatMap((k) => (k.model === null ? [] : [k.model])))];
  const model = named.length > 0 ? named.join(' + ') : (opts.model ?? null);
  const { layfair } = answer;
  if (layfair !== undefined) {
    return {
      kind: 'demo',
      model,
      issuedMs: layfair.issued_at,
      fetchedMs: opts.fetchedMs,
      invented: true,
      attribution: null,
      notes: [layfair.note, ...notes],
    };
  }
  return {
    kind: opts.kind,
    model,
    issuedMs: opts.issuedMs ?? null,
    fetchedMs: opts.fetchedMs,
    invented: false,
    attribution: attributionFor(model),
    notes,
  };
}
