import { waitsFor } from '../products/index.ts';
import { type SectionTask, type SectionTasksAnswer, sectionTasks } from '../stages/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import { type Held, heldAt } from './ahead-held.ts';
import {
  largestSection,
  type SectionEnd,
  type SectionFit,
  type SectionLimit,
  sectionTimes,
} from './ahead-section.ts';
import { knownAt, sectionWindow } from './ahead-window.ts';
import { nextBayBasis } from './bays.ts';
import type { FilmClock } from './day-plan.ts';
import { paceOn, ratesAt } from './pace.ts';
import type { Prepared } from './prepare.ts';
import { quantile } from './quantile.ts';
import type { Shift } from './shift.ts';

/** What may be coated from one moment on, and its times; the careful side of the forecasts in each. */
export interface AheadSpot {
  readonly atMs: number;
  /** Largest section [m2 or m]; 0 = coat none now. */
  readonly most: number;
  readonly coatMin: number;
  readonly closeMin: number;
  /** When the last metre may be closed: early, middle, late over the forecasts; null = none is coated. */
  readonly ready: {
    readonly earlyMs: number | null;
    readonly midMs: number | null;
    readonly lateMs: number;
  } | null;
  /** Closing is to be done by then, the margin kept; null = nothing sets an end. */
  readonly closeByMs: number | null;
  /** The first metre goes off; null = not in the time looked at. */
  readonly goesOffMs: number | null;
  /** What keeps it from being larger; null = the forecasts end before this moment. */
  readonly limit: SectionLimit | 'held' | 'forecast-ends';
  /** The broken limit behind 'held'. */
  readonly held: Held | null;
  /** The end behind 'rain', 'day-end' and 'darkness'. */
  readonly endMs: number | null;
}

/**
 * The works of the job's next laying day that go section by section, for a crew of any size.
 * @param shift  the day whose cold, gusts or heat slow the hands; null = the usual pace
 */
export function tasksAhead(
  prepared: Prepared,
  people: number,
  shift: Shift | null,
): SectionTasksAnswer {
  const { job, products } = prepared;
  const basis = nextBayBasis(job, products);
  const rates = shift === null ? basis.rates : ratesAt(basis.rates, paceOn(prepared, shift));
  return sectionTasks({ ...basis, rates, crewPeople: people });
}

/**
 * The largest section of a work that may be coated from a moment on and closed in time, in the share
 * of forecasts the job's confidence asks for. Films dry by the weather from then on, not by that moment's.
 * @param shift  the working day it falls in
 */
export function aheadAt(
  prepared: Prepared,
  task: SectionTask,
  shift: Shift,
  atMs: number,
): AheadSpot {
  const { grid, job } = prepared;
  const members = knownAt(grid, atMs);
  if (members === null) return none(atMs, 'forecast-ends');
  const held = heldAt(prepared, task, members, atMs);
  if (held !== null) return { ...none(atMs, 'held'), held };
  const window = sectionWindow(filmOfTask(prepared, task), members, atMs, job.confidence);
  const ends = endsAfter(prepared, members, shift, atMs);
  const fit = largestSection(task, window, atMs, ends);
  const endMs = ends.find(({ why }) => why === fit.limit)?.atMs ?? null;
  const size = sizeOf(fit, task);
  if (size === 0) return { ...none(atMs, fit.limit), endMs };
  const times = sectionTimes(task, window, atMs, size);
  const closeByMs = Math.min(times.closeByMs, ...ends.map((end) => end.atMs));
  return {
    atMs,
    most: size,
    coatMin: times.coatMs / MS_PER_MINUTE,
    closeMin: times.closeMs / MS_PER_MINUTE,
    ready: { ...window.readyRange(atMs + times.coatMs), lateMs: times.readyMs },
    closeByMs: finite(closeByMs),
    goesOffMs: finite(window.goesOffMs),
    limit: fit.limit,
    held: null,
    endMs,
  };
}

/** What may be coated at the first moment that anything may, five minutes by five; null = nothing by then. */
export function waitUntil(
  prepared: Prepared,
  task: SectionTask,
  shift: Shift,
  fromMs: number,
  toMs: number,
): AheadSpot | null {
  const { grid } = prepared;
  for (let i = stepAt(grid, fromMs) + 1; stepStartMs(grid, i) < toMs; i += 1) {
    const spot = aheadAt(prepared, task, shift, stepStartMs(grid, i));
    if (spot.most > 0) return spot;
  }
  return null;
}

const HALF_HOUR_MS = 30 * MS_PER_MINUTE;

/** The same at each half hour of a shift. */
export function aheadOver(prepared: Prepared, task: SectionTask, shift: Shift): AheadSpot[] {
  const spots: AheadSpot[] = [];
  for (let ms = shift.startMs; ms < shift.endMs; ms += HALF_HOUR_MS)
    spots.push(aheadAt(prepared, task, shift, ms));
  return spots;
}

/** The clock that a section's coating starts; null = its film never goes off. */
export function filmOfTask(prepared: Prepared, { coat }: SectionTask): FilmClock | null {
  const { productId, surfaces } = coat.coats!;
  const product = prepared.productById.get(productId);
  if (product === undefined) throw new Error(`${coat.id} coats with an unknown product`);
  if (product.openUntil === null) return null;
  return {
    product,
    doses: surfaces.map((kind) => prepared.doses(product.id, kind)),
    readyMin: waitsFor(product)?.time.typicalMin ?? 0,
    openMin: product.openUntil.typicalMin,
  };
}

/** What besides the film a section must be closed by: rain, the dark, the end of the working day. */
function endsAfter(
  prepared: Prepared,
  members: readonly number[],
  shift: Shift,
  atMs: number,
): SectionEnd[] {
  const { grid, nextRain, job } = prepared;
  const step = stepAt(grid, atMs);
  const rain = members.map((m) => {
    const next = nextRain[m * grid.steps + step]!;
    return next < grid.knownSteps[m]! ? stepStartMs(grid, next) : Number.POSITIVE_INFINITY;
  });
  const ends: SectionEnd[] = [];
  const rainMs = quantile(rain, 1 - job.confidence) ?? Number.POSITIVE_INFINITY;
  if (Number.isFinite(rainMs)) ends.push({ why: 'rain', atMs: rainMs });
  const dark = grid.sunElevationDeg.findIndex((deg, i) => i > step && deg < SUNSET_DEG);
  if (dark > 0) ends.push({ why: 'darkness', atMs: stepStartMs(grid, dark) });
  if (atMs < shift.endMs) ends.push({ why: 'day-end', atMs: shift.endMs });
  return ends;
}

/** As the rule that keeps work out of the dark: sun's centre at rise and set [deg]. */
const SUNSET_DEG = -0.833;

/** Too small to lay a roof with is none; but the last bit of a small half sheet or side may be small. */
function sizeOf({ most }: SectionFit, task: SectionTask): number {
  return most < Math.min(task.smallest, task.mostAtOnce) ? 0 : most;
}

function none(atMs: number, limit: AheadSpot['limit']): AheadSpot {
  return {
    atMs,
    most: 0,
    coatMin: 0,
    closeMin: 0,
    ready: null,
    closeByMs: null,
    goesOffMs: null,
    limit,
    held: null,
    endMs: null,
  };
}

const finite = (ms: number): number | null => (Number.isFinite(ms) ? ms : null);
