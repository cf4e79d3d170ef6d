import { stepAt, stepStartMs } from '../weather/index.ts';
import { knownFromOthers } from './closeness.ts';
import type { Prepared } from './prepare.ts';

/**
 * When rain is foreseen by what can be known at a moment: by then too large a share of the *other*
 * forecasts, the closer their past to one's own the more they count, have had rain since.
 * @param share  0..1; more than this many with rain and it is foreseen
 * @returns per member [epoch ms], Infinity where none is foreseen. A single forecast is taken at its word.
 */
export function rainForeseen(prepared: Prepared, atMs: number, share: number): Float64Array {
  const { grid, nextRain } = prepared;
  const step = stepAt(grid, atMs);
  const nextOf = (m: number): number => nextRain[m * grid.steps + step] ?? grid.steps;
  const nexts = Array.from({ length: grid.memberCount }, (_, m) => nextOf(m))
    .filter((next) => next < grid.steps)
    .sort((a, b) => a - b);
  let target = 0;
  const others = knownFromOthers(
    grid,
    (at) => nextRain[at]! <= target,
    // One that ends before then without rain is neither wet nor dry.
    (at) => {
      const end = grid.knownSteps[Math.floor(at / grid.steps)]!;
      return step < end && (nextRain[at]! <= target || target < end);
    },
  );
  return Float64Array.from({ length: grid.memberCount }, (_, m) => {
    const foreseen = nexts.find((next) => {
      target = next;
      return grid.memberCount === 1 || others(m, step) > share + 1e-9;
    });
    return foreseen === undefined
      ? Number.POSITIVE_INFINITY
      : Math.max(atMs, stepStartMs(grid, foreseen));
  });
}
