import { spanText } from '../time/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import type { QuarterRain } from '../weather/index.ts';
import { checkWish, utcUrl, type Wish } from './ask.ts';
import { type CacheEntry, cacheKey, type ForecastCache, roundedPlace } from './cache.ts';
import { callWeight } from './call-weight.ts';
import type { Line } from './line.ts';
import { parseServiceJson } from './parse-json.ts';
import { type QuarterModel, quarterModelFor } from './quarter-models.ts';
import { readQuarters } from './read-quarters.ts';
import { runNotes } from './run-file.ts';
import type { FeedFailureCode, ModelRunAnswer } from './types.ts';

/** Rain by the quarter hour for a place, with what is to be said of it beside the forecast it times. */
export interface QuarterAnswer {
  /** Null where no model has it for the place, or it could not be had. */
  readonly rain: QuarterRain | null;
  /** Empty where no model has it for the place: nothing is missing there. */
  readonly notes: readonly string[];
}

const NOTHING: QuarterAnswer = { rain: null, notes: [] };

/** Short-range runs come every one to three hours. */
const FRESH_MS = 30 * MS_PER_MINUTE;
/** So old it still times, with its age stated; the lead it counts by grows with it. */
const USABLE_MS = 3 * MS_PER_HOUR;
/** Not asked for again for so long after passing trouble, and after an answer that will stay the same. */
const REST_MS = 10 * MS_PER_MINUTE;
const LONG_REST_MS = MS_PER_HOUR;
const LASTING: readonly FeedFailureCode[] = ['bad-request', 'key', 'plan'];

/** Days from 00:00 UTC today: as far as the provider has quarter hours. */
const DAYS = 3;

export interface QuarterDesk {
  readonly now: () => number;
  readonly line: Line;
  readonly cache: ForecastCache;
  /** The host of single forecasts. */
  readonly base: string;
  readonly runOf: (modelId: string) => Promise<ModelRunAnswer>;
}

/**
 * Asks for rain by the quarter hour. Two small requests, each once and not again: it only times what the
 * forecast brings, and nobody shall wait for it.
 */
export function quarterDesk(desk: QuarterDesk): (wish: Wish) => Promise<QuarterAnswer> {
  const { now, line, cache } = desk;
  const resting = new Map<string, { readonly untilMs: number; readonly why: string }>();

  async function askService(model: QuarterModel, wish: Wish, key: string): Promise<QuarterAnswer> {
    // The run is read before the values: if a new run slips in between, its lead errs on the long side.
    const run = await desk.runOf(model.id);
    const answer = await line.get(quarterUrl(model, wish, desk.base), quarterWeight(model));
    if (!answer.ok) {
      const restMs = LASTING.includes(answer.code) ? LONG_REST_MS : REST_MS;
      return rest(key, Math.max(answer.retryAtMs ?? 0, now() + restMs), answer.message);
    }
    const entry = {
      fetchedMs: now(),
      issuedMs: run.ok ? run.run.availableMs : null,
      model: model.id,
      days: DAYS,
      pastDays: 0,
      elevationM: wish.elevationM,
      notes: run.ok ? runNotes(run.run, now()).map((note) => `${model.name}: ${note}`) : [],
      body: answer.text,
    };
    const read = read15(model, wish, entry);
    if (typeof read === 'string') return rest(key, now() + LONG_REST_MS, read);
    await cache.write(key, entry);
    return { rain: read, notes: entry.notes };
  }

  function rest(key: string, untilMs: number, why: string): QuarterAnswer {
    resting.set(key, { untilMs, why });
    return { rain: null, notes: [why] };
  }

  return async (wish) => {
    checkWish(wish);
    const place = roundedPlace(wish);
    const model = quarterModelFor(place);
    if (model === null) return NOTHING;
    const key = cacheKey('quarters', model.id, wish);
    const entry = await cache.read(key);
    const ageMs = entry === null ? Number.NaN : now() - entry.fetchedMs;
    const kept =
      entry !== null && ageMs >= 0 && ageMs < USABLE_MS ? read15(model, wish, entry) : '';
    if (entry !== null && typeof kept !== 'string' && ageMs < FRESH_MS)
      return { rain: kept, notes: entry.notes };

    const asleep = resting.get(key);
    const answer =
      asleep !== undefined && now() < asleep.untilMs
        ? { rain: null, notes: [asleep.why] }
        : await askService(model, wish, key);
    if (answer.rain !== null) return answer;
    if (entry !== null && typeof kept !== 'string') {
      const old = `15-minute rain of ${model.name}: fetched ${spanText(ageMs)} ago, no newer could be had`;
      return { rain: kept, notes: [old, ...entry.notes] };
    }
    const why = answer.notes[0]!.replace(/\.$/, '');
    return {
      rain: null,
      notes: [`no 15-minute rain of ${model.name} (${why}): rain is spread evenly over each hour`],
    };
  };
}

/** The record in an answer, or the sentence why it has none. */
function read15(
  model: QuarterModel,
  wish: Wish,
  { body, issuedMs, fetchedMs }: Pick<CacheEntry, 'body' | 'issuedMs' | 'fetchedMs'>,
): QuarterRain | string {
  const parsed = parseServiceJson(body);
  if (!parsed.ok) return parsed.why;
  // A run whose issue is not stated may be as old as the time between two runs.
  const knownMs = issuedMs ?? fetchedMs - model.everyHours * MS_PER_HOUR;
  const read = readQuarters(parsed.value, { model: model.name, knownMs }, roundedPlace(wish));
  return read.ok ? read.rain : read.why;
}

const variablesOf = ({ hasLightning }: QuarterModel): readonly string[] =>
  hasLightning ? ['precipitation', 'lightning_potential'] : ['precipitation'];

/** One call on the provider's count: all under ten variables over two weeks are. */
const quarterWeight = (model: QuarterModel): number =>
  callWeight({ variables: variablesOf(model).length, forecasts: 1, days: DAYS });

function quarterUrl(model: QuarterModel, wish: Wish, base: string): URL {
  const place = roundedPlace(wish);
  const url = utcUrl({ endpoint: 'forecast', place, elevationM: wish.elevationM }, base);
  url.searchParams.set('minutely_15', variablesOf(model).join(','));
  url.searchParams.set('models', model.id);
  url.searchParams.set('forecast_days', String(DAYS));
  return url;
}
