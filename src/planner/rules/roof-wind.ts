import { markFrom } from './marks.ts';
import { onGrid } from './on-grid.ts';
import type { Rule } from './rule.ts';

/** Wind in which nobody works on the roof. A safety rule: never traded for output. */
export const roofWind: Rule = {
  id: 'roof-wind',
  whose: 'safety',
  words: 'too much wind to work on the roof',
  mark: ({ grid, limits }, marks) => {
    markFrom(marks, grid.windMps, onGrid(limits.roofWindMps));
    markFrom(marks, grid.gustMps, onGrid(limits.roofGustMps));
  },
};
