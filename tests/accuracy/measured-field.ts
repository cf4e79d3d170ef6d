/**
 * The farm field of Bondville, six months by half-hours: the roof's own balance over soil, against the
 * infrared thermometer, the air temperature and the steady sol-air formula: the tables of docs/accuracy.md,
 * section The field, which `npm run accuracy` prints where ../shared/weather is there.
 */
import { dewPointC, solAirTempC } from '../../src/physics/index.ts';
import { type DataSet, FIELD_FIT, type Fit, fieldGround, fieldMonths } from './measured-sets.ts';
import { cloudFrom, compare, isNight, type Point, type Sky } from './measured-surface.ts';

const LOCAL_MS = -6 * 3_600_000;
const HOUR_MS = 3_600_000;

/** What stands in for the surface temperature; every guess is made from the same measured air and sun. */
export interface Guess {
  readonly name: string;
  readonly of: (p: Point) => number;
}
export const MODEL: Guess = { name: 'model', of: (p) => p.modelC };
export const AIR: Guess = { name: 'air', of: (p) => p.at.airTempC };
/** ASHRAE: absorptance over 17 W/m2K, 4 K for the sky over a level face, whatever the cloud. */
export const SOL_AIR: Guess = {
  name: 'sol-air',
  of: (p) =>
    solAirTempC({
      airTempC: p.at.airTempC,
      globalWm2: Math.max(0, p.at.solarWm2),
      absorptancePerHo: 0.8 / 17,
      longwaveDropK: 4,
    }),
};
/** The same with the sky's long wave as measured in place of the 4 K: the formula at its best. */
export const SOL_AIR_SKY: Guess = {
  name: 'sol-air, measured sky',
  of: (p) => {
    const airWm2 = 5.670374e-8 * (p.at.airTempC + 273.15) ** 4;
    const heat = 0.8 * Math.max(0, p.at.solarWm2) - 0.97 * (airWm2 - p.at.longwaveWm2);
    return p.at.airTempC + heat / 17;
  },
};

export function errorOf(
  points: readonly Point[],
  guess: Guess,
): { readonly n: number; readonly biasK: number; readonly rmseK: number } {
  if (points.length === 0) throw new Error('nothing to score');
  let sum = 0;
  let squares = 0;
  for (const p of points) {
    const errorK = guess.of(p) - p.measuredC;
    sum += errorK;
    squares += errorK * errorK;
  }
  return {
    n: points.length,
    biasK: sum / points.length,
    rmseK: Math.sqrt(squares / points.length),
  };
}

export function fieldPoints(months: readonly DataSet[], sky: Sky, fit: Fit = FIELD_FIT): Point[] {
  return months.flatMap((month) => monthPoints(month, sky, fit));
}

function monthPoints(month: DataSet, sky: Sky, fit: Fit): Point[] {
  const { below } = month.ground;
  if (below.kind !== 'room') throw new Error('the field lies on ground of a given temperature');
  return compare(month, sky, fieldGround(below.tempC, fit));
}

export interface LeftOut {
  readonly month: string;
  /** Fitted on the other five months. */
  readonly fit: Fit;
  readonly all: Point[];
}

const TRIED: readonly Fit[] = [50, 60, 70, 85, 100, 120].flatMap((resistanceSpm) =>
  [0.6, 0.8, 1, 1.3, 1.7].map((massShare) => ({ resistanceSpm, massShare })),
);

/** The two fitted numbers on all months, and on all but each one, scored on the one left out. */
export function fitField(months: readonly DataSet[]): {
  readonly best: Fit;
  readonly leftOut: readonly LeftOut[];
} {
  const tried = TRIED.map((fit) => ({
    fit,
    parts: months.map((month) => {
      const { n, rmseK } = errorOf(monthPoints(month, 'measured', fit), MODEL);
      return { n, squares: n * rmseK * rmseK };
    }),
  }));
  const bestWithout = (skipped: number): Fit => {
    const cost = ({ parts }: (typeof tried)[number]): number =>
      parts.reduce((sum, part, i) => (i === skipped ? sum : sum + part.squares), 0);
    return tried.reduce((a, b) => (cost(b) < cost(a) ? b : a)).fit;
  };
  return {
    best: bestWithout(-1),
    leftOut: months.map((month, i) => {
      const fit = bestWithout(i);
      return { month: month.name, fit, all: monthPoints(month, 'measured', fit) };
    }),
  };
}

/** Cover that would send the measured long wave [%]; under a quarter counts as clear, over three as cloudy. */
function coverOf(p: Point): number {
  const relHumPct = Math.min(100, Math.max(1, p.at.relHumPct));
  return cloudFrom(p.at, dewPointC({ airTempC: p.at.airTempC, relHumPct }));
}

const k = (value: number): string => value.toFixed(2).replace('-', '−');
const GUESSES = [MODEL, AIR, SOL_AIR, SOL_AIR_SKY] as const;
const HEAD = GUESSES.map(({ name }) => `${name}: bias | RMSE`).join(' | ');
const RULE = `|---|--:|${GUESSES.map(() => '--:|--:|').join('')}`;
const line = (
  what: string,
  points: readonly Point[],
  guesses: readonly Guess[] = GUESSES,
): string =>
  `| ${what} | ${points.length} | ${guesses
    .map((guess) => errorOf(points, guess))
    .map(({ biasK, rmseK }) => `${k(biasK)} | ${k(rmseK)}`)
    .join(' | ')} |`;

const SKIES: readonly (readonly [Sky, string])[] = [
  ['measured', 'all of it measured'],
  ['cloud from measured long wave', 'the cover that would send the measured long wave'],
  ['cloud from global radiation', 'cover from global radiation, through the night on a line'],
  ['clear', 'every sky clear'],
];

/** The tables of the section Field. */
export function fieldMarkdown(months: readonly DataSet[] = fieldMonths()): string {
  if (months.length === 0) return 'skipped: data set not here';
  const points = fieldPoints(months, 'measured');
  const day = points.filter((p) => !isNight(p));
  const clear = points.filter((p) => coverOf(p) < 25);
  const cloudy = points.filter((p) => coverOf(p) > 75);
  const localHour = (p: Point): number =>
    Math.floor((((p.at.startMs + LOCAL_MS) / HOUR_MS) % 24) + 24) % 24;
  const { best, leftOut } = fitField(months);
  return [
    `| when, K | n | ${HEAD} |`,
    RULE,
    line('all hours', points),
    line('night (sun < 5 W/m²)', points.filter(isNight)),
    line('day', day),
    line('clear nights', clear.filter(isNight)),
    line('cloudy nights', cloudy.filter(isNight)),
    line(
      'clear days',
      clear.filter((p) => !isNight(p)),
    ),
    line(
      'cloudy days',
      cloudy.filter((p) => !isNight(p)),
    ),
    ...months.map((month) => line(month.name, monthPoints(month, 'measured', FIELD_FIT))),
    '',
    `| local hour (UTC−6), K | n | ${HEAD} |`,
    RULE,
    ...Array.from({ length: 24 }, (_, h) =>
      line(
        String(h).padStart(2, '0'),
        points.filter((p) => localHour(p) === h),
      ),
    ),
    '',
    '| long wave from, K | n | all: bias | RMSE | night: bias | RMSE |',
    '|---|--:|--:|--:|--:|--:|',
    ...SKIES.map(([sky, words]) => {
      const some = fieldPoints(months, sky);
      const [all, night] = [errorOf(some, MODEL), errorOf(some.filter(isNight), MODEL)];
      return `| ${words} | ${all.n} | ${k(all.biasK)} | ${k(all.rmseK)} | ${k(night.biasK)} | ${k(night.rmseK)} |`;
    }),
    '',
    `Fitted on all six: ${best.resistanceSpm} s/m, ${best.massShare} of the textbook's heat capacity.`,
    '',
    '| left out | s/m | of heat capacity | all: RMSE, K | air | night: RMSE, K | air |',
    '|---|--:|--:|--:|--:|--:|--:|',
    ...[
      ...leftOut.map(({ month, fit, all }) => ({ name: month, fit, all })),
      {
        name: 'all six, each by the other five',
        fit: null,
        all: leftOut.flatMap(({ all }) => all),
      },
    ].map(({ name, fit, all }) => {
      const night = all.filter(isNight);
      const of = (some: readonly Point[], guess: Guess): string => k(errorOf(some, guess).rmseK);
      return `| ${name} | ${fit?.resistanceSpm ?? ''} | ${fit?.massShare ?? ''} | ${of(all, MODEL)} | ${of(all, AIR)} | ${of(night, MODEL)} | ${of(night, AIR)} |`;
    }),
  ].join('\n');
}
