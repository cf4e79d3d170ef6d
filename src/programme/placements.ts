import type { Calendar, Task } from './calendar.ts';
import type { Option, Packing } from './packing.ts';
import type { PlacedVisit, Placement } from './types.ts';
import type { Visit } from './visits.ts';
import { visitWorth } from './worth.ts';

/** The slots of a visit, one for each of its days. */
export const slotsOf = ({ dayCount }: Calendar, { crew, days }: Visit): number[] =>
  days.map((d) => crew * dayCount + d);

/** An option of the search back as a visit: its slots say crew and days. */
export function visitAt(calendar: Calendar, packing: Packing, option: number): Visit {
  const { dayCount } = calendar;
  const slots = packing.slots.subarray(packing.slotFrom[option]!, packing.slotFrom[option + 1]!);
  return {
    crew: Math.floor(slots[0]! / dayCount),
    days: Array.from(slots, (slot) => slot % dayCount),
  };
}

export function optionOf(calendar: Calendar, visit: Visit, value: number): Option {
  return { value, slots: slotsOf(calendar, visit) };
}

export function placementOf(calendar: Calendar, task: Task, visit: Visit): Placement {
  return {
    jobId: task.id,
    crewId: calendar.ask.crews[visit.crew]!.id,
    dates: visit.days.map((d) => calendar.ask.days[d]!),
  };
}

/** A visit with all that is to be said of it. */
export function placedVisit(calendar: Calendar, task: Task, visit: Visit): PlacedVisit {
  const own = task.byCrew[visit.crew]!;
  return {
    ...placementOf(calendar, task, visit),
    filler: task.kind === 'filler',
    chance: leastChance(task, visit),
    startMs: visit.days.map((d) => own.values[d]?.startMs ?? null),
    travelMin: own.travelMin,
    worth: visitWorth(calendar, task, visit.crew, visit.days),
  };
}

/** Least chance of the days; 1 for work that waits for no weather, null where a day cannot be judged. */
export function leastChance(task: Task, { crew, days }: Visit): number | null {
  if (task.kind === 'filler') return 1;
  let least: number | null = 1;
  for (const d of days) {
    const chance = task.byCrew[crew]?.values[d]?.chance ?? null;
    least = chance === null || least === null ? null : Math.min(least, chance);
  }
  return least;
}
