import type { OutcomeKind } from './day-run.ts';

export interface StartChoice {
  /** Index of the earliest start that costs, over all forecasts, hardly more than the cheapest. */
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
 * @param slack  what an earlier start may cost more than the cheapest, a forecast: time in hand is worth it
 */
export function chooseStart(
  kinds: readonly (readonly OutcomeKind[])[],
  costs: readonly (readonly number[])[],
  slack = 0,
): StartChoice {
  const memberCount = kinds[0]!.length;
  const everyone = Array.from({ length: memberCount }, (_, m) => m);
  let finished = 0;
  let known = 0;
  for (let fold = 0; fold < Math.min(FOLDS, memberCount); fold += 1) {
    const others = everyone.filter((m) => m % FOLDS !== fold);
    const chosen = early(costs, others.length > 0 ? others : everyone, slack);
    for (let m = fold; m < memberCount; m += FOLDS) {
      const kind = kinds[chosen]![m]!;
      if (kind === 'finished') finished += 1;
      if (kind !== 'unknown') known += 1;
    }
  }
  return { chosen: early(costs, everyone, slack), crossFit: known > 0 ? finished / known : 0 };
}

function early(
  costs: readonly (readonly number[])[],
  members: readonly number[],
  slack: number,
): number {
  const totals = costs.map((costOf) => members.reduce((sum, m) => sum + costOf[m]!, 0));
  const most = Math.min(...totals) + slack * members.length;
  return totals.findIndex((total) => total <= most);
}
