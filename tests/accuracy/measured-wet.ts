/**
 * Dew by night against a wetness sensor in the field (Bondville): which half-hours without rain in six
 * hours are wet. The sensor is taken for what it is, a thin plate in the open air, and stepped by the
 * roof's own balance; nothing about it is fitted.
 */
import { seededRandom } from '../../src/units/index.ts';
import { FILM_VISIBLE_MM, type SurfaceSpec, surfaceWeather } from '../../src/weather/index.ts';
import { roofOf } from '../fixtures/weather/by-hand.ts';
import type { DataSet } from './measured-sets.ts';
import { gridOfRun, runsOf, type Sky } from './measured-surface.ts';

/** The sensor's own record: 0.10 V and up is wet. */
const SENSOR_WET_V = 0.1;
const NIGHT_WM2 = 20;
const NO_RAIN_STEPS = 12;
const SETTLING_STEPS = 6;
const HALF_HOUR_MS = 1_800_000;
/** Noon to noon of the field's own time (UTC-6) is one night. */
const NOON_MS = 18 * 3_600_000;

/** A thin printed plate with air under it at 2 m; plastics from textbooks, colour light (from memory). */
export const SENSOR: SurfaceSpec = roofOf({
  id: 'sensor',
  solarAbsorptance: 0.6,
  emissivity: 0.95,
  layers: [
    {
      name: 'plate',
      thicknessM: 0.001,
      densityKgM3: 1800,
      conductivityWmK: 0.3,
      heatCapacityJkgK: 1200,
    },
  ],
  roofHeightM: 2,
});

export interface WetPoint {
  readonly month: string;
  readonly night: number;
  readonly sensorWet: boolean;
  readonly relHumPct: number;
  /** Of the six steps of the half-hour, those a rule calls wet. */
  readonly wetSteps: Readonly<Record<Rule, number>>;
}

/**
 * 'liquid': water condensing now, a film that is not frozen (ice does not conduct, so the sensor does not
 * see it), or saturated air, which is fog and settles as drops. 'any film': frost counts, as it does on a deck. 'below dew point': no film carried over.
 */
export type Rule = 'liquid' | 'any film' | 'below dew point';

export function wetPoints(
  months: readonly DataSet[],
  sky: Sky,
  specOf: (month: DataSet) => SurfaceSpec = () => SENSOR,
): WetPoint[] {
  return months.flatMap((month) =>
    runsOf(month).flatMap(({ rows, whole }) => {
      const out = surfaceWeather(gridOfRun(month, rows, sky), specOf(month), month.elevationM);
      const per = out.time.steps / rows.length;
      let rained = -1;
      return rows.flatMap((row, i): WetPoint[] => {
        if (row.rainMm > 0) rained = i;
        const sinceRain = rained < 0 ? Number.POSITIVE_INFINITY : i - rained;
        if (row.wetnessV === null || !whole[i] || row.solarWm2 >= NIGHT_WM2) return [];
        if (sinceRain <= NO_RAIN_STEPS || i < SETTLING_STEPS) return [];
        const fog = row.relHumPct >= 100;
        const wetSteps = { liquid: 0, 'any film': 0, 'below dew point': 0 };
        for (let at = i * per; at < (i + 1) * per; at += 1) {
          const gathers = out.dewMarginK[at]! < 0;
          const film = out.filmMm[at]! >= FILM_VISIBLE_MM;
          if (gathers) wetSteps['below dew point'] += 1;
          if (film || gathers) wetSteps['any film'] += 1;
          if ((film && out.surfaceTempC[at]! > 0) || gathers || fog) wetSteps.liquid += 1;
        }
        return [
          {
            month: month.name,
            night: Math.floor((row.startMs + HALF_HOUR_MS - NOON_MS) / 86_400_000),
            sensorWet: row.wetnessV >= SENSOR_WET_V,
            relHumPct: row.relHumPct,
            wetSteps,
          },
        ];
      });
    }),
  );
}

export type Says = (p: WetPoint) => boolean;
export const says =
  (rule: Rule): Says =>
  (p) =>
    p.wetSteps[rule] >= 3;
export const HUMID: Says = (p) => p.relHumPct > 90;

export interface Skill {
  readonly n: number;
  /** Share of the sensor's wet half-hours called wet, and of its dry ones called wet. */
  readonly hits: number;
  readonly falseAlarms: number;
  readonly peirce: number;
}

export function skillOf(points: readonly WetPoint[], wet: Says): Skill {
  let [both, onlySensor, onlyModel, neither] = [0, 0, 0, 0];
  for (const p of points) {
    const model = wet(p);
    if (p.sensorWet) {
      if (model) both += 1;
      else onlySensor += 1;
    } else if (model) onlyModel += 1;
    else neither += 1;
  }
  const hits = both / (both + onlySensor);
  const falseAlarms = onlyModel / (onlyModel + neither);
  return { n: points.length, hits, falseAlarms, peirce: hits - falseAlarms };
}

/** 95 % of what other nights of the same kind would have given: whole nights drawn with replacement. */
export function bootstrap(
  points: readonly WetPoint[],
  of: (some: readonly WetPoint[]) => number,
  seed = 1998,
  draws = 1000,
): { readonly low: number; readonly high: number } {
  const byNight = new Map<number, WetPoint[]>();
  for (const p of points) byNight.set(p.night, [...(byNight.get(p.night) ?? []), p]);
  const nights = [...byNight.values()];
  const random = seededRandom(seed);
  const values = Array.from({ length: draws }, () =>
    of(nights.flatMap(() => nights[Math.floor(random() * nights.length)]!)),
  ).sort((a, b) => a - b);
  return { low: values[Math.floor(0.025 * draws)]!, high: values[Math.ceil(0.975 * draws) - 1]! };
}

const d = (value: number): string => value.toFixed(2).replace('-', '−');

/** The wetness tables of the section Field. */
export function wetMarkdown(months: readonly DataSet[]): string {
  if (months.length === 0) return 'skipped: data set not here';
  const bounded = wetPoints(months, 'cloud from measured long wave');
  const forecast = wetPoints(months, 'cloud from global radiation');
  const raw = wetPoints(months, 'measured');
  const field = wetPoints(months, 'cloud from measured long wave', (month) => month.ground);
  const row = (what: string, points: readonly WetPoint[], wet: Says): string => {
    const s = skillOf(points, wet);
    const { low, high } = bootstrap(points, (some) => skillOf(some, wet).peirce);
    return `| ${what} | ${s.n} | ${d(s.hits)} | ${d(s.falseAlarms)} | ${d(s.peirce)} | ${d(low)} to ${d(high)} |`;
  };
  const gain = bootstrap(
    bounded,
    (some) => skillOf(some, says('liquid')).peirce - skillOf(some, HUMID).peirce,
  );
  return [
    '| rule | n | hits | false alarms | Peirce skill | 95 % |',
    '|---|--:|--:|--:|--:|--:|',
    row(
      'model: thin plate, liquid water, long wave within what skies send',
      bounded,
      says('liquid'),
    ),
    row('the same, cover from global radiation (as a forecast)', forecast, says('liquid')),
    row('the same, long wave as measured', raw, says('liquid')),
    row('model, frost counts as wet', bounded, says('any film')),
    row('model, below the dew point now, no film carried over', bounded, says('below dew point')),
    row('the field in place of the plate', field, says('liquid')),
    row('humidity over 90 %', bounded, HUMID),
    '',
    `Model less humidity rule, same nights drawn: 95 % ${d(gain.low)} to ${d(gain.high)}.`,
    '',
    '| month | n | wet | model | as a forecast | humidity over 90 % |',
    '|---|--:|--:|--:|--:|--:|',
    ...months.map(({ name }) => {
      const of = (points: readonly WetPoint[]) => points.filter((p) => p.month === name);
      const some = of(bounded);
      const wet = some.filter((p) => p.sensorWet).length;
      return `| ${name} | ${some.length} | ${wet} | ${d(skillOf(some, says('liquid')).peirce)} | ${d(skillOf(of(forecast), says('liquid')).peirce)} | ${d(skillOf(some, HUMID).peirce)} |`;
    }),
  ].join('\n');
}
