import { KELVIN_AT_0C, STEFAN_BOLTZMANN } from '../units/index.ts';

/**
 * The inner versions: positional, unguarded, allocation-free, for loops that run a million times
 * over values whose ranges were checked once at the edge. A NaN in gives a NaN out; nothing throws.
 * The guarded functions of this room call these, so there is one formula for each quantity.
 * Units as in the names of the arguments; sources and accuracy stand at the guarded twins.
 */

/** Specific heat of air [J/kgK]; dry air near 20 °C (ASHRAE 2017 ch. 1: 1.006 kJ/kgK). */
export const AIR_SPECIFIC_HEAT_JKGK = 1006;
/** Molar mass of water over that of dry air (ASHRAE 2017 ch. 1, eq. 20). */
export const WATER_AIR_MASS_RATIO = 0.621945;
/** Lewis number to the power 2/3 for water vapour in air, about 0.9. */
export const LEWIS_TWO_THIRDS = 0.9;

/** Twin of `magnusWaterHPa`. */
export function hotMagnusWaterHPa(tempC: number): number {
  return 6.112 * Math.exp((17.62 * tempC) / (243.12 + tempC));
}

/** Twin of `magnusIceHPa`. */
export function hotMagnusIceHPa(tempC: number): number {
  return 6.112 * Math.exp((22.46 * tempC) / (272.62 + tempC));
}

/** Vapour pressure at a wet or frosted face: over water from 0 °C up, over ice below. Continuous. */
export function hotFaceVapourHPa(tempC: number): number {
  return tempC >= 0 ? hotMagnusWaterHPa(tempC) : hotMagnusIceHPa(tempC);
}

/** Slope of `hotFaceVapourHPa` [hPa/K]; jumps at 0 °C, where water turns to ice. */
export function hotFaceVapourSlope(tempC: number): number {
  return hotFaceSlopeOf(tempC, hotFaceVapourHPa(tempC));
}

/** The same where the vapour pressure itself is known: saves the exponential. */
export function hotFaceSlopeOf(tempC: number, faceHPa: number): number {
  const over = tempC >= 0 ? 243.12 + tempC : 272.62 + tempC;
  return (faceHPa * (tempC >= 0 ? 17.62 * 243.12 : 22.46 * 272.62)) / (over * over);
}

/** Twin of `latentHeatJkg`. */
export function hotLatentHeatJkg(tempC: number): number {
  return tempC >= 0 ? 2.501e6 - 2361 * tempC : 2.834e6 - 290 * tempC;
}

/** Twin of `skyEmissivity`. */
export function hotSkyEmissivity(dewPointC: number, cloudPct: number): number {
  const n = cloudPct / 10;
  const clear = 0.787 + 0.764 * Math.log((dewPointC + KELVIN_AT_0C) / 273);
  const cloudy = clear * (1 + n * (0.0224 + n * (-0.0035 + n * 0.00028)));
  return Math.min(1, cloudy);
}

/** Twin of `skyRadiationWm2`. */
export function hotSkyRadiationWm2(airTempC: number, dewPointC: number, cloudPct: number): number {
  const k = airTempC + KELVIN_AT_0C;
  const k2 = k * k;
  return hotSkyEmissivity(dewPointC, cloudPct) * STEFAN_BOLTZMANN * k2 * k2;
}

/** Twin of `convectionWm2K`. */
export function hotConvectionWm2K(windMps: number): number {
  return windMps < 5 ? 5.7 + 3.8 * windMps : 24.7 * (windMps / 5) ** 0.78;
}

/** Water leaving a wet face per hPa of vapour-pressure difference [kg/m2s hPa]; Lewis relation. */
export function hotMassPerHPa(convectionWm2K: number, pressureHPa: number): number {
  return (
    (convectionWm2K * WATER_AIR_MASS_RATIO) /
    (pressureHPa * AIR_SPECIFIC_HEAT_JKGK * LEWIS_TWO_THIRDS)
  );
}

/** Twin of `evaporationMmPerHour`. */
export function hotEvaporationMmPerHour(
  surfaceTempC: number,
  vapourPressureHPa: number,
  convectionWm2K: number,
  pressureHPa: number,
): number {
  return (
    3600 *
    hotMassPerHPa(convectionWm2K, pressureHPa) *
    (hotFaceVapourHPa(surfaceTempC) - vapourPressureHPa)
  );
}

/** Twin of `stepSurfaceTempC`; `latentSlopeWm2K` 0 = latent heat held over the step. */
export function hotStepSurface(
  surfaceTempC: number,
  capacityJm2K: number,
  stepS: number,
  absorbedWm2: number,
  skyWm2: number,
  emissivity: number,
  convectionWm2K: number,
  airTempC: number,
  conductanceWm2K: number,
  belowTempC: number,
  latentWm2: number,
  latentSlopeWm2K: number,
): number {
  const k = surfaceTempC + KELVIN_AT_0C;
  const k3 = emissivity * STEFAN_BOLTZMANN * k * k * k;
  const gain =
    absorbedWm2 +
    emissivity * skyWm2 -
    k3 * k -
    convectionWm2K * (surfaceTempC - airTempC) -
    conductanceWm2K * (surfaceTempC - belowTempC) -
    latentWm2;
  const stiffness =
    capacityJm2K / stepS + 4 * k3 + convectionWm2K + conductanceWm2K + latentSlopeWm2K;
  return surfaceTempC + gain / stiffness;
}
