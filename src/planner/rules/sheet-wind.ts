import { markFrom } from './marks.ts';
import { onGrid } from './on-grid.ts';
import type { Rule } from './rule.ts';

/** Wind in which two people cannot hold a sheet. A safety rule: never traded for output. */
export const sheetWind: Rule = {
  id: 'sheet-wind',
  whose: 'safety',
  words: 'too much wind to handle sheet',
  mark: ({ grid, limits }, marks) => {
    markFrom(marks, grid.windMps, onGrid(limits.sheetWindMps));
    markFrom(marks, grid.gustMps, onGrid(limits.sheetGustMps));
  },
};
