import { lightning as thirty } from '../../physics/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../../units/index.ts';
import type { Rule } from './rule.ts';

/**
 * Lightning likely, and half an hour after: nobody is on the roof, not even to close up. Flashes go with
 * rain times the energy of the air above it, so that rain from air with enough of it counts; of a
 * forecast without that column nothing is said, and the first thunder heard decides. A safety rule.
 * @source Romps et al., Science 346 (2014), 851-854, for rain times CAPE (from memory, and so is the
 *   limit); resuming after 30 minutes: US National Weather Service
 */
export const lightning: Rule = {
  id: 'lightning',
  whose: 'safety',
  words: 'lightning likely',
  mark: ({ grid, limits }, { cells, broken, bit }) => {
    const { capeJkg, rainMm, steps, stepMs } = grid;
    if (capeJkg === undefined) return;
    const after = Math.ceil((thirty.resumeAfterMin * MS_PER_MINUTE) / stepMs);
    const rainPerStep = (limits.rainMmPerHour * stepMs) / MS_PER_HOUR;
    for (const { from, to } of cells) {
      const firstOfMember = Math.floor(from / steps) * steps;
      let last = Number.NEGATIVE_INFINITY;
      for (let at = Math.max(firstOfMember, from - after); at < to; at += 1) {
        if (capeJkg[at]! >= limits.lightningCapeJkg && rainMm[at]! >= rainPerStep) last = at;
        if (at >= from && at - last <= after) broken[at]! |= bit;
      }
    }
  },
};
