import { MS_PER_MINUTE } from '../units/index.ts';
import type { DayPlan } from './day-plan.ts';
import { simulateDay } from './simulate.ts';

const SCAN_STEP_MS = 15 * MS_PER_MINUTE;

/**
 * The latest start of a piece of one-go work that still gets the roof rain-safe in time, in at least
 * the asked share of forecasts, everything before it being done.
 * @param fromMs  its planned start: nothing earlier is looked at
 * @returns epoch ms, or null where not even the planned start is good enough
 */
export function lastSafeStart(
  plan: DayPlan,
  index: number,
  fromMs: number,
  confidence: number,
): number | null {
  const { grid } = plan.prepared;
  const longest = plan.steps[index]!.toRainSafeMs;
  const latestMs = plan.shift.endMs - longest;
  for (let k = Math.floor((latestMs - fromMs) / SCAN_STEP_MS); k >= 0; k -= 1) {
    const startMs = fromMs + k * SCAN_STEP_MS;
    let good = 0;
    for (let m = 0; m < grid.memberCount; m += 1) {
      if (simulateDay(plan, m, { startMs, fromIndex: index }).rainSafeMs !== null) good += 1;
    }
    if (good >= confidence * grid.memberCount) return startMs;
  }
  return null;
}
