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
  const latestMs = plan.shift.endMs - plan.steps[index]!.toRainSafeMs;
  for (let k = Math.floor((latestMs - fromMs) / SCAN_STEP_MS); k >= 0; k -= 1) {
    const startMs = fromMs + k * SCAN_STEP_MS;
    if (isGoodEnough(plan, index, startMs, confidence)) return startMs;
  }
  return null;
}

/** Asks forecast after forecast, and no further than the answer needs. */
function isGoodEnough(plan: DayPlan, index: number, startMs: number, confidence: number): boolean {
  const { memberCount } = plan.prepared.grid;
  const needed = Math.ceil(confidence * memberCount - 1e-9);
  let good = 0;
  for (let m = 0; m < memberCount; m += 1) {
    const run = simulateDay(plan, m, { startMs, fromIndex: index, untilRainSafe: true });
    if (run.rainSafeMs !== null) good += 1;
    if (good >= needed) return true;
    if (good + (memberCount - 1 - m) < needed) return false;
  }
  return false;
}
