import { standingLog } from '../products/index.ts';
import type { DayPlan } from './day-plan.ts';
import type { SiteEvent } from './site-event.ts';
import type { WorkState } from './work-state.ts';

/**
 * Where the work of a day stands by the site log. As the clock reads it too: 'coated' is logged when the
 * last square metre is down; 'touch-dry' and 'closed' name the part that was coated and mean its last coating.
 * Entries of other days and after `atMs` do not count, nor do parts that are no longer on the list.
 */
export function stateFromLog(
  plan: DayPlan,
  events: readonly SiteEvent[],
  atMs: number,
): Pick<WorkState, 'done' | 'coated' | 'inHand' | 'thunderMs' | 'implies'> & {
  readonly notes: readonly string[];
} {
  const { day } = plan.shift;
  const log = standingLog(events).filter(
    (event) => event.atMs >= day.startMs && event.atMs <= atMs,
  );
  const index = new Map(plan.steps.map(({ activity }, n) => [activity.id, n]));
  const coated = new Map<
    string,
    { name: string; firstMs: number; lastMs: number; touchDryMs: number | null }
  >();
  const done = new Map<string, number>();
  const begun = new Map<string, number>();
  const gone = new Set<string>();
  let thunderMs: number | null = null;
  for (const event of log) {
    if (event.kind === 'thunder-heard') thunderMs = event.atMs;
    if (event.kind === 'rain-safe') {
      for (const { activity } of plan.steps) {
        if (activity.forRainSafe && !done.has(activity.id)) done.set(activity.id, event.atMs);
      }
    }
    if (!('activityId' in event)) continue;
    const n = index.get(event.activityId);
    if (n === undefined) {
      gone.add(event.activityId);
      continue;
    }
    const { activity, durationMs, closedBy } = plan.steps[n]!;
    const { id } = activity;
    switch (event.kind) {
      case 'opened':
        begun.set(id, event.atMs);
        break;
      case 'coated': {
        // A part coated anew is open anew.
        if (closedBy !== null) done.delete(plan.steps[closedBy]!.activity.id);
        const firstMs = Math.max(day.startMs, plan.prepared.grid.startMs, event.atMs - durationMs);
        coated.set(id, {
          name: id,
          firstMs: Math.min(firstMs, event.atMs),
          lastMs: event.atMs,
          touchDryMs: null,
        });
        break;
      }
      case 'touch-dry': {
        const film = coated.get(id);
        if (film !== undefined && event.atMs > film.lastMs) film.touchDryMs ??= event.atMs;
        break;
      }
      case 'closed':
        done.set(closedBy === null ? id : plan.steps[closedBy]!.activity.id, event.atMs);
        break;
      case 'finished':
        done.set(id, event.atMs);
    }
  }
  const inHand = [...begun].findLast(([id]) => !done.has(id) && !coated.has(id));
  return {
    done: [...done].map(([name, ms]) => ({ name, atMs: ms })),
    coated: [...coated.values()],
    inHand: inHand === undefined ? null : { name: inHand[0], startMs: inHand[1] },
    thunderMs,
    implies: true,
    notes:
      gone.size === 0
        ? []
        : [`Logged today but not on this list, so left out: ${[...gone].join(', ')}.`],
  };
}
