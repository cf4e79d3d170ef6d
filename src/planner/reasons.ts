import type { DayPlan } from './day-plan.ts';
import { median } from './quantile.ts';
import type { Rule, Whose } from './rules/index.ts';
import type { Cause, DayRun } from './simulate.ts';

/** What stopped a day, in how many forecasts, and around when. */
export interface Reason {
  readonly cause: Cause;
  readonly words: string;
  readonly whose: Whose;
  readonly count: number;
  readonly aroundMs: number | null;
}

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
      aroundMs: median(times),
    }))
    .sort((a, b) => b.count - a.count);
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
  for (const step of plan.steps) {
    if (!step.activity.rules.some((id) => id === cause)) continue;
    const rule = step.mask.rules.find((candidate) => candidate.id === cause);
    if (rule !== undefined) return rule;
  }
  // Rain ends open work whether or not a task's own rules name it.
  const rule = plan.steps[0]?.mask.rules.find((candidate) => candidate.id === cause);
  if (rule === undefined) throw new Error(`no rule explains '${cause}'`);
  return rule;
}
