import type { BuildUpProducts } from './context.ts';
import type { Activity, DayWork } from './types.ts';

export interface DayEstimate {
  /** From the start of the list to its end [min]. */
  readonly finishMin: number;
  /** To the end of the last activity the roof is not rain-safe without [min]. */
  readonly rainSafeMin: number;
  /** Start of each activity [min from the start of the list], by id. */
  readonly startMin: ReadonlyMap<string, number>;
}

/**
 * How long a day's list takes in fair weather at the sheets' typical drying times: the crew works as
 * one gang, takes the first activity in the list that can start, and fills waits with later ones. It
 * sizes bays; the planner times real days.
 */
export function estimateDay(
  work: DayWork,
  crewPeople: number,
  products: BuildUpProducts,
): DayEstimate {
  const drying = new Map(
    Object.values(products).map((p) => [p.id, p.touchDry?.typicalMin ?? 0] as const),
  );
  const coated = new Map(work.activities.map((a) => [a.id, a.coats?.productId ?? '']));
  const waiting = [...work.activities];
  const startMinById = new Map<string, number>();
  const endMin = new Map<string, number>();
  const end = (id: string): number => endMin.get(id) ?? Number.POSITIVE_INFINITY;
  const readyMin = (a: Activity): number => {
    let ready = 0;
    for (const id of a.after) ready = Math.max(ready, end(id));
    if (a.restMin !== undefined) ready = Math.max(ready, end(a.restMin.after) + a.restMin.minutes);
    if (a.closes !== undefined) {
      const dryMin = drying.get(coated.get(a.closes) ?? '') ?? 0;
      ready = Math.max(ready, end(a.closes) + dryMin);
    }
    return ready;
  };
  let nowMin = 0;
  let rainSafeMin = 0;
  while (waiting.length > 0) {
    let at = -1;
    let startMin = Number.POSITIVE_INFINITY;
    for (let i = 0; i < waiting.length && startMin > nowMin; i += 1) {
      const ready = Math.max(nowMin, readyMin(waiting[i]!));
      if (ready < startMin) [at, startMin] = [i, ready];
    }
    const next = waiting[at];
    if (next === undefined) throw new Error(`nothing can start: ${waiting[0]?.id} waits for ever`);
    waiting.splice(at, 1);
    startMinById.set(next.id, startMin);
    nowMin = startMin + next.workerMin / Math.min(next.maxPeople, crewPeople);
    endMin.set(next.id, nowMin);
    if (next.forRainSafe) rainSafeMin = nowMin;
  }
  return { finishMin: nowMin, rainSafeMin, startMin: startMinById };
}
