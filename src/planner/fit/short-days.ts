import type { Product } from '../../products/index.ts';
import { estimateDay, longestWork } from '../../stages/index.ts';
import { MS_PER_MINUTE } from '../../units/index.ts';
import { jobIssues, nextBay } from '../bays.ts';
import type { DayPlan } from '../day-plan.ts';
import { paceOn } from '../pace.ts';
import type { Prepared } from '../prepare.ts';
import { planFor } from '../search/plan-for.ts';
import type { Shift } from '../shift.ts';
import { type DayLaid, firstDayLaid, laidWords } from './day-laid.ts';
import {
  type JobChange,
  mostLonger,
  withLongerDay,
  withMorePeople,
  withOtherAdhesive,
} from './job-changes.ts';
import type { NeverFit } from './never-fits.ts';
import type { WorkHours } from './work-hours.ts';

/** What one day of the forecast asks and has. */
interface DayRoom {
  readonly plan: DayPlan;
  /** Elapsed time of the day's list in fair weather at that day's pace: to rain-safe, and to its end [min]. */
  readonly rainSafeMin: number;
  readonly finishMin: number;
  readonly dayMin: number;
}

/**
 * The work takes longer than the crew's hours, or than their daylight, on every day of the forecast.
 * @returns null where one day has the time for it
 */
export function shortDays(
  prepared: Prepared,
  hours: WorkHours,
  shelf: readonly Product[],
): NeverFit | null {
  const rooms = hours.shifts.map((shift) => roomOf(planFor(prepared, shift.day), shift));
  const least = rooms.reduce((best, next) => (overOf(next) < overOf(best) ? next : best));
  const over = overOf(least);
  const dark = least.finishMin - hours.mostLightMin;
  if (over <= 0 && dark <= 0) return null;
  const { words: longest, minutes } = longestWork(least.plan.work, prepared.job.crew.people);
  const why = `Longest is ${longest}, ${Math.round(minutes)} min.`;
  const found = changeForTime(prepared, Math.max(over, dark), shelf);
  const change =
    found === null
      ? NOTHING_TRIED
      : `With ${found.words}, it can be laid: ${laidWords(prepared, found.laid)}.`;
  const slow = paceOn(prepared, least.plan.shift).words;
  if (over > 0) {
    const [needMin, until] =
      least.rainSafeMin > least.dayMin
        ? [least.rainSafeMin, 'rain-safe']
        : [least.finishMin, 'the end of its list'];
    return {
      rule: 'day-end',
      words: `The bay takes ${Math.ceil(needMin)} min to ${until} even on the quickest day of this forecast, ${Math.ceil(needMin - least.dayMin)} min more than the crew's ${Math.round(least.dayMin)} min after breaks. ${why}${slow === '' ? '' : ` ${slow}`}`,
      change,
    };
  }
  return {
    rule: 'daylight',
    words: `The bay takes ${Math.ceil(least.finishMin)} min, ${Math.ceil(dark)} min more than the ${Math.round(hours.mostLightMin)} min of daylight in the crew's hours on the lightest day of this forecast; no work is begun in the dark (a safety limit). ${why}${slow === '' ? '' : ` ${slow}`}`,
    change,
  };
}

/** @param shift  the crew's whole hours: a plan's own end where the light does */
function roomOf(plan: DayPlan, shift: Shift): DayRoom {
  const { prepared, work } = plan;
  const { rainSafeMin, finishMin } = estimateDay(work, prepared.job.crew.people, prepared.products);
  const restMs = shift.breaks.reduce((sum, { lengthMs }) => sum + lengthMs, 0);
  return {
    plan,
    rainSafeMin,
    finishMin,
    dayMin: (shift.endMs - shift.startMs - restMs) / MS_PER_MINUTE,
  };
}

const overOf = ({ rainSafeMin, finishMin, dayMin }: DayRoom): number =>
  Math.max(rainSafeMin, finishMin) - dayMin;

/** Changes that are run through; each takes a look at every day. */
const MOST_PEOPLE_TRIED = 4;
const MOST_HOURS_TRIED = 5;
const LONGER_STEP_MIN = 15;
/** Share of the bay as it is, and how far that goes beside the other changes (judged). */
const BAYS = [
  { share: 0.75, size: 40 },
  { share: 0.5, size: 80 },
  { share: 0.3, size: 110 },
];
const SMALLEST_BAY_M2 = 4;

export interface TimeChange {
  /** As the middle of 'With ... it can be laid'. */
  readonly words: string;
  readonly laid: DayLaid;
}

/** The nearest that lets some day of the forecast finish the work, tried in order of size; null = none. */
export function changeForTime(
  prepared: Prepared,
  overMin: number,
  shelf: readonly Product[],
): TimeChange | null {
  const tried = timeChanges(prepared, overMin, shelf).sort((a, b) => a.size - b.size);
  for (const { words, job, products } of tried) {
    if (jobIssues(job, products).length > 0) continue;
    const laid = firstDayLaid({ ...prepared.variant(variantOf(job, products)), job });
    if (laid !== null) return { words, laid };
  }
  return null;
}

const NOTHING_TRIED =
  'No longer day, larger crew, smaller bay or other adhesive that was tried does it. Plan it for later dates.';

const variantOf = (job: JobChange['job'], products: JobChange['products']) => ({
  people: job.crew.people,
  products,
  ...(job.bayAreaM2 === null ? {} : { bayAreaM2: job.bayAreaM2 }),
});

function timeChanges(prepared: Prepared, overMin: number, shelf: readonly Product[]): JobChange[] {
  const { job, products } = prepared;
  const from = Math.max(1, Math.ceil(overMin / LONGER_STEP_MIN)) * LONGER_STEP_MIN;
  const longer = Array.from({ length: MOST_HOURS_TRIED }, (_, n) => from + n * 2 * LONGER_STEP_MIN)
    .filter((more) => more <= mostLonger(job))
    .flatMap((more) => withLongerDay({ job, products }, more) ?? []);
  return [
    ...smallerBays(prepared),
    ...longer,
    ...withMorePeople({ job, products }).slice(0, MOST_PEOPLE_TRIED),
    ...withOtherAdhesive({ job, products }, shelf),
  ];
}

/** The split of a roof half laid is not redrawn. */
function smallerBays({ job, products }: Prepared): JobChange[] {
  if (job.baysDone > 0) return [];
  const { areaM2 } = nextBay(job, products);
  return BAYS.map(({ share }) => Math.floor(share * areaM2 * 2) / 2)
    .filter((bayAreaM2) => bayAreaM2 >= SMALLEST_BAY_M2)
    .map((bayAreaM2, n) => ({
      job: { ...job, bayAreaM2 },
      products,
      words: `bays of at most ${bayAreaM2} m² (bayAreaM2), more laying days in all`,
      size: BAYS[n]!.size,
    }));
}
