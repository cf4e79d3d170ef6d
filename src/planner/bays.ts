import { asOnSheet } from '../products/index.ts';
import { jobSheets, layingBays, outlineOf, roofIssues, roofLie } from '../roof/index.ts';
import {
  type BaysAnswer,
  type BuildUpIssue,
  baysFor,
  type DayWork,
  estimateDay,
  planDayWork,
  stageTable,
  withOwnRates,
} from '../stages/index.ts';
import { closingWindow } from './closing-window.ts';
import type { ProductSet } from './prepare.ts';
import type { Crew, Job } from './types.ts';

/** What every list of a job's work is made from. */
export function workBasis(job: Job, products: ProductSet) {
  const { roof, buildUp, layout } = job;
  const rates = withOwnRates(job.rates);
  return { roof, buildUp, products, crewPeople: job.crew.people, rates, layout };
}

/** The same for the bay that is laid next. */
export function nextBayBasis(job: Job, products: ProductSet) {
  const { bayAreaM2, days } = known(baysOfJob(job, products));
  const bayIndex = Math.min(job.baysDone, days - 1);
  return { ...workBasis(job, products), bayAreaM2, bayIndex };
}

const split = new WeakMap<Job, WeakMap<ProductSet, BaysAnswer>>();

/** How a job splits into laying days, at the product's reference climate: the split is not redrawn daily. */
export function baysOfJob(job: Job, products: ProductSet): BaysAnswer {
  const known = split.get(job) ?? new WeakMap<ProductSet, BaysAnswer>();
  split.set(job, known);
  const answer = known.get(products) ?? splitOf(job, products);
  known.set(products, answer);
  return answer;
}

function splitOf(job: Job, products: ProductSet): BaysAnswer {
  return baysFor({
    ...workBasis(job, products),
    mostBayM2: job.bayAreaM2,
    // What is learned from day to day does not redraw the bays of a roof half laid.
    usableMin: closingWindow(asOnSheet(products.field), 1),
    workMinutesPerDay: workMinutes(job.crew),
  });
}

/** What is wrong with a job's hours, drawing or sheets, before any work is reckoned; empty = nothing. */
export function askedIssues(job: Job): readonly BuildUpIssue[] {
  const minutes = workMinutes(job.crew);
  if (minutes < 60 || minutes > 960) {
    return [
      {
        path: 'crew',
        message: `crew works ${minutes} min a day after breaks; 60 to 960 are accepted.`,
      },
    ];
  }
  const drawing = roofIssues(job.roof).filter(({ level }) => level === 'refuse');
  if (drawing.length > 0) return drawing.map(({ path, message }) => ({ path, message }));
  return layoutIssues(job);
}

/** Why this job cannot be laid as written; empty = it can. */
export function jobIssues(job: Job, products: ProductSet): readonly BuildUpIssue[] {
  const asked = askedIssues(job);
  if (asked.length > 0) return asked;
  const bays = baysOfJob(job, products);
  return bays.ok ? [] : bays.issues;
}

/** What is set of the sheets and cannot be: an area that is not there, sheets that leave no layout. */
function layoutIssues(job: Job): BuildUpIssue[] {
  if (Object.keys(job.layout).length === 0) return [];
  const areas = outlineOf(job.roof).areas.map(({ id }) => id);
  const strange = Object.keys(job.layout.choices ?? {}).filter((id) => !areas.includes(id));
  if (strange.length > 0) {
    return strange.map((id) => ({
      path: `layout.choices.${id}`,
      message: `layout.choices names the area '${id}', which this roof does not have; it has ${areas.join(', ')}.`,
    }));
  }
  try {
    jobSheets(layingBays(job.roof, roofLie(job.roof).areaM2), job.layout);
    return [];
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [{ path: 'layout', message: `layout cannot be kept: ${error.message}.` }];
  }
}

/** All laying days of a job in fair weather, as the sheets' typical figures have it. */
export function fairDays(job: Job, products: ProductSet) {
  const { bayAreaM2 } = known(baysOfJob(job, products));
  // What is learned from day to day does not redraw the bays of a roof half laid.
  const usableMin = closingWindow(asOnSheet(products.field), 1);
  const table = known(stageTable({ ...workBasis(job, products), bayAreaM2, usableMin }));
  const days = table.days.map((day) => estimateDay(day, job.crew.people, products));
  return { bayAreaM2, table, days };
}

/** The bay to lay next. */
export function nextBay(job: Job, products: ProductSet): DayWork['bay'] {
  const built = planDayWork({
    ...nextBayBasis(job, products),
    // What is learned from day to day does not redraw the bays of a roof half laid.
    usableMin: closingWindow(asOnSheet(products.field), 1),
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
