import { inRange } from '../units/index.ts';
import { hotConvectionWm2K } from './hot.ts';

/** Exponent a and boundary layer height d [m] of the wind profile over each kind of ground. */
const TERRAIN = {
  open: { exponent: 0.14, layerM: 270 },
  suburban: { exponent: 0.22, layerM: 370 },
  city: { exponent: 0.33, layerM: 460 },
} as const;

export type WindTerrain = keyof typeof TERRAIN;

/**
 * Mean wind at roof height from the wind a weather station or feed reports: 10 m above open country.
 * @param args.windMps at 10 m [m/s], 0..100
 * @param args.roofHeightM above the ground [m], 0.5..200
 * @param args.terrain ground around the site
 * @returns [m/s]; the free wind at that height, without the shelter of parapets or the speed-up at edges
 * @throws RangeError outside these ranges, NaN included
 * @source ASHRAE Fundamentals 2005 ch. 16 eq. 4, table 1; tests/published/wind.test.ts
 * @accuracy none stated by the source; a factor of 1.3 either way at a given site is usual (from memory)
 */
export function windAtRoofMps(args: {
  windMps: number;
  roofHeightM: number;
  terrain: WindTerrain;
}): number {
  const windMps = inRange('windMps', args.windMps, 0, 100);
  const heightM = inRange('roofHeightM', args.roofHeightM, 0.5, 200);
  const site = TERRAIN[args.terrain];
  if (site === undefined) {
    throw new RangeError(
      `terrain (${args.terrain}) must be one of ${Object.keys(TERRAIN).join(', ')}`,
    );
  }
  return windMps * (270 / 10) ** 0.14 * (heightM / site.layerM) ** site.exponent;
}

/**
 * Heat transfer by wind over a face, radiation not included.
 * 5.7 + 3.8 V below 5 m/s; above, the 0.78 power raised so that both meet at 5 m/s (24.7 W/m2K there).
 * The constant 6.47 usually printed with that power leaves a fall of 2.0 W/m2K at 5 m/s.
 * @param windMps over the face [m/s], 0..100
 * @returns [W/m2K]
 * @throws RangeError outside the range, NaN included
 * @source McAdams 1954, Heat Transmission; tests/published/wind.test.ts
 * @accuracy laboratory plates; measured roofs scatter by +/-30 %. In a calm 5.7 stands for free
 *   convection off a warm face, and is high for a face colder than the air
 */
export function convectionWm2K(windMps: number): number {
  return hotConvectionWm2K(inRange('windMps', windMps, 0, 100));
}

/**
 * Free convection from a horizontal face looking up in still air.
 * @param args.surfaceTempC [°C], -80..150
 * @param args.airTempC [°C], -80..60
 * @returns [W/m2K]; a warm face stirs the air twice as well as a cold one
 * @throws RangeError outside these ranges, NaN included
 * @source Walton, NBSIR 83-2655; tests/published/wind.test.ts
 */
export function freeConvectionWm2K(args: { surfaceTempC: number; airTempC: number }): number {
  const differenceK =
    inRange('surfaceTempC', args.surfaceTempC, -80, 150) -
    inRange('airTempC', args.airTempC, -80, 60);
  return (differenceK > 0 ? 1.51 : 0.76) * Math.cbrt(Math.abs(differenceK));
}

/** Upper bound of each Beaufort force from 0 up [m/s]. */
const BEAUFORT_MPS = [0.2, 1.5, 3.3, 5.4, 7.9, 10.7, 13.8, 17.1, 20.7, 24.4, 28.4, 32.6] as const;

/**
 * Beaufort force of a mean wind.
 * @param windMps at 10 m [m/s], 0..100; rounded to 0.1 m/s, the step of the table
 * @returns 0..12
 * @throws RangeError outside the range, NaN included
 * @source WMO-No. 8 table of forces (3 to 8 read in print, the rest from memory);
 *   tests/published/wind.test.ts
 */
export function beaufortForce(windMps: number): number {
  const rounded = Math.round(inRange('windMps', windMps, 0, 100) * 10) / 10;
  const force = BEAUFORT_MPS.findIndex((upper) => rounded <= upper);
  return force === -1 ? 12 : force;
}
