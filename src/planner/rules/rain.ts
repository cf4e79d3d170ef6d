import { MS_PER_HOUR } from '../../units/index.ts';
import { markFrom } from './marks.ts';
import type { Rule } from './rule.ts';

/** Nothing is bonded or opened while it rains. */
export const rain: Rule = {
  id: 'rain',
  whose: 'visible moisture',
  words: 'rain',
  mark: ({ grid, limits }, marks) =>
    markFrom(marks, grid.rainMm, (limits.rainMmPerHour * grid.stepMs) / MS_PER_HOUR),
};
