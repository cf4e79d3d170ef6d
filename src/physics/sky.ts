import { inRange, KELVIN_AT_0C } from '../units/index.ts';
import { hotSkyEmissivity, hotSkyRadiationWm2 } from './hot.ts';

function dew(value: number): number {
  return inRange('dewPointC', value, -100, 50);
}

/**
 * Emissivity of the whole sky, related to the air temperature at 2 m.
 * @param args.dewPointC [°C], -100..50
 * @param args.cloudPct cover [%], 0..100. The source means opaque cloud; total cover from a feed
 *   counts thin high cloud in full and so reads somewhat warm
 * @returns [-], at most 1: the printed cloud factor passes 1 near a dew point of 30 °C under full cover
 * @throws RangeError outside these ranges, NaN included
 * @source Clark & Allen 1978 with the cloud factor of Walton, NBSIR 83-2655; tests/published/sky.test.ts
 * @accuracy sky temperatures of published formulas differ by 5 K on a clear night: take +/-3 K
 */
export function skyEmissivity(args: { dewPointC: number; cloudPct: number }): number {
  return hotSkyEmissivity(dew(args.dewPointC), inRange('cloudPct', args.cloudPct, 0, 100));
}

/**
 * Long-wave radiation coming down from the sky.
 * @param args.airTempC at 2 m [°C], -80..60
 * @param args.dewPointC [°C], -100..50
 * @param args.cloudPct cover [%], 0..100
 * @returns [W/m2] on a horizontal face that sees all of the sky
 * @throws RangeError outside these ranges, NaN included
 * @source as `skyEmissivity`; tests/published/sky.test.ts
 */
export function skyRadiationWm2(args: {
  airTempC: number;
  dewPointC: number;
  cloudPct: number;
}): number {
  return hotSkyRadiationWm2(
    inRange('airTempC', args.airTempC, -80, 60),
    dew(args.dewPointC),
    inRange('cloudPct', args.cloudPct, 0, 100),
  );
}

/**
 * Temperature of a black body that radiates as the sky does.
 * @param args as `skyRadiationWm2`
 * @returns [°C]
 * @throws RangeError outside its ranges, NaN included
 */
export function skyTempC(args: { airTempC: number; dewPointC: number; cloudPct: number }): number {
  const air = inRange('airTempC', args.airTempC, -80, 60) + KELVIN_AT_0C;
  return air * skyEmissivity(args) ** 0.25 - KELVIN_AT_0C;
}

/**
 * Clear-sky emissivity after Berdahl & Martin: the second opinion behind the stated +/-3 K.
 * @param args.dewPointC [°C], -30..30
 * @param args.solarHour true solar time, 0..24
 * @param args.pressureHPa station pressure [hPa], 700..1100
 * @returns [-]
 * @throws RangeError outside these ranges, NaN included
 * @source Berdahl & Martin 1984, Solar Energy 32:663 (pressure base 1000 hPa from memory);
 *   tests/published/sky.test.ts
 */
export function skyEmissivityBerdahlMartin(args: {
  dewPointC: number;
  solarHour: number;
  pressureHPa: number;
}): number {
  const d = inRange('dewPointC', args.dewPointC, -30, 30) / 100;
  const hour = inRange('solarHour', args.solarHour, 0, 24);
  const pressureHPa = inRange('pressureHPa', args.pressureHPa, 700, 1100);
  return (
    0.711 +
    d * (0.56 + 0.73 * d) +
    0.013 * Math.cos((2 * Math.PI * hour) / 24) +
    0.00012 * (pressureHPa - 1000)
  );
}

/**
 * Clear-sky temperature after Swinbank, from air temperature alone.
 * @param airTempC [°C], -40..50
 * @returns [°C]
 * @throws RangeError outside the range, NaN included
 * @source Swinbank 1963, Q. J. R. Meteorol. Soc. 89:339; tests/published/sky.test.ts
 */
export function skyTempSwinbankC(airTempC: number): number {
  return 0.0552 * (inRange('airTempC', airTempC, -40, 50) + KELVIN_AT_0C) ** 1.5 - KELVIN_AT_0C;
}
