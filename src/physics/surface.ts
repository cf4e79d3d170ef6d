import { inRange, KELVIN_AT_0C, STEFAN_BOLTZMANN } from '../units/index.ts';
import {
  hotFaceVapourHPa,
  hotFaceVapourSlope,
  hotLatentHeatJkg,
  hotMassPerHPa,
  hotStepSurface,
} from './hot.ts';

/** What drives the heat balance of one square metre of an exposed face. */
export interface SurfaceDrive {
  /** Sunlight absorbed [W/m2], 0..1600. */
  readonly absorbedWm2: number;
  /** Long wave arriving from sky and surroundings, before emissivity [W/m2], 0..1000. */
  readonly skyWm2: number;
  /** Long-wave emissivity (= absorptance) of the face, 0..1. */
  readonly emissivity: number;
  /** [W/m2K], 0..300. */
  readonly convectionWm2K: number;
  /** [°C], -80..60. */
  readonly airTempC: number;
  /** From the face to what is below [W/m2K], 0..1000. */
  readonly conductanceWm2K: number;
  /** What is below [°C], -80..100. */
  readonly belowTempC: number;
}

function checkDrive(d: SurfaceDrive): void {
  inRange('absorbedWm2', d.absorbedWm2, 0, 1600);
  inRange('skyWm2', d.skyWm2, 0, 1000);
  inRange('emissivity', d.emissivity, 0, 1);
  inRange('convectionWm2K', d.convectionWm2K, 0, 300);
  inRange('airTempC', d.airTempC, -80, 60);
  inRange('conductanceWm2K', d.conductanceWm2K, 0, 1000);
  inRange('belowTempC', d.belowTempC, -80, 100);
}

/** Heat gained by a face without storage or water [W/m2] and how fast that falls as it warms. */
function balance(d: SurfaceDrive, tempC: number): { gainWm2: number; fallWm2K: number } {
  const k = tempC + KELVIN_AT_0C;
  const emitted = d.emissivity * STEFAN_BOLTZMANN * k ** 4;
  return {
    gainWm2:
      d.absorbedWm2 +
      d.emissivity * d.skyWm2 -
      emitted -
      d.convectionWm2K * (tempC - d.airTempC) -
      d.conductanceWm2K * (tempC - d.belowTempC),
    fallWm2K: (4 * emitted) / k + d.convectionWm2K + d.conductanceWm2K,
  };
}

/**
 * Temperature a dry face without heat storage settles at.
 * @param args see `SurfaceDrive`
 * @returns [°C], solved to 1e-6 K
 * @throws RangeError outside these ranges, NaN included, or where the face can lose heat by no path
 * @source the balance of ASTM E1980; tests/published/surface.test.ts
 * @accuracy within 0.2 K of ASTM E1980's two standard faces; solar reflectance ratings to the unit
 */
export function steadySurfaceTempC(args: SurfaceDrive): number {
  checkDrive(args);
  if (args.emissivity + args.convectionWm2K + args.conductanceWm2K <= 0) {
    throw new RangeError(
      'emissivity, convectionWm2K and conductanceWm2K are all 0: the face can lose no heat',
    );
  }
  // The gain falls and curves downwards, so Newton closes in from above whatever the start.
  let tempC = args.airTempC;
  for (let i = 0; i < 100; i += 1) {
    const { gainWm2, fallWm2K } = balance(args, tempC);
    const moveK = gainWm2 / fallWm2K;
    tempC += moveK;
    if (Math.abs(moveK) < 1e-7) return tempC;
  }
  throw new Error(`steadySurfaceTempC did not settle for ${JSON.stringify(args)}`);
}

/**
 * Temperature a wet face settles at while its water lasts (or dew forms): heat and water together.
 * @param args see `SurfaceDrive`; vapourPressureHPa of the air 0..200, pressureHPa 500..1100
 * @returns [°C], solved to 1e-6 K
 * @throws RangeError outside these ranges, NaN included
 * @source the balance above with the Lewis relation; tests/published/evaporation.test.ts
 */
export function steadyWetSurfaceTempC(
  args: SurfaceDrive & { readonly vapourPressureHPa: number; readonly pressureHPa: number },
): number {
  checkDrive(args);
  const vapour = inRange('vapourPressureHPa', args.vapourPressureHPa, 0, 200);
  const perHPa = hotMassPerHPa(
    args.convectionWm2K,
    inRange('pressureHPa', args.pressureHPa, 500, 1100),
  );
  const gain = (tempC: number): number =>
    balance(args, tempC).gainWm2 -
    hotLatentHeatJkg(tempC) * perHPa * (hotFaceVapourHPa(tempC) - vapour);
  // Falls throughout (latent heat jumps by 13 % at 0 °C, where the vapour curve has only a kink).
  let low = -150;
  let high = 150;
  while (high - low > 1e-7) {
    const mid = (low + high) / 2;
    if (gain(mid) > 0) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}

/**
 * One step of the heat balance of a face with heat storage: backward Euler with the long wave (and,
 * if its slope is given, the latent heat) linearised about the start, so no step is too long.
 * C (T' - T)/dt = absorbed + e (sky - s T^4) - 4 e s T^3 (T' - T) - hc (T' - Tair) - U (T' - Tbelow)
 *   - latent - latentSlope (T' - T)
 * @param args see `SurfaceDrive`, and
 * @param args.surfaceTempC at the start [°C], -100..150
 * @param args.capacityJm2K [J/m2K], 0..1e7; 1.5 mm rubber about 2.6e3, 15 mm board about 1.6e4
 * @param args.stepS [s], above 0, up to 1e9
 * @param args.latentWm2 heat *taken* by evaporation [W/m2], -2000..2000; dew gives heat: negative
 * @param args.latentSlopeWm2K growth of it with the face's temperature [W/m2K], 0..2000, default 0; without
 *   it a thin wet sheet in wind swings from step to step, see `latentSlopeWm2K`
 * @returns [°C] at the end of the step
 * @throws RangeError outside these ranges, NaN included, or without capacity and any path for heat
 * @source tests/published/surface.test.ts, tests/laws/physics-surface.test.ts
 * @accuracy first order in the step; the energy put in is the energy stored, to rounding for the
 *   linearised fluxes and to 1e-3 of the long wave for steps that move less than 10 K
 */
export function stepSurfaceTempC(
  args: SurfaceDrive & {
    readonly surfaceTempC: number;
    readonly capacityJm2K: number;
    readonly stepS: number;
    readonly latentWm2: number;
    readonly latentSlopeWm2K?: number;
  },
): number {
  checkDrive(args);
  const capacityJm2K = inRange('capacityJm2K', args.capacityJm2K, 0, 1e7);
  if (args.emissivity + args.convectionWm2K + args.conductanceWm2K + capacityJm2K <= 0) {
    throw new RangeError(
      'capacityJm2K, emissivity, convectionWm2K and conductanceWm2K are all 0: nothing holds the face',
    );
  }
  return hotStepSurface(
    inRange('surfaceTempC', args.surfaceTempC, -100, 150),
    capacityJm2K,
    inRange('stepS', args.stepS, Number.MIN_VALUE, 1e9),
    args.absorbedWm2,
    args.skyWm2,
    args.emissivity,
    args.convectionWm2K,
    args.airTempC,
    args.conductanceWm2K,
    args.belowTempC,
    inRange('latentWm2', args.latentWm2, -2000, 2000),
    inRange('latentSlopeWm2K', args.latentSlopeWm2K ?? 0, 0, 2000),
  );
}

/** Vapour-pressure slope at a wet face [hPa/K]; exposed for laws that compare it with differences. */
export function faceVapourSlopeHPaK(tempC: number): number {
  return hotFaceVapourSlope(inRange('tempC', tempC, -80, 120));
}

/**
 * Sol-air temperature: the plain formula a roof model has to beat.
 * @param args.airTempC [°C], -80..60
 * @param args.globalWm2 [W/m2], 0..1600
 * @param args.absorptancePerHo absorptance over the outside coefficient [m2K/W], 0..0.2; dark 0.052,
 *   light 0.026
 * @param args.longwaveDropK [K], 0..10; 4 for a horizontal face under a clear sky, 0 for a wall
 * @returns [°C]
 * @throws RangeError outside these ranges, NaN included
 * @source ASHRAE Fundamentals 2005 ch. 30 eq. 30; tests/published/surface.test.ts
 */
export function solAirTempC(args: {
  airTempC: number;
  globalWm2: number;
  absorptancePerHo: number;
  longwaveDropK: number;
}): number {
  return (
    inRange('airTempC', args.airTempC, -80, 60) +
    inRange('absorptancePerHo', args.absorptancePerHo, 0, 0.2) *
      inRange('globalWm2', args.globalWm2, 0, 1600) -
    inRange('longwaveDropK', args.longwaveDropK, 0, 10)
  );
}
