import { beforeAll, describe, expect, it } from 'vitest';
import { hindsightDay, simulateDay } from '../../src/planner/index.ts';
import { MINUTE_MS } from '../fixtures/planner/weather.ts';
import { compareDay, type Dispatched, dispatchDay } from '../fixtures/scheduling/known-days.ts';
import { policyGap } from '../fixtures/scheduling/policies.ts';
import { randomDay } from '../fixtures/scheduling/random-day.ts';
import { loadSolver, type Solver } from '../fixtures/scheduling/time-indexed.ts';

/**
 * Small random days of work on the five-minute grid against a general solver of integer programs, HiGHS
 * (https://highs.dev). `npm run verify` does the same with all of 200 days and 50 policies, and prints
 * how far the dispatch rule and the search are from the best.
 */

const SEEDS = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, n) => from + n);

let solve: Solver;
beforeAll(async () => {
  solve = await loadSolver();
});

describe('the best day in one known future', () => {
  // The last six are days that rain after opening, or a film closed in the cold, was seen to decide.
  const sooner = [...SEEDS(1, 24), 73, 101, 154, 164, 170, 177];
  it.each([
    ['inside', sooner],
    ['outside', SEEDS(25, 34)],
  ] as const)(
    'is what the general solver finds, and none where it finds none: %s the grid',
    (edges, seeds) => {
      const compared = seeds.map((seed) => compareDay(solve, seed, edges));
      expect(compared.map(({ core }) => core)).toEqual(compared.map(({ program }) => program));
      const infeasible = compared.filter(({ core }) => core === 'infeasible').length;
      expect(infeasible).toBeGreaterThan(0);
      expect(infeasible).toBeLessThan(compared.length);
    },
    120_000,
  );

  it('begins on a line of the grid or is refused', () => {
    const plan = randomDay(1, { fewest: 5, most: 9, members: 1 });
    const offMs = plan.shift.startMs + MINUTE_MS;
    expect(() => hindsightDay(plan, 0, offMs)).toThrow(`startMs (${offMs})`);
  });
});

describe('the dispatch rule in one known future', () => {
  let days: Dispatched[] = [];
  beforeAll(() => {
    days = SEEDS(1, 80).map((seed) => dispatchDay(seed));
  });

  it('keeps to the rules of the work, and is never better than the best day there is', () => {
    expect(days.flatMap(({ faults }) => faults)).toEqual([]);
  });

  it('was asked about days with and without a way to finish', () => {
    expect(days.filter(({ finished }) => finished).length).toBeGreaterThan(30);
    expect(days.filter(({ perhapsPossible }) => !perhapsPossible).length).toBeGreaterThan(10);
  });
});

describe('the start searched, in four possible futures', () => {
  it('is the earliest that costs hardly more than the cheapest of all', () => {
    for (const gap of SEEDS(1, 10).map(policyGap)) expect(gap).toMatchObject({ asStated: true });
  });
});

describe('a day that ends with the roof still closed', () => {
  it('is stood down, whatever comes first on the list', () => {
    // The first task left here is one that the roof is rain-safe without, so nothing is late for it.
    const plan = randomDay(49, { fewest: 3, most: 5, members: 4 });
    const run = simulateDay(plan, 3, { startMs: plan.shift.startMs + 120 * MINUTE_MS });
    expect(run.kind).toBe('stoodDown');
    expect(run.endMs).toBeLessThanOrEqual(plan.shift.endMs);
  });
});
