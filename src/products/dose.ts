import { MS_PER_MINUTE } from '../units/index.ts';
import type { FilmWeather } from './film-weather.ts';
import { rateOf } from './rates.ts';
import type { ClockEvent, Product } from './types.ts';

/**
 * Running total of progress for one product on one surface: minutes at reference conditions, per
 * member. 'When is it ready?' is a binary search, 'how far has it got?' a look-up.
 */
export interface DoseTable {
  readonly film: FilmWeather;
  /**
   * Per event [memberCount * (steps + 1)]; total at the start of step i at m * (steps + 1) + i.
   * Worked out when first asked for; events that follow one law share their column.
   */
  total(event: ClockEvent): Float64Array;
}

export function buildDoseTable(product: Product, film: FilmWeather): DoseTable {
  const byLaw = new Map<string, Float64Array>();
  const columns: Columns = {
    touchDry: null,
    openUntil: null,
    rainAfter: null,
    footTraffic: null,
    fullCure: null,
  };
  const make = (event: ClockEvent): Float64Array => {
    const key = lawKey(product, event);
    const column = byLaw.get(key) ?? totalsOf(product, event, film);
    byLaw.set(key, column);
    columns[event] = column;
    return column;
  };
  return { film, total: (event) => columnOf(columns, event) ?? make(event) };
}

type Columns = Record<ClockEvent, Float64Array | null>;

/** Asked at every look-up, where a property by a name that varies is the slowest thing there is. */
function columnOf(columns: Columns, event: ClockEvent): Float64Array | null {
  switch (event) {
    case 'touchDry':
      return columns.touchDry;
    case 'openUntil':
      return columns.openUntil;
    case 'rainAfter':
      return columns.rainAfter;
    case 'footTraffic':
      return columns.footTraffic;
    case 'fullCure':
      return columns.fullCure;
  }
}

/** Two events with the same key run by the same law. */
function lawKey(product: Product, event: ClockEvent): string {
  const table = product.tables.findIndex((sheet) => sheet.event === event);
  if (table >= 0) return `table ${table}`;
  return event === 'footTraffic' || event === 'fullCure' ? 'cure' : 'film';
}

function totalsOf(product: Product, event: ClockEvent, film: FilmWeather): Float64Array {
  const totalMin = new Float64Array(film.memberCount * (film.steps + 1));
  const rate = rateOf(product, event);
  const stepMin = film.stepMs / MS_PER_MINUTE;
  for (let m = 0; m < film.memberCount; m += 1) {
    const known = film.knownSteps[m]!;
    const into = m * (film.steps + 1) + 1;
    rate.fill(film, m * film.steps, known, totalMin, into);
    let total = 0;
    for (let at = into; at < into + known; at += 1) {
      total += stepMin * totalMin[at]!;
      totalMin[at] = total;
    }
  }
  return totalMin;
}

/**
 * When a film coated at `fromMs` has had `refMin` minutes' worth of reference drying.
 * @returns epoch ms, or null where the forecast ends (or starts) first
 */
export function whenReached(
  table: DoseTable,
  event: ClockEvent,
  m: number,
  fromMs: number,
  refMin: number,
): number | null {
  const { startMs, stepMs, steps } = table.film;
  const known = table.film.knownSteps[m]!;
  const base = m * (steps + 1);
  const at = (fromMs - startMs) / stepMs;
  if (at < 0 || at > known) return null;
  const first = Math.floor(at);
  const total = table.total(event);
  const target = doseAt(total, base, at, known) + refMin;
  if (total[base + known]! < target) return null;
  // Most questions end within hours of their start: double the reach first, then halve the gap.
  let low = first;
  let reach = 8;
  while (low + reach < known && total[base + low + reach]! < target) {
    low += reach;
    reach *= 2;
  }
  let high = Math.min(known, low + reach);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (total[base + middle]! >= target) high = middle;
    else low = middle;
  }
  const before = total[base + low]!;
  const gained = total[base + high]! - before;
  // Nothing gained in the step means the target was met when it began.
  const share = gained > 0 ? (target - before) / gained : 0;
  return startMs + Math.max(at, low + share) * stepMs;
}

/** Far below a millisecond's worth of drying [min]. */
const ROUNDING_MIN = 1e-9;

/**
 * The latest moment a film may be coated to have had `refMin` minutes' worth by `byMs`: `whenReached`
 * the other way round.
 * @returns epoch ms, or null where the forecast starts later, or does not reach `byMs`
 */
export function whenToCoat(
  table: DoseTable,
  event: ClockEvent,
  m: number,
  byMs: number,
  refMin: number,
): number | null {
  const { startMs, stepMs, steps } = table.film;
  const known = table.film.knownSteps[m]!;
  const base = m * (steps + 1);
  const at = (byMs - startMs) / stepMs;
  if (at < 0 || at > known) return null;
  const total = table.total(event);
  // Sums taken off and put back differ in their last bits; a film that stood still must not feel that.
  const target = doseAt(total, base, at, known) - refMin + ROUNDING_MIN;
  if (target < total[base]!) return null;
  let low = 0;
  let high = Math.ceil(at);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (total[base + middle]! <= target) low = middle;
    else high = middle;
  }
  if (high === 0) return startMs;
  const before = total[base + low]!;
  const gained = total[base + high]! - before;
  // Of a step in which nothing is gained, the end is the latest.
  const share = gained > 0 ? Math.min(1, (target - before) / gained) : 1;
  return startMs + Math.min(at, low + share) * stepMs;
}

function doseAt(total: Float64Array, base: number, at: number, known: number): number {
  const i = Math.min(Math.floor(at), known);
  const before = total[base + i]!;
  if (i >= known) return before;
  return before + (total[base + i + 1]! - before) * (at - i);
}

/** Speed of drying in a step, 1 = as at reference; what a crew can judge at that moment. */
export function rateAt(table: DoseTable, event: ClockEvent, m: number, ms: number): number {
  const { startMs, stepMs, steps } = table.film;
  const i = Math.floor((ms - startMs) / stepMs);
  if (i < 0 || i >= table.film.knownSteps[m]!) return Number.NaN;
  const base = m * (steps + 1) + i;
  const total = table.total(event);
  return ((total[base + 1]! - total[base]!) * MS_PER_MINUTE) / stepMs;
}
