import { USABLE_SHARE } from '../stages/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { SectionWindow } from './ahead-window.ts';

/** How a gang gets on with a section: its minutes for each m2 or m, and the most it ever takes on. */
export interface SectionPace {
  readonly coatMinPer: number;
  readonly closeMinPer: number;
  readonly mostAtOnce: number;
}

/** Something other than the film by which the section has to be closed. */
export interface SectionEnd {
  readonly why: 'rain' | 'day-end' | 'darkness';
  readonly atMs: number;
}

/** What keeps a section from being larger. */
export type SectionLimit =
  | 'open-time'
  /** The last metre is ready only when the first has gone off: no section however small. */
  | 'window-empty'
  /** Not ready in the time looked at. */
  | 'wont-dry'
  | 'largest'
  | SectionEnd['why'];

export interface SectionFit {
  /** [m2 or m], 0 = none. */
  readonly most: number;
  readonly limit: SectionLimit;
}

/** Halvings of the largest section: to a millionth of it. */
const HALVINGS = 20;

/**
 * The largest section that is coated from `fromMs` on and closed in time.
 *
 * Coating and closing together take at most two thirds of what the film leaves for them: the time from
 * the last metre ready to the first gone off, and the coating itself, during which the first metre dries.
 * Closed wet and at once, that is two thirds of the open time; the remaining third is the margin for
 * the product's scatter and the crew's. Other ends are met to the minute.
 * A larger section is never easier, so that halving finds the largest.
 */
export function largestSection(
  pace: SectionPace,
  window: SectionWindow,
  fromMs: number,
  ends: readonly SectionEnd[],
): SectionFit {
  const against = (size: number): SectionLimit | null =>
    hindrance(pace, window, fromMs, ends, size);
  const none = against(0);
  if (none !== null) return { most: 0, limit: none };
  if (against(pace.mostAtOnce) === null) return { most: pace.mostAtOnce, limit: 'largest' };
  let fits = 0;
  let fails = pace.mostAtOnce;
  for (let k = 0; k < HALVINGS; k += 1) {
    const middle = (fits + fails) / 2;
    if (against(middle) === null) fits = middle;
    else fails = middle;
  }
  return { most: fits, limit: against(fails) ?? 'open-time' };
}

function hindrance(
  pace: SectionPace,
  window: SectionWindow,
  fromMs: number,
  ends: readonly SectionEnd[],
  size: number,
): SectionLimit | null {
  const { coatMs, closeMs, readyMs, spareMs } = sectionTimes(pace, window, fromMs, size);
  if (!Number.isFinite(readyMs)) return 'wont-dry';
  const doneMs = readyMs + closeMs;
  for (const { why, atMs } of ends) {
    if (doneMs > atMs) return why;
  }
  if (readyMs >= window.goesOffMs) return size === 0 ? 'window-empty' : 'open-time';
  return coatMs + closeMs > spareMs ? 'open-time' : null;
}

export interface SectionTimes {
  readonly coatMs: number;
  readonly closeMs: number;
  /** From when the last metre may be closed, in the slow forecasts. */
  readonly readyMs: number;
  /** What coating and closing together may take, the margin kept. */
  readonly spareMs: number;
  /** By when closing must be done, the margin kept; Infinity = the film sets no end. */
  readonly closeByMs: number;
}

export function sectionTimes(
  pace: SectionPace,
  window: SectionWindow,
  fromMs: number,
  size: number,
): SectionTimes {
  const coatMs = size * pace.coatMinPer * MS_PER_MINUTE;
  const closeMs = size * pace.closeMinPer * MS_PER_MINUTE;
  const readyMs = window.readyMs(fromMs + coatMs);
  const leftMs = window.goesOffMs - readyMs + coatMs;
  return {
    coatMs,
    closeMs,
    readyMs,
    spareMs: USABLE_SHARE * leftMs,
    closeByMs: window.goesOffMs - (1 - USABLE_SHARE) * leftMs,
  };
}
