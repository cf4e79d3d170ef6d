import { hotConvectionWm2K, massTransferMps } from '../physics/index.ts';
import type { FilmWeather } from './film-weather.ts';

/** Below this the solvent's own vapour keeps the air over the film moving [m/s] (from memory). */
const STILL_AIR_MPS = 0.5;
/** Wind exponent of Mackay & Matsugu 1973; disputed: Woodward & Krishna 2002 found far less in a tunnel. */
const WIND_POWER = 0.78;
/** Length of a coated section along the wind [m] (common practice). */
const SECTION_LENGTH_M = 2;
/** Schmidt number of a solvent in air (1.4 for acetone to 2.5 for heptane, from their diffusivities). */
const SCHMIDT = 2;

const TRANSFER_AT_ONE_MPS = massTransferMps({
  windMps: 1,
  lengthM: SECTION_LENGTH_M,
  schmidt: SCHMIDT,
});

/** What carries a solvent's vapour off a film in a wind over it [m/s] (Mackay & Matsugu 1973). */
export function solventTransferMps(windMps: number): number {
  return TRANSFER_AT_ONE_MPS * Math.max(STILL_AIR_MPS, windMps) ** WIND_POWER;
}

type WindColumn = (film: FilmWeather) => Float64Array;

/** Every film of a roof feels the same wind, and powers of it are slow: worked out once for all of them. */
function columnOf(law: (windMps: number) => number): WindColumn {
  const made = new WeakMap<Float32Array, Map<number, Float64Array>>();
  return ({ windMps, toFilm }) => {
    const ofWind = made.get(windMps) ?? new Map<number, Float64Array>();
    made.set(windMps, ofWind);
    const before = ofWind.get(toFilm);
    if (before !== undefined) return before;
    const column = new Float64Array(windMps.length);
    for (let at = 0; at < column.length; at += 1) column[at] = law(windMps[at]! * toFilm);
    ofWind.set(toFilm, column);
    return column;
  };
}

/** Heat the wind brings a cooler film [W/m2K]; cells as the wind's own column. */
export const convectionColumn: WindColumn = columnOf(hotConvectionWm2K);
/** `solventTransferMps`; cells as the wind's own column. */
export const solventTransferColumn: WindColumn = columnOf(solventTransferMps);
