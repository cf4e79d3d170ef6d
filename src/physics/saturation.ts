import { cToK, inRange, KELVIN_AT_0C } from '../units/index.ts';
import { hotMagnusIceHPa, hotMagnusWaterHPa } from './hot.ts';

/**
 * Saturation pressure of water vapour over liquid water, Hyland & Wexler.
 * @param tempC [°C], -50..200; the source covers 0..200, below 0 it is continued to supercooled water
 * @returns [hPa]
 * @throws RangeError outside the range, NaN included
 * @source Hyland & Wexler 1983 in ASHRAE Fundamentals 2017 ch. 1 eq. 6; tests/published/air.test.ts
 * @accuracy within 0.03 % of ASHRAE table 3
 */
export function satVapPressureWaterHPa(tempC: number): number {
  const t = cToK(inRange('tempC', tempC, -50, 200));
  const lnPa =
    -5.8002206e3 / t +
    1.3914993 +
    t * (-4.8640239e-2 + t * (4.1764768e-5 + t * -1.4452093e-8)) +
    6.5459673 * Math.log(t);
  return Math.exp(lnPa) / 100;
}

/**
 * Saturation pressure of water vapour over ice, Hyland & Wexler.
 * @param tempC [°C], -100..0.01
 * @returns [hPa]
 * @throws RangeError outside the range, NaN included
 * @source Hyland & Wexler 1983 in ASHRAE Fundamentals 2017 ch. 1 eq. 5; tests/published/air.test.ts
 * @accuracy within 0.03 % of ASHRAE table 3
 */
export function satVapPressureIceHPa(tempC: number): number {
  const t = cToK(inRange('tempC', tempC, -100, 0.01));
  const lnPa =
    -5.6745359e3 / t +
    6.3925247 +
    t * (-9.677843e-3 + t * (6.2215701e-7 + t * (2.0747825e-9 + t * -9.484024e-13))) +
    4.1635019 * Math.log(t);
  return Math.exp(lnPa) / 100;
}

/**
 * Saturation pressure over liquid water by the WMO Magnus formula: fast and exactly invertible, and
 * so the one that dew point, vapour pressure and surface water of this project are made of.
 * @param tempC [°C], -100..120; WMO states -45..60, hot roofs and very dry air lie outside
 * @returns [hPa]
 * @throws RangeError outside -100..120, NaN included
 * @source WMO-No. 8, annex 4.B; tests/published/air.test.ts
 * @accuracy within 0.30 % of Hyland & Wexler over 0..50 °C, 1.1 % at 80 °C
 */
export function magnusWaterHPa(tempC: number): number {
  return hotMagnusWaterHPa(inRange('tempC', tempC, -100, 120));
}

/**
 * Saturation pressure over ice by the WMO Magnus formula.
 * @param tempC [°C], -100..0.01; WMO states -65..0
 * @returns [hPa]
 * @throws RangeError outside -100..0.01, NaN included
 * @source WMO-No. 8, annex 4.B; tests/published/air.test.ts
 * @accuracy within 0.2 % of Hyland & Wexler over -40..0 °C
 */
export function magnusIceHPa(tempC: number): number {
  return hotMagnusIceHPa(inRange('tempC', tempC, -100, 0.01));
}

/**
 * Mass of water vapour in a cubic metre of air.
 * @param args.airTempC [°C], -80..80
 * @param args.vapourPressureHPa [hPa], 0..500
 * @returns [g/m3]
 * @throws RangeError outside these ranges, NaN included
 * @source ideal gas law with 461.5 J/kgK for water vapour
 */
export function absoluteHumidityGm3(args: { airTempC: number; vapourPressureHPa: number }): number {
  const airTempC = inRange('airTempC', args.airTempC, -80, 80);
  const vapourPressureHPa = inRange('vapourPressureHPa', args.vapourPressureHPa, 0, 500);
  return (216.7 * vapourPressureHPa) / (airTempC + KELVIN_AT_0C);
}

/**
 * Air pressure of the standard atmosphere.
 * @param elevationM [m above sea level], -500..11000
 * @returns [hPa]
 * @throws RangeError outside the range, NaN included
 * @source ASHRAE Fundamentals 2017 ch. 1 eq. 3; tests/published/air.test.ts
 * @accuracy within 1 Pa of ASHRAE table 1; the weather of the day moves it by +/-3 %
 */
export function pressureAtElevationHPa(elevationM: number): number {
  const z = inRange('elevationM', elevationM, -500, 11000);
  return 1013.25 * (1 - 2.25577e-5 * z) ** 5.2559;
}
