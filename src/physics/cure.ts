import { GAS_CONSTANT, inRange, KELVIN_AT_0C } from '../units/index.ts';

function temp(name: string, value: number): number {
  return inRange(name, value, -60, 150);
}

/**
 * How many times as long a reaction takes at one temperature as at another (Arrhenius).
 * Multiply a time known at refTempC by it; below 1 where it is warmer.
 * @param args.tempC, args.refTempC [°C], -60..150
 * @param args.activationKJmol [kJ/mol], 0..200; coatings 40-100, 50 where nothing is known
 * @returns [-]
 * @throws RangeError outside these ranges, NaN included
 * @source t2 = t1 exp[Ea/R (1/T2 - 1/T1)]; tests/published/cure.test.ts
 */
export function arrheniusFactor(args: {
  tempC: number;
  refTempC: number;
  activationKJmol: number;
}): number {
  const t = temp('tempC', args.tempC) + KELVIN_AT_0C;
  const ref = temp('refTempC', args.refTempC) + KELVIN_AT_0C;
  const activation = inRange('activationKJmol', args.activationKJmol, 0, 200);
  return Math.exp(((activation * 1000) / GAS_CONSTANT) * (1 / t - 1 / ref));
}

/**
 * The same by the trade's rule: ten degrees warmer, half the time.
 * @param args.tempC, args.refTempC [°C], -60..150
 * @param args.q10 speed-up over 10 K, 1..5, default 2
 * @returns [-], multiply a time by it
 * @throws RangeError outside these ranges, NaN included
 * @source t2 = t1 q10^((t1C - t2C)/10); tests/published/cure.test.ts
 */
export function q10Factor(args: { tempC: number; refTempC: number; q10?: number }): number {
  const q10 = inRange('q10', args.q10 ?? 2, 1, 5);
  return q10 ** ((temp('refTempC', args.refTempC) - temp('tempC', args.tempC)) / 10);
}

/**
 * Activation energy that has a given speed-up between two temperatures.
 * @param args.fromC, args.toC [°C], -60..150, toC the higher; args.factor speed-up, 1..100
 * @returns [kJ/mol]
 * @throws RangeError outside these ranges, NaN included
 */
export function activationFromSpeedUpKJmol(args: {
  fromC: number;
  toC: number;
  factor: number;
}): number {
  const from = temp('fromC', args.fromC) + KELVIN_AT_0C;
  const to = inRange('toC', args.toC, args.fromC + 0.1, 150) + KELVIN_AT_0C;
  const factor = inRange('factor', args.factor, 1, 100);
  return (GAS_CONSTANT * Math.log(factor)) / (1 / from - 1 / to) / 1000;
}

/**
 * How many times as long moisture takes to cure a sealant or adhesive to the same depth, from the
 * vapour in the air alone (a sharp front, t ~ z^2/p). Multiply by `arrheniusFactor` for temperature.
 * @param args.vapourPressureHPa [hPa], 0.01..200
 * @param args.refVapourPressureHPa [hPa], 0.01..200
 * @returns [-], multiply a time by it
 * @throws RangeError outside these ranges, NaN included
 * @source Comyn 1998, Int. J. Adhesion & Adhesives 18:247 (front read, formula from memory);
 *   tests/published/cure.test.ts
 */
export function moistureFrontTimeFactor(args: {
  vapourPressureHPa: number;
  refVapourPressureHPa: number;
}): number {
  return (
    inRange('refVapourPressureHPa', args.refVapourPressureHPa, 0.01, 200) /
    inRange('vapourPressureHPa', args.vapourPressureHPa, 0.01, 200)
  );
}

/**
 * Depth cured by moisture after a time, from a known depth and time.
 * @param args.minutes, args.refMinutes [min], 0..1e6 (reference above 0)
 * @param args.refDepthMm [mm], 0..100
 * @param args.vapourPressureHPa, args.refVapourPressureHPa [hPa], 0.01..200
 * @returns [mm], growing with the square root of time and of vapour pressure
 * @throws RangeError outside these ranges, NaN included
 * @source z = sqrt(2 V P p t), Comyn 1998 (formula from memory); tests/published/cure.test.ts
 */
export function moistureFrontDepthMm(args: {
  minutes: number;
  refMinutes: number;
  refDepthMm: number;
  vapourPressureHPa: number;
  refVapourPressureHPa: number;
}): number {
  const minutes = inRange('minutes', args.minutes, 0, 1e6);
  const refMinutes = inRange('refMinutes', args.refMinutes, 1e-6, 1e6);
  const refDepthMm = inRange('refDepthMm', args.refDepthMm, 0, 100);
  return refDepthMm * Math.sqrt(minutes / refMinutes / moistureFrontTimeFactor(args));
}
