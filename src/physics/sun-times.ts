import { inRange, MS_PER_HOUR } from '../units/index.ts';
import { sunElevation, sunHourAngleDeg } from './sun.ts';

/** Centre of the disc at rise and set: 34' of refraction and 16' of radius below the horizon. */
const RISE_SET_DEG = -0.833;
/** Centre of the disc at the start and end of civil twilight. */
const CIVIL_DEG = -6;
const FIRST_MS = -2_208_988_800_000;
const LAST_MS = 4_102_444_800_000;

export interface SunTimes {
  /** First instant of the day at which the sun comes up; null = it does not on this day. */
  readonly sunriseMs: number | null;
  /**
   * First instant after sunrise at which it goes down, else (where it sets before it rises, as just
   * after midnight in a high northern summer) the last one of the day; null = none.
   */
  readonly sunsetMs: number | null;
  readonly civilDawnMs: number | null;
  readonly civilDuskMs: number | null;
  /** 'day' = the sun is up all day, 'night' = it never rises; else null. */
  readonly polar: 'day' | 'night' | null;
}

/**
 * Sunrise, sunset and civil twilight of one local calendar day. The day is given by its two instants,
 * so days of 23 and 25 hours work and no sunset of the day before can slip in, as happens where the
 * UTC day is used (the printed SPA example shows the sunset of the previous local day).
 * @param args.dayStartMs local midnight [epoch ms UTC], years 1900..2099
 * @param args.dayEndMs the next local midnight, 20..28 h later
 * @param args.latitudeDeg -90..90
 * @param args.longitudeDeg east positive, -180..180
 * @returns instants [epoch ms UTC], solved to 0.1 s
 * @throws RangeError outside these ranges, NaN included
 * @source as `sunPosition`; zenith 90.833 deg and 96 deg as USNO; tests/published/sun.test.ts
 * @accuracy within 2 s of NREL's SPA and the minute of USNO. Level horizon: a hill or a tall parapet shifts
 *   what is seen; the air of the day moves sunrise by a minute or more
 */
export function sunTimes(args: {
  dayStartMs: number;
  dayEndMs: number;
  latitudeDeg: number;
  longitudeDeg: number;
}): SunTimes {
  const start = inRange('dayStartMs', args.dayStartMs, FIRST_MS, LAST_MS);
  const end = inRange(
    'dayEndMs',
    args.dayEndMs,
    start + 20 * MS_PER_HOUR,
    start + 28 * MS_PER_HOUR,
  );
  const lat = inRange('latitudeDeg', args.latitudeDeg, -90, 90);
  const lon = inRange('longitudeDeg', args.longitudeDeg, -180, 180);
  const turns = turningPoints(start, end, lon);
  const [sunriseMs, sunsetMs] = crossings(turns, lat, lon, RISE_SET_DEG);
  const [civilDawnMs, civilDuskMs] = crossings(turns, lat, lon, CIVIL_DEG);
  let polar: SunTimes['polar'] = null;
  if (sunriseMs === null && sunsetMs === null) {
    polar = sunElevation((start + end) / 2, lat, lon) > RISE_SET_DEG ? 'day' : 'night';
  }
  return { sunriseMs, sunsetMs, civilDawnMs, civilDuskMs, polar };
}

/** The day cut where the sun turns (its highest and lowest), so that each piece only rises or falls. */
function turningPoints(start: number, end: number, lon: number): number[] {
  const points = [start];
  // Hour angle runs 15 deg/h to within 0.02 %: two corrections leave less than 0.1 s.
  const degToMs = MS_PER_HOUR / 15;
  const untilLow = (180 - sunHourAngleDeg(start, lon)) * degToMs;
  for (let half = -1; half <= 3; half += 1) {
    let at = start + untilLow + half * 12 * MS_PER_HOUR;
    const target = half % 2 === 0 ? 180 : 0;
    for (let k = 0; k < 3; k += 1) {
      const off = ((((target - sunHourAngleDeg(at, lon)) % 360) + 540) % 360) - 180;
      at += off * degToMs;
    }
    if (at > start && at < end) points.push(at);
  }
  points.push(end);
  return points;
}

/** First upward crossing of an elevation, and the downward one that belongs to it. */
function crossings(
  points: readonly number[],
  lat: number,
  lon: number,
  levelDeg: number,
): [number | null, number | null] {
  let up: number | null = null;
  let downAfterUp: number | null = null;
  let lastDown: number | null = null;
  for (let i = 1; i < points.length; i += 1) {
    const from = points[i - 1]!;
    const to = points[i]!;
    const below = sunElevation(from, lat, lon) < levelDeg;
    if (below === sunElevation(to, lat, lon) < levelDeg) continue;
    const at = solve(from, to, below, lat, lon, levelDeg);
    if (below) up ??= at;
    else {
      lastDown = at;
      if (up !== null) downAfterUp ??= at;
    }
  }
  return [up, downAfterUp ?? lastDown];
}

function solve(
  fromIn: number,
  toIn: number,
  rising: boolean,
  lat: number,
  lon: number,
  levelDeg: number,
): number {
  let from = fromIn;
  let to = toIn;
  while (to - from > 100) {
    const mid = (from + to) / 2;
    if (sunElevation(mid, lat, lon) < levelDeg === rising) from = mid;
    else to = mid;
  }
  return Math.round((from + to) / 2);
}
