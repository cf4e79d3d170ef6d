import { MS_PER_MINUTE } from '../../units/index.ts';
import type { DayPlan } from '../day-plan.ts';
import type { DayBounds } from './bounds.ts';

/** Starts kept for running in every forecast. */
export const STARTS_KEPT = 10;
/** Of those, so many for being the cheapest by the look of it, so far apart from one another. */
const BEST_KEPT = 6;
const APART_MS = 30 * MS_PER_MINUTE;

/**
 * The starts worth running in every forecast: the likely cheapest, not all next to one another, and some
 * spread over the day, since what is likely is only looked up and not run.
 * @param starts  in order of time
 * @returns in order of time
 */
export function screened(plan: DayPlan, bounds: DayBounds, starts: readonly number[]): number[] {
  if (starts.length <= STARTS_KEPT) return [...starts];
  const { memberCount } = plan.prepared.grid;
  const likely = starts.map((startMs) => {
    let sum = 0;
    for (let m = 0; m < memberCount; m += 1) sum += bounds.likely(startMs, m);
    return sum;
  });
  const cheapestFirst = [...starts.keys()].sort((a, b) => likely[a]! - likely[b]! || a - b);
  const kept = new Set<number>();
  const clear = (n: number): boolean =>
    [...kept].every((other) => Math.abs(starts[n]! - starts[other]!) >= APART_MS);
  for (const n of cheapestFirst) {
    if (kept.size < BEST_KEPT && clear(n)) kept.add(n);
  }
  const spread = STARTS_KEPT - kept.size;
  for (let k = 0; k < spread; k += 1) {
    const at = Math.round((k * (starts.length - 1)) / Math.max(1, spread - 1));
    const free = [...starts.keys()].filter((n) => !kept.has(n));
    kept.add(free.sort((a, b) => Math.abs(a - at) - Math.abs(b - at) || a - b)[0]!);
  }
  return [...kept].sort((a, b) => a - b).map((n) => starts[n]!);
}
