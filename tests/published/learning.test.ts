import { describe, expect, it } from 'vitest';
import { type Normal, updateNormal } from '../../src/record/index.ts';

/**
 * Joining what was believed with what was measured, against worked examples of general statistics.
 * The books print rounded results; tolerances are half a unit of their last digit.
 */

function times(n: number, value: number, sd: number) {
  return Array.from({ length: n }, () => ({ value, variance: sd ** 2, weight: 1 }));
}

describe('two physicists measure one constant (Box & Tiao 1973, section 1.1, from memory)', () => {
  const A: Normal = { mean: 900, sd: 20 };
  const B: Normal = { mean: 800, sd: 80 };

  it('A, sure of 900 +/- 20, stands at 890 +/- 17.9 after one measurement of 850 +/- 40', () => {
    const after = updateNormal(A, times(1, 850, 40));
    expect(Math.abs(after.mean - 890)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(after.sd - 17.9)).toBeLessThanOrEqual(0.05);
  });

  it('B, who believed 800 +/- 80, stands at 840 +/- 35.8', () => {
    const after = updateNormal(B, times(1, 850, 40));
    expect(Math.abs(after.mean - 840)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(after.sd - 35.8)).toBeLessThanOrEqual(0.05);
  });

  it('after a hundred measurements with mean 870 they agree: 871.2 +/- 3.9 and 869.8 +/- 4.0', () => {
    const a = updateNormal(A, times(100, 870, 40));
    const b = updateNormal(B, times(100, 870, 40));
    expect(Math.abs(a.mean - 871.2)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(a.sd - 3.9)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(b.mean - 869.8)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(b.sd - 4.0)).toBeLessThanOrEqual(0.05);
  });
});

describe('the top speed of a car (SOCR, AP Statistics Curriculum 2007, Bayesian Normal)', () => {
  it('believed to within 10 and measured to within 4 has a variance of 14, in whole numbers', () => {
    // The page's mean of 218 is not used: it multiplies by the rounded variance; unrounded it is 215.2.
    const after = updateNormal({ mean: 185, sd: 10 }, times(1, 220, 4));
    expect(Math.round(after.sd ** 2)).toBe(14);
    expect(after.mean / after.sd ** 2).toBeCloseTo(185 / 10 ** 2 + 220 / 4 ** 2, 9);
  });
});

describe('worked by hand', () => {
  it('a measurement as sure as the belief meets it half way and takes off a factor of root two', () => {
    const after = updateNormal({ mean: 0, sd: 0.3 }, times(1, 1, 0.3));
    expect(after.mean).toBeCloseTo(0.5, 12);
    expect(after.sd).toBeCloseTo(0.3 / Math.SQRT2, 12);
  });

  it('a half-weight measurement counts as one of twice the variance', () => {
    const prior = { mean: 0, sd: 0.5 };
    const half = updateNormal(prior, [{ value: 1, variance: 0.25, weight: 0.5 }]);
    // 1/0.25 = 4 of belief beside 0.5 / 0.25 = 2 of measurement: a third of the way, variance 1/6.
    expect(half.mean).toBeCloseTo(1 / 3, 12);
    expect(half.sd ** 2).toBeCloseTo(1 / 6, 12);
  });
});
