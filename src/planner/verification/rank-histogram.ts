import { seededRandom } from '../../units/index.ts';
import { chiSquareAbove } from './chi-square.ts';

export interface EnsembleCase {
  readonly members: readonly number[];
  readonly observed: number;
}

/**
 * Rank of what was measured among the forecasts: entry r is the share of rank r (r forecasts below it).
 * Where some forecasts equal it, the ranks in question share it evenly.
 * @returns one entry more than there are forecasts, adding up to 1
 * @throws RangeError without forecasts or for a value that is no number
 */
export function rankShares({ members, observed }: EnsembleCase): number[] {
  if (members.length === 0 || ![observed, ...members].every(Number.isFinite)) {
    throw new RangeError(
      `members (${members.join(', ')}) and observed (${observed}) must be numbers`,
    );
  }
  const below = members.filter((member) => member < observed).length;
  const equal = members.filter((member) => member === observed).length;
  return Array.from({ length: members.length + 1 }, (_, rank) =>
    rank >= below && rank <= below + equal ? 1 / (equal + 1) : 0,
  );
}

/**
 * Rank histogram, ties settled by lot: whole counts, as the test of flatness needs them.
 * @throws RangeError without cases or where the number of forecasts changes
 * @source T. M. Hamill, Monthly Weather Review 129 (2001), 550-560
 */
export function rankHistogram(cases: readonly EnsembleCase[], seed: number): number[] {
  const size = cases[0]?.members.length;
  if (size === undefined) throw new RangeError('rankHistogram needs at least one case, not 0');
  const random = seededRandom(seed);
  const counts = Array.from({ length: size + 1 }, () => 0);
  for (const one of cases) {
    if (one.members.length !== size) {
      throw new RangeError(
        `members (${one.members.length}) must be as many as in the first case, ${size}`,
      );
    }
    const ranks = rankShares(one).flatMap((share, rank) => (share > 0 ? [rank] : []));
    counts[ranks[Math.floor(random() * ranks.length)]!]! += 1;
  }
  return counts;
}

export interface Flatness {
  /** Pearson's chi-square against equal counts, one degree of freedom less than ranks. */
  readonly chiSquare: number;
  readonly chance: number;
  /** Part of it along a slope (forecasts too high or too low), 1 degree of freedom. */
  readonly slope: number;
  readonly slopeChance: number;
  /** Part of it along a U (spread too small or too large), 1 degree of freedom. */
  readonly bend: number;
  readonly bendChance: number;
}

/**
 * Is a rank histogram flat but for luck? 'chance' is the chance of at least such a chi-square if every
 * rank were equally likely and the cases independent. Days of one wet spell are not: then it is too small.
 * @param counts  at least three ranks, with at least one case
 * @source I. T. Jolliffe and C. Primo, Monthly Weather Review 136 (2008), 2133-2139
 */
export function flatness(counts: readonly number[]): Flatness {
  const total = counts.reduce((sum, count) => sum + count, 0);
  if (counts.length < 3 || !(total > 0)) {
    throw new RangeError(`counts (${counts.join(', ')}) must be three or more, not all 0`);
  }
  const even = total / counts.length;
  const off = counts.map((count) => (count - even) / Math.sqrt(even));
  const middle = (counts.length - 1) / 2;
  const slope = along(off, (i) => i - middle);
  const meanSquare = (counts.length ** 2 - 1) / 12;
  const bend = along(off, (i) => (i - middle) ** 2 - meanSquare);
  const chiSquare = off.reduce((sum, value) => sum + value ** 2, 0);
  return {
    chiSquare,
    chance: chiSquareAbove(chiSquare, counts.length - 1),
    slope,
    slopeChance: chiSquareAbove(slope, 1),
    bend,
    bendChance: chiSquareAbove(bend, 1),
  };
}

/** Square of the part along a shape, the shape made one long. */
function along(off: readonly number[], shape: (i: number) => number): number {
  let part = 0;
  let length = 0;
  off.forEach((value, i) => {
    part += value * shape(i);
    length += shape(i) ** 2;
  });
  return part ** 2 / length;
}
