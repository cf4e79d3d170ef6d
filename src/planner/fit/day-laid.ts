import { clockText, longDayText } from '../../time/index.ts';
import { MS_PER_MINUTE } from '../../units/index.ts';
import type { DayPlan } from '../day-plan.ts';
import { forecastsWords } from '../forecast-words.ts';
import type { Prepared } from '../prepare.ts';
import { planFor } from '../search/plan-for.ts';
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
/** Forecasts asked before all of them are. */
const FEW = 8;

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
  const few = Math.max(1, Math.floor(of / FEW));
  let best: DayLaid | null = null;
  for (let startMs = shift.startMs; startMs <= lastMs; startMs += EVERY_MS) {
    const finishes = (m: number): boolean => simulateDay(plan, m, { startMs }).kind === 'finished';
    const members = Array.from({ length: of }, (_, m) => m);
    // Where none of a few finishes, all of them are not asked.
    if (!members.some((m) => m % few === 0 && finishes(m))) continue;
    const finished = members.filter(finishes).length;
    if (finished > strayOf(of) && finished > (best?.finished ?? 0))
      best = { shift, startMs, finished, of };
  }
  return best;
}

/** 'first on Tuesday 19 May, finished in 14 of 20 forecasts from a 10:30 start' */
export function laidWords({ job, grid }: Prepared, laid: DayLaid): string {
  const zone = job.site.timeZone;
  const day = longDayText(laid.shift.startMs, zone);
  const made = grid.source.madeFromOne === true;
  const count =
    laid.of === 1
      ? 'finished in the one forecast there is'
      : `finished in ${laid.finished} of ${forecastsWords(laid.of, made)}`;
  return `first on ${day}, ${count} from a ${clockText(laid.startMs, zone)} start`;
}
