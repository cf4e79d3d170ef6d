import { type Binning, binCases } from './bins.ts';
import { baseRate, checkCases, type JudgedChance, outcomeOf } from './cases.ts';

/**
 * Brier score: mean square of chance less outcome, 0 (always right and sure) .. 1.
 * @throws RangeError without cases
 * @source G. W. Brier, Monthly Weather Review 78 (1950), 1-3, in its half form for two outcomes
 */
export function brierScore(cases: readonly JudgedChance[]): number {
  checkCases('brierScore', cases);
  return meanOf(cases, (one) => (one.chance - outcomeOf(one)) ** 2);
}

/**
 * Brier skill: 0 as good as the reference, 1 perfect, below 0 worse.
 * @param reference  Brier score of what one would say otherwise, above 0
 */
export function brierSkill(score: number, reference: number): number {
  if (!(reference > 0)) throw new RangeError(`reference (${reference}) must be above 0`);
  return 1 - score / reference;
}

export interface BrierParts {
  readonly score: number;
  /** How far the chances lie from what happened then; 0 is best. */
  readonly reliability: number;
  /** How far apart the bins' outcomes lie; more is better. */
  readonly resolution: number;
  /** Of the weather itself: s (1 - s) of its frequency s. */
  readonly uncertainty: number;
  /** Spread of the chances inside bins, and what of it went with the outcomes (twice the covariance). */
  readonly withinVariance: number;
  readonly withinCovariance: number;
}

/**
 * Takes the Brier score apart: score = reliability - resolution + uncertainty + withinVariance -
 * withinCovariance, exactly, however wide the bins. With one bin for each value the last two are 0.
 * @throws RangeError without cases
 * @source A. H. Murphy, Journal of Applied Meteorology 12 (1973), 595-600; the two terms inside bins:
 *   D. B. Stephenson, C. A. S. Coelho, I. T. Jolliffe, Weather and Forecasting 23 (2008), 752-757
 */
export function brierParts(cases: readonly JudgedChance[], binning: Binning): BrierParts {
  const score = brierScore(cases);
  const often = baseRate(cases);
  let reliability = 0;
  let resolution = 0;
  let withinVariance = 0;
  let withinCovariance = 0;
  for (const { count, meanChance, observed, cases: inside } of binCases(cases, binning)) {
    const share = count / cases.length;
    reliability += share * (meanChance - observed) ** 2;
    resolution += share * (observed - often) ** 2;
    withinVariance += share * meanOf(inside, (one) => (one.chance - meanChance) ** 2);
    withinCovariance +=
      2 * share * meanOf(inside, (one) => (one.chance - meanChance) * (outcomeOf(one) - observed));
  }
  return {
    score,
    reliability,
    resolution,
    uncertainty: often * (1 - often),
    withinVariance,
    withinCovariance,
  };
}

function meanOf(cases: readonly JudgedChance[], value: (one: JudgedChance) => number): number {
  return cases.reduce((sum, one) => sum + value(one), 0) / cases.length;
}
