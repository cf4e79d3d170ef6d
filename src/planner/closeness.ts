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
  const every = Math.round(EVERY_MS / grid.stepMs);
  const count = grid.memberCount;
  const slots = Math.ceil(grid.steps / every);
  const weights: (Float64Array | undefined)[] = new Array(slots);
  return (m, step) => {
    const slot = Math.floor(step / every);
    const table = weights[slot] ?? weightsAt(grid, slot * every);
    weights[slot] = table;
    let held = 0;
    let all = 0;
    for (let n = 0; n < count; n += 1) {
      const at = n * grid.steps + step;
      if (!known(at)) continue;
      const weight = table[m * count + n]!;
      all += weight;
      if (holds(at)) held += weight;
    }
    return all > 0 ? held / all : 0;
  };
}

/** Weight of every member for every other, from air temperature over the past day. */
function weightsAt(grid: WeatherGrid, step: number): Float64Array {
  const count = grid.memberCount;
  const hour = Math.round(MS_PER_HOUR / grid.stepMs);
  const from = Math.max(0, step - Math.round(PAST_MS / grid.stepMs));
  const distance = new Float64Array(count * count);
  const pairs: number[] = [];
  for (let m = 0; m < count; m += 1) {
    for (let n = 0; n < m; n += 1) {
      let sum = 0;
      for (let i = from; i < step; i += hour) {
        const apart = grid.airTempC[m * grid.steps + i]! - grid.airTempC[n * grid.steps + i]!;
        sum += apart * apart;
      }
      const apart = Math.sqrt(sum);
      distance[m * count + n] = apart;
      distance[n * count + m] = apart;
      if (!Number.isNaN(apart)) pairs.push(apart);
    }
  }
  pairs.sort((a, b) => a - b);
  const width = SHARPNESS * (pairs[Math.floor(pairs.length / 2)] ?? 0);
  return distance.map((apart, at) => {
    if (Math.floor(at / count) === at % count || Number.isNaN(apart)) return 0;
    return width > 0 ? Math.exp(-Math.LN2 * (apart / width) ** 2) : 1;
  });
}
