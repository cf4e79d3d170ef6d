import type { DayPlan } from './day-plan.ts';

/**
 * Tasks a person means by a name: an id of the day's list ('field-2-1-coat'); the beginning of ids
 * ('field-2-1' = coating and closing that section, 'field-2' = that half sheet); a stage ('laps'); or
 * '..fold-2' = all of the list up to and with what 'fold-2' means.
 * @returns indices in the order of the list; empty = nothing is called so
 */
export function findTasks(plan: Pick<DayPlan, 'steps'>, name: string): number[] {
  if (name.startsWith('..')) {
    const last = findTasks(plan, name.slice(2)).at(-1);
    return last === undefined ? [] : Array.from({ length: last + 1 }, (_, n) => n);
  }
  const all = plan.steps.map(({ activity }, n) => ({ n, activity }));
  const exact = all.filter(({ activity }) => activity.id === name);
  if (exact.length > 0) return exact.map(({ n }) => n);
  const begun = all.filter(({ activity }) => name !== '' && activity.id.startsWith(`${name}-`));
  if (begun.length > 0) return begun.map(({ n }) => n);
  return all.filter(({ activity }) => activity.stage === name).map(({ n }) => n);
}
