import type { WeatherGrid } from '../../weather/index.ts';
import type { Span } from './marks.ts';
import type { Rule } from './rule.ts';

/** Sun's centre at rise and set, refraction and disc included [deg] (NOAA, zenith 90.833). */
export const RISE_SET_ELEVATION_DEG = -0.833;

const isDark = ({ sunElevationDeg }: WeatherGrid, step: number): boolean =>
  sunElevationDeg[step]! < RISE_SET_ELEVATION_DEG;

/** No bonding and no details in the dark. */
export const daylight: Rule = {
  id: 'daylight',
  whose: 'safety',
  words: 'darkness',
  mark: ({ grid }, { spans, broken, bit }) => {
    for (const { from, to } of spans) {
      for (let step = from; step < to; step += 1) {
        if (!isDark(grid, step)) continue;
        for (let m = 0; m < grid.memberCount; m += 1)
          if (step < grid.knownSteps[m]!) broken[m * grid.steps + step]! |= bit;
      }
    }
  },
};

/** The daylight from a step on, day by day. */
export function daysFrom(grid: WeatherGrid, first: number): Span[] {
  const days: Span[] = [];
  let from = first;
  for (let step = first; step <= grid.steps; step += 1) {
    if (step < grid.steps && !isDark(grid, step)) continue;
    if (step > from) days.push({ from, to: step });
    from = step + 1;
  }
  return days;
}
