import type { OutcomeKind } from './day-run.ts';

export interface StartChoice {
  /** Index of the start with the least cost over all forecasts; on equal cost the last one. */
  readonly chosen: number;
  /**
   * Share finished, 0..1, when no forecast has a say in choosing the start it is judged by: the best
   * of many starts looks better than it is.
   */
  readonly crossFit: number;
}

const FOLDS = 5;

/**
 * Picks a start by cost and says how often it would finish if picking had not flattered it.
 * @param kinds  how each start goes in each forecast, [start][member]
 * @param costs  what that costs, same shape
 */
export function chooseStart(
  kinds: readonly (readonly OutcomeKind[])[],
  costs: readonly (readonly number[])[],
): StartChoice {
  const memberCount = kinds[0]!.length;
  const everyone = Array.from({ length: memberCount }, (_, m) => m);
  let finished = 0;
  let known = 0;
  for (let fold = 0; fold < Math.min(FOLDS, memberCount); fold += 1) {
    const others = everyone.filter((m) => m % FOLDS !== fold);
    const chosen = cheapest(costs, others.length > 0 ? others : everyone);
    for (let m = fold; m < memberCount; m += FOLDS) {
      const kind = kinds[chosen]![m]!;
      if (kind === 'finished') finished += 1;
      if (kind !== 'unknown') known += 1;
    }
  }
  return { chosen: cheapest(costs, everyone), crossFit: known > 0 ? finished / known : 0 };
}

function cheapest(costs: readonly (readonly number[])[], members: readonly number[]): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  costs.forEach((costOf, n) => {
    const total = members.reduce((sum, m) => sum + costOf[m]!, 0);
    if (total <= least) [best, least] = [n, total];
  });
  return best;
}
