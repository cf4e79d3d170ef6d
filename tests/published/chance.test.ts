import { describe, expect, it } from 'vitest';
import {
  adjustChance,
  chanceWords,
  chooseStart,
  mostFor,
  type OutcomeKind,
} from '../../src/planner/index.ts';
import { seededRandom } from '../../src/units/index.ts';

/**
 * The chance shown, against results of statistics that stand in any textbook: the rule of succession
 * (Laplace 1774), the largest of several binomial counts, and the least chance that a clean record
 * leaves open.
 */

describe('the chance of a day that is today', () => {
  it.each([
    [0, 10, 1 / 12],
    [7, 10, 8 / 12],
    [10, 10, 11 / 12],
    [36, 51, 37 / 53],
  ])('of %i in %i is (k + 1) / (n + 2), the rule of succession', (count, of, expected) => {
    const { shrunk, adjusted } = adjustChance({ count, of, crossFit: count / of, leadDays: 0 });
    expect(shrunk).toBeCloseTo(expected, 12);
    expect(adjusted).toBe(Math.min(shrunk!, mostFor(of)));
  });
});

describe('the surest a count may be shown as', () => {
  // One-sided 95 % limits of the binomial for a clean record: (1 - risk)^n = 0.05. Hanley and
  // Lippman-Hand, JAMA 249 (1983), give 14, 10, 6 and 3 % (table from memory), nearly 3 / n.
  it.each([
    [20, 0.14],
    [30, 0.1],
    [50, 0.06],
    [100, 0.03],
  ])('of %i leaves a risk of %f', (of, risk) => {
    expect(Math.abs(1 - mostFor(of) - risk)).toBeLessThan(0.005);
    // What is left out: a true chance below it gives a clean count in less than 5 % of draws.
    expect(mostFor(of) ** of).toBeCloseTo(0.05, 12);
  });

  it('of fewer than 20 is that of 20: small ensembles that agree were right oftener than they can prove', () => {
    expect([2, 8, 19].map(mostFor)).toEqual([mostFor(20), mostFor(20), mostFor(20)]);
    // npm run verify: all of 8 models said under 5 °C, and it was in 88 %; all of 9 rain, in 85 %.
    expect(mostFor(8)).toBeLessThan(0.88);
  });

  it('holds for every count, day ahead and kind of forecast, by the shrinkage as shipped', () => {
    let held = 0;
    for (const of of [2, 5, 10, 20, 31, 51]) {
      for (const leadDays of [0, 0.5, 1, 2, 3, 7, 14]) {
        for (const made of [false, true]) {
          for (let count = 0; count <= of; count += 1) {
            const { adjusted, shrunk } = adjustChance({ count, of, crossFit: 1, leadDays, made });
            expect(adjusted!).toBeLessThanOrEqual(mostFor(of));
            if (shrunk! > adjusted!) held += 1;
          }
        }
      }
    }
    // The shrinkage alone would be surer: 51 of 51 today is 52 / 53.
    expect(held).toBeGreaterThan(25);
  });

  it('holds in words: 20 of 20 leave 86 % open and are not over 9 in 10, 29 of 29 are', () => {
    const words = (of: number) => adjustChance({ count: of, of, crossFit: 1, leadDays: 0 }).words;
    expect(words(20)).toBe('about 9 in 10');
    expect(words(28)).toBe('about 9 in 10');
    expect(words(29)).toBe('over 9 in 10');
    expect(words(10)).toBe('about 9 in 10');
  });
});

describe('the chance of a day further ahead', () => {
  it('moves towards even with every day, from either side, and never past it', () => {
    for (const count of [2, 20, 49]) {
      let before = adjustChance({ count, of: 51, crossFit: count / 51, leadDays: 0 }).adjusted!;
      for (let leadDays = 1; leadDays <= 14; leadDays += 1) {
        const now = adjustChance({ count, of: 51, crossFit: count / 51, leadDays }).adjusted!;
        expect(Math.abs(now - 0.5)).toBeLessThan(Math.abs(before - 0.5));
        expect(Math.sign(now - 0.5)).toBe(Math.sign(count / 51 - 0.5));
        before = now;
      }
    }
  });

  it('moves less where more forecasts stand behind it', () => {
    const off = (of: number) =>
      1 - adjustChance({ count: of, of, crossFit: 1, leadDays: 5 }).adjusted!;
    expect(off(51)).toBeLessThan(off(20));
  });
});

describe('picking the best of many starts', () => {
  const STARTS = 20;
  const MEMBERS = 51;
  const TRUE_SHARE = 0.7;

  /** Mean share of the best of `starts` independent binomial counts, from the counts' distribution. */
  function expectedBest(): number {
    let below = 0;
    let weight = (1 - TRUE_SHARE) ** MEMBERS;
    let mean = 0;
    for (let k = 0; k <= MEMBERS; k += 1) {
      const upTo = below + weight;
      mean += (k / MEMBERS) * (upTo ** STARTS - below ** STARTS);
      below = upTo;
      weight *= ((MEMBERS - k) / (k + 1)) * (TRUE_SHARE / (1 - TRUE_SHARE));
    }
    return mean;
  }

  const random = seededRandom(20260513);
  const trials = Array.from({ length: 1500 }, () => {
    const kinds = Array.from({ length: STARTS }, () =>
      Array.from(
        { length: MEMBERS },
        (): OutcomeKind => (random() < TRUE_SHARE ? 'finished' : 'stoodDown'),
      ),
    );
    const costs = kinds.map((of) => of.map((kind) => (kind === 'finished' ? 0 : 650)));
    const { chosen, crossFit } = chooseStart(kinds, costs);
    const count = kinds[chosen]!.filter((kind) => kind === 'finished').length;
    return { count, crossFit, most: Math.max(...kinds.map(finishedIn)) };
  });
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;

  it('flatters it: the best of 20 of true 0.70 shows about 0.81 on 51 forecasts', () => {
    expect(Math.abs(expectedBest() - 0.81)).toBeLessThan(0.01);
    const shown = mean(trials.map(({ count }) => count / MEMBERS));
    // Standard error of the mean of 1500 trials is under 0.001.
    expect(shown).toBeCloseTo(expectedBest(), 2);
    expect(trials.every(({ count, most }) => count === most)).toBe(true);
  });

  it('is put right by judging each fifth by the start the others would have chosen', () => {
    expect(Math.abs(mean(trials.map(({ crossFit }) => crossFit)) - TRUE_SHARE)).toBeLessThan(0.006);
  });

  it('never raises the chance shown above the count’s own', () => {
    for (const { count, crossFit } of trials) {
      const corrected = adjustChance({ count, of: MEMBERS, crossFit, leadDays: 1 }).adjusted!;
      const flattered = adjustChance({ count, of: MEMBERS, crossFit: 1, leadDays: 1 }).adjusted!;
      expect(corrected).toBeLessThanOrEqual(flattered);
    }
  });

  it('changes nothing where there is one start only', () => {
    const kinds: OutcomeKind[][] = [
      ['finished', 'stoodDown', 'finished', 'caughtOpen', 'finished'],
    ];
    expect(chooseStart(kinds, [[0, 650, 0, 2500, 0]])).toEqual({ chosen: 0, crossFit: 0.6 });
  });

  it('leaves out what is unknown, and takes the earlier of two equal starts', () => {
    const kinds: OutcomeKind[][] = [
      ['finished', 'unknown', 'finished', 'stoodDown'],
      ['finished', 'unknown', 'finished', 'stoodDown'],
    ];
    const costs = kinds.map(() => [0, 650, 0, 650]);
    expect(chooseStart(kinds, costs)).toEqual({ chosen: 0, crossFit: 2 / 3 });
  });
});

const finishedIn = (kinds: readonly OutcomeKind[]) =>
  kinds.filter((kind) => kind === 'finished').length;

describe('the words of a chance', () => {
  it('never say 0 in 10 or 10 in 10', () => {
    for (let share = 0; share <= 1; share += 0.001) {
      const { words } = chanceWords(share);
      expect(words).toMatch(/^(under 1|about [1-9]|over 9) in 10$/);
    }
    expect(chanceWords(0).words).toBe('under 1 in 10');
    expect(chanceWords(1).words).toBe('over 9 in 10');
    expect(chanceWords(0.7).words).toBe('about 7 in 10');
  });

  it('claim no more than 50 of 50 allows, which excludes only chances under 94 % (0.05^(1/50))', () => {
    expect(0.05 ** (1 / 50)).toBeCloseTo(0.94, 2);
    const { words } = adjustChance({ count: 50, of: 50, crossFit: 1, leadDays: 0 });
    expect(words).toBe('over 9 in 10');
  });

  it('give none for a single forecast', () => {
    expect(adjustChance({ count: 1, of: 1, crossFit: 1, leadDays: 0 })).toMatchObject({
      adjusted: null,
      tenths: null,
    });
  });
});
