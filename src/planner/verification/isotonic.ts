import { checkCases, type FitCase, outcomeOf } from './cases.ts';
import type { ChanceMap } from './chance-map.ts';

/**
 * The never-falling sequence closest to the values in weighted least squares, by pooling neighbours
 * that stand in the wrong order until none does.
 * @param weights  one for each value, above 0
 * @throws RangeError for lists of different length or a weight that is not above 0
 * @source R. E. Barlow, D. J. Bartholomew, J. M. Bremner, H. D. Brunk, Statistical Inference under Order
 *   Restrictions (1972)
 */
export function poolAdjacent(values: readonly number[], weights: readonly number[]): number[] {
  if (values.length !== weights.length) {
    throw new RangeError(`weights (${weights.length}) must be as many as values, ${values.length}`);
  }
  const pools: { mean: number; weight: number; length: number }[] = [];
  values.forEach((value, i) => {
    const weight = weights[i]!;
    if (!(weight > 0) || !Number.isFinite(value)) {
      throw new RangeError(`value (${value}) must be a number and its weight (${weight}) above 0`);
    }
    let pool = { mean: value, weight, length: 1 };
    for (
      let last = pools.at(-1);
      last !== undefined && last.mean >= pool.mean;
      last = pools.at(-1)
    ) {
      pools.pop();
      const together = last.weight + pool.weight;
      pool = {
        mean: (last.mean * last.weight + pool.mean * pool.weight) / together,
        weight: together,
        length: last.length + pool.length,
      };
    }
    pools.push(pool);
  });
  return pools.flatMap(({ mean, length }) => Array.from({ length }, () => mean));
}

/**
 * A map that follows the outcomes and never falls: straight between the chances that were given, level
 * below the lowest and above the highest of them. Needs many cases: it believes every step it sees.
 * @throws RangeError without cases
 */
export function fitIsotonic(cases: readonly FitCase[]): ChanceMap {
  checkCases('fitIsotonic', cases);
  const sums = new Map<number, { weight: number; happened: number }>();
  for (const one of cases) {
    const sum = sums.get(one.chance) ?? { weight: 0, happened: 0 };
    sum.weight += one.weight;
    sum.happened += one.weight * outcomeOf(one);
    sums.set(one.chance, sum);
  }
  const chances = [...sums.keys()].sort((a, b) => a - b);
  const fitted = poolAdjacent(
    chances.map((chance) => sums.get(chance)!.happened / sums.get(chance)!.weight),
    chances.map((chance) => sums.get(chance)!.weight),
  );
  return { kind: 'isotonic', apply: (chance) => along(chances, fitted, chance) };
}

function along(xs: readonly number[], ys: readonly number[], x: number): number {
  const after = firstFrom(xs, x);
  if (after === xs.length) return ys.at(-1)!;
  if (after === 0 || xs[after] === x) return ys[after]!;
  const share = (x - xs[after - 1]!) / (xs[after]! - xs[after - 1]!);
  return ys[after - 1]! + share * (ys[after]! - ys[after - 1]!);
}

/** Index of the first of the rising numbers at or above x; their count where there is none. */
function firstFrom(xs: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (xs[middle]! < x) low = middle + 1;
    else high = middle;
  }
  return low;
}
