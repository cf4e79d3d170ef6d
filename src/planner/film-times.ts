import { rateAt, whenReached } from '../products/index.ts';
import type { FilmClock } from './day-plan.ts';

/** When the last of a joint's faces gets there; null = not before the forecast ends. */
export function latest(film: FilmClock, m: number, fromMs: number, refMin: number): number | null {
  let last = Number.NEGATIVE_INFINITY;
  for (const doses of film.doses) {
    const at = whenReached(doses, m, fromMs, refMin);
    if (at === null) return null;
    last = Math.max(last, at);
  }
  return last;
}

/** When the first of a joint's faces gets there; null = none before the forecast ends. */
export function earliest(
  film: FilmClock,
  m: number,
  fromMs: number,
  refMin: number,
): number | null {
  let first: number | null = null;
  for (const doses of film.doses) {
    const at = whenReached(doses, m, fromMs, refMin);
    if (at !== null && (first === null || at < first)) first = at;
  }
  return first;
}

/** Drying speed of the quickest face at a moment, 1 = as on the sheet: what a crew can judge then. */
export function speedNow(film: FilmClock, m: number, ms: number): number {
  return Math.max(...film.doses.map((doses) => rateAt(doses, m, ms)));
}
