import { checkCases, type JudgedChance } from './cases.ts';

export interface Bin {
  /** Bounds of the chances in it; the upper one belongs to the next bin, but for the last. */
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly meanChance: number;
  /** Share of its cases in which it happened, 0..1. */
  readonly observed: number;
  readonly cases: readonly JudgedChance[];
}

/** So many bins of equal width, or one for each chance that was given. */
export type Binning = number | 'each value';

/**
 * Sorts cases by the chance that was given. Empty bins are left out.
 * @throws RangeError for a number of bins that is not whole and above 0
 */
export function binCases(cases: readonly JudgedChance[], binning: Binning): Bin[] {
  checkCases('binCases', cases);
  const binOf = binFinder(binning);
  const byBin = new Map<number, JudgedChance[]>();
  for (const one of cases) {
    const key = binOf(one.chance);
    const bin = byBin.get(key);
    if (bin === undefined) byBin.set(key, [one]);
    else bin.push(one);
  }
  return [...byBin]
    .sort(([a], [b]) => a - b)
    .map(([key, inside]) => ({
      from: binning === 'each value' ? key : key / binning,
      to: binning === 'each value' ? key : (key + 1) / binning,
      count: inside.length,
      meanChance: inside.reduce((sum, { chance }) => sum + chance, 0) / inside.length,
      observed: inside.filter(({ happened }) => happened).length / inside.length,
      cases: inside,
    }));
}

/** Gives a chance the number of its bin, or the chance itself where each value is a bin. */
export function binFinder(binning: Binning): (chance: number) => number {
  if (binning === 'each value') return (chance) => chance;
  if (!Number.isInteger(binning) || binning < 1) {
    throw new RangeError(`binning (${binning}) must be whole and above 0`);
  }
  return (chance) => {
    // A chance printed as an edge belongs to the bin it opens, however the division rounds.
    const at = chance * binning;
    const edge = Math.round(at);
    const bin = Math.abs(at - edge) < 1e-9 ? edge : Math.floor(at);
    return Math.min(binning - 1, bin);
  };
}
