import { shrunkShare } from './chance.ts';
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

/** The cost-loss rule for one day: stand down when `caughtChance` is above `threshold`. */
export interface ValueFigures {
  readonly costOfStandingDown: number;
  /** What being caught open costs and standing down avoids. */
  readonly avoidableLoss: number;
  /** 0..1; null where no forecast reaches the end of the day. */
  readonly caughtChance: number | null;
  readonly threshold: number;
}

/**
 * Bare shares of forecasts were measured to be too sure of themselves, so the chance of being caught is
 * shrunk towards even as a plan's for today is; none of any number stays none, or no count would ever be
 * large enough to go.
 * @param count  forecasts caught open, of so many that reach the end of the day
 * @param made   the forecasts were made from a single one
 */
export function valueFigures(
  costs: Costs,
  {
    count,
    of,
    made = false,
  }: { readonly count: number; readonly of: number; readonly made?: boolean },
): ValueFigures {
  const caught = count === 0 ? 0 : shrunkShare(count / of, { of, leadDays: 0, made });
  return {
    costOfStandingDown: costs.standDown,
    avoidableLoss: costs.caughtOpen,
    caughtChance: of === 0 ? null : caught,
    threshold: costLossThreshold(costs),
  };
}
