import { MS_PER_MINUTE } from '../units/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import type { DayPlan } from './day-plan.ts';
import { RULE_BIT } from './masks.ts';

/** Off the roof after the last thunder: the '30/30' rule (common practice, US National Weather Service). */
export const AFTER_THUNDER_MS = 30 * MS_PER_MINUTE;

/** Why nobody is on the roof at a moment; never traded for output. */
export interface OffRoof {
  readonly why: 'thunder' | 'lightning' | 'roof-wind' | 'daylight';
  /** When that is over, by the clock or by most forecasts; null = not this working day. */
  readonly untilMs: number | null;
}

/** Thunder first, which no forecast knows better; then darkness, lightning and wind, where most forecasts have them. */
export function offRoofNow(plan: DayPlan, atMs: number, thunderMs: number | null): OffRoof | null {
  if (thunderMs !== null && atMs < thunderMs + AFTER_THUNDER_MS)
    return { why: 'thunder', untilMs: thunderMs + AFTER_THUNDER_MS };
  const { grid } = plan.prepared;
  const first = stepAt(grid, atMs);
  for (const why of ['daylight', 'lightning', 'roof-wind'] as const) {
    if (!mostHave(plan, why, first)) continue;
    const end = stepAt(grid, plan.shift.endMs);
    let step = first;
    while (step < end && mostHave(plan, why, step)) step += 1;
    return { why, untilMs: step < end ? Math.max(atMs, stepStartMs(grid, step)) : null };
  }
  return null;
}

function mostHave(
  { prepared, steps }: DayPlan,
  rule: 'lightning' | 'roof-wind' | 'daylight',
  step: number,
): boolean {
  const { grid } = prepared;
  const { broken } = steps[0]!.mask;
  let known = 0;
  let held = 0;
  for (let m = 0; m < grid.memberCount; m += 1) {
    if (step >= grid.knownSteps[m]!) continue;
    known += 1;
    if ((broken[m * grid.steps + step]! & RULE_BIT[rule]) !== 0) held += 1;
  }
  return 2 * held > known;
}
