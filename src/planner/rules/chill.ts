import { windChillC } from '../../physics/index.ts';
import type { Rule } from './rule.ts';

/**
 * Cold in which bare skin freezes while a crew works: wind chill, or the air where no wind chill is
 * defined. A safety rule; the employer's own rules and local law come before the figure.
 */
export const chill: Rule = {
  id: 'chill',
  whose: 'safety',
  words: 'cold that people cannot work in',
  mark: ({ grid, limits }, { cells, broken, bit }) => {
    for (const { from, to } of cells) {
      for (let at = from; at < to; at += 1) {
        const airTempC = grid.airTempC[at]!;
        // Above freezing no wind brings it near the limit.
        if (!(airTempC <= 0)) continue;
        const felt = windChillC({ airTempC, windMps: grid.windMps[at]! }) ?? airTempC;
        if (felt <= limits.feltMinC) broken[at]! |= bit;
      }
    }
  },
};
