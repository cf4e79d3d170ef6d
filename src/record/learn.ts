import { type Product, type RefTime, type SpeedCorrection, withSpeed } from '../products/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { DryEntry, LoggedFilm } from './films.ts';
import { type MeasuredFilm, minutesAlong } from './measure.ts';
import {
  correctionOf,
  type FirmSpeed,
  firmSpeed,
  isTooOld,
  OLDEST_DAYS,
  type Sighting,
  sheetScatter,
  surprise,
} from './speed.ts';

/** Further off than this many standard deviations an entry is asked about: 1 in 370 by chance. */
export const ASK_BEYOND_SD = 3;

/** A 'touch dry' entry of the firm, with what the weather says of its film. */
export interface FilmEntry {
  readonly film: LoggedFilm;
  /** Of a film only; null for the others, and for one too old to be learned from. */
  readonly measured: MeasuredFilm | null;
  /** Local calendar date of the site when it was coated. */
  readonly date: string;
}

export interface UsedFilm {
  readonly film: LoggedFilm & { readonly kind: 'film' };
  readonly tookMin: number;
  /** What the sheet expected under that weather. */
  readonly expectedMin: number;
  /** Speed over the sheet's. */
  readonly speed: number;
}

export interface AsideFilm {
  readonly film: LoggedFilm;
  readonly why: string;
}

export interface AskedFilm {
  readonly film: LoggedFilm;
  readonly question: string;
  /** False = it cannot be true as logged; taking back one of the two entries is the way. */
  readonly canBeConfirmed: boolean;
}

export interface Learned {
  readonly speed: FirmSpeed;
  readonly correction: SpeedCorrection;
  readonly used: readonly UsedFilm[];
  readonly setAside: readonly AsideFilm[];
  readonly asked: readonly AskedFilm[];
}

/**
 * What a firm's site logs teach of one product. Entries are gone through in the order things happened
 * on site; each is judged by the sheet and the entries accepted before it. One that lies further off than
 * `ASK_BEYOND_SD` is asked about and changes nothing until it is confirmed.
 * Nothing is kept from earlier calls: an entry taken back leaves no trace.
 * @param entries  of this product, in any order
 * @returns null where the sheet names no touch-dry time
 */
export function learn(
  product: Product,
  entries: readonly FilmEntry[],
  nowMs: number,
): Learned | null {
  const sheet = product.touchDry;
  if (sheet === null) return null;
  const scatter = sheetScatter(sheet);
  const sightings: Sighting[] = [];
  const used: UsedFilm[] = [];
  const setAside: AsideFilm[] = [];
  const asked: AskedFilm[] = [];
  const ordered = [...entries].sort((a, b) => byDry(a.film.dry, b.film.dry));
  for (const { film, measured, date } of ordered) {
    if (film.kind === 'unpaired') {
      setAside.push({ film, why: film.why });
    } else if (film.dry.atMs > nowMs) {
      setAside.push({ film, why: 'logged for a time that is still to come' });
    } else if (isTooOld(film.dry.atMs, nowMs)) {
      setAside.push({ film, why: `older than ${OLDEST_DAYS} days` });
    } else if (film.kind === 'impossible') {
      asked.push({ film, question: IMPOSSIBLE, canBeConfirmed: false });
    } else if (measured === null) {
      throw new Error(`film ${film.dry.id} was not measured`);
    } else if (!measured.ok) {
      if (measured.kind === 'aside') setAside.push({ film, why: measured.why });
      else asked.push({ film, question: couldNot(film, measured.why), canBeConfirmed: false });
    } else {
      const sighting = sightingOf(film, sheet, measured, date);
      const before = firmSpeed(scatter, sightings, film.dry.atMs);
      const tookMin = minutesOf(film);
      const unusual = Math.abs(surprise(before, sighting)) > ASK_BEYOND_SD;
      if (unusual && !film.confirmed) {
        // The range that was shown for it: the sheet's, or what earlier films had made of it.
        const usual = withSpeed(product, correctionOf(before)).touchDry ?? sheet;
        const question = slipOfThePen(tookMin, usual, measured);
        asked.push({ film, question, canBeConfirmed: true });
      } else {
        sightings.push(sighting);
        const { expectedMin, logSpeed } = sighting;
        used.push({ film, tookMin, expectedMin, speed: Math.exp(logSpeed) });
      }
    }
  }
  const speed = firmSpeed(scatter, sightings, nowMs);
  return { speed, correction: correctionOf(speed), used, setAside, asked };
}

function byDry(a: DryEntry, b: DryEntry): number {
  return a.atMs - b.atMs || a.loggedMs - b.loggedMs || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

type Film = LoggedFilm & { readonly kind: 'film' };
type Dried = MeasuredFilm & { readonly ok: true };

function minutesOf({ coated, dry }: Film): number {
  return (dry.atMs - coated.atMs) / MS_PER_MINUTE;
}

function sightingOf(film: Film, sheet: RefTime, measured: Dried, date: string): Sighting {
  return {
    id: film.dry.id,
    // Dry after less drying than the sheet asks means faster.
    logSpeed: Math.log(sheet.typicalMin / measured.doseMin),
    expectedMin: minutesAlong(measured, sheet.typicalMin),
    forecastSd: measured.forecastSd,
    dayKey: `${film.dry.jobId}|${date}`,
    dryMs: film.dry.atMs,
  };
}

const IMPOSSIBLE =
  'Logged touch dry no later than it was coated. Which of the two times is wrong? Take that entry back and log it again.';

function couldNot(film: Film, why: string): string {
  return `Logged touch dry after ${roundMin(minutesOf(film))} min, but ${why}. Was it another part, or another day? Take the wrong entry back and log it again.`;
}

function slipOfThePen(tookMin: number, usual: RefTime, measured: Dried): string {
  const from = roundMin(minutesAlong(measured, usual.lowMin));
  const to = roundMin(minutesAlong(measured, usual.highMin));
  return `Logged after ${roundMin(tookMin)} min; ${from} to ${to} min expected in that weather: slip of the pen? It counts for nothing until it is confirmed.`;
}

function roundMin(minutes: number): string {
  return minutes < 10 ? String(Math.round(minutes * 10) / 10) : String(Math.round(minutes));
}
