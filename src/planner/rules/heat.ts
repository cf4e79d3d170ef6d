import { heatIndexC, hotMagnusWaterHPa } from '../../physics/index.ts';
import type { Rule } from './rule.ts';

/** Cooler air than this reaches no heat index that stops work, however damp it is [°C]. */
const NEVER_BELOW_C = 26;

/**
 * Heat in which people are not kept at work on a roof. A safety rule: rests, water and shade come long
 * before it, and the employer's own rules and local law before the figure.
 */
export const heat: Rule = {
  id: 'heat',
  whose: 'safety',
  words: 'heat that people cannot work in',
  mark: ({ grid, limits }, { cells, broken, bit }) => {
    for (const { from, to } of cells) {
      for (let at = from; at < to; at += 1) {
        const airTempC = grid.airTempC[at]!;
        if (!(airTempC >= NEVER_BELOW_C)) continue;
        const share = hotMagnusWaterHPa(grid.dewPointC[at]!) / hotMagnusWaterHPa(airTempC);
        const relHumPct = Math.min(100, 100 * share);
        if (heatIndexC({ airTempC, relHumPct }) >= limits.heatIndexMaxC) broken[at]! |= bit;
      }
    }
  },
};
