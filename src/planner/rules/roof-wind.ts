import { onGrid } from './on-grid.ts';
import type { Rule } from './rule.ts';

/** Wind in which nobody works on the roof. A safety rule: never traded for output. */
export const roofWind: Rule = {
  id: 'roof-wind',
  whose: 'safety',
  words: 'too much wind to work on the roof',
  broken: ({ grid, limits }, at) =>
    grid.windMps[at]! >= onGrid(limits.roofWindMps) ||
    grid.gustMps[at]! >= onGrid(limits.roofGustMps),
};
