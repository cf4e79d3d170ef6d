import type { SolveAnswer } from '../../src/planner/core/index.ts';
import { solveSchedule } from '../../src/planner/core/index.ts';
import { checkSchedule } from '../fixtures/scheduling/check-schedule.ts';
import type { Instance } from '../fixtures/scheduling/read-set.ts';

export interface BudgetRow {
  readonly schedules: number;
  readonly meanGapPct: number;
  readonly optimal: number;
  readonly meanMs: number;
  readonly faults: readonly string[];
}

/** Mean share over the published optimum after so many schedules from lists, complete search switched off. */
export function underBudget(
  instances: readonly Instance[],
  schedules: number,
  seed: number,
): BudgetRow {
  const faults: string[] = [];
  let gap = 0;
  let optimal = 0;
  const from = performance.now();
  for (const instance of instances) {
    const answer = solveSchedule(instance.project, { budget: { schedules, nodes: 0 }, seed });
    faults.push(...faultsOf(instance, answer));
    if (answer.schedulesMade > schedules)
      faults.push(`${instance.name}: ${answer.schedulesMade} schedules made`);
    gap += answer.makespan! / instance.optimum! - 1;
    if (answer.makespan === instance.optimum) optimal += 1;
  }
  return {
    schedules,
    meanGapPct: (100 * gap) / instances.length,
    optimal,
    meanMs: (performance.now() - from) / instances.length,
    faults,
  };
}

export interface ClockRow {
  /** Published optimum reached, or infeasible said where it is. */
  readonly right: number;
  /** Of those, proved by the answer itself. */
  readonly proved: number;
  readonly infeasibleRight: number;
  readonly infeasible: number;
  readonly meanMs: number;
  readonly worstMs: number;
  readonly faults: readonly string[];
  readonly unproved: readonly string[];
}

/** Part of the limit after which the search is told to stop, so that it is back in time. */
const STOP_AT = 0.9;

/** Each instance on its own clock; nothing else ends the work but the proof. What comes late is not right. */
export function underClock(instances: readonly Instance[], limitMs: number): ClockRow {
  const faults: string[] = [];
  const unproved: string[] = [];
  const times: number[] = [];
  let right = 0;
  let infeasibleRight = 0;
  for (const instance of instances) {
    const from = performance.now();
    const answer = solveSchedule(instance.project, {
      budget: { schedules: Number.POSITIVE_INFINITY, nodes: Number.POSITIVE_INFINITY },
      shouldStop: () => performance.now() - from > STOP_AT * limitMs,
    });
    const tookMs = performance.now() - from;
    const inTime = tookMs <= limitMs;
    times.push(tookMs);
    faults.push(...faultsOf(instance, answer));
    if (inTime && instance.optimum === null && answer.status === 'infeasible') infeasibleRight += 1;
    if (inTime && answer.makespan === instance.optimum && answer.status !== 'unknown') right += 1;
    if (answer.status === 'feasible' || answer.status === 'unknown') {
      const span = answer.makespan ?? 'none';
      unproved.push(`${instance.name} ${span} (${instance.optimum}), bound ${answer.lowerBound}`);
    }
  }
  return {
    right,
    proved: instances.length - unproved.length,
    infeasibleRight,
    infeasible: instances.filter(({ optimum }) => optimum === null).length,
    meanMs: times.reduce((sum, time) => sum + time, 0) / times.length,
    worstMs: Math.max(...times),
    faults,
    unproved,
  };
}

/** What may never happen, whatever the budget. */
export function faultsOf({ name, project, optimum }: Instance, answer: SolveAnswer): string[] {
  const faults: string[] = [];
  const { starts, makespan, status, lowerBound } = answer;
  if (starts !== null && makespan !== null)
    faults.push(...checkSchedule(project, starts, makespan));
  if (optimum === null) {
    if (starts !== null) faults.push('a schedule where none exists');
  } else {
    if (status === 'infeasible') faults.push('called infeasible');
    if (makespan !== null && makespan < optimum) faults.push(`${makespan} is below ${optimum}`);
    if (lowerBound > optimum) faults.push(`bound ${lowerBound} is above ${optimum}`);
    if (status === 'optimal' && makespan !== optimum)
      faults.push(`calls ${makespan} optimal, not ${optimum}`);
  }
  return faults.map((fault) => `${name}: ${fault}`);
}
