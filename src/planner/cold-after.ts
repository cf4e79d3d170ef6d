import { stepAt } from '../weather/index.ts';
import type { DayPlan } from './day-plan.ts';
import { NIGHT } from './rules/index.ts';

/**
 * Laid in good faith, and the night turned out too cold for a film: sealed, but the bond is in doubt.
 * A night the forecast does not reach is not known to be warm.
 * @param doneMs  per activity, NaN where it was not reached
 * @returns the first film in doubt and when it was coated, or null
 */
export function nightAfter(
  plan: DayPlan,
  m: number,
  doneMs: Float64Array,
): { readonly kind: 'cold' | 'unknown'; readonly coatedMs: number } | null {
  const { grid } = plan.prepared;
  let unknown: { readonly kind: 'unknown'; readonly coatedMs: number } | null = null;
  for (let n = 0; n < plan.steps.length; n += 1) {
    const { film, mask, activity } = plan.steps[n]!;
    if (film === null || mask.turnsCold === null || !activity.rules.includes('cold-night'))
      continue;
    const coatedMs = doneMs[n]!;
    if (Number.isNaN(coatedMs)) continue;
    const step = stepAt(grid, coatedMs);
    // Coated as the grid ends: the next cell is the first of another forecast.
    const night = step < grid.steps ? mask.turnsCold[m * grid.steps + step] : NIGHT.unknown;
    if (night === NIGHT.cold) return { kind: 'cold', coatedMs };
    if (night !== NIGHT.warm) unknown ??= { kind: 'unknown', coatedMs };
  }
  return unknown;
}
