import { degToRad, inRange, MS_PER_MINUTE, radToDeg } from '../units/index.ts';

const MS_PER_DAY = 86_400_000;
/** 1900-01-01 and 2100-01-01 UTC, the span the short series are good for. */
const FIRST_MS = -2_208_988_800_000;
const LAST_MS = 4_102_444_800_000;

export interface SunPosition {
  /** Centre of the disc above the horizon, no refraction [deg]. */
  readonly elevationDeg: number;
  /** From north, clockwise [deg], 0..360. */
  readonly azimuthDeg: number;
  /** As seen through a standard atmosphere (1010 hPa, 10 °C) [deg]. */
  readonly apparentElevationDeg: number;
}

/**
 * Where the sun stands.
 * @param args.atMs instant [epoch ms UTC], years 1900..2099
 * @param args.latitudeDeg north positive, -90..90
 * @param args.longitudeDeg east positive, -180..180
 * @throws RangeError outside these ranges, NaN included
 * @source Meeus, Astronomical Algorithms, 2nd ed. 1998, ch. 25 (low accuracy) as laid out in the NOAA
 *   solar calculation spreadsheet; not its short Fourier form. tests/published/sun.test.ts
 * @accuracy within 0.003 deg of the SPA worked example, 0.02 deg of a second library with its own
 *   refraction. Parallax (0.002 deg) and terrestrial against universal time (0.001 deg) are left out
 */
export function sunPosition(args: {
  atMs: number;
  latitudeDeg: number;
  longitudeDeg: number;
}): SunPosition {
  const atMs = inRange('atMs', args.atMs, FIRST_MS, LAST_MS);
  const lat = degToRad(inRange('latitudeDeg', args.latitudeDeg, -90, 90));
  const longitudeDeg = inRange('longitudeDeg', args.longitudeDeg, -180, 180);
  const sun = sunCoordinates(atMs);
  const hourAngle = degToRad(hourAngleDeg(atMs, longitudeDeg, sun.timeEquationMin));
  const sinElevation =
    Math.sin(lat) * Math.sin(sun.declination) +
    Math.cos(lat) * Math.cos(sun.declination) * Math.cos(hourAngle);
  const elevationDeg = radToDeg(Math.asin(Math.max(-1, Math.min(1, sinElevation))));
  const fromSouth = Math.atan2(
    Math.sin(hourAngle),
    Math.cos(hourAngle) * Math.sin(lat) - Math.tan(sun.declination) * Math.cos(lat),
  );
  return {
    elevationDeg,
    azimuthDeg: (radToDeg(fromSouth) + 540) % 360,
    apparentElevationDeg: elevationDeg + refractionDeg(elevationDeg),
  };
}

/** Geometric elevation only; the guard-free inner version for root finding. */
export function sunElevation(atMs: number, latitudeDeg: number, longitudeDeg: number): number {
  const sun = sunCoordinates(atMs);
  const hourAngle = degToRad(hourAngleDeg(atMs, longitudeDeg, sun.timeEquationMin));
  const lat = degToRad(latitudeDeg);
  const sine =
    Math.sin(lat) * Math.sin(sun.declination) +
    Math.cos(lat) * Math.cos(sun.declination) * Math.cos(hourAngle);
  return radToDeg(Math.asin(Math.max(-1, Math.min(1, sine))));
}

/** Hour angle [deg], 0 at true noon, positive after it. */
export function sunHourAngleDeg(atMs: number, longitudeDeg: number): number {
  return hourAngleDeg(atMs, longitudeDeg, sunCoordinates(atMs).timeEquationMin);
}

function hourAngleDeg(atMs: number, longitudeDeg: number, timeEquationMin: number): number {
  const dayMs = ((atMs % MS_PER_DAY) + MS_PER_DAY) % MS_PER_DAY;
  const trueSolarMin = dayMs / MS_PER_MINUTE + timeEquationMin + 4 * longitudeDeg;
  return ((((trueSolarMin / 4) % 360) + 360) % 360) - 180;
}

/** Declination [rad] and equation of time [min]; equation numbers are Meeus's. */
function sunCoordinates(atMs: number): { declination: number; timeEquationMin: number } {
  const t = (atMs / MS_PER_DAY + 2440587.5 - 2451545) / 36525; // 25.1
  const meanLongitude = degToRad((280.46646 + t * (36000.76983 + t * 0.0003032)) % 360); // 25.2
  const anomaly = degToRad(357.52911 + t * (35999.05029 - 0.0001537 * t)); // 25.3
  const eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t); // 25.4
  const centre =
    Math.sin(anomaly) * (1.914602 - t * (0.004817 + 0.000014 * t)) +
    Math.sin(2 * anomaly) * (0.019993 - 0.000101 * t) +
    Math.sin(3 * anomaly) * 0.000289;
  const node = degToRad(125.04 - 1934.136 * t);
  const apparentLongitude = meanLongitude + degToRad(centre - 0.00569 - 0.00478 * Math.sin(node)); // ch. 25, p. 164
  const obliquity = degToRad(
    23 +
      (26 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60) / 60 + // 22.2
      0.00256 * Math.cos(node), // 25.8
  );
  const declination = Math.asin(Math.sin(obliquity) * Math.sin(apparentLongitude)); // 25.7
  const y = Math.tan(obliquity / 2) ** 2;
  const timeEquation =
    y * Math.sin(2 * meanLongitude) -
    2 * eccentricity * Math.sin(anomaly) +
    4 * eccentricity * y * Math.sin(anomaly) * Math.cos(2 * meanLongitude) -
    0.5 * y * y * Math.sin(4 * meanLongitude) -
    1.25 * eccentricity * eccentricity * Math.sin(2 * anomaly); // 28.3
  return { declination, timeEquationMin: 4 * radToDeg(timeEquation) };
}

/** Refraction of a standard atmosphere (NOAA spreadsheet) [deg]. */
function refractionDeg(elevationDeg: number): number {
  if (elevationDeg > 85) return 0;
  const tan = Math.tan(degToRad(elevationDeg));
  if (elevationDeg > 5) return (58.1 / tan - 0.07 / tan ** 3 + 0.000086 / tan ** 5) / 3600;
  if (elevationDeg > -0.575) {
    const h = elevationDeg;
    return (1735 + h * (-518.2 + h * (103.4 + h * (-12.79 + h * 0.711)))) / 3600;
  }
  return -20.772 / tan / 3600;
}
