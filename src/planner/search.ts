import { type DayWork, planDayWork } from '../stages/index.ts';
import { type LocalDay, localDaysBetween } from '../time/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import { stepStartMs } from '../weather/index.ts';
import { nextBay, nextBayBasis } from './bays.ts';
import { bestStart, type DayOption } from './day-option.ts';
import { type DayPlan, dayPlan } from './day-plan.ts';
import { paceOn, ratesAt } from './pace.ts';
import type { Prepared } from './prepare.ts';
import { isWorkDay, type Shift, shiftOn } from './shift.ts';
import { type Usable, usableOn } from './sizing.ts';

/** How far ahead laying days are looked for. */
const DAYS_AHEAD = 14;
const START_STEP_MS = 30 * MS_PER_MINUTE;
const LONGEST_SEARCHED_MIN = 240;

export interface SearchProgress {
  readonly share: number;
  readonly words: string;
}

export interface DaySkip {
  readonly day: LocalDay;
  readonly why: 'not a working day' | 'too early' | 'too late' | 'too short';
}

export interface DaysFound {
  readonly bay: DayWork['bay'];
  /** In order of date. */
  readonly options: readonly DayOption[];
  /** The same, best first: days that can be judged, by expected cost with the cost of waiting. */
  readonly ranked: readonly DayOption[];
  readonly skipped: readonly DaySkip[];
}

/**
 * Looks at every day of the forecast for the job's next bay. A generator, so that the caller can
 * show progress, stop it, and keep what has been found so far.
 */
export function* searchDays(prepared: Prepared): Generator<SearchProgress, DaysFound> {
  const { job, grid, nowMs } = prepared;
  const zone = job.site.timeZone;
  const lastKnown = Math.max(0, ...grid.knownSteps);
  const endMs = stepStartMs(grid, lastKnown);
  const days = localDaysBetween(nowMs, endMs, zone).slice(0, DAYS_AHEAD);
  const options: DayOption[] = [];
  const skipped: DaySkip[] = [];
  for (const [n, day] of days.entries()) {
    yield { share: n / days.length, words: `looking at ${day.date}` };
    const why = skipReason(prepared, day);
    if (why !== null) {
      skipped.push({ day, why });
      continue;
    }
    const option = optionFor(prepared, day);
    if (option === null) skipped.push({ day, why: 'too short' });
    else options.push(option);
  }
  return { bay: nextBay(job, prepared.products), options, ranked: rank(options), skipped };
}

function rank(options: readonly DayOption[]): DayOption[] {
  const cost = (option: DayOption): number => {
    const { costs } = option.plan.prepared.job;
    return option.expectedCost + costs.waitPerDay * option.leadDays;
  };
  return options
    .filter((option) => option.verdict !== 'unknown')
    .sort((a, b) => cost(a) - cost(b) || a.day.startMs - b.day.startMs);
}

/** One day's best start, or null where no start that day leaves time for the work. */
export function optionFor(prepared: Prepared, day: LocalDay): DayOption | null {
  const plan = planFor(prepared, day);
  const starts = startsFor(plan, prepared.nowMs);
  return starts.length === 0 ? null : bestStart(plan, starts);
}

/** The day's work with sections sized for the hours they are expected in. */
export function planFor(prepared: Prepared, day: LocalDay): DayPlan {
  const shift = shiftOn(prepared.job.crew, day, prepared.job.site.timeZone);
  return dayPlan(prepared, workFor(prepared, usableOn(prepared, shift), shift), shift);
}

export function skipReason(prepared: Prepared, day: LocalDay): DaySkip['why'] | null {
  const { crew, earliest, latest } = prepared.job;
  if (!isWorkDay(crew, day)) return 'not a working day';
  if (earliest !== null && day.date < earliest) return 'too early';
  if (latest !== null && day.date > latest) return 'too late';
  return null;
}

function startsFor(plan: DayPlan, nowMs: number): number[] {
  const { shift } = plan;
  const longest = plan.steps[0]?.toRainSafeMs ?? 0;
  const starts: number[] = [];
  for (let ms = shift.startMs; ms + longest <= shift.endMs; ms += START_STEP_MS) {
    if (ms >= nowMs) starts.push(ms);
  }
  return starts;
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
