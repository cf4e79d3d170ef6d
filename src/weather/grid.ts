import { dewPointC as dewPointOf, sunPosition } from '../physics/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import {
  type HourTiming,
  QUARTERS_PER_HOUR,
  quartersOf,
  takesTiming,
  timingOf,
} from './quarter-rain.ts';
import type { HourlyMember, HourlyWeather, WeatherGrid } from './types.ts';

export const STEP_MS = 5 * MS_PER_MINUTE;
export const STEPS_PER_HOUR = MS_PER_HOUR / STEP_MS;
const STEPS_PER_QUARTER = STEPS_PER_HOUR / QUARTERS_PER_HOUR;
/** Inland gust over hour-mean wind where the feed gives no gust (common practice). */
export const GUST_FACTOR = 1.6;

interface Place {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** The sun over the grid, shared by all members: what the hourly radiation is spread along. */
interface SunPath {
  readonly elevationDeg: Float32Array;
  readonly azimuthDeg: Float32Array;
  /** Share of an hour's radiation falling into each of its steps, times the steps in an hour. */
  readonly weight: Float32Array;
}

/**
 * Hourly columns onto the 5-minute grid. Instants are interpolated; sums and means of the preceding
 * hour are spread so that every hourly total is conserved, radiation along the sun's path, rain by the
 * quarter hours of a short-range run where there is one and evenly elsewhere.
 * A member is known up to the first hour in which any variable is missing.
 * @param place  the site, for the sun; the weather's own cell centre may lie some km off
 */
export function buildGrid(hourly: HourlyWeather, place: Place): WeatherGrid {
  const skip = firstKnownHour(hourly);
  const intervals = Math.max(0, hourly.hours - 1 - skip);
  const steps = intervals * STEPS_PER_HOUR;
  const startMs = hourly.startMs + skip * MS_PER_HOUR;
  const size = steps * hourly.members.length;
  const sun = sunPath(startMs, steps, place);
  const grid = {
    startMs,
    stepMs: STEP_MS,
    steps,
    memberCount: hourly.members.length,
    airTempC: new Float32Array(size).fill(Number.NaN),
    dewPointC: new Float32Array(size).fill(Number.NaN),
    windMps: new Float32Array(size).fill(Number.NaN),
    gustMps: new Float32Array(size).fill(Number.NaN),
    rainMm: new Float32Array(size).fill(Number.NaN),
    solarWm2: new Float32Array(size).fill(Number.NaN),
    cloudPct: new Float32Array(size).fill(Number.NaN),
    ...(hourly.members.some(({ capeJkg }) => capeJkg)
      ? { capeJkg: new Float32Array(size).fill(Number.NaN) }
      : {}),
    sunElevationDeg: sun.elevationDeg,
    sunAzimuthDeg: sun.azimuthDeg,
    knownSteps: new Int32Array(hourly.members.length),
    endedBy: [] as (string | null)[],
    source: hourly.source,
  };
  const timings = timingsOf(hourly, startMs, intervals);
  let timed = 0;
  hourly.members.forEach((member, m) => {
    const known = knownIntervals(member, skip, intervals);
    grid.knownSteps[m] = known.intervals * STEPS_PER_HOUR;
    grid.endedBy.push(known.endedBy);
    fillMember(grid, m, member, dewPoints(member), skip, known.intervals, sun.weight);
    timed = Math.max(timed, timeRain(grid, m, member, skip, known.intervals, timings));
  });
  const model = hourly.quarterRain?.model;
  if (timed === 0 || model === undefined) return grid;
  return { ...grid, rainTimedBy: { model, untilMs: startMs + timed * MS_PER_HOUR } };
}

/** Timing of every hour of the grid that has one, by its place among them. */
function timingsOf(
  { quarterRain }: HourlyWeather,
  startMs: number,
  intervals: number,
): ReadonlyMap<number, HourTiming> {
  const timings = new Map<number, HourTiming>();
  if (quarterRain === undefined) return timings;
  for (let k = 0; k < intervals; k += 1) {
    const timing = timingOf(quarterRain, startMs + (k + 1) * MS_PER_HOUR);
    if (timing !== null) timings.set(k, timing);
  }
  return timings;
}

/**
 * Moves a member's rain to its quarter hours, hour by hour.
 * @returns hours up to the end of the last one timed, 0 = none
 */
function timeRain(
  grid: Columns,
  m: number,
  member: HourlyMember,
  skip: number,
  intervals: number,
  timings: ReadonlyMap<number, HourTiming>,
): number {
  let until = 0;
  for (const [k, timing] of timings) {
    const sumMm = k < intervals ? member.rainMm[skip + k + 1]! : 0;
    if (!(sumMm > 0) || !takesTiming(m, timing.taken)) continue;
    const first = m * grid.steps + k * STEPS_PER_HOUR;
    quartersOf(sumMm, timing).forEach((mm, q) => {
      const from = first + q * STEPS_PER_QUARTER;
      grid.rainMm.fill(mm / STEPS_PER_QUARTER, from, from + STEPS_PER_QUARTER);
    });
    until = k + 1;
  }
  return until;
}

/** Ensembles are often null in the oldest past hours; the grid starts where any member is whole. */
function firstKnownHour(hourly: HourlyWeather): number {
  for (let h = 0; h < hourly.hours; h += 1) {
    if (hourly.members.some((member) => missingAt(member, h) === null)) return h;
  }
  return hourly.hours;
}

const COLUMN_NAMES = {
  airTempC: 'temperature',
  windMps: 'wind',
  rainMm: 'precipitation',
  solarWm2: 'solar radiation',
  cloudPct: 'cloud cover',
} as const;

/** Name of the first variable missing at a stamp, or null. */
function missingAt(member: HourlyMember, hour: number): string | null {
  for (const key of Object.keys(COLUMN_NAMES) as (keyof typeof COLUMN_NAMES)[]) {
    if (Number.isNaN(member[key][hour] ?? Number.NaN)) return COLUMN_NAMES[key];
  }
  const humidity = member.dewPointC ?? member.relHumPct;
  return Number.isNaN(humidity?.[hour] ?? Number.NaN) ? 'humidity' : null;
}

function knownIntervals(
  member: HourlyMember,
  skip: number,
  intervals: number,
): { intervals: number; endedBy: string | null } {
  let endedBy = missingAt(member, skip);
  if (endedBy !== null) return { intervals: 0, endedBy };
  for (let k = 0; k < intervals; k += 1) {
    endedBy = missingAt(member, skip + k + 1);
    if (endedBy !== null) return { intervals: k, endedBy };
  }
  return { intervals, endedBy: null };
}

function dewPoints(member: HourlyMember): Float64Array {
  if (member.dewPointC !== null) return member.dewPointC;
  const relHumPct = member.relHumPct;
  if (relHumPct === null) throw new Error('a member has neither dew point nor relative humidity');
  return relHumPct.map((rh, h) => {
    const airTempC = member.airTempC[h]!;
    if (Number.isNaN(rh) || Number.isNaN(airTempC)) return Number.NaN;
    // A forecast of 0 % is a rounded value; the dew point of bone-dry air does not exist.
    return dewPointOf({ airTempC, relHumPct: Math.max(1, rh) });
  });
}

type Columns = Pick<
  WeatherGrid,
  | 'airTempC'
  | 'dewPointC'
  | 'windMps'
  | 'gustMps'
  | 'rainMm'
  | 'solarWm2'
  | 'cloudPct'
  | 'capeJkg'
  | 'steps'
>;

function fillMember(
  grid: Columns,
  m: number,
  member: HourlyMember,
  dewPointC: Float64Array,
  skip: number,
  intervals: number,
  solarWeight: Float32Array,
): void {
  const offset = m * grid.steps;
  for (let k = 0; k < intervals; k += 1) {
    const from = skip + k;
    const to = from + 1;
    const rainPerStep = member.rainMm[to]! / STEPS_PER_HOUR;
    const solar = member.solarWm2[to]!;
    const gust = member.gustMps?.[to] ?? Number.NaN;
    for (let j = 0; j < STEPS_PER_HOUR; j += 1) {
      const share = (j + 0.5) / STEPS_PER_HOUR;
      const step = k * STEPS_PER_HOUR + j;
      const at = offset + step;
      const wind = member.windMps[from]! * (1 - share) + member.windMps[to]! * share;
      grid.airTempC[at] = member.airTempC[from]! * (1 - share) + member.airTempC[to]! * share;
      grid.dewPointC[at] = dewPointC[from]! * (1 - share) + dewPointC[to]! * share;
      grid.cloudPct[at] = member.cloudPct[from]! * (1 - share) + member.cloudPct[to]! * share;
      if (grid.capeJkg && member.capeJkg)
        grid.capeJkg[at] = member.capeJkg[from]! * (1 - share) + member.capeJkg[to]! * share;
      grid.windMps[at] = wind;
      // The hour's highest gust may fall anywhere in it: hold it throughout. Feeds sometimes print
      // gusts below the mean wind; the larger of the two is taken.
      grid.gustMps[at] = Math.max(wind, Number.isNaN(gust) ? wind * GUST_FACTOR : gust);
      grid.rainMm[at] = rainPerStep;
      grid.solarWm2[at] = Math.max(0, solar) * solarWeight[step]!;
    }
  }
}

function sunPath(startMs: number, steps: number, place: Place): SunPath {
  const elevationDeg = new Float32Array(steps);
  const azimuthDeg = new Float32Array(steps);
  const weight = new Float32Array(steps);
  for (let first = 0; first < steps; first += STEPS_PER_HOUR) {
    let total = 0;
    for (let j = 0; j < STEPS_PER_HOUR; j += 1) {
      const atMs = startMs + (first + j + 0.5) * STEP_MS;
      const sun = sunPosition({
        atMs,
        latitudeDeg: place.latitudeDeg,
        longitudeDeg: place.longitudeDeg,
      });
      elevationDeg[first + j] = sun.elevationDeg;
      azimuthDeg[first + j] = sun.azimuthDeg;
      weight[first + j] = Math.max(0, Math.sin((sun.elevationDeg * Math.PI) / 180));
      total += weight[first + j]!;
    }
    for (let j = 0; j < STEPS_PER_HOUR; j += 1) {
      // Twilight: some light is reported though the disc is down all hour; spread it evenly.
      weight[first + j] = total > 0 ? (weight[first + j]! * STEPS_PER_HOUR) / total : 1;
    }
  }
  return { elevationDeg, azimuthDeg, weight };
}

/** Step that an instant falls in; may lie outside 0..steps-1. */
export function stepAt(grid: Pick<WeatherGrid, 'startMs' | 'stepMs'>, ms: number): number {
  return Math.floor((ms - grid.startMs) / grid.stepMs);
}

export function stepStartMs(grid: Pick<WeatherGrid, 'startMs' | 'stepMs'>, step: number): number {
  return grid.startMs + step * grid.stepMs;
}
