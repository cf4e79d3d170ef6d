import type { ClockAnswer, ClockFace, Issue } from '../contract/index.ts';
import { dewPointC } from '../physics/index.ts';
import {
  type AskedFace,
  askClock,
  CAUTIONS,
  filmOn,
  type Job,
  STARTER_LIMITS,
} from '../planner/index.ts';
import {
  buildDoseTable,
  buildSheetFlags,
  constantFilm,
  type Product,
  type SheetWeather,
} from '../products/index.ts';
import { surfaceSpecsFor } from '../stages/index.ts';
import { momentText } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import {
  buildGrid,
  type HourlyWeather,
  membersFromOne,
  type SurfaceSpec,
  splitCoarseRain,
  stepAt,
  stepStartMs,
  surfaceWeather,
} from '../weather/index.ts';
import { type CoatDetails, coatIssues, FACES, usualFaces } from './clock-faces.ts';
import { presentClock } from './present-clock.ts';
import { presentWeather } from './present-weather.ts';

/** Looked ahead where the weather is given as numbers and does not change: full cure in the cold takes days. */
const HOURS_AHEAD = 14 * 24;

export interface SteadyAir {
  readonly airTempC: number;
  readonly relHumPct: number;
  readonly windMps: number;
  /** Null = the surface is as warm as the air. */
  readonly surfaceTempC: number | null;
}

/**
 * A clock under numbers that do not change, on every face alike and without rain. The wind is taken as
 * the wind over the film.
 * @param more  checked with `coatIssues` before
 */
export function answerClockSteady(
  product: Product,
  coatedMs: number,
  air: SteadyAir,
  timeZone: string,
  more: CoatDetails = {},
): ClockAnswer {
  const film = constantFilm({
    startMs: coatedMs,
    hours: HOURS_AHEAD,
    airTempC: air.airTempC,
    surfaceTempC: air.surfaceTempC ?? air.airTempC,
    dewPointC: dewPointC(air),
    windMps: air.windMps,
  });
  const names = more.faces ?? usualFaces(product);
  const face = askedFace(product, film);
  const asked = {
    product,
    faces: names.map((name) => ({ ...face, words: FACES[name].words })),
    ...momentsOf(coatedMs, more),
    timeZone,
  };
  return presentClock({
    asked,
    names,
    weather: null,
    answer: askClock(asked),
    cautions: [CAUTIONS[0]!],
  });
}

function askedFace(product: Product, film: SheetWeather): Omit<AskedFace, 'words'> {
  return {
    table: buildDoseTable(product, film),
    flags: buildSheetFlags(product, film, STARTER_LIMITS.rainMmPerHour),
  };
}

const momentsOf = (coatedMs: number, { coatedUntilMs, closedMs, nowMs }: CoatDetails) => ({
  coatedMs,
  coatedUntilMs: coatedUntilMs ?? coatedMs,
  closedMs: closedMs ?? null,
  nowMs: nowMs ?? null,
});

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

/** A clock under a forecast, on a job's roof or, without a job, on a plain one. */
export function answerClockForecast(args: {
  readonly product: Product;
  readonly hourly: HourlyWeather;
  readonly coatedMs: number;
  readonly job: Job | null;
  readonly timeZone: string;
  readonly more?: CoatDetails;
}): ClockResult {
  const { product, hourly, coatedMs, job, timeZone, more = {} } = args;
  const place = job?.site ?? hourly;
  // The same hours of rain as every plan on this forecast meets.
  const seed = Math.round(hourly.startMs / MS_PER_HOUR);
  const timed = splitCoarseRain(hourly, { seed, guide: null, place });
  const grid = buildGrid(membersFromOne(timed, { seed, place }), place);
  const step = stepAt(grid, coatedMs);
  const known = grid.knownSteps.some((steps) => step >= 0 && step < steps);
  const issues = coatIssues(product, coatedMs, more);
  if (!known) {
    const from = momentText(grid.startMs, timeZone);
    const to = momentText(stepStartMs(grid, Math.max(0, ...grid.knownSteps)), timeZone);
    issues.unshift({
      path: 'coated',
      message: `coated lies outside the forecast, which runs from ${from} to ${to}.`,
    });
  }
  const names = more.faces ?? usualFaces(product);
  const specs = specsOf(job);
  const missing = names.filter((name) => specOf(specs, name) === undefined);
  for (const name of missing)
    issues.push({ path: 'faces', message: `faces names ${name}, but this roof has none.` });
  if (issues.length > 0) return { ok: false, issues };

  const elevationM = job?.site.elevationM ?? hourly.elevationM ?? 0;
  const made = new Map<string, Omit<AskedFace, 'words'>>();
  const faces = names.map((name): AskedFace => {
    const spec = specOf(specs, name)!;
    const face =
      made.get(spec.id) ?? askedFace(product, filmOn(grid, surfaceWeather(grid, spec, elevationM)));
    made.set(spec.id, face);
    return { ...face, words: FACES[name].words };
  });
  const madeFromOne = grid.source.madeFromOne === true;
  const asked = { product, faces, ...momentsOf(coatedMs, more), timeZone, made: madeFromOne };
  const cautions = job === null ? [PLAIN_DECK.words, CAUTIONS[0]!] : [CAUTIONS[0]!];
  return {
    ok: true,
    answer: presentClock({
      asked,
      names,
      weather: presentWeather(grid, { zone: timeZone, nowMs: coatedMs }),
      answer: askClock(asked),
      cautions,
    }),
  };
}

const specOf = (specs: readonly SurfaceSpec[], name: ClockFace): SurfaceSpec | undefined =>
  specs.find(({ kind }) => kind === FACES[name].kind);

function specsOf(job: Job | null): readonly SurfaceSpec[] {
  return surfaceSpecsFor(
    job === null
      ? { ...PLAIN_DECK, buildUp: PLAIN_DECK, wall: null, skyline: [], parapetHeightM: 0 }
      : { ...job.site, roof: job.roof, buildUp: job.buildUp },
  );
}
