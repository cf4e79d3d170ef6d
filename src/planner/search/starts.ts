import { MS_PER_MINUTE } from '../../units/index.ts';
import type { DayPlan } from '../day-plan.ts';
import { lightOn } from './light.ts';

export const START_STEP_MS = 15 * MS_PER_MINUTE;

/**
 * Quarter hours of the shift at which a day's work may begin: from now on, not before light, and while
 * fair weather would still get it rain-safe. In a shift without any light all of them: why nothing
 * can be done then is for the run to say.
 */
export function startsOn(plan: DayPlan): number[] {
  const { shift, prepared } = plan;
  const longest = plan.steps[0]?.toRainSafeMs ?? 0;
  const fromMs = Math.max(prepared.nowMs, lightOn(prepared, shift)?.fromMs ?? shift.startMs);
  const starts: number[] = [];
  for (let ms = shift.startMs; ms + longest <= shift.endMs; ms += START_STEP_MS) {
    if (ms >= fromMs) starts.push(ms);
  }
  return starts;
}
