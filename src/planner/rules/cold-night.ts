import type { Product } from '../../products/index.ts';
import { MS_PER_HOUR } from '../../units/index.ts';
import type { WeatherGrid } from '../../weather/index.ts';
import { knownFromOthers } from '../closeness.ts';
import type { FirmLimits } from '../limits.ts';
import { ownerOf } from './owner.ts';
import type { Rule } from './rule.ts';

/** What a member's night turns out to be; unknown where its forecast ends first. */
export const NIGHT = { warm: 0, cold: 1, unknown: 2 } as const;

/**
 * The hours after laying stay warm enough for the film to form. A crew cannot know its own night,
 * only what the other forecasts say of it: the rule is broken in a member when too large a share of
 * the *other* members, the closer to its past the more they count, turns cold within the hours asked.
 * @returns the rule, and per column what the member's own night turns out to be (what comes of it), see NIGHT
 */
export function coldNight(
  product: Product,
  limits: FirmLimits,
  grid: WeatherGrid,
): { readonly rule: Rule; readonly turnsCold: Uint8Array } | null {
  const { afterMinC, hoursAfter } = product.limits;
  if (afterMinC === undefined || hoursAfter === undefined) return null;
  const window = (hoursAfter.value * MS_PER_HOUR) / grid.stepMs;
  const turnsCold = coldWithin(grid, afterMinC.value, window);
  // Near its end a forecast may show a cold night but never a warm one: only whole nights are counted.
  const share = knownFromOthers(
    grid,
    (at) => turnsCold[at] === NIGHT.cold,
    (at) => (at % grid.steps) + window < grid.knownSteps[Math.floor(at / grid.steps)]!,
  );
  const rule: Rule = {
    id: 'cold-night',
    whose: ownerOf(afterMinC),
    words: `cold under ${afterMinC.value} °C in the ${hoursAfter.value} h after laying ${product.name}`,
    broken: (_view, at, step) => {
      // A single forecast has no others to ask: it is taken at its word.
      if (grid.memberCount === 1) return turnsCold[at] === NIGHT.cold;
      return share(Math.floor(at / grid.steps), step) > limits.coldNightShare;
    },
  };
  return { rule, turnsCold };
}

/** Per column: does the air fall below a temperature within the next `window` steps? */
function coldWithin(grid: WeatherGrid, belowC: number, window: number): Uint8Array {
  const out = new Uint8Array(grid.steps * grid.memberCount).fill(NIGHT.unknown);
  for (let m = 0; m < grid.memberCount; m += 1) {
    const known = grid.knownSteps[m]!;
    let nextCold = Number.POSITIVE_INFINITY;
    for (let i = known - 1; i >= 0; i -= 1) {
      const at = m * grid.steps + i;
      if (grid.airTempC[at]! < belowC) nextCold = i;
      if (nextCold - i <= window) out[at] = NIGHT.cold;
      else if (i + window < known) out[at] = NIGHT.warm;
    }
  }
  return out;
}
