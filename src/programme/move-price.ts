import type { Task } from './calendar.ts';
import type { Booking, MovePrice, WordNeeded } from './move-types.ts';
import type { MovePrices } from './prices.ts';
import type { Placement } from './types.ts';

/** What a change does to a booking, and what it costs besides what the new plan is worth. */
export interface Change {
  readonly dropped: readonly string[];
  readonly added: readonly string[];
  readonly otherCrew: boolean;
  readonly words: readonly WordNeeded[];
  readonly price: MovePrice;
}

/**
 * @param from  null = not booked so far
 * @param to    null = taken off
 */
export function changeOf(
  task: Task,
  from: Booking | null,
  to: Placement | null,
  args: {
    readonly prices: MovePrices;
    readonly nowMs: number;
    readonly firstDate: string;
    readonly crewName: (crewId: string) => string;
  },
): Change {
  const { prices, nowMs, firstDate, crewName } = args;
  // Days gone by are done with: only those to come can change.
  const former = (from?.dates ?? []).filter((date) => date >= firstDate);
  const dropped = former.filter((date) => !(to?.dates.includes(date) ?? false));
  const added = (to?.dates ?? []).filter((date) => !former.includes(date));
  const otherCrew = from !== null && to !== null && from.crewId !== to.crewId;
  const changes = dropped.length > 0 || added.length > 0 || otherCrew;
  const hit = (from?.resources ?? []).filter((resource) =>
    resource.dates.some((date) => dropped.includes(date)),
  );
  const words: WordNeeded[] = [];
  if (task.kind === 'job' && (dropped.length > 0 || added.length > 0)) {
    const about = to === null ? `not on ${former.join(', ')}` : `now on ${to.dates.join(', ')}`;
    words.push({ who: 'client', name: task.job.client, about });
  }
  for (const supplier of new Set(hit.map((resource) => resource.supplier))) {
    const names = hit.filter((it) => it.supplier === supplier).map((it) => it.name);
    words.push({
      who: 'supplier',
      name: supplier,
      about: `${names.join(', ')}: ${dropped.join(', ')} no more`,
    });
  }
  if (changes) {
    const crews = new Set([from?.crewId, to?.crewId].filter((id) => id !== undefined));
    for (const id of crews) {
      const about =
        id === to?.crewId ? `here on ${to.dates.join(', ')}` : `not here on ${former.join(', ')}`;
      words.push({ who: 'crew', name: crewName(id), about });
    }
  }
  const givesUp = task.kind === 'job' && dropped.length > 0;
  const change = changes && from !== null && task.kind === 'job' ? prices.perMove : 0;
  const calls = prices.perCall * words.length;
  const givenUp = !givesUp ? 0 : from!.confirmed ? prices.confirmedDate : prices.pencilledDate;
  const charges = hit.reduce((sum, it) => sum + (nowMs > it.cancelByMs ? it.charge : 0), 0);
  const price = { change, calls, givenUp, charges, total: change + calls + givenUp + charges };
  return { dropped, added, otherCrew, words, price };
}
