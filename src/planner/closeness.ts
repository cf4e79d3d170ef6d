import { MS_PER_HOUR } from '../units/index.ts';
import type { WeatherGrid } from '../weather/index.ts';

/** How far back two forecasts are compared. */
const PAST_MS = 24 * MS_PER_HOUR;
/** How often they are compared anew. */
const EVERY_MS = 3 * MS_PER_HOUR;
/** Difference in air temperature that halves a forecast's say, over the typical one (from memory). */
const SHARPNESS = 0.5;

/**
 * What a crew in one forecast can know of what comes: the other forecasts, the closer their past day
 * is to its own the more they count. Its own future has no say, nor have forecasts that end first.
 * @returns share, 0..1, of the others for which a thing holds, weighted by closeness
 */
export function knownFromOthers(
  grid: WeatherGrid,
  holds: (at: number) => boolean,
  known: (at: number) => boolean,
): (m: number, step: number) => number {
  const weights = closenessOn(grid);
  const say = new Uint8Array(grid.memberCount);
  return (m, step) => {
    for (let n = 0; n < say.length; n += 1) {
      const at = n * grid.steps + step;
      say[n] = known(at) ? (holds(at) ? SAYS.yes : SAYS.no) : SAYS.nothing;
    }
    return shareOfOthers(weights(step), m, say);
  };
}

/** What a forecast says of a thing; one that ends first says nothing. */
export const SAYS = { nothing: 0, no: 1, yes: 2 } as const;

/**
 * @param weights  see `closenessOn`
 * @param say  per forecast, see SAYS
 * @returns share, 0..1, of forecasts that say yes among those that say anything, as forecast `m` weighs them
 */
export function shareOfOthers(weights: Float64Array, m: number, say: Uint8Array): number {
  let held = 0;
  let all = 0;
  for (let n = 0; n < say.length; n += 1) {
    if (say[n] === SAYS.nothing) continue;
    const weight = weights[m * say.length + n]!;
    all += weight;
    if (say[n] === SAYS.yes) held += weight;
  }
  return all > 0 ? held / all : 0;
}

/**
 * How much each forecast counts for each other at a step: forecast n for m at m * memberCount + n, 0 for
 * itself. The same table as long as the forecasts are not compared anew.
 */
export function closenessOn(grid: WeatherGrid): (step: number) => Float64Array {
  const every = Math.round(EVERY_MS / grid.stepMs);
  const tables: (Float64Array | undefined)[] = new Array(Math.ceil(grid.steps / every));
  return (step) => {
    const slot = Math.floor(step / every);
    const table = tables[slot] ?? weightsAt(grid, slot * every);
    tables[slot] = table;
    return table;
  };
}

/** Weight of every member for every other, from air temperature over the past day; alike both ways. */
function weightsAt(grid: WeatherGrid, step: number): Float64Array {
  const count = grid.memberCount;
  const apart = apartOver(grid, step);
  const width = SHARPNESS * middleOf(apart);
  const weights = new Float64Array(count * count);
  for (let m = 0, pair = 0; m < count; m += 1) {
    for (let n = 0; n < m; n += 1, pair += 1) {
      const weight = weightOf(apart[pair]!, width);
      weights[m * count + n] = weight;
      weights[n * count + m] = weight;
    }
  }
  return weights;
}

function weightOf(apart: number, width: number): number {
  if (Number.isNaN(apart)) return 0;
  return width > 0 ? Math.exp(-Math.LN2 * (apart / width) ** 2) : 1;
}

/** How far apart the day before a step was in any two members, pair by pair; NaN = not known. */
function apartOver({ airTempC, stepMs, steps, memberCount }: WeatherGrid, step: number) {
  const hour = Math.round(MS_PER_HOUR / stepMs);
  const from = Math.max(0, step - Math.round(PAST_MS / stepMs));
  const hours = Math.ceil((step - from) / hour);
  const airC = new Float64Array(memberCount * hours);
  for (let m = 0; m < memberCount; m += 1) {
    for (let h = 0; h < hours; h += 1) airC[m * hours + h] = airTempC[m * steps + from + h * hour]!;
  }
  const apart = new Float64Array((memberCount * (memberCount - 1)) / 2);
  for (let m = 0, pair = 0; m < memberCount; m += 1) {
    for (let n = 0; n < m; n += 1, pair += 1) {
      let sum = 0;
      for (let h = 0; h < hours; h += 1) {
        const apartK = airC[m * hours + h]! - airC[n * hours + h]!;
        sum += apartK * apartK;
      }
      apart[pair] = Math.sqrt(sum);
    }
  }
  return apart;
}

/** The middle of what is known; 0 where nothing is. */
function middleOf(values: Float64Array): number {
  const sorted = values.slice().sort();
  // Those that are not known come last.
  let known = sorted.length;
  while (known > 0 && Number.isNaN(sorted[known - 1]!)) known -= 1;
  return known > 0 ? sorted[Math.floor(known / 2)]! : 0;
}
