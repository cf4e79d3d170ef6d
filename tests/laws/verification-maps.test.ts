import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  brierParts,
  chooseMap,
  type FitCase,
  fitBeta,
  fitIsotonic,
  fitLogistic,
  type JudgedChance,
  judgeChoice,
  ownRecord,
  type PastCall,
  poolAdjacent,
  shownCases,
} from '../../src/planner/verification/index.ts';
import { drawn, expit, grid, logit, right, tooBold } from './verification-cases.ts';

/** Laws of the maps that mend chances, and of a firm's own record: order, honesty, and who is counted. */

describe('pooling', () => {
  const values = fc.array(
    fc.record({ value: fc.integer({ min: -5, max: 5 }), weight: fc.integer({ min: 1, max: 4 }) }),
    { maxLength: 7 },
  );

  it('never falls, changes nothing the second time, and is the best of all never-falling answers', () => {
    fc.assert(
      fc.property(values, (rows) => {
        const of = rows.map(({ value }) => value);
        const weights = rows.map(({ weight }) => weight);
        const pooled = poolAdjacent(of, weights);
        pooled.slice(1).forEach((value, i) => {
          expect(value).toBeGreaterThanOrEqual(pooled[i]!);
        });
        poolAdjacent(pooled, weights).forEach((value, i) => {
          expect(value).toBeCloseTo(pooled[i]!, 12);
        });
        expect(misfit(pooled, of, weights)).toBeCloseTo(bestMisfit(of, weights), 9);
      }),
      { numRuns: 300 },
    );
  });

  const misfit = (a: readonly number[], b: readonly number[], weights: readonly number[]): number =>
    a.reduce((sum, value, i) => sum + weights[i]! * (value - b[i]!) ** 2, 0);

  /** Every way to cut the row into runs of one level each, at their means, that never falls. */
  function bestMisfit(of: readonly number[], weights: readonly number[]): number {
    let best = of.length === 0 ? 0 : Number.POSITIVE_INFINITY;
    for (let cuts = 0; cuts < 2 ** Math.max(0, of.length - 1); cuts += 1) {
      const runs: number[][] = [];
      of.forEach((_, i) => {
        if (i === 0 || (cuts >> (i - 1)) & 1) runs.push([i]);
        else runs.at(-1)!.push(i);
      });
      const levels = runs.flatMap((run) => {
        const weight = run.reduce((sum, i) => sum + weights[i]!, 0);
        const mean = run.reduce((sum, i) => sum + weights[i]! * of[i]!, 0) / weight;
        return run.map(() => mean);
      });
      const falls = levels.some((level, i) => i > 0 && level < levels[i - 1]! - 1e-12);
      if (!falls) best = Math.min(best, misfit(levels, of, weights));
    }
    return best;
  }
});

describe('maps of chances', () => {
  const FITS = { fitLogistic, fitBeta, fitIsotonic };
  const fitCases = fc.array(
    fc.record({
      chance: fc.double({ min: 0.01, max: 0.99, noNaN: true }),
      happened: fc.boolean(),
      weight: fc.constantFrom(0.25, 1, 3),
      group: fc.constantFrom('a', 'b', 'c', 'd'),
    }),
    { minLength: 1, maxLength: 40 },
  );

  it.each(Object.entries(FITS))(
    '%s never falls and stays in 0..1, whatever it was fitted to',
    (_, fitTo) => {
      fc.assert(
        fc.property(fitCases, (cases) => {
          const { apply } = fitTo(cases);
          const mapped = grid.map(apply);
          mapped.forEach((value, i) => {
            expect(value).toBeGreaterThanOrEqual(i === 0 ? 0 : mapped[i - 1]! - 1e-12);
            expect(value).toBeLessThanOrEqual(1);
          });
        }),
      );
    },
  );

  it.each([
    ['fitLogistic', fitLogistic],
    ['fitBeta', fitBeta],
  ] as const)(
    '%s scores no worse in log odds than the chances as given on its own cases',
    (_, fitTo) => {
      const logScore = (cases: readonly FitCase[], of: (chance: number) => number): number =>
        cases.reduce(
          (sum, { chance, happened, weight }) =>
            sum - weight * Math.log(happened ? of(chance) : 1 - of(chance)),
          0,
        );
      fc.assert(
        fc.property(fitCases, (cases) => {
          const { apply } = fitTo(cases);
          expect(logScore(cases, apply)).toBeLessThanOrEqual(logScore(cases, (p) => p) + 1e-9);
        }),
      );
    },
  );

  it.each(Object.entries(FITS))(
    '%s is no less reliable than the chances as given on its own cases',
    (_, fitTo) => {
      for (const given of [right, tooBold, (truth: number) => truth ** 2, Math.sqrt]) {
        for (let seed = 0; seed < 5; seed += 1) {
          const cases = drawn(300, seed, given);
          const { apply } = fitTo(cases);
          const mapped = cases.map((one) => ({ ...one, chance: apply(one.chance) }));
          const reliability = (of: readonly JudgedChance[]) => brierParts(of, 5).reliability;
          // Luck alone leaves about 5 bins x 0.2 / 300 cases = 0.003 of it with right chances.
          const luck = fitTo === fitIsotonic ? 1e-9 : 0.004;
          expect(reliability(mapped)).toBeLessThan(reliability(cases) + luck);
        }
      }
    },
  );

  it.each(Object.entries(FITS))(
    '%s goes up where all came about and down where none did',
    (_, fitTo) => {
      for (const happened of [true, false]) {
        const cases = drawn(60, 1, right).map((one) => ({ ...one, happened }));
        const { apply } = fitTo(cases);
        const moved = cases.reduce((sum, { chance }) => sum + apply(chance) - chance, 0) / 60;
        expect(happened ? moved : -moved).toBeGreaterThan(0.2);
        expect(Math.sign(apply(0.5) - 0.5)).toBe(happened ? 1 : -1);
      }
    },
  );

  it('find the rule that spoilt the chances, given enough cases', () => {
    const halved = (p: number) => expit(logit(p) / 2);
    const bold = drawn(20_000, 9, tooBold);
    for (const fitTo of [fitLogistic, fitBeta, fitIsotonic]) {
      const { apply } = fitTo(bold);
      for (const p of [0.05, 0.2, 0.5, 0.8, 0.95]) {
        // The isotonic map wanders with the few cases near each chance.
        expect(Math.abs(apply(p) - halved(p))).toBeLessThan(fitTo === fitIsotonic ? 0.06 : 0.02);
      }
    }
  });

  it('leave nothing to log odds that a chance of exactly 0 or 1 could give', () => {
    const sure = [{ chance: 1, happened: true, weight: 1, group: '' }];
    expect(() => fitLogistic(sure)).toThrow('chance (1)');
    expect(() => fitBeta(sure)).toThrow('inside 0..1');
    expect(fitIsotonic(sure).apply(0.3)).toBe(1);
  });
});

describe('choosing a map', () => {
  it('leaves right chances nearly alone and mends bold ones, judged on days it has not seen', () => {
    const bold = judgeChoice(drawn(400, 21, tooBold))!;
    expect(bold.after).toBeLessThan(bold.before - 0.005);
    const fine = judgeChoice(drawn(400, 22, right))!;
    expect(Math.abs(fine.after - fine.before)).toBeLessThan(0.006);
  });

  it('keeps the chances as given where nothing does better unseen, or all is one day', () => {
    const oneDay = drawn(200, 23, tooBold).map((one) => ({ ...one, group: 'one' }));
    expect(chooseMap(oneDay).map.kind).toBe('as given');
    expect(judgeChoice(oneDay)).toBeNull();
    expect(() => chooseMap([])).toThrow('not 0');
  });

  it('never takes a kind with a worse score than the chances as given', () => {
    for (let seed = 0; seed < 12; seed += 1) {
      const { map, scores } = chooseMap(drawn(80, seed, seed % 2 === 0 ? right : tooBold));
      expect(scores[map.kind]).toBe(Math.min(...Object.values(scores)));
    }
  });
});

describe('a firm’s own record', () => {
  /** Calls as an overbold forecast would lead to them; one a day unless told. */
  const calls = (
    days: number,
    seed: number,
    given: (truth: number) => number,
    daily = 1,
  ): PastCall[] =>
    drawn(days, seed, given).flatMap(({ chance, happened }, i) =>
      Array.from({ length: daily }, (_, n) => ({
        jobId: 'job',
        day: String(20_000 + i),
        issuedMs: i * 86_400_000 - n * 3_600_000,
        k: Math.round(chance * 50),
        of: 50,
        shrunk: chance,
        shown: chance,
        outcome: happened ? 'finished' : 'not finished',
      })),
    );

  it('has no say below 100 days with a known outcome, however many calls', () => {
    for (const few of [[], calls(1, 1, tooBold), calls(99, 1, tooBold), calls(99, 1, tooBold, 4)]) {
      const record = ownRecord(few);
      expect(record.weight).toBe(0);
      expect(record.words).toBe('not yet checked against outcomes here');
      for (const chance of grid) expect(record.adjust(chance)).toBe(chance);
    }
    const unknown = calls(40, 2, tooBold).map((call) => ({ ...call, jobId: 'b', outcome: null }));
    expect(ownRecord([...calls(99, 1, tooBold), ...unknown])).toMatchObject({
      cases: 99,
      weight: 0,
    });
  });

  it('has half a say at 100 days, more with every further one, and names the days', () => {
    const record = ownRecord(calls(100, 1, tooBold));
    expect(record.weight).toBe(0.5);
    expect(record.words).toBe('checked against 100 outcomes here');
    expect(ownRecord(calls(300, 1, tooBold)).weight).toBe(0.75);
  });

  it('takes bold chances back towards what came of them, keeps their order, stays inside 0 and 1', () => {
    const { adjust, before, after } = ownRecord(calls(300, 4, tooBold));
    expect(after!).toBeLessThan(before!);
    expect(adjust(0.9)).toBeLessThan(0.85);
    expect(adjust(0.1)).toBeGreaterThan(0.15);
    const mapped = [0, ...grid.map(adjust), 1];
    mapped.slice(1).forEach((value, i) => {
      expect(value).toBeGreaterThan(mapped[i]!);
    });
  });

  it('leaves right chances as they are, or nearly', () => {
    for (let seed = 0; seed < 6; seed += 1) {
      const { adjust } = ownRecord(calls(250, seed, right));
      for (const chance of [0.1, 0.3, 0.5, 0.7, 0.9]) {
        expect(Math.abs(adjust(chance) - chance)).toBeLessThan(0.1);
      }
    }
  });

  it('counts a day called four times once, and does not mind the order of the calls', () => {
    const once = ownRecord(calls(150, 5, tooBold));
    const often = ownRecord(calls(150, 5, tooBold, 4));
    const turned = ownRecord(calls(150, 5, tooBold).reverse());
    expect(often.cases).toBe(150);
    for (const chance of grid) {
      expect(often.adjust(chance)).toBeCloseTo(once.adjust(chance), 6);
      expect(turned.adjust(chance)).toBeCloseTo(once.adjust(chance), 6);
    }
  });

  it('stands all days finished, and none', () => {
    for (const outcome of ['finished', 'not finished'] as const) {
      const { adjust } = ownRecord(calls(120, 6, right).map((call) => ({ ...call, outcome })));
      expect(Math.sign(adjust(0.5) - 0.5)).toBe(outcome === 'finished' ? 1 : -1);
      for (const chance of grid) {
        expect(adjust(chance)).toBeGreaterThan(0);
        expect(adjust(chance)).toBeLessThan(1);
      }
    }
  });

  it('judges what was shown, of days with an outcome only', () => {
    const [first, second] = calls(2, 7, right);
    const shown = shownCases([
      { ...first!, shown: 0.6 },
      { ...second!, outcome: null },
    ]);
    expect(shown).toEqual([{ chance: 0.6, happened: first!.outcome === 'finished' }]);
  });

  it('takes calls whose numbers cannot be for bugs', () => {
    const [call] = calls(1, 8, right);
    expect(() => ownRecord([{ ...call!, k: 51 }])).toThrow('k (51)');
    expect(() => ownRecord([{ ...call!, of: 1 }])).toThrow('of (1)');
    expect(() => ownRecord([{ ...call!, shrunk: 1 }])).toThrow('shrunk (1)');
    expect(() => shownCases([{ ...call!, shown: Number.NaN }])).toThrow('shown (NaN)');
    const both = (['finished', 'not finished'] as const).map((outcome) => ({ ...call!, outcome }));
    expect(() => ownRecord(both)).toThrow('must be the same in all its calls');
  });
});
