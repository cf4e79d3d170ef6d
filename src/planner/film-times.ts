import { type ClockRange, rateAt, whenReached } from '../products/index.ts';
import type { FilmClock } from './day-plan.ts';

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
    const at = whenReached(doses, m, coatedMs, readyMin);
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
  const ready = readyAt(film, m, coatedMs, readyMin);
  if (ready === null) return null;
  let first: number | null = null;
  for (const doses of film.doses) {
    const at = whenReached(doses, m, ready, openMin - readyMin);
    if (at !== null && (first === null || at < first)) first = at;
  }
  return first;
}

/** Drying speed of the quickest face at a moment, 1 = as on the sheet: what a crew can judge then. */
export function quickestNow(film: FilmClock, m: number, ms: number): number {
  return Math.max(...film.doses.map((doses) => rateAt(doses, m, ms)));
}

/** The same of the slowest face. */
export function slowestNow(film: FilmClock, m: number, ms: number): number {
  return Math.min(...film.doses.map((doses) => rateAt(doses, m, ms)));
}

/** Share of forecasts outside a range at each end. */
const TAIL = 0.1;

/**
 * Ranges of a joint over forecasts and product scatter: touch dry counts from the last square metre
 * coated, usable until from the first.
 */
export function jointClock(
  film: FilmClock,
  firstMs: number,
  lastMs: number,
): { touchDry: ClockRange | null; usableUntil: ClockRange } {
  const { product } = film;
  const memberCount = film.doses[0]!.film.memberCount;
  const range = (
    at: (m: number, level: 'lowMin' | 'typicalMin' | 'highMin') => number | null,
  ): ClockRange => ({
    earlyMs: pick(memberCount, TAIL, (m) => at(m, 'lowMin')),
    midMs: pick(memberCount, 0.5, (m) => at(m, 'typicalMin')),
    lateMs: pick(memberCount, 1 - TAIL, (m) => at(m, 'highMin')),
  });
  const dryMin = (level: 'lowMin' | 'typicalMin' | 'highMin') =>
    product.closing === 'touch-dry' ? (product.touchDry?.[level] ?? 0) : 0;
  return {
    touchDry:
      product.closing === 'touch-dry'
        ? range((m, level) => readyAt(film, m, lastMs, dryMin(level)))
        : null,
    usableUntil: range((m, level) =>
      expiresAt(film, m, firstMs, dryMin(level), product.openUntil?.[level] ?? film.openMin),
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
