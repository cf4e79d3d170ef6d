import {
  type BaysAnswer,
  type BuildUpIssue,
  baysFor,
  type DayWork,
  planDayWork,
} from '../stages/index.ts';
import type { ProductSet } from './prepare.ts';
import { closingWindow } from './sizing.ts';
import type { Crew, Job } from './types.ts';

/**
 * Share of the working day a bay's way to rain-safe may fill: dew often holds the start until the
 * middle of the morning (common practice), and what is opened must be closed the same day.
 */
const DAY_SHARE = 0.8;

/** How a job splits into laying days, at the product's reference climate: the split is not redrawn daily. */
export function baysOfJob(job: Job, products: ProductSet): BaysAnswer {
  return baysFor({
    roof: job.roof,
    buildUp: job.buildUp,
    products,
    crewPeople: job.crew.people,
    usableMin: closingWindow(products.field, 1),
    workMinutesPerDay: workMinutes(job.crew),
    dayShare: DAY_SHARE,
  });
}

/** Why this job cannot be laid as written; empty = it can. */
export function jobIssues(job: Job, products: ProductSet): readonly BuildUpIssue[] {
  const minutes = workMinutes(job.crew);
  if (minutes < 60 || minutes > 960) {
    return [
      {
        path: 'crew',
        message: `crew works ${minutes} min a day after breaks; 60 to 960 are accepted.`,
      },
    ];
  }
  const bays = baysOfJob(job, products);
  return bays.ok ? [] : bays.issues;
}

/** The bay to lay next. */
export function nextBay(job: Job, products: ProductSet): DayWork['bay'] {
  const bays = known(baysOfJob(job, products));
  const built = planDayWork({
    roof: job.roof,
    buildUp: job.buildUp,
    products,
    crewPeople: job.crew.people,
    bayAreaM2: bays.bayAreaM2,
    bayIndex: Math.min(job.baysDone, bays.days - 1),
    usableMin: closingWindow(products.field, 1),
  });
  return known(built).work.bay;
}

/** Jobs are checked with `jobIssues` when they come in: one that fails later is a bug in that check. */
export function known<T extends { readonly ok: boolean }>(answer: T): Extract<T, { ok: true }> {
  if (!answer.ok)
    throw new Error(`an unchecked job reached the planner: ${JSON.stringify(answer)}`);
  return answer as Extract<T, { ok: true }>;
}

function workMinutes(crew: Crew): number {
  const minuteOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
  const breaks = crew.breaks.reduce((sum, rest) => sum + rest.minutes, 0);
  return minuteOf(crew.dayEnd) - minuteOf(crew.dayStart) - breaks;
}
