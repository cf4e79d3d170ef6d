import { describe, expect, it } from 'vitest';
import { costLossThreshold } from '../../src/planner/index.ts';

/**
 * The cost-loss rule: A. H. Murphy, 'The value of climatological, categorical and probabilistic
 * forecasts in the cost-loss ratio situation', Monthly Weather Review 105 (1977), 803-816: protecting
 * costs C, an unprotected event costs L; protect when its chance is above C / L. The worked figures
 * are common practice: standing down 600, caught open 6,000 or 2,000.
 */

const costs = (standDown: number, caughtOpen: number) => ({
  currency: 'GBP',
  standDown,
  caughtOpen,
  shortened: 0,
  waitPerDay: 0,
});
const threshold = (standDown: number, caughtOpen: number) =>
  costLossThreshold(costs(standDown, caughtOpen));

describe('the chance of trouble above which a crew stands down', () => {
  it('is 10 % where standing down costs 600 and being caught 6,000', () => {
    expect(threshold(600, 6000)).toBeCloseTo(0.1, 12);
  });

  it('is 30 % where standing down costs 600 and being caught 2,000', () => {
    expect(threshold(600, 2000)).toBeCloseTo(0.3, 12);
  });

  it('parts the cheaper choices: below it going costs less on average, above it standing down', () => {
    for (const [standDown, caughtOpen] of [
      [600, 6000],
      [600, 2000],
      [1500, 8000],
    ] as const) {
      const at = threshold(standDown, caughtOpen);
      expect((at - 0.01) * caughtOpen).toBeLessThan(standDown);
      expect((at + 0.01) * caughtOpen).toBeGreaterThan(standDown);
    }
  });

  it('is never above certainty: where being caught costs no more, nobody stands down for it', () => {
    expect(threshold(600, 600)).toBe(1);
    expect(threshold(600, 300)).toBe(1);
    expect(threshold(600, 0)).toBe(1);
  });

  it('is nothing where standing down is free', () => {
    expect(threshold(0, 6000)).toBe(0);
  });
});
