import type { DayRun } from './day-run.ts';
import type { Costs } from './types.ts';

/** Cost of one way a day can go, by the firm's own figures. */
export function outcomeCost({ kind, laid }: Pick<DayRun, 'kind' | 'laid'>, costs: Costs): number {
  switch (kind) {
    case 'finished':
      return 0;
    case 'shortened':
      // Opened for nothing costs the aborted day as well as the closing up.
      return laid ? costs.shortened : costs.shortened + costs.standDown;
    case 'stoodDown':
      return costs.standDown;
    case 'caughtOpen':
      return costs.caughtOpen;
    case 'unknown':
      // Not known to be dry is not dry: a day that cannot be seen to its end earns nothing.
      return costs.standDown;
  }
}

/** A crew standing about costs its share of an aborted day. */
export function idleCost(idleMs: number, shiftMs: number, costs: Costs): number {
  return shiftMs > 0 ? costs.standDown * Math.min(1, idleMs / shiftMs) : 0;
}

/**
 * Chance of trouble in the open interval above which standing down is the cheaper choice (cost-loss
 * rule, Murphy 1977): cost of standing down over the avoidable loss.
 */
export function costLossThreshold(costs: Costs): number {
  return costs.caughtOpen > 0 ? Math.min(1, costs.standDown / costs.caughtOpen) : 1;
}
