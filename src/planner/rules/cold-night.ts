import type { Product } from '../../products/index.ts';
import { MS_PER_HOUR } from '../../units/index.ts';
import type { WeatherGrid } from '../../weather/index.ts';
import { closenessOn, SAYS, shareOfOthers } from '../closeness.ts';
import type { FirmLimits } from '../limits.ts';
import type { Marks } from './marks.ts';
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
  const rule: Rule = {
    id: 'cold-night',
    whose: ownerOf(afterMinC),
    words: `cold under ${afterMinC.value} °C in the ${hoursAfter.value} h after laying ${product.name}`,
    // A single forecast has no others to ask: it is taken at its word.
    mark: (_view, marks) =>
      grid.memberCount === 1
        ? markOwn(turnsCold, marks)
        : markByOthers(grid, turnsCold, window, limits.coldNightShare, marks),
  };
  return { rule, turnsCold };
}

function markOwn(turnsCold: Uint8Array, { cells, broken, bit }: Marks): void {
  for (const { from, to } of cells) {
    for (let at = from; at < to; at += 1) if (turnsCold[at] === NIGHT.cold) broken[at]! |= bit;
  }
}

/** What the others say of a night changes a few times a day: it is weighed anew only then. */
function markByOthers(
  grid: WeatherGrid,
  turnsCold: Uint8Array,
  window: number,
  mostShare: number,
  { spans, broken, bit }: Marks,
): void {
  const { steps, memberCount, knownSteps } = grid;
  const weightsAt = closenessOn(grid);
  let weights: Float64Array | null = null;
  const say = new Uint8Array(memberCount);
  const tooMany = new Uint8Array(memberCount);
  for (const { from, to } of spans) {
    for (let step = from; step < to; step += 1) {
      let changed = false;
      for (let n = 0; n < memberCount; n += 1) {
        const before = say[n];
        // Near its end a forecast may show a cold night but never a warm one: only whole nights are counted.
        if (step + window >= knownSteps[n]!) say[n] = SAYS.nothing;
        else say[n] = turnsCold[n * steps + step] === NIGHT.cold ? SAYS.yes : SAYS.no;
        changed ||= say[n] !== before;
      }
      // Where nobody says cold there is nothing to weigh.
      const now = say.includes(SAYS.yes) ? weightsAt(step) : null;
      changed ||= now !== weights;
      weights = now;
      for (let m = 0; m < memberCount; m += 1) {
        if (changed)
          tooMany[m] = weights !== null && shareOfOthers(weights, m, say) > mostShare ? 1 : 0;
        if (tooMany[m] === 1 && step < knownSteps[m]!) broken[m * steps + step]! |= bit;
      }
    }
  }
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
