import type { Dispatcher } from 'undici';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import { type Ask, askUrl, makeAsk, type Wish } from './ask.ts';
import { type CacheEntry, diskCache, noCache } from './cache.ts';
import { type BaseUrls, CUSTOMER_HOSTS, FREE_HOSTS } from './config.ts';
import { FROZEN_NOTE, isFrozen } from './frozen.ts';
import { isFresh, lastGoodOf, readKept, withNotes } from './kept.ts';
import { openLine } from './line.ts';
import { DEFAULT_MODEL, findModel } from './models.ts';
import type { Timeouts } from './one-request.ts';
import { checkPlace } from './place.ts';
import { type QuarterAnswer, quarterDesk } from './quarters.ts';
import { readWeatherResponse } from './read-response.ts';
import { retrying } from './retrying.ts';
import { readRunFile, runNotes } from './run-file.ts';
import type {
  FeedAnswer,
  FeedFailure,
  FeedPlan,
  LastGood,
  ModelRun,
  ModelRunAnswer,
} from './types.ts';

export interface FeedClientOptions {
  readonly baseUrls?: BaseUrls;
  /**
   * A contractor's planning is commercial use and needs a paid key; ensembles need the provider's
   * Professional plan. It is sent as a header and never appears in addresses, messages or logs.
   */
  readonly apiKey?: string | null;
  /** Default: 'paid' with a key, else 'free', whose limits are kept to. */
  readonly plan?: FeedPlan;
  readonly model?: string;
  /** The caller's connection pool; without one the client opens its own, closed by `close`. */
  readonly dispatcher?: Dispatcher;
  readonly now: () => number;
  readonly sleep: (ms: number) => Promise<void>;
  /** 0 <= value < 1, seeded by the caller. */
  readonly random: () => number;
  /** Folder for kept forecasts; without one nothing is kept. */
  readonly cacheDir?: string;
  readonly timeouts?: Timeouts;
}

export interface FeedClient {
  /** All forecasts of the chosen ensemble model for a place. */
  ensemble(wish: Wish): Promise<FeedAnswer>;
  /** One forecast without spread, from the provider's choice of models, with two past days. */
  forecast(wish: Wish): Promise<FeedAnswer>;
  /** Rain by the quarter hour, where a model really has it for the place; asked at most every half hour. */
  quarterRain(wish: Wish): Promise<QuarterAnswer>;
  /** When a model last ran; asked at most every 10 minutes. */
  modelRun(model: string): Promise<ModelRunAnswer>;
  /** The newest ensemble kept for a place, labelled, without asking the service. */
  lastGood(wish: Wish): Promise<LastGood | null>;
  close(): Promise<void>;
}

const TIMEOUTS: Timeouts = { headersMs: 10_000, bodyMs: 15_000, totalMs: 60_000 };
const RUN_FILE_KEPT_MS = 10 * MS_PER_MINUTE;

export function createFeedClient(opts: FeedClientOptions): FeedClient {
  const { now } = opts;
  const apiKey = opts.apiKey ?? null;
  const model = opts.model ?? DEFAULT_MODEL;
  const bases = opts.baseUrls ?? (apiKey === null ? FREE_HOSTS : CUSTOMER_HOSTS);
  const cache = opts.cacheDir === undefined ? noCache : diskCache(opts.cacheDir);
  const line = openLine({
    ...opts,
    apiKey,
    plan: opts.plan ?? (apiKey === null ? 'free' : 'paid'),
    timeouts: opts.timeouts ?? TIMEOUTS,
  });
  const runs = new Map<string, { run: ModelRun; askedMs: number }>();

  /** Asked once, without trying again: a missing run file only costs the issue time. */
  async function readRun(id: string): Promise<ModelRunAnswer> {
    const known = findModel(id);
    if (known === null || known.runFile === null) return noRunFile(id, known !== null);
    return runAt(id, known.runFile, bases.ensemble);
  }

  async function runAt(id: string, runFile: string, base: string): Promise<ModelRunAnswer> {
    const kept = runs.get(id);
    if (kept !== undefined && now() - kept.askedMs < RUN_FILE_KEPT_MS) {
      return { ok: true, run: kept.run };
    }
    const url = new URL(`${base.replace(/\/+$/, '')}/data/${runFile}/static/meta.json`);
    const answer = await line.get(url, 1);
    if (!answer.ok) return answer;
    const read = readRunFile(answer.value, id, now());
    if (read.ok) runs.set(id, { run: read.run, askedMs: now() });
    return read;
  }

  /** Reads a parsed answer; one that is no usable forecast for this place fails like any other. */
  function readAnswer(value: unknown, ask: Ask, issuedMs: number | null) {
    const fetchedMs = now();
    const read = readWeatherResponse(value, {
      kind: 'live',
      fetchedMs,
      issuedMs,
      model: ask.model,
    });
    if (!read.ok) return brokenAnswer(read.issues.map((i) => i.message).join(' '));
    const elsewhere = checkPlace(read.weather, ask.place);
    return elsewhere === null
      ? { ok: true as const, weather: read.weather, fetchedMs }
      : brokenAnswer(elsewhere);
  }

  async function askService(ask: Ask): Promise<FeedAnswer> {
    const entry = await cache.read(ask.key);
    const kept = entry !== null && isFresh(entry, ask, now()) ? readKept(entry, ask) : null;
    if (entry !== null && kept !== null) {
      return { ok: true, weather: kept, from: 'kept', ageMs: now() - entry.fetchedMs };
    }
    // The run is read before the values: if a new run slips in between, the issue time errs on the old side.
    const runAnswer = ask.endpoint === 'ensemble' ? await readRun(ask.model) : null;
    const run = runAnswer?.ok ? runAnswer.run : null;
    const issuedMs = run?.availableMs ?? null;
    const answer = await retrying(
      () => line.get(askUrl(ask, bases[ask.endpoint]), ask.weight),
      opts,
    );
    const fetched = answer.ok ? readAnswer(answer.value, ask, issuedMs) : answer;
    if (!answer.ok || !fetched.ok) {
      const failed = fetched as FeedFailure;
      return { ...failed, lastGood: lastGoodOf(entry, ask, now()) };
    }

    const notes = [
      ...countNote(ask, fetched.weather),
      ...(run === null
        ? ['the service did not say when this forecast was issued']
        : runNotes(run, now())),
      ...(repeatsOldRun(entry, ask, fetched.weather, issuedMs) ? [FROZEN_NOTE] : []),
    ];
    const { fetchedMs } = fetched;
    const { model: id, days, pastDays, elevationM } = ask;
    const about = { fetchedMs, issuedMs, model: id, days, pastDays, elevationM, notes };
    const unkept = await cache.write(ask.key, { ...about, body: answer.text });
    const weather = withNotes(fetched.weather, unkept === null ? notes : [...notes, unkept]);
    return { ok: true, weather, from: 'fetched', ageMs: 0 };
  }

  /** A new run with the old run's values; once seen, told for as long as the values stay. */
  function repeatsOldRun(
    entry: CacheEntry | null,
    ask: Ask,
    weather: HourlyWeather,
    issuedMs: number | null,
  ): boolean {
    if (entry === null || entry.issuedMs === null || issuedMs === null) return false;
    if (entry.issuedMs === issuedMs && !entry.notes.includes(FROZEN_NOTE)) return false;
    const before = readKept(entry, ask);
    return before !== null && isFrozen(before, weather, now());
  }

  const quarters = quarterDesk({
    now,
    line,
    cache,
    base: bases.forecast,
    runOf: (id) => runAt(id, id, bases.forecast),
  });

  return {
    quarterRain: (wish) => line.inTurn(() => quarters(wish)),
    ensemble: async (wish) => {
      const ask = makeAsk('ensemble', model, wish);
      return line.inTurn(() => askService(ask));
    },
    forecast: async (wish) => {
      const ask = makeAsk('forecast', model, wish);
      return line.inTurn(() => askService(ask));
    },
    modelRun: (id) => line.inTurn(() => readRun(id)),
    lastGood: async (wish) => {
      const ask = makeAsk('ensemble', model, wish);
      return lastGoodOf(await cache.read(ask.key), ask, now());
    },
    close: () => line.close(),
  };
}

function brokenAnswer(why: string): FeedFailure {
  const message = `The forecast service's answer cannot be used: ${why}`;
  return { ok: false, code: 'broken-answer', message, retryAtMs: null };
}

function noRunFile(id: string, known: boolean): FeedFailure {
  const message = known
    ? `${id} joins several model runs; it has no single run file.`
    : `${id} is not a model Layfair knows.`;
  return { ok: false, code: 'bad-request', message, retryAtMs: null };
}

function countNote(ask: Ask, weather: HourlyWeather): string[] {
  const got = weather.members.length;
  return ask.count === null || got >= ask.count
    ? []
    : [`only ${got} of ${ask.count} forecasts can be used`];
}
