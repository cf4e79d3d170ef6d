import type { ClockAnswer, Issue } from '../contract/index.ts';
import { dewPointC } from '../physics/index.ts';
import { askClock, CAUTIONS, prepare } from '../planner/index.ts';
import { buildDoseTable, type Conditions, constantFilm, type Product } from '../products/index.ts';
import { isoUtc } from '../time/index.ts';
import { type HourlyWeather, stepAt, stepStartMs } from '../weather/index.ts';
import type { ReadyJob } from './job.ts';
import { presentClock } from './present-clock.ts';
import { presentWeather } from './present-days.ts';

/** Hours looked ahead where the weather is given as numbers and does not change. */
const HOURS_AHEAD = 72;

export interface SteadyAir {
  readonly airTempC: number;
  readonly relHumPct: number;
  readonly windMps: number;
  /** Null = the surface is as warm as the air. */
  readonly surfaceTempC: number | null;
}

/** A clock under numbers that do not change. The wind is taken as the wind over the film. */
export function answerClockSteady(
  product: Product,
  coatedMs: number,
  air: SteadyAir,
  timeZone: string,
): ClockAnswer {
  const surfaceTempC = air.surfaceTempC ?? air.airTempC;
  const dew = dewPointC(air);
  const film = constantFilm({
    startMs: coatedMs,
    hours: HOURS_AHEAD,
    surfaceTempC,
    dewPointC: dew,
    windMps: air.windMps,
  });
  const answer = askClock({
    product,
    doses: buildDoseTable(product, film),
    coatedMs,
    conditions: [{ airTempC: air.airTempC, surfaceTempC, dewPointC: dew }],
    timeZone,
  });
  return presentClock({ product, coatedMs, weather: null, answer, cautions: [CAUTIONS[0]!] });
}

export type ClockResult =
  | { readonly ok: true; readonly answer: ClockAnswer }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** A clock on a job's deck under its forecast. */
export function answerClockOnJob(
  ready: ReadyJob,
  product: Product,
  hourly: HourlyWeather,
  coatedMs: number,
  nowMs: number,
): ClockResult {
  const prepared = prepare({ ...ready, hourly, nowMs });
  const { grid } = prepared;
  const step = stepAt(grid, coatedMs);
  const known = Array.from({ length: grid.memberCount }, (_, m) => m).filter(
    (m) => step >= 0 && step < grid.knownSteps[m]!,
  );
  if (known.length === 0) {
    const from = isoUtc(grid.startMs);
    const to = isoUtc(stepStartMs(grid, Math.max(0, ...grid.knownSteps)));
    return {
      ok: false,
      issues: [
        {
          path: 'coated',
          message: `coated lies outside the forecast, which runs from ${from} to ${to}.`,
        },
      ],
    };
  }
  const deck = prepared.surface('deck');
  const conditions = known.map((m): Conditions => {
    const at = m * grid.steps + step;
    return {
      airTempC: grid.airTempC[at]!,
      surfaceTempC: deck.surfaceTempC[at]!,
      dewPointC: grid.dewPointC[at]!,
    };
  });
  const answer = askClock({
    product,
    doses: buildDoseTable(product, prepared.film('deck')),
    coatedMs,
    conditions,
    timeZone: ready.job.site.timeZone,
  });
  return {
    ok: true,
    answer: presentClock({
      product,
      coatedMs,
      weather: presentWeather(grid),
      answer,
      cautions: [CAUTIONS[0]!],
    }),
  };
}
