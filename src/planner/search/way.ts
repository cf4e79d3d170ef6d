import { baysOfJob, known } from '../bays.ts';
import type { DayPlan } from '../day-plan.ts';
import type { Costs } from '../types.ts';

/** Where a list's order comes from: the stages of the work, or the core's best for one forecast. */
export type OrderId = 'as listed' | 'for a middling forecast' | 'for slow drying';

/** How a day's bay is laid: by whom, until when, how large, in which order. */
export interface LayingWay {
  /** What the split asks for; the bay itself is in the plan's work [m2]. */
  readonly bayAreaM2: number;
  /** Laying days the whole job then takes. */
  readonly bays: number;
  readonly order: OrderId;
  readonly people: number;
  /** The gang knocks off then, all done or closed up; never after the shift or in the dark. */
  readonly offMs: number;
}

export function wayOf({ prepared, work, shift }: DayPlan, order: OrderId = 'as listed'): LayingWay {
  const { job, products } = prepared;
  const { bayAreaM2 } = known(baysOfJob(job, products));
  const { people } = job.crew;
  return { bayAreaM2, bays: work.bay.of, order, people, offMs: shift.endMs };
}

/**
 * What it costs to lay a job in more laying days than its own split needs: each is one more day of the
 * crew, one more night seal and one more day waited for, whatever weather comes. A crew's day costs what
 * an aborted one does.
 * @param extraDays  laying days more than by the job's own split, 0 or more
 */
export function extraDaysCost(extraDays: number, { standDown, waitPerDay }: Costs): number {
  if (!(extraDays >= 0)) throw new RangeError(`extraDays (${extraDays}) must be 0 or more`);
  return extraDays === 0 ? 0 : extraDays * (standDown + waitPerDay);
}
