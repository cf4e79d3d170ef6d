import { type DayWork, planDayWork } from '../../stages/index.ts';
import type { LocalDay } from '../../time/index.ts';
import { nextBayBasis } from '../bays.ts';
import { type DayPlan, dayPlan } from '../day-plan.ts';
import { paceOn, ratesAt } from '../pace.ts';
import type { Prepared } from '../prepare.ts';
import { isWorkDay, type Shift, shiftOn } from '../shift.ts';
import { type Usable, usableOn } from '../sizing.ts';
import { knockOffs, until } from './light.ts';

const LONGEST_SEARCHED_MIN = 240;

export interface DaySkip {
  readonly day: LocalDay;
  readonly why: 'not a working day' | 'too early' | 'too late' | 'too short';
}

export function skipReason(prepared: Prepared, day: LocalDay): DaySkip['why'] | null {
  const { crew, earliest, latest } = prepared.job;
  if (!isWorkDay(crew, day)) return 'not a working day';
  if (earliest !== null && day.date < earliest) return 'too early';
  if (latest !== null && day.date > latest) return 'too late';
  return null;
}

/** The day's work as listed, by the whole crew until the shift or the light ends. */
export function planFor(prepared: Prepared, day: LocalDay): DayPlan {
  const shift = shiftOn(prepared.job.crew, day, prepared.job.site.timeZone);
  return planUntil(prepared, until(shift, knockOffs(prepared, shift)[0] ?? shift.endMs));
}

/** The day's work with sections sized for the hours they are expected in. */
export function planUntil(prepared: Prepared, shift: Shift): DayPlan {
  return dayPlan(prepared, workFor(prepared, usableOn(prepared, shift), shift), shift);
}

/**
 * Sections sized for the weather; where it dries too fast for any section to be worth it, the
 * smallest that can be laid, and the simulation holds the crew until the deck has cooled.
 */
export function workFor(prepared: Prepared, usable: Usable, shift: Shift): DayWork {
  const { job, products } = prepared;
  const usual = nextBayBasis(job, products);
  const basis = { ...usual, rates: ratesAt(usual.rates, paceOn(prepared, shift)) };
  for (let usableMin = usable.usableMin; ; usableMin *= 2) {
    const built = planDayWork({
      ...basis,
      ...usable,
      usableMin,
    });
    if (built.ok) return built.work;
    if (usableMin > LONGEST_SEARCHED_MIN)
      throw new Error(built.issues.map((issue) => issue.message).join(' '));
  }
}
