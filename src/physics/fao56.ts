import { degToRad, inRange, KELVIN_AT_0C } from '../units/index.ts';

/**
 * The FAO-56 chain (Allen et al. 1998): evaporation from short grass from weather data, worked
 * through in print. It is not used to plan with; it is the yardstick our own balance is held to.
 * Units are FAO's: kPa, MJ/m2 per hour or day, mm.
 */

/** Solar constant [MJ/m2min] (FAO-56 eq. 28). */
const SOLAR_CONSTANT = 0.082;
/** Stefan-Boltzmann constant per day and per hour [MJ/K4m2] (FAO-56 eq. 39, example 19). */
const SIGMA_DAY = 4.903e-9;
const SIGMA_HOUR = 2.043e-10;

/** Saturation vapour pressure. @param tempC -40..60 @returns [kPa] @source FAO-56 eq. 11 */
export function faoSaturationKPa(tempC: number): number {
  const t = inRange('tempC', tempC, -40, 60);
  return 0.6108 * Math.exp((17.27 * t) / (t + 237.3));
}

/** Slope of the saturation curve. @param tempC -40..60 @returns [kPa/K] @source FAO-56 eq. 13 */
export function faoSlopeKPaK(tempC: number): number {
  return (4098 * faoSaturationKPa(tempC)) / (tempC + 237.3) ** 2;
}

/** Psychrometric constant. @param pressureKPa 50..110 @returns [kPa/K] @source FAO-56 eq. 8 */
export function faoPsychrometricKPaK(pressureKPa: number): number {
  return 0.665e-3 * inRange('pressureKPa', pressureKPa, 50, 110);
}

/**
 * Vapour pressure from a ventilated psychrometer.
 * @param args.airTempC dry bulb, -40..60
 * @param args.wetBulbC -40..airTempC
 * @param args.pressureKPa 50..110
 * @returns [kPa]
 * @source FAO-56 eq. 15, eq. 16 with a = 0.000662
 */
export function faoPsychrometerKPa(args: {
  airTempC: number;
  wetBulbC: number;
  pressureKPa: number;
}): number {
  const airTempC = inRange('airTempC', args.airTempC, -40, 60);
  const wetBulbC = inRange('wetBulbC', args.wetBulbC, -40, airTempC);
  const p = inRange('pressureKPa', args.pressureKPa, 50, 110);
  return faoSaturationKPa(wetBulbC) - 0.000662 * p * (airTempC - wetBulbC);
}

/** Net outgoing long wave [MJ/m2]. @source FAO-56 eq. 39 */
function netLongwave(sigmaT4: number, vapourKPa: number, relativeShortwave: number): number {
  return sigmaT4 * (0.34 - 0.14 * Math.sqrt(vapourKPa)) * (1.35 * relativeShortwave - 0.35);
}

/**
 * Net long-wave radiation leaving the ground over a day.
 * @param args.maxTempC, args.minTempC -60..60
 * @param args.vapourPressureKPa 0..10
 * @param args.relativeShortwave solar over clear-sky solar, 0.3..1
 * @returns [MJ/m2d]
 * @source FAO-56 eq. 39
 */
export function faoNetLongwaveDayMJ(args: {
  maxTempC: number;
  minTempC: number;
  vapourPressureKPa: number;
  relativeShortwave: number;
}): number {
  const hot = inRange('maxTempC', args.maxTempC, -60, 60) + KELVIN_AT_0C;
  const cold = inRange('minTempC', args.minTempC, -60, 60) + KELVIN_AT_0C;
  return netLongwave(
    (SIGMA_DAY * (hot ** 4 + cold ** 4)) / 2,
    inRange('vapourPressureKPa', args.vapourPressureKPa, 0, 10),
    inRange('relativeShortwave', args.relativeShortwave, 0.3, 1),
  );
}

/**
 * The same over an hour.
 * @param args.airTempC -60..60; the other two as for the day
 * @returns [MJ/m2h]
 * @source FAO-56 eq. 39, example 19
 */
export function faoNetLongwaveHourMJ(args: {
  airTempC: number;
  vapourPressureKPa: number;
  relativeShortwave: number;
}): number {
  return netLongwave(
    SIGMA_HOUR * (inRange('airTempC', args.airTempC, -60, 60) + KELVIN_AT_0C) ** 4,
    inRange('vapourPressureKPa', args.vapourPressureKPa, 0, 10),
    inRange('relativeShortwave', args.relativeShortwave, 0.3, 1),
  );
}

/**
 * Solar hour angle at mid-hour and the sun's radiation outside the atmosphere on the horizontal.
 * @param args.dayOfYear 1..366
 * @param args.clockHour mid-point on the zone's clock, 0..24
 * @param args.latitudeDeg -66..66; args.longitudeDeg west of the site, as FAO counts, 0..360
 * @param args.zoneLongitudeDeg west of the zone's centre, 0..360
 * @returns hourAngleRad, radiationMJ [MJ/m2h]
 * @source FAO-56 eq. 28-33
 */
export function faoExtraterrestrialHour(args: {
  dayOfYear: number;
  clockHour: number;
  latitudeDeg: number;
  longitudeDeg: number;
  zoneLongitudeDeg: number;
}): { hourAngleRad: number; radiationMJ: number } {
  const day = inRange('dayOfYear', args.dayOfYear, 1, 366);
  const clock = inRange('clockHour', args.clockHour, 0, 24);
  const lat = degToRad(inRange('latitudeDeg', args.latitudeDeg, -66, 66));
  const west =
    inRange('zoneLongitudeDeg', args.zoneLongitudeDeg, 0, 360) -
    inRange('longitudeDeg', args.longitudeDeg, 0, 360);
  const distance = 1 + 0.033 * Math.cos((2 * Math.PI * day) / 365); // 23
  const declination = 0.409 * Math.sin((2 * Math.PI * day) / 365 - 1.39); // 24
  const b = (2 * Math.PI * (day - 81)) / 364; // 33
  const season = 0.1645 * Math.sin(2 * b) - 0.1255 * Math.cos(b) - 0.025 * Math.sin(b); // 32
  const hourAngleRad = (Math.PI / 12) * (clock + west / 15 + season - 12); // 31
  const from = hourAngleRad - Math.PI / 24;
  const to = hourAngleRad + Math.PI / 24;
  const radiationMJ =
    ((12 * 60) / Math.PI) *
    SOLAR_CONSTANT *
    distance *
    ((to - from) * Math.sin(lat) * Math.sin(declination) +
      Math.cos(lat) * Math.cos(declination) * (Math.sin(to) - Math.sin(from)));
  return { hourAngleRad, radiationMJ: Math.max(0, radiationMJ) };
}

/** What both Penman-Monteith steps take; energy is per hour or per day. */
export interface PenmanMonteithArgs {
  readonly airTempC: number;
  /** Mean saturation vapour pressure; null = that of airTempC. Over a day FAO averages the extremes. */
  readonly saturationKPa: number | null;
  readonly vapourPressureKPa: number;
  /** At 2 m [m/s]. */
  readonly windMps: number;
  /** Net radiation and heat into the ground [MJ/m2]. */
  readonly netRadiationMJ: number;
  readonly groundHeatMJ: number;
  readonly pressureKPa: number;
  /** Resistance of the leaves: true for grass, false for a film of water (the 0.34 u2 dropped). */
  readonly grass: boolean;
}

/** The two terms of the answer [mm]: by sunlight, by dry moving air. */
export interface PenmanMonteithTerms {
  readonly radiationMm: number;
  readonly aerodynamicMm: number;
}

function penmanMonteith(args: PenmanMonteithArgs, airFactor: number): PenmanMonteithTerms {
  const t = inRange('airTempC', args.airTempC, -40, 60);
  const saturation = args.saturationKPa ?? faoSaturationKPa(t);
  inRange('saturationKPa', saturation, 0, 25);
  const vapour = inRange('vapourPressureKPa', args.vapourPressureKPa, 0, 25);
  const wind = inRange('windMps', args.windMps, 0, 60);
  const energy =
    inRange('netRadiationMJ', args.netRadiationMJ, -20, 50) -
    inRange('groundHeatMJ', args.groundHeatMJ, -20, 50);
  const slope = faoSlopeKPaK(t);
  const gamma = faoPsychrometricKPaK(args.pressureKPa);
  const below = slope + gamma * (args.grass ? 1 + 0.34 * wind : 1);
  return {
    radiationMm: (0.408 * slope * energy) / below,
    aerodynamicMm: (gamma * (airFactor / (t + 273)) * wind * (saturation - vapour)) / below,
  };
}

/**
 * Evaporation in an hour, by its two terms.
 * @throws RangeError outside the ranges in the code, NaN included
 * @source FAO-56 eq. 53, example 19; tests/published/evaporation-fao56.test.ts
 */
export function penmanMonteithHourly(args: PenmanMonteithArgs): PenmanMonteithTerms {
  return penmanMonteith(args, 37);
}

/** Evaporation in an hour [mm]. @source as `penmanMonteithHourly` */
export function penmanMonteithHourlyMm(args: PenmanMonteithArgs): number {
  const terms = penmanMonteithHourly(args);
  return terms.radiationMm + terms.aerodynamicMm;
}

/**
 * Evaporation in a day [mm].
 * @throws RangeError outside the ranges in the code, NaN included
 * @source FAO-56 eq. 6, example 17; tests/published/evaporation-fao56.test.ts
 */
export function penmanMonteithDailyMm(args: PenmanMonteithArgs): number {
  const terms = penmanMonteith(args, 900);
  return terms.radiationMm + terms.aerodynamicMm;
}
