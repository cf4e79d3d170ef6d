import type { LearnedAnswer } from '../contract/index.ts';
import { filmOn, type Job, type SiteEvent } from '../planner/index.ts';
import { asOnSheet, buildDoseTable, type Product, withSpeed } from '../products/index.ts';
import {
  ASK_BEYOND_SD,
  effectiveLog,
  type FilmEntry,
  filmsOf,
  HALF_LIFE_DAYS,
  type Learned,
  LOOK_SD_MIN,
  type LoggedFilm,
  learn,
  type MeasuredFilm,
  measureFilm,
  SD_PER_80_PCT,
  WEATHER_SD,
  type WeatherOfFilm,
} from '../record/index.ts';
import { surfaceSpecsFor } from '../stages/index.ts';
import { localDayOf } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import {
  buildGrid,
  type HourlyWeather,
  type SiteReading,
  type SurfaceSpec,
  surfaceWeather,
} from '../weather/index.ts';

/**
 * The weather a film is judged by starts half a day before, so that the roof has its warmth (a whole day changes
 * the drying by a thousandth), and ends some hours after.
 */
export const FILM_MARGIN = { beforeMs: 12 * MS_PER_HOUR, afterMs: 3 * MS_PER_HOUR } as const;
/** The deck was dried and looked at before it was coated. */
const DRIED_BEFORE_MS = MS_PER_HOUR;

/** The films of one job's site log, those of other products too. */
export function loggedFilms(events: readonly SiteEvent[]): LoggedFilm[] {
  return filmsOf(effectiveLog(events));
}

export interface FilmOnJob {
  readonly product: Product;
  readonly job: Job;
  /** Around the film, see `FILM_MARGIN`; null = not known for that time. */
  readonly hourly: HourlyWeather | null;
  readonly readings: readonly SiteReading[];
  readonly coatedMs: number;
  readonly dryMs: number;
}

/** How far the sheet says a film of this job had dried when it was logged touch dry. */
export function measureOnJob(film: FilmOnJob): MeasuredFilm {
  const { coatedMs, dryMs } = film;
  const product = asOnSheet(film.product);
  return measureFilm(product, coatedMs, dryMs, weatherOf({ ...film, product }));
}

function weatherOf({ product, job, hourly, readings, coatedMs }: FilmOnJob): WeatherOfFilm | null {
  if (hourly === null) return null;
  const grid = buildGrid(hourly, job.site);
  const specs = surfaceSpecsFor({ roof: job.roof, buildUp: job.buildUp, ...job.site });
  const dryDowns = [{ atMs: coatedMs - DRIED_BEFORE_MS, leavesMm: 0 }];
  const faces = facesOf(product).flatMap((kind) => {
    const spec = specs.find((candidate) => candidate.kind === kind);
    if (spec === undefined) return [];
    const history =
      kind === 'deck'
        ? { openedMs: null, coveredMs: null, moistureAtOpeningPct: null, dryDowns, readings }
        : null;
    const surface = surfaceWeather(grid, spec, job.site.elevationM, history);
    return [{ surface, doses: buildDoseTable(product, filmOn(grid, surface)) }];
  });
  if (faces.length === 0) throw new Error(`this roof has no surface for ${product.id}`);
  return { grid, faces };
}

/** Where a product's films lie. An upstand among them is taken as dry with the rest. */
function facesOf(product: Product): readonly SurfaceSpec['kind'][] {
  if (product.does.includes('primer')) return ['sheet'];
  return product.faces === 2 ? ['deck', 'folded-sheet'] : ['deck'];
}

/** A film of one job as a firm's product learns from it. */
export interface FirmFilm {
  readonly job: Job;
  readonly film: LoggedFilm;
  readonly measured: MeasuredFilm | null;
}

/** What a firm's films teach of a product; films of other products are passed over. */
export function learnFrom(
  product: Product,
  films: readonly FirmFilm[],
  nowMs: number,
): Learned | null {
  const entries = films
    .filter(({ film }) => film.coated === null || film.coated.productId === product.id)
    .map(({ job, film, measured }): FilmEntry => ({ film, measured, date: dateOf(job, film) }));
  return learn(asOnSheet(product), entries, nowMs);
}

function dateOf(job: Job, { coated, dry }: LoggedFilm): string {
  return localDayOf((coated ?? dry).atMs, job.site.timeZone).date;
}

const HOW = [
  'Each film is compared with the weather known for its time; the sheet is the starting point, and films count the more the newer they are and the more days they come from.',
  `An entry counts half after ${HALF_LIFE_DAYS} days. The weather of a day is taken as known to ${Math.round(100 * WEATHER_SD)} % of speed, the look at the film to ${LOOK_SD_MIN} min (from memory).`,
  "The sheet's range is read as 8 films in 10, half of its scatter as lasting from film to film of one firm (from memory).",
  `An entry further off than ${ASK_BEYOND_SD} standard deviations is asked about and not used until it is confirmed. Open time never goes beyond the sheet's latest. The finger test always overrules it.`,
];

/** The same for a person to read. */
export function presentLearned(args: {
  readonly product: Product;
  readonly firm: LearnedAnswer['firm'];
  readonly films: readonly FirmFilm[];
  readonly nowMs: number;
}): LearnedAnswer {
  const { firm, films, nowMs } = args;
  const product = asOnSheet(args.product);
  const learned = learnFrom(product, films, nowMs);
  const jobOf = new Map(films.map(({ job, film }) => [film.dry.id, job]));
  const film = (logged: LoggedFilm) => {
    const job = jobOf.get(logged.dry.id)!;
    return {
      eventId: logged.dry.id,
      jobId: job.id,
      jobName: job.name,
      activityId: logged.dry.activityId,
      coatedMs: logged.coated?.atMs ?? null,
      dryMs: logged.dry.atMs,
      date: dateOf(job, logged),
    };
  };
  return {
    product: { id: product.id, name: product.name },
    firm,
    nowMs,
    sheet: timesOf(product),
    sees: learned === null ? null : timesOf(withSpeed(product, learned.correction)),
    speed: learned === null ? null : speedOf(learned),
    sentence:
      learned === null
        ? 'The sheet of this product names no touch-dry time, so there is nothing to learn.'
        : (learnedWords(learned) ?? nothingYet(learned)),
    used: (learned?.used ?? []).map(({ film: logged, tookMin, expectedMin, speed }) => {
      return { ...film(logged), tookMin, expectedMin, speed, confirmed: logged.confirmed };
    }),
    setAside: (learned?.setAside ?? []).map((entry) => ({ ...film(entry.film), why: entry.why })),
    asked: (learned?.asked ?? []).map((entry) => ({
      ...film(entry.film),
      question: entry.question,
      canBeConfirmed: entry.canBeConfirmed,
    })),
    notes: HOW,
  };
}

function timesOf({ touchDry }: Product): LearnedAnswer['sheet'] {
  if (touchDry === null) return null;
  const { lowMin, typicalMin, highMin, source } = touchDry;
  return { lowMin, typicalMin, highMin, source };
}

function speedOf({ speed }: Learned): NonNullable<LearnedAnswer['speed']> {
  const { mean, sd } = speed.logSpeed;
  const { films, days, effectiveFilms } = speed;
  return {
    factor: Math.exp(mean),
    lowFactor: Math.exp(mean - SD_PER_80_PCT * sd),
    highFactor: Math.exp(mean + SD_PER_80_PCT * sd),
    films,
    days,
    effectiveFilms,
  };
}

/** Beside every time that is not the sheet's own any more; null where it still is. */
export function learnedWords(learned: Learned): string | null {
  const { films, days, factor, lowFactor, highFactor } = speedOf(learned);
  if (films === 0) return null;
  const counted = `${films} ${films === 1 ? 'film' : 'films'} on ${days} ${days === 1 ? 'day' : 'days'}`;
  return `From your own site log (${counted}) it dries at ${times(factor)} the speed the sheet says (${times(lowFactor)} to ${times(highFactor)}).`;
}

function nothingYet({ asked }: Learned): string {
  if (asked.length === 0)
    return "No films of this product are on record yet: the sheet's times hold.";
  return "The entries on record are asked about first: until then the sheet's times hold.";
}

const times = (factor: number): string => `${factor.toFixed(2)} times`;
