import type { ClockAnswer, Issue } from '../contract/index.ts';
import { dewPointC } from '../physics/index.ts';
import { askClock, CAUTIONS, filmOn, type Job } from '../planner/index.ts';
import { buildDoseTable, type Conditions, constantFilm, type Product } from '../products/index.ts';
import { surfaceSpecsFor } from '../stages/index.ts';
import { isoUtc } from '../time/index.ts';
import {
  buildGrid,
  type HourlyWeather,
  type SurfaceSpec,
  stepAt,
  stepStartMs,
  surfaceWeather,
} from '../weather/index.ts';
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

/** What a film lies on where no job says: stated with the answer. */
const PLAIN_DECK = {
  roof: {
    lengthM: 6,
    widthM: 4,
    fallDeg: 1.4,
    fallAzimuthDeg: 180,
    edges: { low: 'eaves', high: 'verge', left: 'verge', right: 'verge' },
    upstandMm: 150,
    outlets: 0,
    pipes: 0,
    rooflights: 0,
  },
  deck: 'osb',
  deckThicknessMm: 18,
  under: 'occupied-room',
  insulation: null,
  roofHeightM: 4,
  terrain: 'suburban',
  words: 'Reckoned on a bare 18 mm OSB deck in a suburb, 4 m up; give a job for your own roof.',
} as const;

/** A clock under a forecast, on a job's deck or, without a job, on a plain one. */
export function answerClockForecast(args: {
  readonly product: Product;
  readonly hourly: HourlyWeather;
  readonly coatedMs: number;
  readonly job: Job | null;
  readonly timeZone: string;
}): ClockResult {
  const { product, hourly, coatedMs, job, timeZone } = args;
  const grid = buildGrid(hourly, job?.site ?? hourly);
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
  const deck = surfaceWeather(grid, deckSpec(job), job?.site.elevationM ?? hourly.elevationM ?? 0);
  const conditions = known.map((m): Conditions => {
    const at = m * grid.steps + step;
    return {
      airTempC: grid.airTempC[at]!,
      surfaceTempC: deck.surfaceTempC[at]!,
      dewPointC: grid.dewPointC[at]!,
    };
  });
  const doses = buildDoseTable(product, filmOn(grid, deck));
  const answer = askClock({ product, doses, coatedMs, conditions, timeZone });
  const cautions = job === null ? [PLAIN_DECK.words, CAUTIONS[0]!] : [CAUTIONS[0]!];
  return {
    ok: true,
    answer: presentClock({ product, coatedMs, weather: presentWeather(grid), answer, cautions }),
  };
}

function deckSpec(job: Job | null): SurfaceSpec {
  const specs = surfaceSpecsFor(
    job === null
      ? { ...PLAIN_DECK, buildUp: PLAIN_DECK, wall: null, skyline: [], parapetHeightM: 0 }
      : { ...job.site, roof: job.roof, buildUp: job.buildUp },
  );
  const deck = specs.find((spec) => spec.kind === 'deck');
  if (deck === undefined) throw new Error('this roof has no deck');
  return deck;
}
