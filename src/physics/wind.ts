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
 * @returns [m/s]; the free wind at that height, without the shelter of parapets (`shelterFactor`) or the
 *   speed-up at edges
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

/** Suction on the edge strip of a flat roof (zone G) by parapet height over roof height. */
const EDGE_SUCTION = [
  [0, 1.2],
  [0.025, 1.1],
  [0.05, 0.9],
  [0.1, 0.8],
] as const;

/**
 * What a parapet leaves of the mean wind along the edge of a flat roof, for drying and surface
 * temperature. Never for gusts, handling sheets or uplift: wind tunnels find that low parapets raise the
 * suction at corners and tall ones that of the field (Kopp, Mans & Surry 2005), so there the free wind counts.
 * No published figure for the wind itself was found. This is the closest: how far EN 1991-1-4 lets a
 * parapet lower the suction of the edge strip, which goes with the square of the speed (that step is ours).
 * @param args.parapetHeightM above the roof [m], 0..10; 0 = none
 * @param args.roofHeightM above the ground, without the parapet [m], 0.5..200
 * @returns 0.816..1, times `windAtRoofMps`; straight between the printed ratios, even above 0.1
 * @throws RangeError outside these ranges, NaN included
 * @source EN 1991-1-4:2005 table 7.2, cpe,10 of zone G; tests/published/wind.test.ts
 * @accuracy rough. The same table leaves the field (zone H) as it is: out there the answer is on the slow
 *   side for drying. Within some five parapet heights of a solid parapet it is calmer still, 0.3 to 0.5
 *   (windbreaks, from memory). Open time can run out sooner in the free wind
 */
export function shelterFactor(args: { parapetHeightM: number; roofHeightM: number }): number {
  const ratio =
    inRange('parapetHeightM', args.parapetHeightM, 0, 10) /
    inRange('roofHeightM', args.roofHeightM, 0.5, 200);
  const bare = EDGE_SUCTION[0][1];
  for (let i = 1; i < EDGE_SUCTION.length; i += 1) {
    const [low, from] = EDGE_SUCTION[i - 1]!;
    const [high, to] = EDGE_SUCTION[i]!;
    if (ratio <= high) {
      return Math.sqrt((from + ((to - from) * (ratio - low)) / (high - low)) / bare);
    }
  }
  return Math.sqrt(EDGE_SUCTION[EDGE_SUCTION.length - 1]![1] / bare);
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
