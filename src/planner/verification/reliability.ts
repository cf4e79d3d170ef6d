import { inRange, seededRandom } from '../../units/index.ts';
import { type Binning, binCases, binFinder } from './bins.ts';
import type { JudgedChance } from './cases.ts';

export interface ReliabilityPoint {
  /** Mean of the chances in the bin, 0..1. */
  readonly meanChance: number;
  readonly observed: number;
  readonly count: number;
  /** Where the observed share would lie by luck alone if the chances were right; null in a bin never drawn. */
  readonly consistent: { readonly low: number; readonly high: number } | null;
}

export interface ReliabilityOptions {
  readonly binning: Binning;
  readonly seed: number;
  /** Sets drawn for the bars, at least 100. */
  readonly draws?: number;
  /** Share of right chances' points that the bars hold, inside 0..1. */
  readonly coverage?: number;
}

/**
 * Points of a reliability diagram with consistency bars: sets of as many chances are drawn from those
 * given, each happens with its own chance, and the bars hold the middle of what comes out in each bin.
 * A point outside its bar is hard to explain by luck. No cases, no points.
 * @throws RangeError for options out of range
 * @source J. Broecker and L. A. Smith, Weather and Forecasting 22 (2007), 651-661
 */
export function reliabilityDiagram(
  cases: readonly JudgedChance[],
  { binning, seed, draws = 1000, coverage = 0.9 }: ReliabilityOptions,
): ReliabilityPoint[] {
  inRange('draws', draws, 100, 1e6);
  inRange('coverage', coverage, 0, 1);
  if (cases.length === 0) return [];
  const bins = binCases(cases, binning);
  const binOf = binFinder(binning);
  const indexOf = new Map(bins.map(({ cases: inside }, i) => [binOf(inside[0]!.chance), i]));
  const homes = cases.map(({ chance }) => indexOf.get(binOf(chance))!);
  const shares: number[][] = bins.map(() => []);
  const random = seededRandom(seed);
  for (let draw = 0; draw < draws; draw += 1) {
    const drawn = new Uint32Array(bins.length);
    const happened = new Uint32Array(bins.length);
    for (let n = 0; n < cases.length; n += 1) {
      const at = Math.floor(random() * cases.length);
      const home = homes[at]!;
      drawn[home]! += 1;
      if (random() < cases[at]!.chance) happened[home]! += 1;
    }
    shares.forEach((of, i) => {
      if (drawn[i]! > 0) of.push(happened[i]! / drawn[i]!);
    });
  }
  return bins.map(({ meanChance, observed, count }, i) => ({
    meanChance,
    observed,
    count,
    consistent: middle(shares[i]!, coverage),
  }));
}

function middle(values: readonly number[], coverage: number): { low: number; high: number } | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const tail = Math.floor(((1 - coverage) / 2) * sorted.length);
  return { low: sorted[tail]!, high: sorted[sorted.length - 1 - tail]! };
}

/**
 * Sharpness: how far the chances themselves leave the middle of the road. Says nothing of being right.
 * @returns variance of the chances, 0..0.25 (null without cases), and how many lie in each bin, empty ones included
 * @source A. H. Murphy and R. L. Winkler, Monthly Weather Review 115 (1987), 1330-1338
 */
export function sharpness(
  cases: readonly JudgedChance[],
  binCount: number,
): { readonly variance: number | null; readonly counts: readonly number[] } {
  const binOf = binFinder(binCount);
  const counts = Array.from({ length: binCount }, () => 0);
  if (cases.length === 0) return { variance: null, counts };
  const mean = cases.reduce((sum, { chance }) => sum + chance, 0) / cases.length;
  for (const { chance } of cases) counts[binOf(inRange('chance', chance, 0, 1))]! += 1;
  const variance = cases.reduce((sum, { chance }) => sum + (chance - mean) ** 2, 0) / cases.length;
  return { variance, counts };
}
