import type { Product } from '../products/index.ts';
import { estimateDay, planDayWork, type SectionKind, type SectionTask } from '../stages/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import { filmOfTask, tasksAhead } from './ahead.ts';
import { known, nextBayBasis } from './bays.ts';
import { closingWindow, stepDown } from './closing-window.ts';
import type { FilmClock } from './day-plan.ts';
import { expiresAt, readyAt } from './film-times.ts';
import { bitsOf } from './masks.ts';
import type { Prepared } from './prepare.ts';
import { quantile } from './quantile.ts';
import type { Shift } from './shift.ts';

const LOOK_EVERY_MS = 30 * MS_PER_MINUTE;
const SIZE_EVERY_MS = 60 * MS_PER_MINUTE;
/** Work that begins later than could be is counted on for this much longer. */
const SLACK_MS = 120 * MS_PER_MINUTE;
/** The field is expected from when so many forecasts let it be coated. */
const WORKABLE_SHARE = 0.5;
/** An hour in which fewer let anybody coat has no say in how large sections are. */
const LEAST_SHARE = 0.1;

/** Usable minutes of one day's weather by where the adhesive goes. */
export interface Usable {
  readonly usableMin: number;
  readonly usablePerimeterMin: number;
  readonly usablePrimerMin: number;
}

/**
 * Minutes to size a day's sections by: the fewest over the hours in which the work is expected, from
 * the first in which most forecasts let the field be coated, each at the weather from then on and so
 * that the job's confidence is kept. The crew coats more where the hour lets it (`ahead`).
 */
export function usableOn(prepared: Prepared, shift: Shift): Usable {
  const expected = expectedOf(prepared);
  const field = expected.get('field');
  if (field === undefined) throw new Error('a laying day without a field');
  const delayMs = delayOf(prepared, field, shift);
  const over = (product: Product, ...kinds: readonly SectionKind[]): number => {
    const found = kinds.flatMap((kind) => {
      const work = expected.get(kind);
      return work === undefined ? [] : [fewestMin(prepared, work, shift, delayMs)];
    });
    const known = found.filter((minutes) => minutes !== null);
    return known.length === 0 ? closingWindow(product, 1) : stepDown(Math.min(...known));
  };
  const { products } = prepared;
  return {
    usableMin: over(products.field, 'field'),
    usablePerimeterMin: over(products.perimeter, 'edges', 'upstands'),
    usablePrimerMin: over(products.primer, 'laps'),
  };
}

/** A work of the day with the time it usually takes up, from the start of the list [min]. */
interface Expected {
  readonly task: SectionTask;
  readonly film: FilmClock | null;
  readonly bits: number;
  readonly fromMin: number;
  readonly toMin: number;
}

const expectedOn = new WeakMap<Prepared, ReadonlyMap<SectionKind, Expected>>();

/** The same for every day of a forecast, so worked out once. */
function expectedOf(prepared: Prepared): ReadonlyMap<SectionKind, Expected> {
  const before = expectedOn.get(prepared);
  if (before !== undefined) return before;
  const { job, products } = prepared;
  const people = job.crew.people;
  const { work } = known(
    planDayWork({
      ...nextBayBasis(job, products),
      usableMin: closingWindow(products.field, 1),
    }),
  );
  const { startMin } = estimateDay(work, people, products);
  const made = new Map<SectionKind, Expected>();
  for (const task of known(tasksAhead(prepared, people, null)).tasks) {
    const starts = work.activities
      .filter(({ stage, coats }) => stage === task.coat.stage && coats !== undefined)
      .map(({ id }) => startMin.get(id)!);
    made.set(task.kind, {
      task,
      film: filmOfTask(prepared, task),
      bits: bitsOf(task.coat.rules),
      fromMin: Math.min(...starts),
      toMin: Math.max(...starts),
    });
  }
  expectedOn.set(prepared, made);
  return made;
}

/** How much later than in fair weather the field can first be coated. */
function delayOf(prepared: Prepared, field: Expected, shift: Shift): number {
  const fairMs = shift.startMs + field.fromMin * MS_PER_MINUTE;
  for (let ms = fairMs; ms < shift.endMs; ms += LOOK_EVERY_MS) {
    if (workableAt(prepared, field, ms).length >= WORKABLE_SHARE * prepared.grid.memberCount)
      return ms - fairMs;
  }
  return 0;
}

/** Forecasts in which nothing holds the coating back at a moment. */
function workableAt(prepared: Prepared, { task, bits }: Expected, ms: number): number[] {
  const { grid } = prepared;
  const step = stepAt(grid, ms);
  const { broken } = prepared.mask(task.coat);
  const found: number[] = [];
  for (let m = 0; m < grid.memberCount; m += 1) {
    if (step < 0 || step >= grid.knownSteps[m]!) continue;
    if ((broken[m * grid.steps + step]! & bits) === 0) found.push(m);
  }
  return found;
}

/** The fewest minutes from ready to gone off over the hours expected; null = no hour to go by, or no end. */
function fewestMin(
  prepared: Prepared,
  work: Expected,
  shift: Shift,
  delayMs: number,
): number | null {
  const { film, fromMin, toMin } = work;
  if (film === null) return null;
  const { grid, job } = prepared;
  const fromMs = shift.startMs + fromMin * MS_PER_MINUTE + delayMs;
  const toMs = Math.min(shift.endMs, shift.startMs + toMin * MS_PER_MINUTE + delayMs + SLACK_MS);
  let fewest: number | null = null;
  for (let ms = fromMs; ms <= toMs; ms += SIZE_EVERY_MS) {
    const members = workableAt(prepared, work, ms);
    if (members.length < LEAST_SHARE * grid.memberCount) continue;
    const minutes = members.flatMap((m) => {
      const readyMs = readyAt(film, m, ms);
      const goneMs = readyMs === null ? null : expiresAt(film, m, ms);
      if (readyMs !== null && goneMs !== null) return (goneMs - readyMs) / MS_PER_MINUTE;
      // A forecast that ends within the day says nothing of it; in one that goes on nothing goes off.
      const ends = stepStartMs(grid, grid.knownSteps[m]!) < shift.endMs;
      return ends ? [] : Number.POSITIVE_INFINITY;
    });
    if (minutes.length === 0) continue;
    const here = quantile(minutes, 1 - job.confidence)!;
    fewest = Math.min(fewest ?? here, here);
  }
  return fewest;
}
