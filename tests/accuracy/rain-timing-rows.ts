/**
 * Real hours against hours drawn from their own 3-, 6- and 12-hour sums.
 * Source of the hours: Royal Netherlands Meteorological Institute (KNMI), hourly data of De Bilt, CC BY 4.0.
 */
import { existsSync, readFileSync } from 'node:fs';
import { type HourlyMember, type HourlyWeather, splitCoarseRain } from '../../src/weather/index.ts';

const HOUR_MS = 3_600_000;
export const DE_BILT = { latitudeDeg: 52.1, longitudeDeg: 5.18 };

/** The year that was not fitted on, carried with the tests: its wet hours, all others dry. */
export function readYear2020(): HourlyRain {
  const url = new URL('../data/knmi-de-bilt-2020-rain.csv', import.meta.url);
  const startMs = Date.UTC(2020, 0, 1, 1);
  const rainMm = new Float64Array(366 * 24);
  for (const row of rowsOf(readFileSync(url, 'utf8'))) {
    rainMm[(Date.parse(row['t_end_utc']!) - startMs) / HOUR_MS] = Number(row['precip_mm']);
  }
  return { startMs, rainMm };
}

/** Optional data beside the project; null = not here. */
export function readDeBilt(year: number): HourlyRain | null {
  const url = new URL(`../../../shared/weather/knmi_debilt_${year}.csv`, import.meta.url);
  return existsSync(url) ? parseHours(readFileSync(url, 'utf8')) : null;
}

/** Places that were not fitted on: the coast, and a city 350 km away. */
export function readElsewhere(name: 'knmi_vlissingen_2020' | 'london_kcl_2012'): HourlyRain | null {
  const url = new URL(`../../../shared/weather/${name}.csv`, import.meta.url);
  return existsSync(url) ? parseHours(readFileSync(url, 'utf8')) : null;
}

export interface HourlyRain {
  /** Stamp (end) of the first hour. */
  readonly startMs: number;
  /** Sum of the hour [mm], in the gauge's steps of 0.1; a trace (under 0.05 mm) is 0. */
  readonly rainMm: Float64Array;
}

/** Reads `t_end_utc` and `precip_mm`; refuses a gap. */
function parseHours(csv: string): HourlyRain {
  const rows = rowsOf(csv);
  const startMs = Date.parse(rows[0]!['t_end_utc']!);
  rows.forEach((row, h) => {
    const stamp = row['t_end_utc']!;
    if (Date.parse(stamp) !== startMs + h * HOUR_MS) throw new Error(`gap before ${stamp}`);
  });
  const mm = (text: string | undefined): number => (text ? Number(text) : Number.NaN);
  return { startMs, rainMm: Float64Array.from(rows, (row) => mm(row['precip_mm'])) };
}

function rowsOf(csv: string): Record<string, string>[] {
  const [head, ...lines] = csv.split('\n').filter((l) => l !== '' && !l.startsWith('#'));
  const names = head!.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(names.map((name, i) => [name, cells[i] ?? '']));
  });
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

/** Starts counted: 07:00 to 12:00 UTC, six a day, four hours from each. */
const STARTS_UTC = [7, 8, 9, 10, 11, 12];
const DRY_HOURS = 4;

/**
 * Share of starts with four dry hours ahead [%]. The column begins with the hour 00-01 UTC.
 * @param isWet  what a dry hour must not be
 */
export function dryStartsPct(rainMm: Float64Array, isWet: (mm: number) => boolean): number {
  let starts = 0;
  let dry = 0;
  for (let day = 0; day + 24 <= rainMm.length; day += 24) {
    for (const start of STARTS_UTC) {
      starts += 1;
      const from = day + start;
      if (!rainMm.subarray(from, from + DRY_HOURS).some(isWet)) dry += 1;
    }
  }
  return (100 * dry) / starts;
}

export const anyRain = (mm: number): boolean => mm > 0;
/** Without a margin for how binary numbers print 0.1, as the published figures were counted. */
export const tenthOrMore = (mm: number): boolean => mm >= 0.1;

/** Name, unit and value of each number by which real and drawn hours are compared. */
export const RAIN_STATISTICS: readonly (readonly [string, (rainMm: Float64Array) => number])[] = [
  ['dry 4-hour starts 07-12 UTC, any rain counts [%]', (r) => dryStartsPct(r, anyRain)],
  ['the same, 0.1 mm/h counts [%]', (r) => dryStartsPct(r, tenthOrMore)],
  ['wet hours [%]', (r) => (100 * r.filter(anyRain).length) / r.length],
  ['wet spells [a year]', (r) => (8766 * spellsOf(r).length) / r.length],
  ['wet spells of 1 h [%]', (r) => shareOf(spellsOf(r), (h) => h === 1)],
  ['wet spells of 2-3 h [%]', (r) => shareOf(spellsOf(r), (h) => h === 2 || h === 3)],
  ['wet spells of 6 h and more [%]', (r) => shareOf(spellsOf(r), (h) => h >= 6)],
  [
    'wet after a wet hour [%]',
    (r) =>
      shareOf(
        [...r.subarray(1)].filter((_, i) => r[i]! > 0),
        anyRain,
      ),
  ],
  ['correlation with the hour before [-]', lagOne],
  ['median of wet hours [mm]', (r) => quantile(r, 0.5)],
  ['99 % of wet hours below [mm]', (r) => quantile(r, 0.99)],
  ['hours of 5 mm and more', (r) => r.filter((mm) => mm >= 5).length],
  ['wettest hour [mm]', (r) => Math.max(...r)],
];

const shareOf = (values: readonly number[], is: (v: number) => boolean): number =>
  (100 * values.filter(is).length) / values.length;

function spellsOf(rainMm: Float64Array): number[] {
  const out: number[] = [];
  let run = 0;
  for (const mm of [...rainMm, 0]) {
    if (mm > 0) run += 1;
    else if (run > 0) {
      out.push(run);
      run = 0;
    }
  }
  return out;
}

function lagOne(rainMm: Float64Array): number {
  const mean = rainMm.reduce((a, b) => a + b, 0) / rainMm.length;
  let shared = 0;
  let own = 0;
  rainMm.forEach((mm, i) => {
    own += (mm - mean) ** 2;
    if (i > 0) shared += (mm - mean) * (rainMm[i - 1]! - mean);
  });
  return shared / own;
}

function quantile(rainMm: Float64Array, q: number): number {
  const wet = rainMm.filter(anyRain).sort();
  return wet[Math.floor(q * wet.length)]!;
}

export const SEEDS: readonly number[] = Array.from({ length: 20 }, (_, i) => i + 1);

/** The hours drawn from the sums of `step` hours, one column per seed. */
export function drawnHours(rain: HourlyRain, step: number, place = DE_BILT): Float64Array[] {
  const even = asWeather(rain.startMs, [spreadEvenly(rain.rainMm, step)]);
  return SEEDS.map((seed) => {
    const drawn = splitCoarseRain(even, { seed, guide: null, place });
    return drawn.members[0]!.rainMm;
  });
}

export function meanOf(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0) / values.length;
}

/** Real, spread evenly, and drawn (mean over the seeds, lowest and highest) as a markdown table. */
export function rainTimingMarkdown(rain: HourlyRain): string {
  const steps = [3, 6, 12].map((step) => ({
    even: spreadEvenly(rain.rainMm, step),
    drawn: drawnHours(rain, step),
  }));
  const show = (v: number): string => v.toFixed(v >= 100 ? 0 : v >= 10 ? 1 : 2);
  const lines = RAIN_STATISTICS.map(([name, of]) => {
    const cells = steps.flatMap(({ even, drawn }) => {
      const values = drawn.map(of);
      const range = `${show(Math.min(...values))}-${show(Math.max(...values))}`;
      return [show(of(even)), `${show(meanOf(values))} (${range})`];
    });
    return `| ${[name, show(of(rain.rainMm)), ...cells].join(' | ')} |`;
  });
  return [
    '| De Bilt 2020 | real | 3 h even | 3 h drawn | 6 h even | 6 h drawn | 12 h even | 12 h drawn |',
    '|---|--:|--:|--:|--:|--:|--:|--:|',
    ...lines,
  ].join('\n');
}
