import { MS_PER_MINUTE } from '../../units/index.ts';
import type { DayPlan } from '../day-plan.ts';

/** First moments of work that a day still leaves time for, at even steps from the start of its shift. */
export function startsOn(plan: DayPlan, everyMs: number): number[] {
  const { shift, prepared } = plan;
  const starts: number[] = [];
  for (let ms = shift.startMs; ms <= lastStartMs(plan); ms += everyMs) {
    if (ms >= prepared.nowMs) starts.push(ms);
  }
  return starts;
}

/** The same, round a start already found. */
export function startsRound(
  plan: DayPlan,
  startMs: number,
  offsetsMin: readonly number[],
): number[] {
  const firstMs = Math.max(plan.shift.startMs, plan.prepared.nowMs);
  return offsetsMin
    .map((minutes) => startMs + minutes * MS_PER_MINUTE)
    .filter((ms) => ms >= firstMs && ms <= lastStartMs(plan));
}

/** Later than this nothing gets rain-safe, however fair the weather. */
export function lastStartMs({ steps, shift }: DayPlan): number {
  return shift.endMs - (steps[0]?.toRainSafeMs ?? 0);
}
