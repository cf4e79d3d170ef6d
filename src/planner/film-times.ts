import {
  atShare,
  type ClockRange,
  firstOff,
  lastReady,
  rateAt,
  type ScatterLevel,
  slowestFirst,
  waitsFor,
  whenReached,
} from '../products/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { FilmClock, Step } from './day-plan.ts';

/*
 * The rules of a joint stand in products; here they meet a crew that coats the slower face first
 * (shade before sun, the wall before the sheet), so that all come ready together: the joint is ready
 * when its slowest face is, and from then on its quickest face decides how long it stays usable.
 */

/** When the last of a joint's faces is ready; null = not before the forecast ends. */
export function readyAt(
  film: FilmClock,
  m: number,
  coatedMs: number,
  readyMin = film.readyMin,
): number | null {
  const faces = film.doses.map((table) => ({ table, firstMs: coatedMs, lastMs: coatedMs }));
  return lastReady(film.product, faces, m, readyMin).ms;
}

/** When the first of a joint's faces goes off; null = none before the forecast ends. */
export function expiresAt(
  film: FilmClock,
  m: number,
  coatedMs: number,
  readyMin = film.readyMin,
  openMin = film.openMin,
): number | null {
  const { product, doses } = film;
  if (product.openEndsBy === 'time') return coatedMs + openMin * MS_PER_MINUTE;
  if (doses.length === 1) return whenReached(doses[0]!, 'openUntil', m, coatedMs, openMin);
  const coated = slowestFirst(product, doses, m, coatedMs, readyMin);
  if (coated === null) return null;
  const faces = doses.map((table, n) => ({ table, firstMs: coated[n]!, lastMs: coated[n]! }));
  return firstOff(product, faces, m, openMin).ms;
}

/** What a crew can judge of a film at one moment, from how fast it dries just then. */
export interface JudgedWindow {
  /** From coating to ready [ms]; Infinity where it does not dry at all. */
  readonly readyMs: number;
  /** From ready to gone off [ms]. */
  readonly openMs: number;
}

export function judgedWindow(film: FilmClock, m: number, ms: number): JudgedWindow {
  const { product, doses, readyMin, openMin } = film;
  const waitedFor = readyMin === 0 ? null : (waitsFor(product)?.event ?? null);
  let readyMs = 0;
  let openMs = Number.POSITIVE_INFINITY;
  for (const table of doses) {
    const openSpeed = rateAt(table, 'openUntil', m, ms);
    let dryMs = 0;
    if (waitedFor !== null) {
      // Mostly one law drives both.
      const oneLaw = table.total(waitedFor) === table.total('openUntil');
      dryMs = takesMs(readyMin, oneLaw ? openSpeed : rateAt(table, waitedFor, m, ms));
    }
    readyMs = Math.max(readyMs, dryMs);
    const goneMs = takesMs(openMin, openSpeed);
    // Of a face that stands still there is no saying how long it stays open once dry.
    if (Number.isFinite(goneMs)) openMs = Math.min(openMs, Math.max(0, goneMs - dryMs));
  }
  if (product.openEndsBy === 'time') openMs = Math.max(0, openMin * MS_PER_MINUTE - readyMs);
  return { readyMs, openMs };
}

function takesMs(refMin: number, speed: number): number {
  return speed > 0 ? (refMin / speed) * MS_PER_MINUTE : Number.POSITIVE_INFINITY;
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
  const range = (at: (m: number, level: ScatterLevel) => number | null): ClockRange => {
    const midMs = at(m, 'typicalMin');
    const earlyMs = atShare(memberCount, TAIL, (n) => at(n, 'lowMin'));
    const lateMs = atShare(memberCount, 1 - TAIL, (n) => at(n, 'highMin'));
    if (midMs === null) return { earlyMs, midMs, lateMs: null };
    return {
      earlyMs: earlyMs === null ? midMs : Math.min(earlyMs, midMs),
      midMs,
      lateMs: lateMs === null ? null : Math.max(lateMs, midMs),
    };
  };
  const readyMin = (level: ScatterLevel) => waitsFor(product)?.time[level] ?? 0;
  return {
    touchDry:
      product.closing === 'touch-dry'
        ? range((n, level) => readyAt(film, n, lastMs, readyMin(level)))
        : null,
    usableUntil: range((n, level) =>
      expiresAt(film, n, firstMs, readyMin(level), product.openUntil?.[level] ?? film.openMin),
    ),
  };
}
