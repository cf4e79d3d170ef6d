import type { Rule } from './rule.ts';

/** Sun's centre at rise and set, refraction and disc included [deg] (NOAA, zenith 90.833). */
const RISE_SET_ELEVATION_DEG = -0.833;

/** No bonding and no details in the dark. */
export const daylight: Rule = {
  id: 'daylight',
  whose: 'safety',
  words: 'darkness',
  broken: ({ grid }, _at, step) => grid.sunElevationDeg[step]! < RISE_SET_ELEVATION_DEG,
};
