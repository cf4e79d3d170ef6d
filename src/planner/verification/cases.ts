import { inRange } from '../../units/index.ts';

/** A chance that was given for something, and whether it came about. */
export interface JudgedChance {
  /** 0..1 */
  readonly chance: number;
  readonly happened: boolean;
}

/**
 * A judged chance for fitting. Cases of one group (the same day) stand or fall together and are never
 * split between fitting and judging.
 */
export interface FitCase extends JudgedChance {
  /** Above 0; several calls for one day share a weight of 1. */
  readonly weight: number;
  /** Sorts in order of time, such as '2026-05-14'. */
  readonly group: string;
}

/** @throws RangeError for an empty list or a chance outside 0..1, NaN included */
export function checkCases(what: string, cases: readonly JudgedChance[]): void {
  if (cases.length === 0) throw new RangeError(`${what} needs at least one case, not 0`);
  for (const { chance } of cases) inRange('chance', chance, 0, 1);
}

/** Share in which it happened, 0..1. */
export function baseRate(cases: readonly JudgedChance[]): number {
  checkCases('baseRate', cases);
  return cases.filter(({ happened }) => happened).length / cases.length;
}

export const outcomeOf = ({ happened }: JudgedChance): 0 | 1 => (happened ? 1 : 0);

/**
 * The share of a count, kept off 0 and 1 by half a case either side: (k + 1/2) / (M + 1). The mean of the
 * Bayesian estimate under Jeffreys' prior; 0 of 51 does not mean never.
 * @param count  k, whole, 0..of
 * @param of     M, whole, at least 1
 */
export function openShare(count: number, of: number): number {
  if (!Number.isInteger(of) || of < 1) throw new RangeError(`of (${of}) must be whole and above 0`);
  if (!Number.isInteger(count)) throw new RangeError(`count (${count}) must be whole`);
  return (inRange('count', count, 0, of) + 0.5) / (of + 1);
}
