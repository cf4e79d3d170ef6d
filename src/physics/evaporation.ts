import { inRange, mpsToKmh } from '../units/index.ts';
import {
  hotEvaporationMmPerHour,
  hotFaceVapourSlope,
  hotLatentHeatJkg,
  hotMagnusWaterHPa,
  hotMassPerHPa,
} from './hot.ts';

/**
 * Water leaving a wet face, or settling on it as dew: convection of vapour alongside convection of
 * heat (Lewis relation), to be coupled with the heat balance in `surface.ts`.
 * Below 0 °C the face carries ice, so frost settles from the frost point down, some tenths above the
 * dew point. A dry face evaporates nothing: the caller limits a positive answer to the water there is.
 * @param args.surfaceTempC [°C], -80..120
 * @param args.airTempC [°C], -80..80. Drops out of the formula (the ideal gas law is taken at the mean
 *   temperature for both densities, which makes the sign change exact); asked for to be checked
 * @param args.vapourPressureHPa of the air [hPa], 0..200
 * @param args.convectionWm2K heat transfer at the face [W/m2K], 0..300
 * @param args.pressureHPa air pressure [hPa], 500..1100
 * @returns [mm/h = kg/m2h], positive = drying, negative = dew or frost, 0 exactly at the dew point
 *   (frost point below 0 °C)
 * @throws RangeError outside these ranges, NaN included
 * @source Chilton & Colburn 1934 with Le^(2/3) = 0.9; tests/published/evaporation.test.ts
 * @accuracy as good as the heat transfer behind it; such estimates are good to +/-40 % (Hover)
 */
export function evaporationMmPerHour(args: {
  surfaceTempC: number;
  airTempC: number;
  vapourPressureHPa: number;
  convectionWm2K: number;
  pressureHPa: number;
}): number {
  inRange('airTempC', args.airTempC, -80, 80);
  return hotEvaporationMmPerHour(
    inRange('surfaceTempC', args.surfaceTempC, -80, 120),
    inRange('vapourPressureHPa', args.vapourPressureHPa, 0, 200),
    inRange('convectionWm2K', args.convectionWm2K, 0, 300),
    inRange('pressureHPa', args.pressureHPa, 500, 1100),
  );
}

/**
 * Heat needed to evaporate water, or from ice below 0 °C (sublimation).
 * @param tempC face temperature [°C], -80..120
 * @returns [J/kg]: 2.501e6 - 2361 t over water, 2.834e6 - 290 t over ice
 * @throws RangeError outside the range, NaN included
 * @source FAO-56 annex 3 eq. 3-1 (water); 2.834 MJ/kg over ice from memory
 */
export function latentHeatJkg(tempC: number): number {
  return hotLatentHeatJkg(inRange('tempC', tempC, -80, 120));
}

/**
 * How the latent heat flux of a wet face grows with its temperature; give it to `stepSurfaceTempC`
 * so that a thin wet sheet cannot swing from step to step.
 * @param args.surfaceTempC [°C], -80..120
 * @param args.convectionWm2K [W/m2K], 0..300
 * @param args.pressureHPa [hPa], 500..1100
 * @returns [W/m2K]
 * @throws RangeError outside these ranges, NaN included
 */
export function latentSlopeWm2K(args: {
  surfaceTempC: number;
  convectionWm2K: number;
  pressureHPa: number;
}): number {
  const surfaceTempC = inRange('surfaceTempC', args.surfaceTempC, -80, 120);
  const convection = inRange('convectionWm2K', args.convectionWm2K, 0, 300);
  const pressureHPa = inRange('pressureHPa', args.pressureHPa, 500, 1100);
  return (
    hotLatentHeatJkg(surfaceTempC) *
    hotMassPerHPa(convection, pressureHPa) *
    hotFaceVapourSlope(surfaceTempC)
  );
}

/** Guards shared by the two concrete formulas. */
function concreteArgs(args: {
  surfaceTempC: number;
  airTempC: number;
  relHumPct: number;
  windMps: number;
}): void {
  inRange('surfaceTempC', args.surfaceTempC, -18, 80);
  inRange('airTempC', args.airTempC, -18, 60);
  inRange('relHumPct', args.relHumPct, 1, 100);
  inRange('windMps', args.windMps, 0, 40);
}

/**
 * Water lost from a wet slab in the open; the formula behind the concrete trade's chart. A check on
 * `evaporationMmPerHour`, measured over a lake: for the same wind it gives about two thirds of it.
 * @param args.surfaceTempC [°C], -18..80
 * @param args.airTempC [°C], -18..60
 * @param args.relHumPct [%], 1..100
 * @param args.windMps [m/s], 0..40; measured 0.5 m above the face
 * @returns [kg/m2h]
 * @throws RangeError outside these ranges, NaN included
 * @source Menzel 1954 in ACI 305R; tests/published/evaporation.test.ts
 */
export function menzelEvaporationKgM2H(args: {
  surfaceTempC: number;
  airTempC: number;
  relHumPct: number;
  windMps: number;
}): number {
  concreteArgs(args);
  const faceKPa = hotMagnusWaterHPa(args.surfaceTempC) / 10;
  const airKPa = (hotMagnusWaterHPa(args.airTempC) * args.relHumPct) / 1000;
  return (faceKPa - airKPa) * (0.0788 + 0.0669 * args.windMps);
}

/**
 * The same loss by Uno's short fit. It runs up to 15 % above Menzel over a slab of 15-20 °C in cool damp
 * air, 20 % below on a slab of 50 °C and 12 % below at 10 °C; prefer Menzel or the coupled balance.
 * @param args as `menzelEvaporationKgM2H`
 * @returns [kg/m2h]
 * @throws RangeError outside its ranges, NaN included
 * @source Uno 1998, ACI Materials Journal 95-M34; tests/published/evaporation.test.ts
 */
export function unoEvaporationKgM2H(args: {
  surfaceTempC: number;
  airTempC: number;
  relHumPct: number;
  windMps: number;
}): number {
  concreteArgs(args);
  const face = (args.surfaceTempC + 18) ** 2.5;
  const air = (args.relHumPct / 100) * (args.airTempC + 18) ** 2.5;
  return 5e-6 * (face - air) * (mpsToKmh(args.windMps) + 4);
}
