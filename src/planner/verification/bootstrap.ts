import { inRange, seededRandom } from '../../units/index.ts';

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * How far a number might lie elsewhere by luck: whole groups (days) are drawn again and again with
 * replacement, so that stations under the same weather count as one. Percentiles of what comes out.
 * @param statistic  of a drawn set of items; null where a set allows none, such as a score without events
 * @param coverage   share of the outcomes inside, 0..1
 * @returns null with fewer than two groups, or where under half of the sets allow the statistic
 * @source B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993), chapter 13
 */
export function bootstrapInterval<T>(
  items: readonly T[],
  groupOf: (item: T) => string,
  statistic: (items: readonly T[]) => number | null,
  {
    seed,
    draws = 1000,
    coverage = 0.9,
  }: { readonly seed: number; readonly draws?: number; readonly coverage?: number },
): Interval | null {
  inRange('draws', draws, 20, 1e6);
  inRange('coverage', coverage, 0, 1);
  const byGroup = new Map<string, T[]>();
  for (const item of items) {
    const group = byGroup.get(groupOf(item));
    if (group === undefined) byGroup.set(groupOf(item), [item]);
    else group.push(item);
  }
  const groups = [...byGroup.values()];
  if (groups.length < 2) return null;
  const random = seededRandom(seed);
  const values: number[] = [];
  for (let draw = 0; draw < draws; draw += 1) {
    const drawn = groups.flatMap(() => groups[Math.floor(random() * groups.length)]!);
    const value = statistic(drawn);
    if (value !== null) values.push(value);
  }
  if (values.length < draws / 2) return null;
  values.sort((a, b) => a - b);
  const tail = Math.floor(((1 - coverage) / 2) * values.length);
  return { low: values[tail]!, high: values[values.length - 1 - tail]! };
}
