import { MS_PER_HOUR } from '../../units/index.ts';
import type { WeatherGrid } from '../../weather/index.ts';

/** How far back two forecasts are compared. */
const PAST_MS = 24 * MS_PER_HOUR;
/** Difference that halves a forecast's say, over the typical one (judged). */
const SHARPNESS = 0.5;

/** What is compared: where members part in these, they mostly part in rain to come. */
const COLUMNS = ['airTempC', 'dewPointC', 'windMps', 'rainMm', 'cloudPct'] as const;

/**
 * How much every forecast says to a crew that lives in another one, from how alike the two have been
 * over the past day and nothing later. Differences of each kind of weather are divided by the typical
 * one of their kind and added up, as analogs are found.
 * @param step  the moment of the decision: steps before it count, none from it on
 * @returns member m's weight for member n at m * memberCount + n, 0..1; 0 for itself and for a
 *   forecast that has ended; 1 all round where nothing tells them apart yet
 * @source L. Delle Monache and others, Monthly Weather Review 141 (2013), 3498-3516: distance of analogs
 */
export function pastCloseness(grid: WeatherGrid, step: number): Float64Array {
  const count = grid.memberCount;
  const distance = new Float64Array(count * count);
  for (const column of COLUMNS) {
    const apart = pairsApart(hoursBefore(grid, column, step), count);
    const typical = median(apart, count);
    // Where all are alike in one thing it tells nothing.
    if (!(typical > 0)) continue;
    for (let i = 0; i < distance.length; i += 1) distance[i]! += apart[i]! / typical;
  }
  const width = SHARPNESS * median(distance, count);
  return distance.map((apart, at) => {
    const [m, n] = [Math.floor(at / count), at % count];
    const ended = step > Math.min(grid.knownSteps[m]!, grid.knownSteps[n]!);
    if (m === n || ended || Number.isNaN(apart)) return 0;
    return width > 0 ? Math.exp(-Math.LN2 * (apart / width) ** 2) : 1;
  });
}

/** Means by the hour over the past day, member after member. */
function hoursBefore(
  grid: WeatherGrid,
  column: (typeof COLUMNS)[number],
  step: number,
): readonly Float64Array[] {
  const perHour = Math.round(MS_PER_HOUR / grid.stepMs);
  const hours = Math.min(PAST_MS / MS_PER_HOUR, Math.floor(Math.max(0, step) / perHour));
  return Array.from({ length: grid.memberCount }, (_, m) =>
    Float64Array.from({ length: hours }, (_hour, h) => {
      const from = m * grid.steps + step - (h + 1) * perHour;
      let sum = 0;
      for (let i = from; i < from + perHour; i += 1) sum += grid[column][i]!;
      return sum / perHour;
    }),
  );
}

function pairsApart(hours: readonly Float64Array[], count: number): Float64Array {
  const apart = new Float64Array(count * count);
  for (let m = 0; m < count; m += 1) {
    for (let n = 0; n < m; n += 1) {
      let sum = 0;
      for (let h = 0; h < hours[m]!.length; h += 1) sum += (hours[m]![h]! - hours[n]![h]!) ** 2;
      apart[m * count + n] = Math.sqrt(sum);
      apart[n * count + m] = apart[m * count + n]!;
    }
  }
  return apart;
}

/** Over pairs of different forecasts that are both known. */
function median(apart: Float64Array, count: number): number {
  const pairs: number[] = [];
  for (let m = 0; m < count; m += 1) {
    for (let n = 0; n < m; n += 1) {
      const one = apart[m * count + n]!;
      if (!Number.isNaN(one)) pairs.push(one);
    }
  }
  pairs.sort((a, b) => a - b);
  return pairs[Math.floor(pairs.length / 2)] ?? 0;
}
