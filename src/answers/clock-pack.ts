import type { Issue } from '../contract/index.ts';
import { relHumFromDewPct, sunTimes } from '../physics/index.ts';
import { type Prepared, shiftOn } from '../planner/index.ts';
import {
  type ClockPack,
  type FilmWeather,
  type PackClock,
  type PackColumn,
  type PackProduct,
  type PackReading,
  type PackSurface,
  type Product,
  packTime,
  type SheetWeather,
} from '../products/index.ts';
import { surfaceSpecsFor } from '../stages/index.ts';
import { type LocalDay, localDayOn, momentText } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import type { ReadyJob } from './job.ts';
import { cut, cutFilm, knownToHalf, packColumns, pointwise } from './pack-columns.ts';
import { coldFlags, packFlags } from './pack-flags.ts';
import { preparedFor } from './prepared.ts';

/** From this long before the sun or the crew is up, whichever is first. */
const BEFORE_MS = 2 * MS_PER_HOUR;
/** Into the evening, whenever it began. */
const LENGTH_MS = 20 * MS_PER_HOUR;
/** And so long after the crew stops, however late that is. */
const AFTER_SHIFT_MS = 4 * MS_PER_HOUR;
/** As the surface model lets a reading fade (see `readingLastsMs` in docs/clock-pack.md). */
const READING_LASTS_MS = 6 * MS_PER_HOUR;

export type PackResult =
  | { readonly ok: true; readonly pack: ClockPack }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/**
 * Every clock of a job on one day, to be carried where there is no signal.
 * @param date  'YYYY-MM-DD', local to the site
 * @param shelf  the products to put in; the job's own where left out
 */
export function answerClockPack(
  ready: ReadyJob,
  hourly: HourlyWeather,
  nowMs: number,
  date: string,
  shelf: readonly Product[] = [
    ...new Map(Object.values(ready.products).map((product) => [product.id, product])).values(),
  ],
): PackResult {
  const prepared = preparedFor(ready, hourly, nowMs);
  const { grid } = prepared;
  const zone = ready.job.site.timeZone;
  const day = localDayOn(date, zone);
  const window = windowOf(prepared, day);
  const knownEndMs = grid.startMs + knownToHalf(grid) * grid.stepMs;
  if (window.endMs <= grid.startMs || window.startMs >= knownEndMs) {
    const reach =
      knownEndMs > grid.startMs
        ? `runs from ${momentText(grid.startMs, zone)} to ${momentText(knownEndMs, zone)}`
        : 'says nothing of any hour';
    return {
      ok: false,
      issues: [{ path: 'day', message: `day is ${date}; the forecast ${reach}.` }],
    };
  }
  const from = Math.max(0, Math.floor((window.startMs - grid.startMs) / grid.stepMs));
  const end = Math.ceil((window.endMs - grid.startMs) / grid.stepMs);
  return { ok: true, pack: packOf(prepared, ready, date, { from, steps: end - from }, shelf) };
}

function windowOf({ job }: Prepared, day: LocalDay) {
  const shift = shiftOn(job.crew, day, job.site.timeZone);
  const { sunriseMs } = sunTimes({
    dayStartMs: day.startMs,
    dayEndMs: day.endMs,
    latitudeDeg: job.site.latitudeDeg,
    longitudeDeg: job.site.longitudeDeg,
  });
  // Where the sun does not rise, or never sets, the crew's day alone decides.
  const startMs = Math.min(sunriseMs ?? shift.startMs, shift.startMs) - BEFORE_MS;
  return { startMs, endMs: Math.max(startMs + LENGTH_MS, shift.endMs + AFTER_SHIFT_MS) };
}

interface Window {
  readonly from: number;
  readonly steps: number;
}

function packOf(
  prepared: Prepared,
  ready: ReadyJob,
  date: string,
  window: Window,
  shelf: readonly Product[],
): ClockPack {
  const { job, grid } = prepared;
  const { from, steps } = window;
  const { source } = grid;
  const surfaces = new Map<PackSurface, Int32Array>();
  const columns: PackColumn[] = [];
  const clocks: PackClock[] = [];
  const indexOf = new Map<string, number>();
  let known = 0;
  let relHum: Int32Array = new Int32Array(steps);

  for (const { kind } of surfaceSpecsFor({ roof: job.roof, buildUp: job.buildUp, ...job.site })) {
    const film = cutFilm(prepared.film(kind), from, steps);
    const airTempC = cut(grid.airTempC, prepared.film(kind), from, steps);
    known = knownToHalf(film);
    const tenths = (valueAt: (at: number) => number): Int32Array =>
      Int32Array.from(
        pointwise(film, known, 0.5, (m, i) => valueAt(m * steps + i)),
        (each) => Math.round(each * 10),
      );
    surfaces.set(
      kind,
      tenths((at) => film.surfaceTempC[at]!),
    );
    relHum = tenths((at) => humidityPct(film, airTempC, at));
    for (const product of shelf) {
      const laws: Record<string, number> = {};
      for (const { events, column } of packColumns(product, film, airTempC)) {
        const key = `${kind}|${Object.values(column).join('|')}`;
        const index = indexOf.get(key) ?? columns.push(column) - 1;
        indexOf.set(key, index);
        for (const event of events) laws[event] = index;
      }
      const flags = flagsOf(prepared, product, kind, film, window, known);
      clocks.push({ productId: product.id, surface: kind, laws, flags });
    }
  }
  return {
    jobId: job.id,
    date,
    timeZone: job.site.timeZone,
    builtMs: Math.round(prepared.nowMs),
    startMs: grid.startMs + from * grid.stepMs,
    stepMs: grid.stepMs,
    steps,
    knownSteps: known,
    readingLastsMs: READING_LASTS_MS,
    weather: {
      kind: source.kind,
      model: source.model,
      issuedMs: source.issuedMs,
      fetchedMs: source.fetchedMs,
      invented: source.invented,
      count: grid.memberCount,
    },
    readings: readingsIn(ready),
    relHum,
    surfaces,
    products: shelf.map(packProduct),
    columns,
    clocks,
  };
}

function humidityPct(film: FilmWeather, airTempC: Float32Array, at: number): number {
  const air = airTempC[at]!;
  return relHumFromDewPct({ airTempC: air, dewPointC: Math.min(film.dewPointC[at]!, air) });
}

function flagsOf(
  prepared: Prepared,
  product: Product,
  kind: PackSurface,
  film: FilmWeather,
  { from, steps }: Window,
  known: number,
): Int32Array {
  const whole = prepared.film(kind);
  const { grid, limits } = prepared;
  const sheetWeather = (part: FilmWeather): SheetWeather => ({
    ...part,
    airTempC: cut(grid.airTempC, whole, from, part.steps),
    rainMm: cut(grid.rainMm, whole, from, part.steps),
  });
  const flags = packFlags(product, sheetWeather(film), known, limits.rainMmPerHour);
  const hours = product.limits.hoursAfter?.value ?? 0;
  const further = Math.min(grid.steps - from, steps + (hours * MS_PER_HOUR) / grid.stepMs);
  const cold = coldFlags(product, sheetWeather(cutFilm(whole, from, further)), steps, known);
  return flags.map((bits, i) => bits | cold[i]!);
}

/** Readings of the deck re-anchor the surface model; they are in the rates already. */
function readingsIn({ readings = [] }: ReadyJob): PackReading[] {
  return readings
    .filter(({ surfaceId, kind }) => surfaceId === 'deck' && kind === 'surface-temp')
    .map(({ atMs, value }) => ({ surface: 'deck', atMs, what: 'surface-temp', value }));
}

function packProduct(product: Product): PackProduct {
  const { id, name, closing, openEndsBy, faces, limits } = product;
  const tenths = (limit: { readonly value: number } | undefined): number | null =>
    limit === undefined ? null : Math.round(limit.value * 10);
  return {
    id,
    name,
    closing,
    openEndsBy,
    faces,
    times: {
      touchDry: packTime(product.touchDry),
      openUntil: packTime(product.openUntil),
      rainAfter: packTime(product.rainAfter),
      closeFrom: packTime(product.closeFrom),
      footTraffic: packTime(product.footTraffic),
      fullCure: packTime(product.fullCure),
    },
    limits: {
      surfaceMinC: tenths(limits.surfaceMinC),
      surfaceMaxC: tenths(limits.surfaceMaxC),
      relHumMaxPct: tenths(limits.relHumMaxPct),
    },
  };
}
