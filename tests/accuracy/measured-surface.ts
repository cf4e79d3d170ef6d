/**
 * The surface balance under measured air and radiation, against measured surface temperature: the
 * table of docs/accuracy.md, section Measured surfaces, which `npm run accuracy` prints.
 */
import { clearSkyWm2, dewPointC, skyRadiationWm2, sunPosition } from '../../src/physics/index.ts';
import { surfaceWeather, type WeatherGrid } from '../../src/weather/index.ts';
import { MADE_UP } from '../fixtures/weather/by-hand.ts';
import type { DataSet, Measured } from './measured-sets.ts';

const drivers = (row: Measured): number[] => [
  row.airTempC,
  row.relHumPct,
  row.windMps,
  row.rainMm,
  row.solarWm2,
  row.longwaveWm2,
];
/** Gaps in the drivers up to this long are bridged by the last value; what falls in them is not scored. */
const BRIDGED_MIN = 180;

export interface Run {
  readonly rows: readonly Measured[];
  /** False where a driver was bridged. */
  readonly whole: readonly boolean[];
}

/** Runs without a gap of more than three hours, from 12 hours up. */
export function runsOf(set: DataSet): Run[] {
  const stepMs = set.stepMin * 60_000;
  const runs: { rows: Measured[]; whole: boolean[] }[] = [];
  for (const row of set.rows) {
    if (drivers(row).some(Number.isNaN)) continue;
    const run = runs.at(-1);
    const last = run?.rows.at(-1);
    if (
      run === undefined ||
      last === undefined ||
      row.startMs - last.startMs > BRIDGED_MIN * 60_000
    ) {
      runs.push({ rows: [row], whole: [true] });
      continue;
    }
    for (let ms = last.startMs + stepMs; ms < row.startMs; ms += stepMs) {
      run.rows.push({ ...last, startMs: ms, surfaceC: null, wetnessV: null });
      run.whole.push(false);
    }
    run.rows.push(row);
    run.whole.push(true);
  }
  return runs.filter((run) => run.rows.length * set.stepMin >= 12 * 60);
}

/** Where the long wave of a run comes from. */
export type Sky =
  | 'measured'
  | 'cloud from measured long wave'
  | 'cloud from global radiation'
  | 'clear'
  | 'half clouded';

/** The cover that would send the measured long wave: how far the model's sky itself misleads. */

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
export function gridOfRun(set: DataSet, run: readonly Measured[], sky: Sky): WeatherGrid {
  const per = set.stepMin / PARTS_MIN;
  const steps = run.length * per;
  const dews = run.map((row) =>
    dewPointC({ airTempC: row.airTempC, relHumPct: Math.min(100, Math.max(1, row.relHumPct)) }),
  );
  const column = (of: (row: Measured, i: number) => number): Float32Array =>
    Float32Array.from({ length: steps }, (_, s) => {
      const i = Math.floor(s / per);
      return of(run[i]!, i);
    });
  const cover = coverOf(set, run, dews, sky);
  const grid: WeatherGrid = {
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
    cloudPct: column((_, i) => cover[i]!),
    sunElevationDeg: new Float32Array(steps),
    sunAzimuthDeg: new Float32Array(steps),
    knownSteps: Int32Array.of(steps),
    endedBy: [null],
    source: { ...MADE_UP, invented: false },
  };
  return sky === 'measured' ? { ...grid, longwaveWm2: column((row) => row.longwaveWm2) } : grid;
}

function coverOf(
  set: DataSet,
  run: readonly Measured[],
  dews: readonly number[],
  sky: Sky,
): readonly number[] {
  switch (sky) {
    case 'measured':
    case 'clear':
      return run.map(() => 0);
    case 'half clouded':
      return run.map(() => 50);
    case 'cloud from measured long wave':
      return run.map((row, i) => cloudFrom(row, dews[i]!));
    case 'cloud from global radiation':
      return cloudFromSun(set, run);
  }
}

/** Below this the light says nothing of cloud [deg]. */
const SUN_UP_DEG = 10;

/**
 * What stands in for a forecast's cloud: by day from the global radiation, 1 - 0.75 n^3.4 of a clear
 * sky's (Kasten & Czeplak 1980, from memory), through the night on a line from evening to morning.
 */
export function cloudFromSun(set: DataSet, run: readonly Measured[]): number[] {
  const seen = run.map((row): number => {
    const atMs = row.startMs + (set.stepMin * 60_000) / 2;
    const { elevationDeg } = sunPosition({ atMs, ...set.place });
    if (elevationDeg < SUN_UP_DEG) return Number.NaN;
    const dayOfYear =
      1 + Math.floor((atMs - Date.UTC(new Date(atMs).getUTCFullYear(), 0, 1)) / 864e5);
    const clear = clearSkyWm2({ sunElevationDeg: elevationDeg, dayOfYear }).globalWm2;
    const lost = Math.min(0.75, Math.max(0, 1 - row.solarWm2 / clear));
    return 100 * (lost / 0.75) ** (1 / 3.4);
  });
  const known = seen.flatMap((cover, i) => (Number.isNaN(cover) ? [] : [i]));
  if (known.length === 0) return seen.map(() => 50);
  let next = 0;
  return seen.map((cover, i) => {
    if (!Number.isNaN(cover)) return cover;
    while (next < known.length && known[next]! < i) next += 1;
    const after = known[Math.min(next, known.length - 1)]!;
    const before = known[Math.max(0, next - 1)]!;
    // Half an evening's and half a morning's light: single values are a matter of one cloud.
    const near = (at: number): number => {
      const some = known.filter((k) => Math.abs(k - at) <= 6).map((k) => seen[k]!);
      return some.reduce((a, b) => a + b, 0) / some.length;
    };
    const share = after === before ? 0 : Math.min(1, Math.max(0, (i - before) / (after - before)));
    return near(before) * (1 - share) + near(after) * share;
  });
}

export interface Point {
  readonly at: Measured;
  readonly modelC: number;
  readonly measuredC: number;
  readonly filmMm: number;
}

/** Means of the model over each measured interval. The first three hours of a run are for settling. */
export function compare(set: DataSet, sky: Sky = 'measured', ground = set.ground): Point[] {
  const per = set.stepMin / PARTS_MIN;
  return runsOf(set).flatMap((run) => {
    const out = surfaceWeather(gridOfRun(set, run.rows, sky), ground, set.elevationM);
    const mean = (column: Float32Array, i: number): number =>
      column.subarray(i * per, (i + 1) * per).reduce((sum, value) => sum + value, 0) / per;
    return run.rows.flatMap((at, i): Point[] =>
      at.surfaceC === null || !run.whole[i] || i * set.stepMin < 180
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
    const grid = gridOfRun(set, run.rows, sky);
    const per = set.stepMin / PARTS_MIN;
    return run.rows.map((row, i) => {
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

export function measuredMarkdown(sets: readonly DataSet[], sky: Sky = 'measured'): string {
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
