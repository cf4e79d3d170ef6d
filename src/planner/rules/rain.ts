import { MS_PER_HOUR } from '../../units/index.ts';
import type { Rule } from './rule.ts';

/** Nothing is bonded or opened while it rains. */
export const rain: Rule = {
  id: 'rain',
  whose: 'visible moisture',
  words: 'rain',
  broken: ({ grid, limits }, at) =>
    grid.rainMm[at]! * (MS_PER_HOUR / grid.stepMs) >= limits.rainMmPerHour,
};
