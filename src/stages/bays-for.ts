import { layingBays, roofLie } from '../roof/index.ts';
import { inRange } from '../units/index.ts';
import type { BuildUpIssue } from './compatibility.ts';
import { type DayWorkQuestion, planDayWork } from './day-work.ts';
import { estimateDay } from './estimate.ts';
import { type TooLong, tooLongFor, tooLongIssue } from './too-long.ts';
import type { DayWork } from './types.ts';

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
  | {
      readonly ok: false;
      readonly issues: readonly BuildUpIssue[];
      /** Where nothing but time is short. */
      readonly tooLong?: TooLong;
    };

/**
 * Share of the working day a bay's way to rain-safe may fill: dew often holds the start until the
 * middle of the morning (common practice), and what is opened must be closed the same day.
 */
export const DAY_SHARE = 0.85;
/** Bays under this are no way to lay a roof [m2]. */
const SMALLEST_BAY_M2 = 4;

/** Numbers of days are tried one by one up to this many over the least; beyond, in growing steps. */
const TRIED_ONE_BY_ONE = 12;
/** Some bays have more to work round than others: less is skipped than the minutes say. */
const SURELY = 0.85;

/**
 * Fewest laying days such that each day's bay is rain-safe within the given share of the working day
 * and its whole list is done before the day ends. Where far more days are needed than the work alone
 * would fill, smaller bays are taken to be quicker to close.
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
  const asked = q.mostBayM2 == null ? 1 : Math.ceil(areaM2 / q.mostBayM2 - 1e-9);
  const from = Math.min(mostDays, Math.max(1, leastDays, asked));
  const fits = (days: number): Tried => tryDays(q, areaM2 / days, share);
  let [tooFew, days] = [from - 1, from];
  for (let tries = 0; tries < TRIED_ONE_BY_ONE && days <= mostDays; tries += 1) {
    const tried = fits(days);
    if (tried.fits) return tried.answer;
    tooFew = days;
    // A bay's minutes fall no faster than its area: what is far too long needs as many times the days.
    days = Math.max(days + 1, Math.floor(tried.bays * tried.over * SURELY));
  }
  let enough = Math.min(mostDays, days);
  let best = fits(enough);
  for (let step = 2; !best.fits && enough < mostDays; step *= 2) {
    tooFew = enough;
    enough = Math.min(mostDays, enough + step);
    best = fits(enough);
  }
  if (!best.fits) {
    const worst = worstOf(q, areaM2 / enough, share) ?? best.tooLong;
    return { ok: false, issues: [tooLongIssue(worst)], tooLong: worst };
  }
  while (enough - tooFew > 1) {
    const days = (tooFew + enough) >> 1;
    const tried = fits(days);
    if (tried.fits) [enough, best] = [days, tried];
    else tooFew = days;
  }
  return best.answer;
}

type Tried =
  | { readonly fits: true; readonly answer: BaysAnswer }
  | {
      readonly fits: false;
      readonly bays: number;
      /** How many times too long the day is. */
      readonly over: number;
      readonly tooLong: TooLong;
    };

/** Of all bays of a size, the one that misses its day by most. */
function worstOf(q: BaysQuestion, bayAreaM2: number, share: number): TooLong | null {
  const seen = new Set<string>();
  let worst: TooLong | null = null;
  for (const { number, alike } of layingBays(q.roof, bayAreaM2)) {
    if (seen.has(alike)) continue;
    seen.add(alike);
    const answer = planDayWork({ ...q, bayAreaM2, bayIndex: number - 1 });
    const found = answer.ok ? tooLongOn(q, answer.work, share) : null;
    if (found !== null && (worst === null || ratioOf(found) > ratioOf(worst))) worst = found;
  }
  return worst;
}

const ratioOf = ({ needMin, mostMin }: TooLong): number => needMin / mostMin;

function tooLongOn(q: BaysQuestion, work: DayWork, share: number): TooLong | null {
  const estimate = estimateDay(work, q.crewPeople, q.products);
  return tooLongFor({
    work,
    people: q.crewPeople,
    estimate,
    dayMin: q.workMinutesPerDay,
    share,
  });
}

/** Whether every bay of a size fits into its day; the first that does not ends the trial. */
function tryDays(q: BaysQuestion, bayAreaM2: number, share: number): Tried {
  const bays = layingBays(q.roof, bayAreaM2);
  // Those with most to work round are the likeliest not to fit.
  const hardestFirst = [...bays].sort((a, b) => b.standing - a.standing);
  let [rainSafeMin, finishMin] = [0, 0];
  const seen = new Set<string>();
  for (const { number, alike } of hardestFirst) {
    if (seen.has(alike)) continue;
    seen.add(alike);
    const answer = planDayWork({ ...q, bayAreaM2, bayIndex: number - 1 });
    if (!answer.ok) return { fits: true, answer };
    const estimate = estimateDay(answer.work, q.crewPeople, q.products);
    rainSafeMin = Math.max(rainSafeMin, estimate.rainSafeMin);
    finishMin = Math.max(finishMin, estimate.finishMin);
    const tooLong = tooLongFor({
      work: answer.work,
      people: q.crewPeople,
      estimate,
      dayMin: q.workMinutesPerDay,
      share,
    });
    if (tooLong !== null)
      return { fits: false, bays: bays.length, over: ratioOf(tooLong), tooLong };
  }
  return {
    fits: true,
    answer: { ok: true, days: bays.length, bayAreaM2, rainSafeMin, finishMin },
  };
}
