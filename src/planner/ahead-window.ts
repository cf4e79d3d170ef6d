import { stepAt, type WeatherGrid } from '../weather/index.ts';
import type { FilmClock } from './day-plan.ts';
import { expiresAt, readyAt } from './film-times.ts';
import { quantile } from './quantile.ts';

/**
 * What a section coated from one moment on has to fit into, over the forecasts: times are those of the
 * quick or the slow ones, whichever is the careful side, at the product's typical figures.
 */
export interface SectionWindow {
  /** The first metre, coated at the start, has gone off; Infinity = it has no end. */
  readonly goesOffMs: number;
  /** A metre coated at `coatedMs` may be closed, in the slow forecasts; Infinity = never. */
  readyMs(coatedMs: number): number;
  /** The same in the quick and in the middle ones; null = not in the time looked at. */
  readyRange(coatedMs: number): { readonly earlyMs: number | null; readonly midMs: number | null };
}

/** Share of forecasts that may end too soon for anything still to be said. */
const UNKNOWN_SHARE = 0.2;

/** Forecasts that know the weather at a moment; null = too few of them. */
export function knownAt(grid: WeatherGrid, ms: number): readonly number[] | null {
  const step = stepAt(grid, ms);
  const known: number[] = [];
  for (let m = 0; m < grid.memberCount; m += 1) {
    if (step >= 0 && step < grid.knownSteps[m]!) known.push(m);
  }
  return known.length < (1 - UNKNOWN_SHARE) * grid.memberCount ? null : known;
}

/**
 * @param film  null = a product whose film never goes off
 * @param members  the forecasts to ask
 * @param confidence  share of them in which the section must go well
 */
export function sectionWindow(
  film: FilmClock | null,
  members: readonly number[],
  fromMs: number,
  confidence: number,
): SectionWindow {
  if (film === null) {
    return {
      goesOffMs: Number.POSITIVE_INFINITY,
      readyMs: (ms) => ms,
      readyRange: (ms) => ({ earlyMs: ms, midMs: ms }),
    };
  }
  const ready = (coatedMs: number, share: number): number => {
    if (film.readyMin === 0) return coatedMs;
    const found = members.map((m) => readyAt(film, m, coatedMs) ?? Number.POSITIVE_INFINITY);
    return quantile(found, share)!;
  };
  const goesOff = members.map((m) => expiresAt(film, m, fromMs) ?? knownEndMs(film, m));
  const orNull = (ms: number): number | null => (Number.isFinite(ms) ? ms : null);
  return {
    goesOffMs: quantile(goesOff, 1 - confidence) ?? Number.NEGATIVE_INFINITY,
    readyMs: (coatedMs) => ready(coatedMs, confidence),
    readyRange: (coatedMs) => ({
      earlyMs: orNull(ready(coatedMs, 1 - confidence)),
      midMs: orNull(ready(coatedMs, 0.5)),
    }),
  };
}

/** Where a forecast ends first, the film is not counted on beyond it. */
function knownEndMs(film: FilmClock, m: number): number {
  const { startMs, stepMs, knownSteps } = film.doses[0]!.film;
  return startMs + knownSteps[m]! * stepMs;
}
