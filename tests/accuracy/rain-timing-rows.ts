/**
 * Real hours against hours drawn from their own 3-, 6- and 12-hour sums.
 * Source of the hours: Royal Netherlands Meteorological Institute (KNMI), hourly data of De Bilt, CC BY 4.0.
 */
import { existsSync, readFileSync } from 'node:fs';
import type { HourlyMember, HourlyWeather } from '../../src/weather/index.ts';

const HOUR_MS = 3_600_000;
export const DE_BILT = { latitudeDeg: 52.1, longitudeDeg: 5.18 };

/** Optional data beside the project; null = not here. */
export function readDeBilt(year: number): HourlyRain | null {
  const url = new URL(`../../../shared/weather/knmi_debilt_${year}.csv`, import.meta.url);
  return existsSync(url) ? parseHours(readFileSync(url, 'utf8')) : null;
}

export interface HourlyRain {
  /** Stamp (end) of the first hour. */
  readonly startMs: number;
  /** Sum of the hour [mm], in the gauge's steps of 0.1; a trace (under 0.05 mm) is 0. */
  readonly rainMm: Float64Array;
}

/** Reads `t_end_utc` and `precip_mm`; refuses a gap. */
export function parseHours(csv: string): HourlyRain {
  const lines = csv.split('\n').filter((l) => l !== '' && !l.startsWith('#'));
  const head = lines[0]!.split(',');
  const t = head.indexOf('t_end_utc');
  const p = head.indexOf('precip_mm');
  const rows = lines.slice(1).map((l) => l.split(','));
  const startMs = Date.parse(rows[0]![t]!);
  rows.forEach((r, h) => {
    if (Date.parse(r[t]!) !== startMs + h * HOUR_MS) throw new Error(`gap before ${r[t]}`);
  });
  const rainMm = Float64Array.from(rows, (r) => (r[p] === '' ? Number.NaN : Number(r[p])));
  return { startMs, rainMm };
}

/** Sums of `step` hours spread evenly over them, as a feed does with a coarse model. */
export function spreadEvenly(rainMm: Float64Array, step: number): Float64Array {
  const out = new Float64Array(rainMm.length);
  for (let b = 0; b < rainMm.length; b += step) {
    let sum = 0;
    for (let h = b; h < b + step; h += 1) sum += rainMm[h]!;
    out.fill(sum / step, b, b + step);
  }
  return out;
}

export function asMember(rainMm: Float64Array): HourlyMember {
  const flat = (value: number) => new Float64Array(rainMm.length).fill(value);
  return {
    airTempC: flat(12),
    dewPointC: flat(6),
    relHumPct: null,
    windMps: flat(3),
    gustMps: null,
    rainMm,
    solarWm2: flat(0),
    cloudPct: flat(100),
  };
}

export function asWeather(startMs: number, columns: readonly Float64Array[]): HourlyWeather {
  return {
    latitudeDeg: DE_BILT.latitudeDeg,
    longitudeDeg: DE_BILT.longitudeDeg,
    elevationM: 2,
    startMs,
    hours: columns[0]!.length,
    members: columns.map(asMember),
    source: {
      kind: 'file',
      model: null,
      issuedMs: null,
      fetchedMs: null,
      invented: false,
      attribution: null,
      notes: [],
    },
  };
}
