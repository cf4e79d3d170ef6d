import type { DayWork } from '../stages/index.ts';
import { USABLE_MINUTES } from './closing-window.ts';
import { type DayPlan, dayPlan } from './day-plan.ts';
import type { Prepared } from './prepare.ts';
import { workFor } from './search/plan-for.ts';
import type { Shift } from './shift.ts';
import { type Usable, usableOn } from './sizing.ts';

/** Whose section size each usable time sets, by how the names of its sections begin. */
const SECTIONS: readonly { readonly of: keyof Usable; readonly names: RegExp }[] = [
  { of: 'usableMin', names: /^(?:\.\.)?field-/ },
  { of: 'usablePerimeterMin', names: /^(?:\.\.)?(?:edge|upstand)-|-kerb-/ },
  { of: 'usablePrimerMin', names: /^(?:\.\.)?lap-/ },
];

/**
 * The day's list as the crew has it. A fresh forecast would cut sections anew; work already done names the
 * sections of the list it was done by, so the size nearest to the fresh one that has them all is kept.
 * @param names  as told, see `findTasks`
 */
export function planInUse(prepared: Prepared, shift: Shift, names: readonly string[]): DayPlan {
  let usable: Usable = usableOn(prepared, shift);
  for (const section of SECTIONS) {
    const named = names
      .filter((name) => section.names.test(name))
      .map((name) => name.replace(/^\.\./, ''));
    const fresh = usable[section.of];
    const nearest = [fresh, ...USABLE_MINUTES].sort((a, b) => apart(a, fresh) - apart(b, fresh));
    const fits = nearest.find((minutes) =>
      hasAll(workFor(prepared, { ...usable, [section.of]: minutes }, shift), named),
    );
    if (fits !== undefined) usable = { ...usable, [section.of]: fits };
  }
  return dayPlan(prepared, workFor(prepared, usable, shift), shift);
}

const apart = (minutes: number, from: number): number => Math.abs(Math.log(minutes / from));

function hasAll({ activities }: DayWork, names: readonly string[]): boolean {
  return names.every((name) =>
    activities.some(({ id }) => id === name || id.startsWith(`${name}-`)),
  );
}
