import { type ClockRange, rateAt, whenReached } from '../products/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { FilmClock, Step } from './day-plan.ts';

/*
 * A joint has a clock for each coated face. A crew coats the slower face first (shade before sun, the
 * wall before the sheet), so that all come ready together: the joint is ready when its slowest face
 * is, and from then on its quickest face decides how long it stays usable.
 */

/** When the last of a joint's faces is ready; null = not before the forecast ends. */
export function readyAt(
  film: FilmClock,
  m: number,
  coatedMs: number,
  readyMin = film.readyMin,
): number | null {
  let last = coatedMs;
  for (const doses of film.doses) {
    const at = whenReached(doses, 'touchDry', m, coatedMs, readyMin);
    if (at === null) return null;
    last = Math.max(last, at);
  }
  return last;
}

/** When the first of a joint's faces goes off; null = none before the forecast ends. */
export function expiresAt(
  film: FilmClock,
  m: number,
  coatedMs: number,
  readyMin = film.readyMin,
  openMin = film.openMin,
): number | null {
  if (film.product.openEndsBy === 'time') return coatedMs + openMin * MS_PER_MINUTE;
  const ready = readyAt(film, m, coatedMs, readyMin);
  if (ready === null) return null;
  let first: number | null = null;
  for (const doses of film.doses) {
    const at = whenReached(doses, 'openUntil', m, ready, openMin - readyMin);
    if (at !== null && (first === null || at < first)) first = at;
  }
  return first;
}

/** What a crew can judge of a film at one moment, from how fast it dries just then. */
export interface JudgedWindow {
  /** From coating to ready [ms]; Infinity where it does not dry at all. */
  readonly readyMs: number;
  /** From ready to gone off [ms]. */
  readonly openMs: number;
}

export function judgedWindow(film: FilmClock, m: number, ms: number): JudgedWindow {
  const speeds = film.doses.map((doses) => rateAt(doses, 'openUntil', m, ms));
  const slowest = Math.min(...speeds);
  const quickest = Math.max(...speeds);
  const readyMs =
    film.readyMin === 0
      ? 0
      : slowest > 0
        ? (film.readyMin / slowest) * MS_PER_MINUTE
        : Number.POSITIVE_INFINITY;
  if (film.product.openEndsBy === 'time') {
    return { readyMs, openMs: Math.max(0, film.openMin * MS_PER_MINUTE - readyMs) };
  }
  const open = film.openMin - film.readyMin;
  return {
    readyMs,
    openMs: quickest > 0 ? (open / quickest) * MS_PER_MINUTE : Number.POSITIVE_INFINITY,
  };
}

/** At the speed of drying right now, can this be coated and closed inside its open time? */
export function fitsItsWindow(step: Step, m: number, ms: number): boolean {
  if (step.film === null) return true;
  const { readyMs, openMs } = judgedWindow(step.film, m, ms);
  if (!Number.isFinite(readyMs)) return false;
  const { runningFront } = step.activity;
  const neededMs =
    runningFront === undefined
      ? step.durationMs + step.closingMs
      : runningFront.stepMin * MS_PER_MINUTE;
  return neededMs <= openMs;
}

/** Share of forecasts outside a range at each end. */
const TAIL = 0.1;

/**
 * A joint as it goes in one forecast, with ranges over forecasts and product scatter: touch dry counts
 * from the last square metre coated, usable until from the first.
 * @param m  the forecast whose times are told as the middle ones, so that they fit its list
 */
export function jointClock(
  film: FilmClock,
  m: number,
  firstMs: number,
  lastMs: number,
): { touchDry: ClockRange | null; usableUntil: ClockRange } {
  const { product } = film;
  const memberCount = film.doses[0]!.film.memberCount;
  const range = (
    at: (m: number, level: 'lowMin' | 'typicalMin' | 'highMin') => number | null,
  ): ClockRange => {
    const midMs = at(m, 'typicalMin');
    const earlyMs = pick(memberCount, TAIL, (n) => at(n, 'lowMin'));
    const lateMs = pick(memberCount, 1 - TAIL, (n) => at(n, 'highMin'));
    if (midMs === null) return { earlyMs, midMs, lateMs: null };
    return {
      earlyMs: earlyMs === null ? midMs : Math.min(earlyMs, midMs),
      midMs,
      lateMs: lateMs === null ? null : Math.max(lateMs, midMs),
    };
  };
  const dryMin = (level: 'lowMin' | 'typicalMin' | 'highMin') =>
    product.closing === 'touch-dry' ? (product.touchDry?.[level] ?? 0) : 0;
  return {
    touchDry:
      product.closing === 'touch-dry'
        ? range((n, level) => readyAt(film, n, lastMs, dryMin(level)))
        : null,
    usableUntil: range((n, level) =>
      expiresAt(film, n, firstMs, dryMin(level), product.openUntil?.[level] ?? film.openMin),
    ),
  };
}

function pick(memberCount: number, share: number, at: (m: number) => number | null): number | null {
  const times = Array.from(
    { length: memberCount },
    (_, m) => at(m) ?? Number.POSITIVE_INFINITY,
  ).sort((a, b) => a - b);
  const found = times[Math.min(memberCount - 1, Math.floor(share * memberCount))]!;
  return Number.isFinite(found) ? found : null;
}
