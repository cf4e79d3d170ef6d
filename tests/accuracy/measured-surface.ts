/**
 * The surface balance under measured air and radiation, against measured surface temperature. Run by
 * itself it prints the table of docs/accuracy.md, section Measured surfaces, with the full data sets
 * where they are there.
 */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { dewPointC, skyRadiationWm2 } from '../../src/physics/index.ts';
import { type SurfaceSpec, surfaceWeather, type WeatherGrid } from '../../src/weather/index.ts';
import { MADE_UP, roofOf } from '../fixtures/weather/by-hand.ts';

/** One interval of measurement; null = not measured. */
export interface Measured {
  readonly startMs: number;
  readonly airTempC: number;
  readonly relHumPct: number;
  readonly windMps: number;
  readonly rainMm: number;
  readonly solarWm2: number;
  readonly longwaveWm2: number;
  readonly surfaceC: number | null;
  readonly wetnessV: number | null;
}

export interface DataSet {
  readonly name: string;
  readonly stepMin: number;
  readonly ground: SurfaceSpec;
  readonly elevationM: number;
  readonly rows: readonly Measured[];
}

type Fields = Readonly<Record<string, string>>;

function readTable(path: string): Fields[] {
  const [head, ...lines] = readFileSync(path, 'utf8').trim().split(/\r?\n/);
  const names = head!.split(',');
  return lines.map((line) =>
    Object.fromEntries(line.split(',').map((cell, i) => [names[i]!, cell])),
  );
}

/** NaN where the cell is empty. */
const num = (row: Fields, name: string): number => {
  const cell = row[name] ?? '';
  return cell === '' ? Number.NaN : Number(cell);
};
const known = (value: number): number | null => (Number.isNaN(value) ? null : value);

/** Rows up to 40 minutes apart whose drivers are all measured, from 12 hours up. */
export function runsOf(set: DataSet): Measured[][] {
  const stepMs = set.stepMin * 60_000;
  const runs: Measured[][] = [];
  for (const row of set.rows) {
    const whole = [
      row.airTempC,
      row.relHumPct,
      row.windMps,
      row.rainMm,
      row.solarWm2,
      row.longwaveWm2,
    ];
    if (whole.some(Number.isNaN)) continue;
    const last = runs.at(-1)?.at(-1);
    if (last !== undefined && row.startMs - last.startMs === stepMs) runs.at(-1)!.push(row);
    else runs.push([row]);
  }
  return runs.filter((run) => run.length * set.stepMin >= 12 * 60);
}

/** Long wave is no input of a grid: what comes nearest is the cloud cover that would send it. */
export type Sky = 'cloud from measured long wave' | 'clear' | 'half clouded';

export function cloudFrom(row: Measured, dewC: number): number {
  const from = (cloudPct: number): number =>
    skyRadiationWm2({ airTempC: row.airTempC, dewPointC: dewC, cloudPct });
  let [low, high] = [0, 100];
  if (from(low) >= row.longwaveWm2) return low;
  if (from(high) <= row.longwaveWm2) return high;
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (from(middle) < row.longwaveWm2) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const PARTS_MIN = 5;

/** A measured run on five-minute steps: each interval's values held throughout. */
export function gridOfRun(run: readonly Measured[], stepMin: number, sky: Sky): WeatherGrid {
  const per = stepMin / PARTS_MIN;
  const steps = run.length * per;
  const dews = run.map((row) =>
    dewPointC({ airTempC: row.airTempC, relHumPct: Math.min(100, Math.max(1, row.relHumPct)) }),
  );
  const column = (of: (row: Measured, i: number) => number): Float32Array =>
    Float32Array.from({ length: steps }, (_, s) => {
      const i = Math.floor(s / per);
      return of(run[i]!, i);
    });
  const cloud = { clear: 0, 'half clouded': 50 };
  return {
    startMs: run[0]!.startMs,
    stepMs: PARTS_MIN * 60_000,
    steps,
    memberCount: 1,
    airTempC: column((row) => row.airTempC),
    dewPointC: column((_, i) => dews[i]!),
    windMps: column((row) => row.windMps),
    gustMps: column((row) => row.windMps),
    rainMm: column((row) => row.rainMm / per),
    solarWm2: column((row) => Math.max(0, row.solarWm2)),
    cloudPct: column((row, i) =>
      sky === 'cloud from measured long wave' ? cloudFrom(row, dews[i]!) : cloud[sky],
    ),
    sunElevationDeg: new Float32Array(steps),
    sunAzimuthDeg: new Float32Array(steps),
    knownSteps: Int32Array.of(steps),
    endedBy: [null],
    source: { ...MADE_UP, invented: false },
  };
}

export interface Point {
  readonly at: Measured;
  readonly modelC: number;
  readonly measuredC: number;
  readonly filmMm: number;
}

/** Means of the model over each measured interval. The first three hours of a run are for settling. */
export function compare(set: DataSet, sky: Sky): Point[] {
  const per = set.stepMin / PARTS_MIN;
  return runsOf(set).flatMap((run) => {
    const out = surfaceWeather(gridOfRun(run, set.stepMin, sky), set.ground, set.elevationM);
    const mean = (column: Float32Array, i: number): number =>
      column.subarray(i * per, (i + 1) * per).reduce((sum, value) => sum + value, 0) / per;
    return run.flatMap((at, i): Point[] =>
      at.surfaceC === null || i * set.stepMin < 180
        ? []
        : [
            {
              at,
              modelC: mean(out.surfaceTempC, i),
              measuredC: at.surfaceC,
              filmMm: mean(out.filmMm, i),
            },
          ],
    );
  });
}

export interface Score {
  readonly n: number;
  readonly biasK: number;
  readonly rmseK: number;
  /** Of the air temperature in place of the model. */
  readonly airBiasK: number;
  readonly airRmseK: number;
}

export function score(points: readonly Point[]): Score {
  if (points.length === 0) throw new Error('nothing to score');
  const mean = (of: (p: Point) => number): number =>
    points.reduce((sum, p) => sum + of(p), 0) / points.length;
  return {
    n: points.length,
    biasK: mean((p) => p.modelC - p.measuredC),
    rmseK: Math.sqrt(mean((p) => (p.modelC - p.measuredC) ** 2)),
    airBiasK: mean((p) => p.at.airTempC - p.measuredC),
    airRmseK: Math.sqrt(mean((p) => (p.at.airTempC - p.measuredC) ** 2)),
  };
}

export const isNight = (p: Point): boolean => p.at.solarWm2 < 5;
export const isSunny = (p: Point): boolean => p.at.solarWm2 > 200;

/** What the interface costs: long wave the grid's sky sends against what was measured [W/m2]. */
export function longwaveMisfitWm2(set: DataSet, sky: Sky): { meanWm2: number; rmseWm2: number } {
  const misfits = runsOf(set).flatMap((run) => {
    const grid = gridOfRun(run, set.stepMin, sky);
    const per = set.stepMin / PARTS_MIN;
    return run.map((row, i) => {
      const at = i * per;
      const sent = skyRadiationWm2({
        airTempC: grid.airTempC[at]!,
        dewPointC: grid.dewPointC[at]!,
        cloudPct: grid.cloudPct[at]!,
      });
      return sent - row.longwaveWm2;
    });
  });
  const mean = misfits.reduce((a, b) => a + b, 0) / misfits.length;
  return {
    meanWm2: mean,
    rmseWm2: Math.sqrt(misfits.reduce((a, b) => a + b * b, 0) / misfits.length),
  };
}

interface Soil {
  readonly kgM3: number;
  readonly wmK: number;
  readonly jkgK: number;
}

/**
 * Bare or stubble ground in place of a roof: properties of soil from textbooks (from memory), not
 * fitted. Wind taken down to 2 m. A balance with one temperature stands for the ground's daily wave
 * when it stores half the wave's depth, sqrt(2 a / w) / 2, and below that keeps the temperature given
 * (the force-restore picture: storage and conduction of a half-space at one period).
 */
function groundOf(args: {
  readonly id: string;
  readonly absorptance: number;
  readonly emissivity: number;
  readonly crust: Soil;
  readonly belowC: number;
}): SurfaceSpec {
  const { kgM3, wmK, jkgK } = args.crust;
  const depthM = Math.sqrt((2 * wmK) / (kgM3 * jkgK) / ((2 * Math.PI) / 86_400)) / 2;
  return roofOf({
    id: args.id,
    solarAbsorptance: args.absorptance,
    emissivity: args.emissivity,
    layers: [
      {
        name: 'ground',
        thicknessM: depthM,
        densityKgM3: kgM3,
        conductivityWmK: wmK,
        heatCapacityJkgK: jkgK,
      },
    ],
    below: { kind: 'room', tempC: args.belowC },
    roofHeightM: 2,
  });
}

const MOIST_SOIL: Soil = { kgM3: 1400, wmK: 1, jkgK: 1300 };
const DRY_SAND: Soil = { kgM3: 1500, wmK: 0.4, jkgK: 850 };
const mean = (values: readonly number[]): number =>
  values.reduce((a, b) => a + b, 0) / values.length;

/** SURFRAD Alamosa: semi-desert, clear winter day; absorbs what the measured albedo of 0.19 leaves. */
export function alamosa(path: string, stepMin: number): DataSet {
  const table = readTable(path);
  const perStep = stepMin === 5 && table.length > 300 ? 5 : 1;
  const rows: Measured[] = [];
  for (let k = 0; k + perStep <= table.length; k += perStep) {
    const part = table.slice(k, k + perStep);
    const of = (name: string): number => mean(part.map((row) => num(row, name)));
    const ms = Date.parse(part[0]!['t_utc']!.replace('Z', ':00Z'));
    rows.push({
      startMs: Math.floor(ms / (stepMin * 60_000)) * stepMin * 60_000,
      airTempC: of('temp_c'),
      relHumPct: of('rh_pct'),
      windMps: of('wind_ms'),
      rainMm: 0,
      solarWm2: of('sw_down_wm2'),
      longwaveWm2: of('lw_down_wm2'),
      surfaceC: known(of('surf_rad_c')),
      wetnessV: null,
    });
  }
  return {
    name: 'Alamosa, semi-desert, 1 Jan 2016',
    stepMin,
    elevationM: 2317,
    ground: groundOf({
      id: 'alamosa',
      absorptance: 0.81,
      emissivity: 0.97,
      crust: DRY_SAND,
      // No soil temperature was measured: the day's mean air temperature.
      belowC: mean(rows.map((row) => row.airTempC)),
    }),
    rows,
  };
}

const HALF_HOUR_MS = 1_800_000;
/** Times at which the Bondville thermometer is known to have been wrong (end stamps, UTC). */
const KNOWN_BAD = [
  ['1998-07-14T22:30', '1998-07-14T23:00'],
  ['1998-07-31T09:30', '1998-07-31T13:30'],
  ['1998-09-13T00:30', '1998-09-13T01:00'],
] as const;

/** Bondville: a level farm field, infrared surface thermometer and wetness sensor. */
export function bondville(path: string, name: string, month: string | null): DataSet {
  const table = readTable(path).filter(
    (row) => month === null || row['t_end_utc']!.startsWith(month),
  );
  return {
    name,
    stepMin: 30,
    elevationM: 219,
    ground: groundOf({
      id: 'bondville',
      absorptance: 0.8,
      emissivity: 0.95,
      crust: MOIST_SOIL,
      belowC: mean(table.map((row) => num(row, 'soil8cm_c')).filter((t) => !Number.isNaN(t))),
    }),
    rows: table.map((row): Measured => {
      const stamp = row['t_end_utc']!.slice(0, 16);
      const bad = KNOWN_BAD.some(([from, to]) => stamp >= from && stamp <= to);
      return {
        startMs: Date.parse(`${stamp}:00Z`) - HALF_HOUR_MS,
        airTempC: num(row, 'temp_c'),
        relHumPct: num(row, 'rh_pct'),
        windMps: num(row, 'wind10m_ms'),
        rainMm: num(row, 'precip_mm'),
        solarWm2: num(row, 'sw_in_wm2'),
        longwaveWm2: num(row, 'lw_in_wm2'),
        surfaceC: bad ? null : known(num(row, 'surf_ir_c')),
        wetnessV: known(num(row, 'wetness_v')),
      };
    }),
  };
}

/** Curtice, Ohio: winter cropland. */
export function curtice(path: string): DataSet {
  const table = readTable(path);
  return {
    name: 'Curtice, cropland, 1-7 Jan 2011',
    stepMin: 30,
    elevationM: 180,
    ground: groundOf({
      id: 'curtice',
      absorptance: 0.8,
      emissivity: 0.95,
      crust: MOIST_SOIL,
      belowC: mean(table.map((row) => num(row, 'soil_c')).filter((t) => !Number.isNaN(t))),
    }),
    rows: table.map(
      (row): Measured => ({
        startMs: Date.parse(`${row['t_end_utc']!.slice(0, 16)}:00Z`) - HALF_HOUR_MS,
        airTempC: num(row, 'temp_c'),
        relHumPct: num(row, 'rh_pct'),
        windMps: num(row, 'wind_ms'),
        rainMm: num(row, 'precip_mm'),
        solarWm2: num(row, 'sw_in_wm2'),
        longwaveWm2: num(row, 'lw_in_wm2'),
        surfaceC: known(num(row, 'surf_rad_c')),
        wetnessV: null,
      }),
    ),
  };
}

const inTests = (file: string): string =>
  fileURLToPath(new URL(`../data/${file}`, import.meta.url));
const optional = (file: string): string =>
  fileURLToPath(new URL(`../../../shared/weather/${file}`, import.meta.url));

/** The extracts that come with the tests. */
export const bundledSets = (): { alamosa: DataSet; bondville: DataSet } => ({
  alamosa: alamosa(inTests('alamosa-2016-01-01-every-5th-minute.csv'), 5),
  bondville: bondville(
    inTests('bondville-1998-11-11-to-17.csv'),
    'Bondville, stubble field, 11-17 Nov 1998',
    null,
  ),
});

/** The full sets, where ../shared/weather is there. */
export function fullSets(): DataSet[] {
  const sets: DataSet[] = [];
  const day = optional('surfrad_alamosa_20160101_1min.csv');
  if (existsSync(day)) sets.push({ ...alamosa(day, 5), name: 'Alamosa, all minutes' });
  const field = optional('flux_bondville_1998_odd_months.csv');
  if (existsSync(field))
    for (const month of ['01', '03', '05', '07', '09', '11'])
      sets.push(bondville(field, `Bondville 1998-${month}`, `1998-${month}`));
  const crop = optional('flux_uscrt_201101w1.csv');
  if (existsSync(crop)) sets.push(curtice(crop));
  return sets;
}

const k = (value: number): string => value.toFixed(1).replace('-', '−');

export function measuredMarkdown(
  sets: readonly DataSet[],
  sky: Sky = 'cloud from measured long wave',
): string {
  const lines = sets.flatMap((set) => {
    const points = compare(set, sky);
    const kinds = [
      ['all', points],
      ['night', points.filter(isNight)],
      ['sun > 200 W/m²', points.filter(isSunny)],
    ] as const;
    return kinds
      .filter(([, some]) => some.length > 0)
      .map(([words, some]) => {
        const s = score(some);
        return `| ${set.name} | ${words} | ${s.n} | ${k(s.biasK)} | ${k(s.rmseK)} | ${k(s.airBiasK)} | ${k(s.airRmseK)} |`;
      });
  });
  return [
    '| where | when | n | bias, K | RMSE, K | bias of air, K | RMSE of air, K |',
    '|---|---|--:|--:|--:|--:|--:|',
    ...lines,
  ].join('\n');
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { alamosa: clear, bondville: field } = bundledSets();
  console.log(`## Measured surfaces\n\n${measuredMarkdown([clear, field])}\n`);
  for (const sky of ['cloud from measured long wave', 'clear', 'half clouded'] as const)
    for (const set of [clear, field]) {
      const misfit = longwaveMisfitWm2(set, sky);
      const s = score(compare(set, sky));
      console.log(
        `${set.name}, ${sky}: long wave ${k(misfit.meanWm2)} W/m² (RMSE ${k(misfit.rmseWm2)}), bias ${k(s.biasK)} K, RMSE ${k(s.rmseK)} K`,
      );
    }
  const all = fullSets();
  console.log(
    all.length === 0
      ? '\nskipped: data set not here (../shared/weather)'
      : `\n${measuredMarkdown(all)}`,
  );
}
