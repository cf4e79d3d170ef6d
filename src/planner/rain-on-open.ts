import { stepAt, stepStartMs } from '../weather/index.ts';
import type { DayBook } from './day-book.ts';
import type { DayPlan } from './day-plan.ts';

/**
 * When rain first falls on open work between two moments, or null.
 * @param seenMs  rain somebody sees coming, whatever member `m` says; Infinity = none
 */
export function rainOnOpenWork(
  plan: DayPlan,
  m: number,
  book: DayBook,
  fromMs: number,
  toMs: number,
  seenMs: number,
): number | null {
  if (book.openedMs === null) return null;
  const { grid, nextRain } = plan.prepared;
  const openFrom = Math.max(fromMs, book.openedMs);
  const first = nextRain[m * grid.steps + stepAt(grid, openFrom)] ?? grid.steps;
  const forecastMs = first >= grid.steps ? Number.POSITIVE_INFINITY : stepStartMs(grid, first);
  const rainMs = Math.max(Math.min(forecastMs, seenMs), openFrom);
  if (!(rainMs < toMs)) return null;
  const rainSafeMs = book.rainSafeMs();
  // Rain-safe already: what is left waits for another dry spell.
  return rainSafeMs !== null && rainMs >= rainSafeMs ? null : rainMs;
}
