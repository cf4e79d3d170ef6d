import type { FitCase } from '../../src/planner/verification/index.ts';
import { seededRandom } from '../../src/units/index.ts';

/** Cases whose chances are given by a rule, while the true chance is uniform. */
export function drawn(count: number, seed: number, given: (truth: number) => number): FitCase[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (_, i) => {
    const truth = 0.02 + 0.96 * random();
    return {
      chance: given(truth),
      happened: random() < truth,
      weight: 1,
      group: String(1000 + Math.floor(i / 2)),
    };
  });
}

export const logit = (p: number) => Math.log(p / (1 - p));
export const expit = (x: number) => 1 / (1 + Math.exp(-x));
export const tooBold = (truth: number) => expit(2 * logit(truth));
export const right = (truth: number) => truth;
/** 0.005, 0.01 ... 0.995 */
export const grid = Array.from({ length: 199 }, (_, i) => (i + 1) / 200);
