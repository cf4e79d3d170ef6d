import { setImmediate } from 'node:timers/promises';
import {
  FILM_MARGIN,
  type FirmFilm,
  learnedWords,
  learnFrom,
  loggedFilms,
  measureOnJob,
  readingsOf,
} from '../answers/index.ts';
import type { Product } from '../products/index.ts';
import { withSpeed } from '../products/index.ts';
import {
  hoursBetween,
  isTooOld,
  type LoggedFilm,
  type MeasuredFilm,
  weatherFromText,
  weatherToText,
} from '../record/index.ts';
import type { Ctx, JobRow, Store } from '../store/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import type { HourlyWeather, SiteReading } from '../weather/index.ts';
import type { Desk } from './desk.ts';
import { RequestError } from './reply.ts';

/** The feed reaches back over the day before: a film logged later than that is judged only by weather kept before. */
const FEED_REACHES_BACK_MS = 30 * MS_PER_HOUR;
/** Weather that could not be had is not asked for again for so long. */
const ASK_AGAIN_MS = 10 * MS_PER_MINUTE;
const MOST_REMEMBERED = 5000;

/** What was worked out before in this process; never anything that could not be worked out again. */
interface Remembered {
  readonly measured: Map<string, Promise<MeasuredFilm>>;
  readonly kept: Map<string, KeptWeather>;
  readonly missedMs: Map<string, number>;
}
const rememberedOf = new WeakMap<Store, Remembered>();

function rememberedFor(store: Store): Remembered {
  const known = rememberedOf.get(store) ?? {
    measured: new Map(),
    kept: new Map(),
    missedMs: new Map(),
  };
  rememberedOf.set(store, known);
  return known;
}

/** Every 'touch dry' entry that stands in a firm's site logs, with what the weather says of it. */
export async function firmFilms(desk: Desk, ctx: Ctx): Promise<readonly FirmFilm[]> {
  const films: FirmFilm[] = [];
  for (const row of (await desk.store.listJobs(ctx)).value) {
    const events = await desk.store.events(ctx, row.job.id);
    if (!events.ok) throw new RequestError(404, events.code, events.message);
    if (!events.value.some(({ kind }) => kind === 'touch-dry')) continue;
    const readings = readingsOf(events.value);
    for (const film of loggedFilms(events.value)) {
      const measured = await measuredOf(desk, ctx, row, film, readings);
      films.push({ job: row.job, film, measured });
    }
  }
  return films;
}

async function measuredOf(
  desk: Desk,
  ctx: Ctx,
  { job, version }: JobRow,
  film: LoggedFilm,
  readings: readonly SiteReading[],
): Promise<MeasuredFilm | null> {
  if (film.kind !== 'film' || isTooOld(film.dry.atMs, desk.clocks.nowMs(job.demo))) return null;
  const product = desk.shelf.get(film.coated.productId);
  // Nothing can be learned of a product without a touch-dry time, or of one no longer on the shelf.
  if (product === undefined || product.touchDry === null) return null;
  const weather = await weatherOfFilm(desk, ctx, job, film);
  const coatedMs = film.coated.atMs;
  const dryMs = film.dry.atMs;
  const key = JSON.stringify([
    ctx.firmId,
    job.id,
    version,
    film.dry.id,
    coatedMs,
    dryMs,
    weather?.key ?? null,
    product,
    readings,
  ]);
  const { measured } = rememberedFor(desk.store);
  const known = measured.get(key);
  if (known !== undefined) return await known;
  // Others get their answers in between: a firm's first question after a start may mean many films.
  const found = setImmediate().then(async () => {
    const hourly = weather === null ? null : await weather.hourly();
    return measureOnJob({ product, job, hourly, readings, coatedMs, dryMs });
  });
  measured.set(key, found);
  for (const oldest of measured.keys()) {
    if (measured.size <= MOST_REMEMBERED) break;
    measured.delete(oldest);
  }
  return await found;
}

interface WeatherOfFilm {
  /** Stands for what is in it. */
  readonly key: string;
  hourly(): Promise<HourlyWeather>;
}

/** Kept beside a film; never changed once it is there. */
interface KeptWeather {
  readonly id: string;
  readonly sha256: string;
}

type PairedFilm = LoggedFilm & { readonly kind: 'film' };

/**
 * The forecast known when a film was logged. It is kept with the job the first time it is needed, so that
 * what was learned does not change when newer forecasts come.
 * @returns null where nobody kept it and it cannot be had any more, or not now
 */
async function weatherOfFilm(
  desk: Desk,
  ctx: Ctx,
  job: JobRow['job'],
  film: PairedFilm,
): Promise<WeatherOfFilm | null> {
  if (job.demo) {
    const bundled = await desk.weather.forJob(job);
    const hourly = bundled.ok ? around(film, bundled.hourly) : null;
    if (!bundled.ok || hourly === null) return null;
    return { key: bundled.key, hourly: () => Promise.resolve(hourly) };
  }
  const { store } = desk;
  const remembered = rememberedFor(store).kept;
  const placeKey = `film:${film.dry.id}:${film.coated.atMs}:${film.dry.atMs}`;
  const kept =
    remembered.get(placeKey) ??
    (await store.forecasts(ctx, placeKey)).value[0] ??
    (await keepWeather(desk, ctx, job, film, placeKey));
  if (kept === null) return null;
  const { id, sha256 } = kept;
  remembered.set(placeKey, { id, sha256 });
  return {
    key: sha256,
    async hourly() {
      const bytes = await store.forecastBytes(ctx, id);
      if (!bytes.ok) throw new Error(bytes.message);
      return weatherFromText(new TextDecoder().decode(bytes.value));
    },
  };
}

async function keepWeather(
  { store, weather, clocks }: Desk,
  ctx: Ctx,
  job: JobRow['job'],
  film: PairedFilm,
  placeKey: string,
): Promise<KeptWeather | null> {
  const nowMs = clocks.nowMs(false);
  if (nowMs - film.coated.atMs > FEED_REACHES_BACK_MS || film.dry.atMs > nowMs) return null;
  const { missedMs } = rememberedFor(store);
  const missed = missedMs.get(placeKey);
  if (missed !== undefined && nowMs >= missed && nowMs - missed < ASK_AGAIN_MS) return null;
  const current = await weather.forJob(job);
  const hourly = current.ok ? around(film, current.hourly) : null;
  if (hourly === null) {
    missedMs.set(placeKey, nowMs);
    return null;
  }
  const saved = await store.saveForecast(ctx, {
    requestId: placeKey,
    jobId: job.id,
    placeKey,
    source: hourly.source,
    bytes: new TextEncoder().encode(weatherToText(hourly)),
  });
  if (saved.ok) return saved.value;
  // Two questions at once may both find it missing: what the other kept is what counts.
  const [other] = (await store.forecasts(ctx, placeKey)).value;
  if (other === undefined) throw new Error(`the weather of a film was not kept: ${saved.message}`);
  return other;
}

function around({ coated, dry }: PairedFilm, hourly: HourlyWeather): HourlyWeather | null {
  return hoursBetween(hourly, coated.atMs, dry.atMs, FILM_MARGIN);
}

/** A product as a firm's films dry, and the sentence to show beside it; null = the sheet's own times. */
export interface LearnedProduct {
  readonly product: Product;
  readonly words: string | null;
}

/** How a firm's products dry, as its site logs say at this moment. */
export async function firmSpeeds(
  desk: Desk,
  ctx: Ctx,
): Promise<(product: Product) => LearnedProduct> {
  const films = await firmFilms(desk, ctx);
  const nowMs = desk.clocks.nowMs(ctx === desk.demo);
  return (product) => {
    const learned = films.length === 0 ? null : learnFrom(product, films, nowMs);
    if (learned === null) return { product, words: null };
    const words = learnedWords(learned);
    return { product: withSpeed(product, learned.correction), words };
  };
}
