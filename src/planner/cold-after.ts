import { stepAt } from '../weather/index.ts';
import type { DayPlan } from './day-plan.ts';

/**
 * Laid in good faith, and the night turned out too cold for a film: sealed, but the bond is in doubt.
 * @param doneMs  per activity, NaN where it was not reached
 * @returns when the film in doubt was coated, or null
 */
export function coldAfter(plan: DayPlan, m: number, doneMs: Float64Array): number | null {
  const { grid } = plan.prepared;
  for (let n = 0; n < plan.steps.length; n += 1) {
    const { film, mask, activity } = plan.steps[n]!;
    if (film === null || mask.turnsCold === null || !activity.rules.includes('cold-night'))
      continue;
    const coatedMs = doneMs[n]!;
    if (mask.turnsCold[m * grid.steps + stepAt(grid, coatedMs)] === 1) return coatedMs;
  }
  return null;
}
