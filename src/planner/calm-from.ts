import { stepAt, stepStartMs } from '../weather/index.ts';
import type { DayPlan } from './day-plan.ts';
import { bitsOf } from './masks.ts';

const KEPT_OFF = bitsOf(['roof-wind', 'lightning']);

/** The first moment, from `ms` on, without wind or lightning in which nobody is on the roof in member `m`; or where it ends. */
export function calmFrom(plan: DayPlan, m: number, ms: number): number {
  const { grid } = plan.prepared;
  const { broken } = plan.steps[0]!.mask;
  const first = stepAt(grid, ms);
  let step = first;
  while (step < grid.knownSteps[m]! && (broken[m * grid.steps + step]! & KEPT_OFF) !== 0) {
    step += 1;
  }
  return step === first ? ms : stepStartMs(grid, step);
}
