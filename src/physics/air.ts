import { inRange } from '../units/index.ts';
import { hotMagnusWaterHPa } from './hot.ts';

/**
 * Moisture of the air. Relative humidity, dew point and vapour pressure here are all over liquid
 * water, below 0 °C too (the WMO convention, and what weather services report), and all made of
 * the same Magnus formula, so going round in a circle gives back what went in.
 */

const RH_RANGE = [1, 100] as const;

function relHum(value: number): number {
  return inRange('relHumPct', value, RH_RANGE[0], RH_RANGE[1]);
}

function airTemp(value: number): number {
  return inRange('airTempC', value, -80, 80);
}

/**
 * Partial pressure of water vapour in air of a given relative humidity.
 * @param args.airTempC dry-bulb [°C], -80..80
 * @param args.relHumPct over water [%], 1..100
 * @returns [hPa]
 * @throws RangeError outside these ranges, NaN included
 * @source WMO-No. 8, annex 4.B; tests/published/air.test.ts
 */
export function vapourPressureHPa(args: { airTempC: number; relHumPct: number }): number {
  return (hotMagnusWaterHPa(airTemp(args.airTempC)) * relHum(args.relHumPct)) / 100;
}

/**
 * Partial pressure of water vapour in air of a given dew point.
 * @param dewPointC over water [°C], -100..60
 * @returns [hPa]
 * @throws RangeError outside the range, NaN included
 * @source WMO-No. 8, annex 4.B; tests/published/air.test.ts
 */
export function vapourPressureFromDewHPa(dewPointC: number): number {
  return hotMagnusWaterHPa(inRange('dewPointC', dewPointC, -100, 60));
}

/**
 * How much more vapour the air could take up: the drive behind water-borne drying.
 * @param args.airTempC dry-bulb [°C], -80..80
 * @param args.relHumPct over water [%], 1..100
 * @returns [hPa], 0 at saturation
 * @throws RangeError outside these ranges, NaN included
 */
export function vapourDeficitHPa(args: { airTempC: number; relHumPct: number }): number {
  return hotMagnusWaterHPa(airTemp(args.airTempC)) - vapourPressureHPa(args);
}

/**
 * Dew point over liquid water from a vapour pressure.
 * @param vapourPressureHPaIn [hPa], 0.001..200
 * @returns [°C]
 * @throws RangeError outside the range, NaN included
 * @source WMO-No. 8, annex 4.B, inverted; tests/published/air.test.ts
 */
export function dewPointFromVapourC(vapourPressureHPaIn: number): number {
  const g = Math.log(inRange('vapourPressureHPa', vapourPressureHPaIn, 0.001, 200) / 6.112);
  return (243.12 * g) / (17.62 - g);
}

/**
 * Dew point over liquid water.
 * @param args.airTempC dry-bulb [°C], -80..80
 * @param args.relHumPct over water [%], 1..100
 * @returns [°C], never above airTempC but for rounding
 * @throws RangeError outside these ranges, NaN included
 * @source WMO-No. 8, annex 4.B, inverted; tests/published/air.test.ts
 * @accuracy within 0.05 K of inverting Hyland & Wexler at 0..50 °C and 20..100 %
 */
export function dewPointC(args: { airTempC: number; relHumPct: number }): number {
  const airTempC = airTemp(args.airTempC);
  const g = Math.log(relHum(args.relHumPct) / 100) + (17.62 * airTempC) / (243.12 + airTempC);
  return (243.12 * g) / (17.62 - g);
}

/**
 * Frost point: the temperature at which hoar forms on a face below 0 °C; some tenths above the dew
 * point.
 * @param args.airTempC dry-bulb [°C], -80..80
 * @param args.relHumPct over water [%], 1..100
 * @returns [°C], at or below 0; null where the dew point is above 0 °C and water, not frost, forms
 * @throws RangeError outside these ranges, NaN included
 * @source WMO-No. 8, annex 4.B, over ice, inverted; tests/published/air.test.ts
 */
export function frostPointC(args: { airTempC: number; relHumPct: number }): number | null {
  const g = Math.log(vapourPressureHPa(args) / 6.112);
  return g > 0 ? null : (272.62 * g) / (22.46 - g);
}

/**
 * Relative humidity from air temperature and dew point, both over liquid water.
 * @param args.airTempC dry-bulb [°C], -80..80
 * @param args.dewPointC [°C], -100..60, not above airTempC by more than 0.05 K
 * @returns [%]; a dew point above the air by less than 0.05 K (rounded feeds) counts as 100
 * @throws RangeError outside these ranges, NaN included
 * @source WMO-No. 8, annex 4.B; tests/laws/physics-air.test.ts
 */
export function relHumFromDewPct(args: { airTempC: number; dewPointC: number }): number {
  const airTempC = airTemp(args.airTempC);
  const dew = inRange('dewPointC', args.dewPointC, -100, Math.min(60, airTempC + 0.05));
  if (dew >= airTempC) return 100;
  return (100 * hotMagnusWaterHPa(dew)) / hotMagnusWaterHPa(airTempC);
}
