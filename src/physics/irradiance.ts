import { degToRad, inRange } from '../units/index.ts';

/** Mean irradiance outside the atmosphere at the mean distance of the sun [W/m2] (as pvlib). */
const SOLAR_CONSTANT_WM2 = 1366.1;

/** Sine of an elevation of 0.06 deg: with the disc half set there is no beam to speak of. */
const LEAST_SINE = 1e-3;

/** ASHRAE clear-sky A [W/m2], B, C on the 21st of each month. */
const CLEAR_SKY = [
  [1202, 0.141, 0.103],
  [1187, 0.142, 0.104],
  [1164, 0.149, 0.109],
  [1130, 0.164, 0.12],
  [1106, 0.177, 0.13],
  [1092, 0.185, 0.137],
  [1093, 0.186, 0.138],
  [1107, 0.182, 0.134],
  [1136, 0.165, 0.121],
  [1166, 0.152, 0.111],
  [1190, 0.144, 0.106],
  [1204, 0.141, 0.103],
] as const;

/** Day of the year of the 21st of each month in a common year. */
const DAY_OF_21ST = [21, 52, 80, 111, 141, 172, 202, 233, 264, 294, 325, 355] as const;

/**
 * Irradiance outside the atmosphere on a plane facing the sun.
 * @param dayOfYear 1..366
 * @returns [W/m2]
 * @throws RangeError outside the range, NaN included
 * @source Spencer 1971, Fourier series of the earth-sun distance; tests/published/sun-irradiance.test.ts
 * @accuracy 0.01 % of the series
 */
export function extraterrestrialWm2(dayOfYear: number): number {
  const b = (2 * Math.PI * (inRange('dayOfYear', dayOfYear, 1, 366) - 1)) / 365;
  return (
    SOLAR_CONSTANT_WM2 *
    (1.00011 +
      0.034221 * Math.cos(b) +
      0.00128 * Math.sin(b) +
      0.000719 * Math.cos(2 * b) +
      0.000077 * Math.sin(2 * b))
  );
}

/**
 * Share of global horizontal irradiance that is diffuse.
 * @param clearness global over extraterrestrial horizontal [-], 0 or more; above 1 is broken cloud
 * @returns [-], 0.165..1
 * @throws RangeError below 0 or NaN
 * @source Erbs, Klein & Duffie 1982, Solar Energy 28:293, eq. 1; tests/published/sun-irradiance.test.ts
 * @accuracy the fit is to hourly means; single hours scatter by +/-0.1 or more in broken cloud
 */
export function diffuseFraction(clearness: number): number {
  const k = inRange('clearness', clearness, 0, Number.MAX_VALUE);
  if (k <= 0.22) return 1 - 0.09 * k;
  if (k > 0.8) return 0.165;
  return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

/**
 * Sunlight under a clear sky.
 * @param args.sunElevationDeg geometric, -90..90
 * @param args.dayOfYear 1..366; the monthly coefficients are interpolated between the 21sts
 * @returns directNormalWm2, diffuseWm2 (horizontal) and globalWm2 (horizontal); 0 with the sun down
 * @throws RangeError outside these ranges, NaN included
 * @source ASHRAE Fundamentals 2005 ch. 31 eq. 16-18, table 7 (July read in a quoted table, the other
 *   months in public code); tests/published/sun-irradiance.test.ts
 * @accuracy +/-15 %: haze is not in it
 */
export function clearSkyWm2(args: { sunElevationDeg: number; dayOfYear: number }): {
  directNormalWm2: number;
  diffuseWm2: number;
  globalWm2: number;
} {
  const elevation = inRange('sunElevationDeg', args.sunElevationDeg, -90, 90);
  const day = inRange('dayOfYear', args.dayOfYear, 1, 366);
  if (elevation <= 0) return { directNormalWm2: 0, diffuseWm2: 0, globalWm2: 0 };
  const next = DAY_OF_21ST.findIndex((d) => d > day);
  const to = next === -1 ? 0 : next;
  const from = (to + 11) % 12;
  const span = (DAY_OF_21ST[to]! - DAY_OF_21ST[from]! + 365) % 365;
  const share = ((day - DAY_OF_21ST[from]! + 365) % 365) / span;
  const at = (i: 0 | 1 | 2) => CLEAR_SKY[from]![i] * (1 - share) + CLEAR_SKY[to]![i] * share;
  const sine = Math.sin(degToRad(elevation));
  const directNormalWm2 = at(0) * Math.exp(-at(1) / sine);
  const diffuseWm2 = at(2) * directNormalWm2;
  return { directNormalWm2, diffuseWm2, globalWm2: directNormalWm2 * sine + diffuseWm2 };
}

/**
 * Sunlight on a sloping or upright plane: direct by the angle of incidence, diffuse from an even sky,
 * and the light the surroundings throw back. Behind the skyline the direct part is gone; the part of
 * the sky dome the skyline hides is taken off by `skyViewShare`.
 * The direct beam is never taken stronger than outside the atmosphere; what a low sun cannot account
 * for counts as diffuse, so a horizontal plane in the open always gets back `globalWm2`.
 * @param args.globalWm2 on the horizontal [W/m2], 0..1600
 * @param args.diffuseWm2 on the horizontal [W/m2], 0..globalWm2 (+1 for rounded feeds), or null:
 *   split by `diffuseFraction`
 * @param args.sunElevationDeg geometric, -90..90; within 0.06 deg of the horizon all light is diffuse
 * @param args.sunAzimuthDeg from north, clockwise, -360..360
 * @param args.fallDeg 0 = flat, 90 = wall
 * @param args.azimuthDeg direction the fall faces, from north, -360..360
 * @param args.skylineElevationDeg height of the skyline where the sun stands, -90..90
 * @param args.groundReflectance of what the plane looks down on, 0..1; 0.2 is usual
 * @param args.skyViewShare optional, 0..1: share of the sky's light the skyline lets through, from
 *   `skyViewOfSkyline`; 1, nothing hidden, if left out. Scales the diffuse part only
 * @param args.dayOfYear optional, 1..366: sharpens the split; without it +/-3.4 % of sun strength
 * @returns [W/m2]
 * @throws RangeError outside these ranges, NaN included
 * @source isotropic sky of Liu & Jordan 1963 as in pvlib; tests/published/sun-irradiance.test.ts
 * @accuracy the even sky is low by up to 10 % facing a clear sun (circumsolar light); light thrown back
 *   by what hides the sky is left out, so a bright wall close by makes it low again
 */
export function planeIrradianceWm2(args: {
  globalWm2: number;
  diffuseWm2: number | null;
  sunElevationDeg: number;
  sunAzimuthDeg: number;
  fallDeg: number;
  azimuthDeg: number;
  skylineElevationDeg: number;
  groundReflectance: number;
  skyViewShare?: number;
  dayOfYear?: number;
}): number {
  const global = inRange('globalWm2', args.globalWm2, 0, 1600);
  const elevation = inRange('sunElevationDeg', args.sunElevationDeg, -90, 90);
  const sunAzimuth = inRange('sunAzimuthDeg', args.sunAzimuthDeg, -360, 360);
  const fall = degToRad(inRange('fallDeg', args.fallDeg, 0, 90));
  const azimuth = inRange('azimuthDeg', args.azimuthDeg, -360, 360);
  const skyline = inRange('skylineElevationDeg', args.skylineElevationDeg, -90, 90);
  const reflectance = inRange('groundReflectance', args.groundReflectance, 0, 1);
  const skyView = inRange('skyViewShare', args.skyViewShare ?? 1, 0, 1);
  const beyondAir =
    args.dayOfYear === undefined ? SOLAR_CONSTANT_WM2 : extraterrestrialWm2(args.dayOfYear);

  const sine = Math.sin(degToRad(elevation));
  const sunUp = sine > LEAST_SINE;
  let diffuse: number;
  if (args.diffuseWm2 !== null) {
    diffuse = Math.min(global, inRange('diffuseWm2', args.diffuseWm2, 0, global + 1));
  } else {
    diffuse = sunUp ? global * diffuseFraction(global / (beyondAir * sine)) : global;
  }
  const direct = sunUp ? Math.min((global - diffuse) / sine, beyondAir) : 0;
  diffuse = global - direct * Math.max(0, sine);

  const cosFall = Math.cos(fall);
  let onPlane =
    (skyView * diffuse * (1 + cosFall)) / 2 + (global * reflectance * (1 - cosFall)) / 2;
  if (direct > 0 && elevation >= skyline) {
    const incidence =
      sine * cosFall +
      Math.cos(degToRad(elevation)) * Math.sin(fall) * Math.cos(degToRad(sunAzimuth - azimuth));
    if (incidence > 0) onPlane += direct * incidence;
  }
  return onPlane;
}
