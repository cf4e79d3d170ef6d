import { describe, expect, it } from 'vitest';
import {
  binCases,
  brierParts,
  brierScore,
  brierSkill,
  chiSquareAbove,
  ensembleCrps,
  fairBrier,
  fairCrps,
  fitLogistic,
  flatness,
  type JudgedChance,
  openShare,
  poolAdjacent,
  rankShares,
  relativeValue,
  reliabilityDiagram,
  valueCurve,
} from '../../src/planner/verification/index.ts';

/** Scores of chances and of ensembles against worked figures printed elsewhere; the source stands beside each. */

const judged = (chances: readonly number[], outcomes: readonly number[]): JudgedChance[] =>
  chances.map((chance, i) => ({ chance, happened: outcomes[i] === 1 }));
const repeated = (chance: number, events: number, others: number): JudgedChance[] =>
  Array.from({ length: events + others }, (_, i) => ({ chance, happened: i < events }));

describe('the Brier score', () => {
  it('of the example in the scikit-learn documentation of brier_score_loss is 0.0375', () => {
    expect(brierScore(judged([0.1, 0.9, 0.8, 0.3], [0, 1, 1, 0]))).toBeCloseTo(0.0375, 12);
  });

  // E. Ebert et al., 'Probability of precipitation' worked example of the forecast verification pages of
  // CAWCR (WWRP/WGNE Joint Working Group): score, uncertainty and skill for 24 h and 48 h, printed to 0.001.
  it.each([
    [0.144, 0.179, 0.194],
    [0.037, 0.054, 0.312],
    [0.178, 0.187, 0.047],
    [0.044, 0.052, 0.146],
  ])(
    'of %f against an uncertainty of %f is a skill of %f, to the digits printed',
    (score, uncertainty, skill) => {
      const half = 0.0005;
      expect(brierSkill(score + half, uncertainty - half)).toBeLessThan(skill);
      expect(brierSkill(score - half, uncertainty + half)).toBeGreaterThan(skill);
    },
  );

  it.each([
    [3, 4, false, 0.5],
    [2, 4, true, 1 / 6],
  ])(
    'corrected for size, %i of %i forecasts, is as in the tests of nci/scores',
    (k, of, happened, fair) => {
      expect(fairBrier(k, of, happened)).toBeCloseTo(fair, 12);
    },
  );
});

describe('the Brier score taken apart', () => {
  it('gives the parts worked by hand: 0.186 = 0.011 - 0.075 + 0.25', () => {
    const cases = [...repeated(0.1, 1, 3), ...repeated(0.5, 2, 2), ...repeated(0.9, 2, 0)];
    const parts = brierParts(cases, 'each value');
    expect(parts.score).toBeCloseTo(0.186, 12);
    expect(parts.reliability).toBeCloseTo(0.011, 12);
    expect(parts.resolution).toBeCloseTo(0.075, 12);
    expect(parts.uncertainty).toBeCloseTo(0.25, 12);
  });

  it('gives the parts inside a bin worked by hand: 0.10 = 0.01 - 0 + 0.25 + 0.04 - 0.20', () => {
    const parts = brierParts(judged([0.2, 0.6], [0, 1]), 1);
    expect(parts.score).toBeCloseTo(0.1, 12);
    expect(parts.reliability).toBeCloseTo(0.01, 12);
    expect(parts.resolution).toBeCloseTo(0, 12);
    expect(parts.withinVariance).toBeCloseTo(0.04, 12);
    expect(parts.withinCovariance).toBeCloseTo(0.2, 12);
  });

  it('of a year of rain forecasts agrees with sums over the printed table', () => {
    // D. S. Wilks, Statistical Methods in the Atmospheric Sciences, 2nd ed. (2006), table 7.3, as carried in
    // the R package 'verification': chance, how often it was given, how often it then rained; mean 0.162.
    const table = [
      [0, 0.4112, 0.006],
      [0.05, 0.0671, 0.019],
      [0.1, 0.1833, 0.059],
      [0.2, 0.0986, 0.15],
      [0.3, 0.0616, 0.277],
      [0.4, 0.0366, 0.377],
      [0.5, 0.0303, 0.511],
      [0.6, 0.0275, 0.587],
      [0.7, 0.0245, 0.723],
      [0.8, 0.022, 0.779],
      [0.9, 0.017, 0.934],
      [1, 0.0203, 0.933],
    ] as const;
    const cases = table.flatMap(([chance, given, rained]) => {
      const count = Math.round(given * 100_000);
      const events = Math.round(count * rained);
      return repeated(chance, events, count - events);
    });
    const parts = brierParts(cases, 'each value');
    // Sums over the table worked by hand; whole counts of 100,000 move the digits after.
    expect(parts.reliability).toBeCloseTo(0.00083, 4);
    expect(parts.resolution).toBeCloseTo(0.0628, 4);
    expect(parts.uncertainty).toBeCloseTo(0.162 * 0.838, 3);
    expect(parts.score).toBeCloseTo(0.0738, 3);
    const rained = cases.filter(({ happened }) => happened).length / cases.length;
    // The mean and every line of the table are printed to 0.001: half of it each way, twice.
    expect(Math.abs(rained - 0.162)).toBeLessThan(0.001);
  });
});

describe('a reliability diagram', () => {
  // scikit-learn: documentation of calibration_curve, and its test test_calibration_curve.
  it.each([
    {
      outcomes: [0, 0, 0, 0, 1, 1, 1, 1, 1],
      chances: [0.1, 0.2, 0.3, 0.4, 0.65, 0.7, 0.8, 0.9, 1],
      bins: 3,
      means: [0.2, 0.525, 0.85],
      observed: [0, 0.5, 1],
    },
    {
      outcomes: [0, 0, 0, 1, 1, 1],
      chances: [0, 0.1, 0.2, 0.8, 0.9, 1],
      bins: 2,
      means: [0.1, 0.9],
      observed: [0, 1],
    },
  ])('with $bins bins has the points that scikit-learn gives', (example) => {
    const cases = judged(example.chances, example.outcomes);
    const points = reliabilityDiagram(cases, { binning: example.bins, seed: 1 });
    points.forEach(({ meanChance, observed }, i) => {
      expect(meanChance).toBeCloseTo(example.means[i]!, 12);
      expect(observed).toBeCloseTo(example.observed[i]!, 12);
    });
    expect(points).toHaveLength(example.means.length);
    expect(binCases(cases, example.bins).map(({ count }) => count)).toEqual(
      points.map(({ count }) => count),
    );
  });
});

describe('the continuous ranked probability score', () => {
  // Tests of the Python package properscoring.
  it.each([
    [0, [0, 1], 0.25],
    [2, [0, 1], 1.25],
    [0, [-1, 1], 0.5],
    [0, [0, 0, 1], 1 / 9],
    [1, [0, 0, 1], 4 / 9],
    [0, [-1, 0, 0, 1], 1 / 8],
  ])('of %f for forecasts %j is as in the tests of properscoring', (observed, members, crps) => {
    expect(ensembleCrps(members, observed)).toBeCloseTo(crps, 12);
  });

  it.each([
    [2, [0, 4, 3, 7], 1.125, 2 / 3],
    [3, [1, -1, 2, 4], 1, 2 / 3],
  ])(
    'of %f for forecasts %j is as in the tests of nci/scores, fair too',
    (observed, members, crps, fair) => {
      expect(ensembleCrps(members, observed)).toBeCloseTo(crps, 12);
      expect(fairCrps(members, observed)).toBeCloseTo(fair, 12);
    },
  );

  it.each([
    [0, 0.23369498],
    [1, 0.60244136],
    [-2, 1.45279182],
  ])('of %f for many forecasts spread as N(0, 1) comes to the closed form', (observed, crps) => {
    // Closed form of Gneiting et al. 2005, values of the tests of properscoring; members are its quantiles.
    const size = 2000;
    const members = Array.from({ length: size }, (_, i) => normalQuantile((i + 0.5) / size));
    expect(Math.abs(ensembleCrps(members, observed) - crps)).toBeLessThan(2e-4);
  });
});

describe('ranks', () => {
  // nci/scores, tests/probability/test_rank_hist.py.
  it.each([
    [[2, 4, 1, 5], 3, [0, 0, 1, 0, 0]],
    [[3, 3, 3, 0], 3, [0, 1 / 4, 1 / 4, 1 / 4, 1 / 4]],
    [[5, 7, 9, 7], 4, [1, 0, 0, 0, 0]],
    [[1, 3, 2, 1], 4, [0, 0, 0, 0, 1]],
    [[2, 6, 4, 4], 4, [0, 1 / 3, 1 / 3, 1 / 3, 0]],
  ])('among %j of %f are those of nci/scores', (members, observed, shares) => {
    expect(rankShares({ members, observed })).toEqual(shares);
  });

  it('are tested for flatness as the package testrankhist prints it, after Jolliffe and Primo 2008', () => {
    const { chiSquare, chance, slope, slopeChance, bendChance } = flatness([
      3, 6, 3, 7, 4, 6, 4, 4, 2, 4, 1, 2, 3, 6, 2, 3,
    ]);
    expect(chiSquare).toBeCloseTo(12, 10);
    expect(chance).toBeCloseTo(0.679, 3);
    expect(slope).toBeCloseTo(1.807, 3);
    expect(slopeChance).toBeCloseTo(0.179, 3);
    expect(bendChance).toBeCloseTo(0.933, 2);
  });

  // Upper points of chi-square, any statistical table (from memory).
  it.each([
    [3.841, 1, 0.05],
    [6.635, 1, 0.01],
    [5.991, 2, 0.05],
    [18.307, 10, 0.05],
    [23.209, 10, 0.01],
    [124.342, 100, 0.05],
    [3.94, 10, 0.95],
  ])(
    'have the chances of the chi-square table: %f with %i degrees of freedom',
    (value, df, above) => {
      expect(chiSquareAbove(value, df)).toBeCloseTo(above, 4);
    },
  );
});

describe('the value of warnings', () => {
  it('of Finley’s tornado warnings of 1884 peaks at hit rate less false-alarm rate', () => {
    // Counts from memory (A. H. Murphy, Weather and Forecasting 11, 1996): 28, 72, 23, 2680.
    const rates = { hitRate: 28 / 51, falseAlarmRate: 72 / 2752, baseRate: 51 / 2803 };
    const peak = rates.hitRate - rates.falseAlarmRate;
    expect(relativeValue(rates, rates.baseRate)).toBeCloseTo(peak, 12);
    expect(peak).toBeCloseTo(0.522857, 6);
    expect(relativeValue(rates, 0.1)).toBeCloseTo(0.3922, 4);
    expect(relativeValue(rates, 0.2)).toBeCloseTo(0.1961, 4);
    expect(relativeValue(rates, 0.3)).toBeCloseTo(-0.056, 3);
  });

  // nci/scores, tests/probability/rev_test_data.py, case 2: base rate 8/15.
  it.each([
    [1, 1, [null, 0, 0, -2.5, null]],
    [0.5, 4 / 7, [null, -13 / 7, -1 / 7, -1.5, null]],
    [1 / 8, 0, [null, -3, 0, 0.125, null]],
  ])(
    'is that of nci/scores: hit rate %f, false-alarm rate %f',
    (hitRate, falseAlarmRate, expected) => {
      [0, 0.2, 0.5, 0.8, 1].forEach((ratio, i) => {
        const value = relativeValue({ hitRate, falseAlarmRate, baseRate: 8 / 15 }, ratio);
        if (expected[i] === null) expect(value).toBeNull();
        else expect(value).toBeCloseTo(expected[i]!, 12);
      });
    },
  );

  it('is 0, 0.3, 0.2, 0 for one who acts at his own cost-loss ratio, as in the tests of nci/scores', () => {
    const cases = [...repeated(0.75, 4, 2), ...repeated(0.25, 1, 3)];
    const curve = valueCurve(cases, [0.2, 0.4, 0.6, 0.8]);
    [0, 0.3, 0.2, 0].forEach((value, i) => {
      expect(curve[i]!.trusting).toBeCloseTo(value, 12);
      expect(curve[i]!.best).toBeCloseTo(value, 12);
    });
  });
});

describe('maps of chances', () => {
  it('that follow the order pool as Robertson, Wright and Dykstra do (1988, page 10)', () => {
    const pooled = poolAdjacent([22.5, 23.333, 20.833, 24.25], [3, 3, 3, 2]);
    [22.222, 22.222, 22.222, 24.25].forEach((value, i) => {
      expect(pooled[i]).toBeCloseTo(value, 10);
    });
    // Tests of the Julia packages Isotonic and MultipleTesting.
    const second = poolAdjacent([1, 41, 51, 1, 2, 5, 24], [1, 2, 3, 4, 5, 6, 7]);
    [1, 13.95, 13.95, 13.95, 13.95, 13.95, 24].forEach((value, i) => {
      expect(second[i]).toBeCloseTo(value, 10);
    });
  });

  it('by log odds find the hours-of-study example: -4.0777 + 1.5046 hours', () => {
    // The worked example of the encyclopaedia article 'Logistic regression' (from memory): 20 students. The
    // pull towards the chances as given is drowned by counting each student a million times.
    const hours = [
      0.5, 0.75, 1, 1.25, 1.5, 1.75, 1.75, 2, 2.25, 2.5, 2.75, 3, 3.25, 3.5, 4, 4.25, 4.5, 4.75, 5,
      5.5,
    ];
    const passed = [0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 1, 1, 1, 1, 1];
    const expit = (x: number) => 1 / (1 + Math.exp(-x));
    const { apply } = fitLogistic(
      judged(hours.map(expit), passed).map((one) => ({ ...one, weight: 1e6, group: '' })),
    );
    const logit = (chance: number) => Math.log(chance / (1 - chance));
    const at = (x: number) => logit(apply(expit(x)));
    expect(at(1) - at(0)).toBeCloseTo(1.5046, 4);
    expect(at(0)).toBeCloseTo(-4.0777, 4);
    // Chances printed there for 1 to 5 hours.
    [0.07, 0.26, 0.61, 0.87, 0.97].forEach((chance, i) => {
      expect(apply(expit(i + 1))).toBeCloseTo(chance, 2);
    });
  });

  it('start from a count by Jeffreys’ rule, (k + 1/2) / (n + 1)', () => {
    expect(openShare(0, 50)).toBeCloseTo(0.5 / 51, 12);
    expect(openShare(50, 50)).toBeCloseTo(50.5 / 51, 12);
    expect(openShare(4, 8)).toBeCloseTo(0.5, 12);
  });
});

/** By halving, from the series of the error function: exact enough here, and shares nothing with the code. */
function normalQuantile(share: number): number {
  let low = -8;
  let high = 8;
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function normalBelow(z: number): number {
  let term = z;
  let sum = z;
  for (let n = 1; Math.abs(term) > 1e-18; n += 1) {
    term *= (z * z) / (2 * n + 1);
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
}
