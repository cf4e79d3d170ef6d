import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  binCases,
  bootstrapInterval,
  brierParts,
  brierScore,
  fairBrier,
  fairCrps,
  flatness,
  rankHistogram,
  reliabilityDiagram,
  sharpness,
  valueCurve,
} from '../../src/planner/verification/index.ts';
import { seededRandom } from '../../src/units/index.ts';
import { drawn, right, tooBold } from './verification-cases.ts';

/** Laws of the scores, held on random cases: identities, unbiasedness, ends. */

const someCases = fc.array(
  fc.record({ chance: fc.double({ min: 0, max: 1, noNaN: true }), happened: fc.boolean() }),
  { minLength: 1, maxLength: 60 },
);

describe('the Brier score taken apart', () => {
  it('adds up exactly, whatever the cases and the bins', () => {
    fc.assert(
      fc.property(someCases, fc.integer({ min: 1, max: 12 }), (cases, bins) => {
        for (const binning of [bins, 'each value'] as const) {
          const parts = brierParts(cases, binning);
          const sum =
            parts.reliability -
            parts.resolution +
            parts.uncertainty +
            parts.withinVariance -
            parts.withinCovariance;
          expect(sum).toBeCloseTo(brierScore(cases), 12);
          expect(binCases(cases, binning).reduce((n, { count }) => n + count, 0)).toBe(
            cases.length,
          );
        }
      }),
    );
  });

  it('puts a chance on an edge into the bin it opens, and 1 into the last, however it rounds', () => {
    for (let edge = 0; edge < 100; edge += 1) {
      const [bin] = binCases([{ chance: edge / 100, happened: true }], 100);
      expect(bin!.from).toBe(edge / 100);
    }
    expect(binCases([{ chance: 1, happened: true }], 100)[0]!.to).toBe(1);
  });

  it('has nothing inside bins that hold one chance each', () => {
    fc.assert(
      fc.property(someCases, (cases) => {
        const { withinVariance, withinCovariance } = brierParts(cases, 'each value');
        expect(withinVariance).toBeCloseTo(0, 12);
        expect(withinCovariance).toBeCloseTo(0, 12);
      }),
    );
  });

  it('stands at its ends: all came about, none did, always sure', () => {
    for (const happened of [true, false]) {
      const parts = brierParts([{ chance: 0.4, happened }], 10);
      expect(parts.uncertainty).toBe(0);
      expect(parts.resolution).toBe(0);
      expect(parts.reliability).toBeCloseTo(happened ? 0.36 : 0.16, 12);
    }
    const sure = [
      { chance: 0, happened: false },
      { chance: 1, happened: true },
    ];
    expect(brierScore(sure)).toBe(0);
    expect(brierParts(sure, 10)).toMatchObject({ resolution: 0.25, reliability: 0 });
  });

  it('is asked for without cases, or for no number, as a bug', () => {
    expect(() => brierScore([])).toThrow('at least one case, not 0');
    expect(() => brierScore([{ chance: Number.NaN, happened: true }])).toThrow('NaN');
    expect(() => brierParts([{ chance: 1.01, happened: true }], 10)).toThrow('1.01');
    expect(() => binCases([{ chance: 1, happened: true }], 2.5)).toThrow('2.5');
  });
});

describe('scores corrected for the number of forecasts', () => {
  it('are on average what endless forecasts would score: Brier, exactly, for every size', () => {
    const binomial = (k: number, n: number, p: number): number => {
      let ways = 1;
      for (let i = 0; i < k; i += 1) ways = (ways * (n - i)) / (i + 1);
      return ways * p ** k * (1 - p) ** (n - k);
    };
    for (const of of [2, 5, 11, 51]) {
      for (const p of [0, 0.1, 0.5, 0.93, 1]) {
        for (const q of [0, 0.3, 1]) {
          let mean = 0;
          for (let k = 0; k <= of; k += 1) {
            mean +=
              binomial(k, of, p) * (q * fairBrier(k, of, true) + (1 - q) * fairBrier(k, of, false));
          }
          expect(mean).toBeCloseTo((p - q) ** 2 + q * (1 - q), 10);
        }
      }
    }
  });

  it('are on average what endless forecasts would score: CRPS of N(0, 1), 1 / sqrt(pi)', () => {
    const random = seededRandom(7);
    const normal = (): number =>
      Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const scores = Array.from({ length: 40_000 }, () =>
      fairCrps([normal(), normal(), normal()], normal()),
    );
    const mean = scores.reduce((a, b) => a + b, 0) / scores.length;
    const variance = scores.reduce((a, b) => a + (b - mean) ** 2, 0) / scores.length;
    expect(Math.abs(mean - 1 / Math.sqrt(Math.PI))).toBeLessThan(
      3.5 * Math.sqrt(variance / scores.length),
    );
  });

  it('want at least two forecasts', () => {
    expect(() => fairBrier(1, 1, true)).toThrow('at least 2');
    expect(() => fairCrps([3], 3)).toThrow('at least 2');
    expect(() => fairBrier(3, 2, true)).toThrow('count (3)');
  });
});

describe('consistency bars', () => {
  const options = { binning: 10, draws: 200, coverage: 0.9 } as const;
  const pointsOf = (given: (truth: number) => number) =>
    Array.from({ length: 60 }, (_, seed) =>
      reliabilityDiagram(drawn(400, seed, given), { ...options, seed: seed + 500 }),
    ).flat();
  const heldShare = (points: ReturnType<typeof pointsOf>): number =>
    points.filter(
      ({ observed, consistent }) => observed >= consistent!.low && observed <= consistent!.high,
    ).length / points.length;

  it('hold the points of right chances in the stated share', () => {
    const points = pointsOf(right);
    expect(points.length).toBeGreaterThan(550);
    // Counts come in whole numbers, so that bars hold a little more; 3.5 standard errors below.
    expect(heldShare(points)).toBeGreaterThan(0.9 - 3.5 * Math.sqrt((0.9 * 0.1) / 600));
    expect(heldShare(points)).toBeLessThan(0.97);
  });

  it('do not hold the points of chances that are too bold', () => {
    expect(heldShare(pointsOf(tooBold))).toBeLessThan(0.6);
  });

  it('are the same for the same seed, and there are none without cases', () => {
    const cases = drawn(80, 3, right);
    expect(reliabilityDiagram(cases, { ...options, seed: 4 })).toEqual(
      reliabilityDiagram(cases, { ...options, seed: 4 }),
    );
    expect(reliabilityDiagram([], { ...options, seed: 4 })).toEqual([]);
  });
});

describe('sharpness', () => {
  it('is 0 for one chance and 1/4 for never and always alike; unknown without cases', () => {
    const of = (...chances: number[]) =>
      sharpness(
        chances.map((chance) => ({ chance, happened: true })),
        2,
      );
    expect(of(0.3, 0.3).variance).toBeCloseTo(0, 12);
    expect(of(0, 1)).toEqual({ variance: 0.25, counts: [1, 1] });
    expect(of()).toEqual({ variance: null, counts: [0, 0] });
  });
});

describe('rank histograms', () => {
  const random = seededRandom(11);
  const cases = (spread: number, shift: number) =>
    Array.from({ length: 2000 }, () => ({
      members: Array.from({ length: 9 }, () => shift + spread * random()),
      observed: random(),
    }));

  it('are flat where forecasts and outcome are drawn alike, and the test says why where not', () => {
    expect(flatness(rankHistogram(cases(1, 0), 1)).chance).toBeGreaterThan(0.001);
    const high = flatness(rankHistogram(cases(1, 0.1), 1));
    expect(high.slope).toBeGreaterThan(high.bend);
    expect(high.slopeChance).toBeLessThan(1e-6);
    const narrow = flatness(rankHistogram(cases(0.6, 0.2), 1));
    expect(narrow.bend).toBeGreaterThan(narrow.slope);
    expect(narrow.bendChance).toBeLessThan(1e-6);
  });

  it('count every case once, ties by lot', () => {
    const tied = Array.from({ length: 900 }, () => ({ members: [0, 0], observed: 0 }));
    const counts = rankHistogram(tied, 5);
    expect(counts.reduce((a, b) => a + b, 0)).toBe(900);
    for (const count of counts) expect(Math.abs(count - 300)).toBeLessThan(60);
  });

  it('refuse no cases and a changing number of forecasts', () => {
    expect(() => rankHistogram([], 1)).toThrow('not 0');
    const odd = [
      { members: [1, 2], observed: 1 },
      { members: [1], observed: 1 },
    ];
    expect(() => rankHistogram(odd, 1)).toThrow('members (1)');
    expect(() => flatness([0, 0, 0])).toThrow('not all 0');
  });
});

describe('the value of warnings', () => {
  it('is never above 1, never below 0 for the best threshold, and unknown without events', () => {
    fc.assert(
      fc.property(someCases, (cases) => {
        for (const { trusting, best } of valueCurve(cases, [0.1, 0.5, 0.9])) {
          if (best === null) {
            expect(new Set(cases.map(({ happened }) => happened)).size).toBe(1);
          } else {
            expect(best).toBeGreaterThanOrEqual(-1e-12);
            expect(best).toBeLessThanOrEqual(1 + 1e-12);
            expect(trusting!).toBeLessThanOrEqual(best + 1e-12);
          }
        }
      }),
    );
  });
});

describe('the range that luck leaves', () => {
  it('holds the true mean in about the stated share, drawing whole groups', () => {
    const random = seededRandom(31);
    const held = Array.from({ length: 150 }, (_, trial) => {
      const items = Array.from({ length: 40 }, (__, day) => {
        const value = random() + random() + random() - 1.5;
        return Array.from({ length: 5 }, () => ({ day: String(day), value }));
      }).flat();
      const mean = (of: typeof items) => of.reduce((sum, { value }) => sum + value, 0) / of.length;
      const range = bootstrapInterval(
        items,
        ({ day }) => day,
        (of) => mean([...of]),
        {
          seed: trial,
          draws: 300,
        },
      )!;
      return range.low <= 0 && range.high >= 0;
    });
    const share = held.filter(Boolean).length / held.length;
    expect(share).toBeGreaterThan(0.8);
    expect(share).toBeLessThan(0.97);
  });

  it('is unknown for one group', () => {
    expect(
      bootstrapInterval(
        [1, 2],
        () => 'same',
        () => 1,
        { seed: 1 },
      ),
    ).toBeNull();
  });
});
