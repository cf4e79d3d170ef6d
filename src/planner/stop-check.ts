import type { SafeStop } from '../stages/index.ts';
import { localDayOf } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import { stepAt } from '../weather/index.ts';
import { forecastsWords } from './forecast-words.ts';
import type { Prepared } from './prepare.ts';
import { quantile } from './quantile.ts';
import { isWorkDay, type Shift, shiftOn } from './shift.ts';
import type { Crew } from './types.ts';

/** What the weather does to a roof left at a stop, until somebody is back on it. */
export interface StopCheck {
  readonly stop: SafeStop;
  readonly fromMs: number;
  /** Start of the next shift, weekends and days off counted in. */
  readonly untilMs: number;
  /** Forecasts with rain in between, out of those that reach to the next shift. */
  readonly rain: { readonly count: number; readonly of: number };
  /** Strongest gust in between: middle and high (9 in 10) over forecasts [m/s]; null = not known. */
  readonly gustMps: { readonly middle: number; readonly high: number } | null;
  /** To hold what lies loose against the high gust; null where nothing lies loose or it is not known. */
  readonly ballast: { readonly fieldKgM2: number; readonly edgeKgM2: number } | null;
  readonly words: string;
}

/** Air density [kg/m3]: recommended value of EN 1991-1-4, 4.5. */
const AIR_KG_M3 = 1.25;
/**
 * Suction on a flat roof with sharp eaves, EN 1991-1-4 table 7.2, cpe,10: zone H away from the edges and
 * zone F at corners, which is taken for every edge here.
 */
const SUCTION = { field: 0.7, edge: 1.8 } as const;
/** Partial factors 1.5 on wind and 0.9 on the weight that holds it down (EN 1990, from memory). */
const ON_WIND = 1.5 / 0.9;
const GRAVITY = 9.81;

/**
 * Weight that keeps something loose on a flat roof in a gust.
 * @param gustMps 0..80
 * @returns [kg/m2] away from the edges, and at edges and corners
 * @source peak velocity pressure and pressure coefficients of EN 1991-1-4; the sheet's own weight is left out
 */
export function ballastFor(gustMps: number): { fieldKgM2: number; edgeKgM2: number } {
  const perSuction = (0.5 * AIR_KG_M3 * gustMps ** 2 * ON_WIND) / GRAVITY;
  return { fieldKgM2: perSuction * SUCTION.field, edgeKgM2: perSuction * SUCTION.edge };
}

/** The crew's first shift that starts after an instant. */
export function nextShift(crew: Crew, afterMs: number, zone: string): Shift {
  let day = localDayOf(afterMs, zone);
  // A crew has at least one working day a week; days off are dates and end some time.
  for (;;) {
    const shift = shiftOn(crew, day, zone);
    if (shift.startMs > afterMs && isWorkDay(crew, day)) return shift;
    day = localDayOf(day.endMs, zone);
  }
}

/** A share of forecasts has rain, gusts lift: what a stop has to stand until the next shift. */
export function checkStop(prepared: Prepared, stop: SafeStop, fromMs: number): StopCheck {
  const { grid, job, limits } = prepared;
  const zone = job.site.timeZone;
  const untilMs = nextShift(job.crew, fromMs, zone).startMs;
  const first = Math.max(0, stepAt(grid, fromMs));
  const end = stepAt(grid, untilMs);
  const gusts: number[] = [];
  let rainy = 0;
  const perStepMm = limits.rainMmPerHour * (grid.stepMs / MS_PER_HOUR);
  for (let m = 0; m < grid.memberCount; m += 1) {
    if (grid.knownSteps[m]! < end) continue;
    let gust = 0;
    let wet = false;
    for (let i = m * grid.steps + first; i < m * grid.steps + end; i += 1) {
      gust = Math.max(gust, grid.gustMps[i]!);
      wet ||= grid.rainMm[i]! >= perStepMm;
    }
    gusts.push(gust);
    if (wet) rainy += 1;
  }
  const middle = quantile(gusts, 0.5);
  const high = quantile(gusts, 0.9);
  const known = middle !== null && high !== null;
  const check = {
    stop,
    fromMs,
    untilMs,
    rain: { count: rainy, of: gusts.length },
    gustMps: known ? { middle, high } : null,
    ballast: known && stop.looseM2 > 0 ? ballastFor(high) : null,
  };
  return { ...check, words: wordsOf(check, grid.source.madeFromOne === true) };
}

function wordsOf(check: Omit<StopCheck, 'words'>, made: boolean): string {
  const { rain, gustMps, ballast, stop } = check;
  if (gustMps === null) {
    return 'The forecast does not reach the next shift: leave the roof as for rain and strong wind.';
  }
  const wet =
    rain.count === 0
      ? `${made ? `None of ${forecastsWords(rain.of, made)}` : 'No forecast'} shows rain before the next shift`
      : `${rain.count} of ${forecastsWords(rain.of, made)} show rain before the next shift`;
  const wind = `gusts to about ${gustMps.high.toFixed(0)} m/s`;
  const weight =
    ballast === null
      ? ''
      : ` Weight on what lies loose: ${roundUp(ballast.fieldKgM2)} kg/m², ${roundUp(ballast.edgeKgM2)} kg/m² along edges and corners; check that the roof may carry it, and ask the designer.`;
  const open = stop.allowed ? '' : ' Not a stop for the night.';
  return `${wet}; ${wind}.${weight}${open}`;
}

const roundUp = (kgM2: number): number => Math.ceil(kgM2 / 5 - 1e-9) * 5;
