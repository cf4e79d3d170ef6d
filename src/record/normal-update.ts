import { inRange } from '../units/index.ts';

export interface Normal {
  readonly mean: number;
  readonly sd: number;
}

export interface Seen {
  readonly value: number;
  readonly variance: number;
  /** 0..1: how much of its information counts; 1 = all. */
  readonly weight: number;
}

/** Half-width of the middle 80 % of a normal distribution, in standard deviations. */
export const SD_PER_80_PCT = 1.2815515655446004;

/**
 * What is known of a normal mean after some measurements of it, each with a known variance: precisions
 * add, and the mean is theirs weighted (conjugate normal). A weight below 1 raises that measurement's
 * likelihood to this power, which multiplies its precision.
 * @param prior  sd above 0
 * @param seen  [n]; sums run in the order given
 * @returns the prior itself where nothing was seen
 * @throws RangeError on a variance that is not above 0, a weight outside 0..1, NaN included
 * @source Box & Tiao 1973, Bayesian Inference in Statistical Analysis, section 1.1; tests/published/learning.test.ts
 */
export function updateNormal(prior: Normal, seen: readonly Seen[]): Normal {
  inRange('prior.mean', prior.mean, -1e9, 1e9);
  inRange('prior.sd', prior.sd, 1e-9, 1e9);
  if (seen.length === 0) return prior;
  let precision = 1 / prior.sd ** 2;
  let sum = prior.mean / prior.sd ** 2;
  for (const { value, variance, weight } of seen) {
    inRange('value', value, -1e9, 1e9);
    inRange('variance', variance, 1e-18, 1e18);
    inRange('weight', weight, 0, 1);
    precision += weight / variance;
    sum += (weight * value) / variance;
  }
  return { mean: sum / precision, sd: Math.sqrt(1 / precision) };
}
