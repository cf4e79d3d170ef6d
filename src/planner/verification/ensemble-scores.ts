import { inRange } from '../../units/index.ts';

/**
 * Brier score of a count of forecasts, corrected for how few they are: what the ensemble's spread would
 * score with endless members of the same kind. Single values may fall below 0; means are what counts.
 * @param count  k, forecasts in which it happens, whole, 0..of
 * @param of     M, forecasts, whole, at least 2
 * @source C. A. T. Ferro, Quarterly Journal of the Royal Meteorological Society 140 (2014), 1917-1923
 */
export function fairBrier(count: number, of: number, happened: boolean): number {
  checkSize('fairBrier', of, 2);
  if (!Number.isInteger(count)) throw new RangeError(`count (${count}) must be whole`);
  inRange('count', count, 0, of);
  const outcome = happened ? 1 : 0;
  return (count / of - outcome) ** 2 - (count * (of - count)) / (of ** 2 * (of - 1));
}

/**
 * Continuous ranked probability score of forecasts against what was measured, in the unit of both:
 * mean |x - y| less half the mean |x - x'| over all pairs. For one forecast it is the absolute error.
 * @throws RangeError without forecasts or for a value that is no number
 * @source T. Gneiting and A. E. Raftery, Journal of the American Statistical Association 102 (2007), 359-378
 */
export function ensembleCrps(members: readonly number[], observed: number): number {
  checkSize('ensembleCrps', members.length, 1);
  return distance(members, observed) - pairSum(members) / (2 * members.length ** 2);
}

/**
 * The same, corrected for the number of forecasts as fairBrier is.
 * @throws RangeError for fewer than two forecasts
 * @source as fairBrier
 */
export function fairCrps(members: readonly number[], observed: number): number {
  const of = members.length;
  checkSize('fairCrps', of, 2);
  return distance(members, observed) - pairSum(members) / (2 * of * (of - 1));
}

function distance(members: readonly number[], observed: number): number {
  const total = members.reduce((sum, member) => sum + Math.abs(member - observed), 0);
  if (!Number.isFinite(total)) {
    throw new RangeError(
      `members (${members.join(', ')}) and observed (${observed}) must be numbers`,
    );
  }
  return total / members.length;
}

/** Sum of |x - x'| over all ordered pairs. */
function pairSum(members: readonly number[]): number {
  const of = members.length;
  const sorted = [...members].sort((a, b) => a - b);
  return 2 * sorted.reduce((sum, member, i) => sum + (2 * i - of + 1) * member, 0);
}

function checkSize(what: string, of: number, least: number): void {
  if (!Number.isInteger(of) || of < least) {
    throw new RangeError(`${what}: forecasts (${of}) must be whole and at least ${least}`);
  }
}
