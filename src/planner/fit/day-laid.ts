import { MS_PER_MINUTE } from '../../units/index.ts';
import type { DayPlan } from '../day-plan.ts';
import type { Prepared } from '../prepare.ts';
import { planFor } from '../search.ts';
import type { Shift } from '../shift.ts';
import { simulateDay } from '../simulate.ts';
import { strayOf } from './never-met.ts';
import { workHours } from './work-hours.ts';

/** A day and a start from which the work gets finished in more than a stray forecast. */
export interface DayLaid {
  readonly shift: Shift;
  readonly startMs: number;
  readonly finished: number;
  readonly of: number;
}

/** Starts looked at: every so often is enough to see whether a day goes at all. */
const EVERY_MS = 60 * MS_PER_MINUTE;

/** The first day on which the job, as prepared, can be laid from some start; null = none. */
export function firstDayLaid(prepared: Prepared): DayLaid | null {
  for (const shift of workHours(prepared)?.shifts ?? []) {
    const laid = dayLaid(planFor(prepared, shift.day));
    if (laid !== null) return laid;
  }
  return null;
}

function dayLaid(plan: DayPlan): DayLaid | null {
  const { shift, prepared } = plan;
  const lastMs = shift.endMs - (plan.steps[0]?.toRainSafeMs ?? 0);
  const of = prepared.grid.memberCount;
  let best: DayLaid | null = null;
  for (let startMs = shift.startMs; startMs <= lastMs; startMs += EVERY_MS) {
    let finished = 0;
    for (let m = 0; m < of; m += 1) {
      if (simulateDay(plan, m, { startMs }).kind === 'finished') finished += 1;
    }
    if (finished > strayOf(of) && finished > (best?.finished ?? 0))
      best = { shift, startMs, finished, of };
  }
  return best;
}
