import { inRange } from '../units/index.ts';
import { hotFaceVapourHPa, WATER_AIR_MASS_RATIO } from './hot.ts';
import { satVapPressureIceHPa, satVapPressureWaterHPa } from './saturation.ts';

/**
 * Mass of water vapour per mass of dry air.
 * @param args.vapourPressureHPa [hPa], 0..500 and below half the air pressure
 * @param args.pressureHPa air pressure [hPa], 500..1100
 * @returns [kg/kg]
 * @throws RangeError outside these ranges, NaN included
 * @source ASHRAE Fundamentals 2017 ch. 1 eq. 20 (ideal gases, no enhancement factor);
 *   tests/published/air.test.ts
 * @accuracy 0.5 % below ASHRAE table 2, which includes the enhancement factor
 */
export function humidityRatio(args: { vapourPressureHPa: number; pressureHPa: number }): number {
  const p = inRange('pressureHPa', args.pressureHPa, 500, 1100);
  const e = inRange('vapourPressureHPa', args.vapourPressureHPa, 0, Math.min(500, p / 2));
  return (WATER_AIR_MASS_RATIO * e) / (p - e);
}

/**
 * Vapour pressure from the humidity ratio: the inverse of `humidityRatio`.
 * @param args.humidityRatio [kg/kg], 0..0.6
 * @param args.pressureHPa air pressure [hPa], 500..1100
 * @returns [hPa]
 * @throws RangeError outside these ranges, NaN included
 */
export function vapourPressureFromRatioHPa(args: {
  humidityRatio: number;
  pressureHPa: number;
}): number {
  const w = inRange('humidityRatio', args.humidityRatio, 0, 0.6);
  return (inRange('pressureHPa', args.pressureHPa, 500, 1100) * w) / (WATER_AIR_MASS_RATIO + w);
}

/**
 * Enthalpy of moist air per mass of dry air, 0 for dry air at 0 °C.
 * @param args.airTempC [°C], -80..80
 * @param args.humidityRatio [kg/kg], 0..0.6
 * @returns [kJ/kg]
 * @throws RangeError outside these ranges, NaN included
 * @source ASHRAE Fundamentals 2017 ch. 1 eq. 30; tests/published/air.test.ts
 */
export function enthalpyKJkg(args: { airTempC: number; humidityRatio: number }): number {
  const t = inRange('airTempC', args.airTempC, -80, 80);
  const w = inRange('humidityRatio', args.humidityRatio, 0, 0.6);
  return 1.006 * t + w * (2501 + 1.86 * t);
}

/**
 * Humidity ratio from a dry-bulb and wet-bulb reading (whirling psychrometer).
 * @param args.airTempC dry bulb [°C], -40..60
 * @param args.wetBulbC [°C], -40..60; below 0 the bulb carries ice. At most airTempC from 0 °C up
 * @param args.pressureHPa air pressure [hPa], 500..1100
 * @returns [kg/kg]; negative where the two readings cannot belong together
 * @throws RangeError outside these ranges, NaN included
 * @source ASHRAE Fundamentals 2017 ch. 1 eq. 33, eq. 35; tests/published/air.test.ts
 */
export function humidityRatioFromWetBulb(args: {
  airTempC: number;
  wetBulbC: number;
  pressureHPa: number;
}): number {
  const t = inRange('airTempC', args.airTempC, -40, 60);
  const tw = inRange('wetBulbC', args.wetBulbC, -40, args.wetBulbC >= 0 ? t : 60);
  const p = inRange('pressureHPa', args.pressureHPa, 500, 1100);
  return tw >= 0 ? ratioOverWater(t, tw, p) : ratioOverIce(t, tw, p);
}

function saturatedRatio(vapourHPa: number, pressureHPa: number): number {
  return (WATER_AIR_MASS_RATIO * vapourHPa) / (pressureHPa - vapourHPa);
}

function ratioOverWater(t: number, tw: number, p: number): number {
  const saturated = saturatedRatio(satVapPressureWaterHPa(tw), p);
  return ((2501 - 2.326 * tw) * saturated - 1.006 * (t - tw)) / (2501 + 1.86 * t - 4.186 * tw);
}

function ratioOverIce(t: number, tw: number, p: number): number {
  const saturated = saturatedRatio(satVapPressureIceHPa(tw), p);
  return ((2830 - 0.24 * tw) * saturated - 1.006 * (t - tw)) / (2830 + 1.86 * t - 2.1 * tw);
}

/**
 * Thermodynamic wet-bulb temperature. Below 0 °C the bulb carries ice: it then lies between the air
 * temperature and the frost point, which in damp frosty air is slightly *above* the air temperature.
 * @param args.airTempC dry bulb [°C], -40..60
 * @param args.relHumPct over water [%], 1..100
 * @param args.pressureHPa air pressure [hPa], 500..1100
 * @returns [°C], solved to 1e-6 K
 * @throws RangeError outside these ranges, NaN included
 * @source ASHRAE Fundamentals 2017 ch. 1 eq. 33, eq. 35; tests/published/air.test.ts
 * @accuracy within 0.001 K of a second library above 0 °C
 */
export function wetBulbC(args: {
  airTempC: number;
  relHumPct: number;
  pressureHPa: number;
}): number {
  const t = inRange('airTempC', args.airTempC, -40, 60);
  const p = inRange('pressureHPa', args.pressureHPa, 500, 1100);
  const relHumPct = inRange('relHumPct', args.relHumPct, 1, 100);
  // Hyland & Wexler throughout, so that saturated air has a wet bulb equal to its temperature.
  const w = saturatedRatio((satVapPressureWaterHPa(t) * relHumPct) / 100, p);
  // Both branches rise with the bulb temperature, so a sign change is found by halving.
  const overWater = t >= 0 && ratioOverWater(t, 0, p) <= w;
  if (overWater) return bisect((tw) => ratioOverWater(t, tw, p) - w, 0, t);
  // An ice-bulb may be warmer than air that is supersaturated over ice, but never above 0 °C.
  const low = Math.min(t, 0) - 40;
  return bisect((tw) => ratioOverIce(t, tw, p) - w, low, 0);
}

function bisect(rising: (x: number) => number, lowIn: number, highIn: number): number {
  let low = lowIn;
  let high = highIn;
  while (high - low > 1e-7) {
    const mid = (low + high) / 2;
    if (rising(mid) < 0) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}

/**
 * Vapour pressure at a wet or frosted face.
 * @param tempC face temperature [°C], -80..120
 * @returns [hPa], over water from 0 °C up, over ice below
 * @throws RangeError outside the range, NaN included
 */
export function faceVapourPressureHPa(tempC: number): number {
  return hotFaceVapourHPa(inRange('tempC', tempC, -80, 120));
}
