/**
 * The surface balance under measured air and radiation, against measured surface temperature. Run by
 * itself it prints the table of docs/accuracy.md, section Measured surfaces, with the full data sets
 * where they are there.
 */
import { pathToFileURL } from 'node:url';
import { dewPointC, skyRadiationWm2 } from '../../src/physics/index.ts';
import { FILM_VISIBLE_MM, surfaceWeather, type WeatherGrid } from '../../src/weather/index.ts';
import { MADE_UP } from '../fixtures/weather/by-hand.ts';
import { bundledSets, type DataSet, fullSets, type Measured } from './measured-sets.ts';

/** Unbroken runs whose drivers are all measured, from 12 hours up. */
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

export interface WetScore {
  /** Sensor wet and model wet, and so on [intervals without rain]. */
  readonly both: number;
  readonly onlySensor: number;
  readonly onlyModel: number;
  readonly neither: number;
}

/** Dew: the model's visible film against the wetness sensor (0.10 V and up = wet, by its own record). */
export function wetScore(points: readonly Point[]): WetScore {
  const counts = { both: 0, onlySensor: 0, onlyModel: 0, neither: 0 };
  for (const { at, filmMm } of points) {
    if (at.wetnessV === null || at.rainMm > 0) continue;
    const sensor = at.wetnessV >= 0.1;
    const model = filmMm >= FILM_VISIBLE_MM;
    if (sensor) counts[model ? 'both' : 'onlySensor'] += 1;
    else counts[model ? 'onlyModel' : 'neither'] += 1;
  }
  return counts;
}

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
  const wet = wetScore(compare(field, 'cloud from measured long wave'));
  console.log(`${field.name}, dew against the wetness sensor: ${JSON.stringify(wet)}`);
  const all = fullSets();
  console.log(
    all.length === 0
      ? '\nskipped: data set not here (../shared/weather)'
      : `\n${measuredMarkdown(all)}`,
  );
}
