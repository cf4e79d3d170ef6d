import type { Task } from './calendar.ts';
import type { Standing } from './standing.ts';
import type { Visit } from './visits.ts';

/** A task that the search has put elsewhere. */
export interface Changed {
  readonly task: Task;
  readonly standing: Standing | null;
  readonly mayStay: boolean;
  /** Slots held so far. */
  readonly from: readonly number[];
  /** null = taken off */
  readonly to: Visit | null;
  readonly toSlots: readonly number[];
  /** Change in worth less the price of the move. */
  readonly gain: number;
}

export interface Group {
  readonly members: readonly Changed[];
  readonly gain: number;
  /** For each member, in the same order: the members whose former days it takes. */
  readonly needs: readonly (readonly Changed[])[];
}

/** Rounding is no gain. */
const HAIR = 1e-6;

/**
 * Changes that hang together, because one takes the days of another. A group that nothing forces is
 * kept only where it gains, and, where it is known what is new, only where something new is in it.
 * @param touched  ids of tasks for which something differs; null = not known
 */
export function groupsOf(
  changed: readonly Changed[],
  touched: ReadonlySet<string> | null,
): Group[] {
  const holder = new Map<number, Changed>();
  for (const it of changed) for (const slot of it.from) holder.set(slot, it);
  const needsOf = (it: Changed): Changed[] => {
    const needs = new Set<Changed>();
    for (const slot of it.toSlots) {
      const other = holder.get(slot);
      if (other !== undefined && other !== it) needs.add(other);
    }
    return [...needs];
  };
  const needs = new Map(changed.map((it) => [it, needsOf(it)]));
  const neighbours = new Map<Changed, Set<Changed>>(changed.map((it) => [it, new Set()]));
  for (const [it, others] of needs) {
    for (const other of others) {
      neighbours.get(it)!.add(other);
      neighbours.get(other)!.add(it);
    }
  }
  const seen = new Set<Changed>();
  const groups: Group[] = [];
  for (const first of changed) {
    if (seen.has(first)) continue;
    seen.add(first);
    const members = [first];
    for (let n = 0; n < members.length; n += 1) {
      for (const other of neighbours.get(members[n]!)!) {
        if (seen.has(other)) continue;
        seen.add(other);
        members.push(other);
      }
    }
    const gain = members.reduce((sum, it) => sum + it.gain, 0);
    groups.push({ members, gain, needs: members.map((it) => needs.get(it)!) });
  }
  const isForced = (it: Changed): boolean => it.standing !== null && !it.mayStay;
  return groups
    .filter(({ members, gain }) => gain > HAIR || members.some(isForced))
    .filter(
      ({ members }) =>
        touched === null || members.some((it) => touched.has(it.task.id) || isForced(it)),
    )
    .sort((a, b) => b.gain - a.gain);
}
