import { layingBays, roofLie } from '../roof/index.ts';
import { inRange } from '../units/index.ts';
import type { BuildUpIssue } from './compatibility.ts';
import { type DayWorkQuestion, planDayWork } from './day-work.ts';
import { estimateDay } from './estimate.ts';

export interface BaysQuestion extends Omit<DayWorkQuestion, 'bayAreaM2' | 'bayIndex'> {
  /** Working minutes of one day, breaks taken off. 60..960. */
  readonly workMinutesPerDay: number;
  /** Share of the day the rain-safe work may fill, 0.3..1. Common practice: leave some over. */
  readonly dayShare?: number;
  /** Largest area for one day where the firm wants it smaller than reckoned [m2]; null = as reckoned. */
  readonly mostBayM2?: number | null;
}

export type BaysAnswer =
  | {
      readonly ok: true;
      readonly days: number;
      /** What to ask `planDayWork` for, which then splits into these same days [m2]. */
      readonly bayAreaM2: number;
      /** Longest bay in fair weather: to rain-safe, and to the end of the list [min]. */
      readonly rainSafeMin: number;
      readonly finishMin: number;
    }
  | { readonly ok: false; readonly issues: readonly BuildUpIssue[] };

/** Part of the working day kept for what the list does not show. Common practice. */
const DAY_SHARE = 0.85;
/** Bays under this are no way to lay a roof [m2]. */
const SMALLEST_BAY_M2 = 4;

/**
 * Fewest laying days such that each day's bay is rain-safe within the given share of the working day
 * and its whole list is done before the day ends.
 * @throws RangeError on a number outside its range
 */
export function baysFor(q: BaysQuestion): BaysAnswer {
  inRange('workMinutesPerDay', q.workMinutesPerDay, 60, 960);
  const share = inRange('dayShare', q.dayShare ?? DAY_SHARE, 0.3, 1);
  const { areaM2 } = roofLie(q.roof);
  const mostDays = Math.max(1, Math.floor(areaM2 / SMALLEST_BAY_M2));
  const whole = planDayWork({ ...q, bayAreaM2: areaM2, bayIndex: 0 });
  if (!whole.ok) return whole;
  // Splitting only adds work, so fewer days than the whole roof's work fills cannot do.
  const workMin = whole.work.activities.reduce((sum, a) => sum + a.workerMin, 0);
  const leastDays = Math.floor(workMin / (q.crewPeople * q.workMinutesPerDay));
  let shortest = Number.POSITIVE_INFINITY;
  const asked = q.mostBayM2 == null ? 1 : Math.ceil(areaM2 / q.mostBayM2 - 1e-9);
  for (let days = Math.max(1, leastDays, asked); days <= mostDays; days += 1) {
    const bayAreaM2 = areaM2 / days;
    // Bays differ in their edges and features: first, second, middle and last stand for all.
    const bays = layingBays(q.roof, bayAreaM2);
    const indexes = new Set([0, Math.min(1, bays.length - 1), bays.length >> 1, bays.length - 1]);
    let rainSafeMin = 0;
    let finishMin = 0;
    for (const bayIndex of indexes) {
      const answer = planDayWork({ ...q, bayAreaM2, bayIndex });
      if (!answer.ok) return answer;
      const estimate = estimateDay(answer.work, q.crewPeople, q.products);
      rainSafeMin = Math.max(rainSafeMin, estimate.rainSafeMin);
      finishMin = Math.max(finishMin, estimate.finishMin);
    }
    if (rainSafeMin <= share * q.workMinutesPerDay && finishMin <= q.workMinutesPerDay) {
      return {
        ok: true,
        days: bays.length,
        bayAreaM2,
        rainSafeMin,
        finishMin,
      };
    }
    shortest = Math.min(shortest, rainSafeMin);
  }
  return {
    ok: false,
    issues: [
      {
        path: 'crew',
        message: `Even the smallest bay takes ${Math.round(shortest)} min to rain-safe, more than ${Math.round(share * q.workMinutesPerDay)} min of a ${q.workMinutesPerDay}-minute day. More people, a longer day or stripping less at once is needed.`,
      },
    ],
  };
}
