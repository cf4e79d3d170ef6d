import { MS_PER_HOUR } from '../units/index.ts';
import type { DayPlan } from './day-plan.ts';
import type { Cause, DayRun } from './day-run.ts';
import { median, quantile } from './quantile.ts';
import type { Rule, Whose } from './rules/index.ts';

/** What stopped a day, in how many forecasts, and around when. */
export interface Reason {
  readonly cause: Cause;
  readonly words: string;
  readonly whose: Whose;
  readonly count: number;
  /** In the hour in which it strikes in most forecasts. */
  readonly aroundMs: number | null;
  /** In nine of ten it strikes no earlier, and in nine of ten no later. */
  readonly earlyMs: number | null;
  readonly lateMs: number | null;
}

/** Share of forecasts outside the early-late range at each end. */
const TAIL = 0.1;

/** Commonest first. */
export function reasonsOf(plan: DayPlan, runs: readonly DayRun[]): Reason[] {
  const strikes = new Map<Cause, number[]>();
  for (const run of runs) {
    if (run.kind === 'finished' || run.cause === null) continue;
    const times = strikes.get(run.cause) ?? [];
    if (run.causeMs !== null) times.push(run.causeMs);
    strikes.set(run.cause, times);
  }
  return [...strikes]
    .map(([cause, times]) => ({
      cause,
      ...wordsFor(plan, cause),
      count: times.length,
      ...hoursOf(times, plan.shift.day.startMs),
    }))
    .sort((a, b) => b.count - a.count);
}

/** @param dayMs  hours are those of the place, from its midnight on */
function hoursOf(
  times: readonly number[],
  dayMs: number,
): Pick<Reason, 'aroundMs' | 'earlyMs' | 'lateMs'> {
  const byHour = new Map<number, number[]>();
  for (const ms of times) {
    const hour = Math.floor((ms - dayMs) / MS_PER_HOUR);
    byHour.set(hour, [...(byHour.get(hour) ?? []), ms]);
  }
  const [commonest = []] = [...byHour]
    .sort(([hourA, a], [hourB, b]) => b.length - a.length || hourA - hourB)
    .map(([, ofHour]) => ofHour);
  return {
    aroundMs: median(commonest),
    earlyMs: quantile(times, TAIL),
    lateMs: quantile(times, 1 - TAIL),
  };
}

function wordsFor(plan: DayPlan, cause: Cause): { words: string; whose: Whose } {
  switch (cause) {
    case 'day-end':
      return { words: 'not enough working day left', whose: 'clock' };
    case 'open-time':
      return {
        words: 'adhesive going off faster than a section can be coated and closed',
        whose: 'clock',
      };
    case 'forecast-ends':
      return { words: 'the forecast ends before the work does', whose: 'clock' };
    default:
      return ruleOf(plan, cause);
  }
}

function ruleOf(plan: DayPlan, cause: Cause): Pick<Rule, 'words' | 'whose'> {
  const ofTheDay = plan.steps
    .filter((step) => step.activity.rules.some((id) => id === cause))
    .flatMap((step) => step.mask.rules);
  // Rain ends open work whether or not a task's own rules name it.
  const rule = [...ofTheDay, ...(plan.steps[0]?.mask.rules ?? [])].find(
    (candidate) => candidate.id === cause,
  );
  if (rule === undefined) throw new Error(`no rule explains '${cause}'`);
  return { words: rule.words, whose: rule.whose };
}
