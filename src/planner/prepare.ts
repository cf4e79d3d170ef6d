import {
  buildDoseTable,
  type DoseTable,
  type FilmWeather,
  type Product,
} from '../products/index.ts';
import { type Activity, surfaceSpecsFor } from '../stages/index.ts';
import { localDaysBetween, wallTimeMs } from '../time/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import {
  buildGrid,
  type HourlyWeather,
  membersFromOne,
  type SiteReading,
  type SurfaceHistory,
  type SurfaceSpec,
  type SurfaceWeather,
  splitCoarseRain,
  stepAt,
  stepStartMs,
  surfaceWeather,
  type WeatherGrid,
} from '../weather/index.ts';
import { filmOn } from './film.ts';
import { type FirmLimits, STARTER_LIMITS } from './limits.ts';
import { masksOn, type RuleMask } from './masks.ts';
import { isWorkDay } from './shift.ts';
import type { Costs, Job } from './types.ts';
import type { FirmRecord } from './verification/index.ts';

type SurfaceKind = SurfaceSpec['kind'];

/** A job's products by what they do. */
export type ProductSet = Readonly<Record<keyof Job['buildUp']['products'], Product>>;

/** One job under one forecast: the weather on its surfaces, worked out once and asked many times. */
export interface Prepared {
  readonly job: Job;
  readonly products: ProductSet;
  readonly productById: ReadonlyMap<string, Product>;
  readonly nowMs: number;
  readonly limits: FirmLimits;
  /** What the firm's own past calls say of its chances; null = nothing yet. */
  readonly record: FirmRecord | null;
  readonly grid: WeatherGrid;
  surface(kind: SurfaceKind): SurfaceWeather;
  /** Weather over a film on a surface, for clocks. */
  film(kind: SurfaceKind): FilmWeather;
  doses(productId: string, kind: SurfaceKind): DoseTable;
  mask(activity: Activity): RuleMask;
  /** The same roof where the sun's disc does not reach it: behind a plant room, say. */
  shaded(): Prepared;
  /**
   * The same roof and weather laid another way: another crew size, bay or adhesive. Site, roof, hours of
   * work and build-up but for its products stay, so that all weather on the roof is shared.
   */
  variant(change: JobChange): Prepared;
  /** Column index of the next step with rain at or after a step; `steps` where none is known. */
  readonly nextRain: Int32Array;
}

/** What of a job may change without changing the weather on its roof. */
export interface JobChange {
  readonly people?: number;
  readonly bayAreaM2?: number;
  readonly products?: ProductSet;
  readonly costs?: Costs;
}

export interface PrepareArgs {
  readonly job: Job;
  readonly products: ProductSet;
  readonly hourly: HourlyWeather;
  readonly nowMs: number;
  readonly limits?: FirmLimits;
  /** Taken on site; from their moment on the model starts from what was read. */
  readonly readings?: readonly SiteReading[];
  readonly record?: FirmRecord | null;
  /** Another draw of when rain falls inside the feed's coarse steps, a whole number; 0 = the usual one. */
  readonly draw?: number;
}

/** Seeds of a forecast's own draws lie so far apart: none is the usual one of another forecast. */
const DRAWS_APART = 10_000_019;

/**
 * Puts a forecast onto a job's roof.
 * @param hourly  the forecast, already checked to belong to the site
 */
export function prepare(args: PrepareArgs): Prepared {
  const { job, hourly } = args;
  // One seed a forecast: every plan on it meets the same hours of rain.
  const seed = Math.round(hourly.startMs / MS_PER_HOUR);
  const timed = splitCoarseRain(hourly, {
    seed: seed + DRAWS_APART * (args.draw ?? 0),
    guide: null,
    place: job.site,
  });
  const grid = buildGrid(membersFromOne(timed, { seed, place: job.site }), job.site);
  const specs = surfaceSpecsFor({ roof: job.roof, buildUp: job.buildUp, ...job.site });
  return onGrid(args, grid, specs);
}

function onGrid(args: PrepareArgs, grid: WeatherGrid, specs: readonly SurfaceSpec[]): Prepared {
  const { job, nowMs } = args;
  const limits = args.limits ?? STARTER_LIMITS;
  /** Of every way of laying this roof that was asked for. */
  const productById = new Map<string, Product>();
  const maskOf = masksOn(grid, limits, stepAt(grid, nowMs));

  const surface = remember((kind: SurfaceKind) => {
    const spec = specs.find((candidate) => candidate.kind === kind);
    if (spec === undefined) throw new Error(`this roof has no surface '${kind}'`);
    return surfaceWeather(grid, spec, job.site.elevationM, historyOf(kind, args, grid));
  });
  const film = remember((kind: SurfaceKind) => filmOn(grid, surface(kind)));
  const dosesByKey = remember((key: string) => {
    const [productId = '', kind = ''] = key.split('|');
    return buildDoseTable(productOf(productById, productId), film(kind as SurfaceKind));
  });
  const maskByKey = remember((key: string) => {
    const [productId = '', kind = ''] = key.split('|');
    return maskOf({
      surface: surface(kind as SurfaceKind),
      product: productId === '' ? null : productOf(productById, productId),
      freshlyOpened: kind !== 'deck' || job.buildUp.strip,
    });
  });

  const inShade = remember((_: 'shade') => {
    // What was read in the sun says nothing of how warm the shade is.
    const readings = (args.readings ?? []).filter(({ kind }) => kind !== 'surface-temp');
    const dull = specs.map((spec) => ({ ...spec, shaded: true }));
    return onGrid({ ...args, readings }, grid, dull);
  });

  const nextRain = nextRainColumn(grid, limits);
  const laidAs = (job: Job, products: ProductSet): Prepared => {
    for (const product of Object.values(products)) {
      const before = productById.get(product.id) ?? product;
      if (before !== product) throw new Error(`two products called ${product.id} on one roof`);
      productById.set(product.id, product);
    }
    return {
      job,
      products,
      productById,
      nowMs,
      limits,
      record: args.record ?? null,
      grid,
      surface,
      film,
      doses: (productId, kind) => dosesByKey(`${productId}|${kind}`),
      mask: (activity) =>
        maskByKey(`${productOfActivity(activity, products)}|${surfaceOf(activity)}`),
      shaded: () => inShade('shade').variant({ people: job.crew.people, products, ...bayOf(job) }),
      variant: (change) => laidAs(changed(job, change), change.products ?? products),
      nextRain,
    };
  };
  return laidAs(job, args.products);
}

const bayOf = ({ bayAreaM2 }: Job): JobChange => (bayAreaM2 === null ? {} : { bayAreaM2 });

function changed(job: Job, change: JobChange): Job {
  const ids = Object.entries(change.products ?? {}).map(([what, { id }]) => [what, id]);
  return {
    ...job,
    crew: { ...job.crew, people: change.people ?? job.crew.people },
    bayAreaM2: change.bayAreaM2 ?? job.bayAreaM2,
    costs: change.costs ?? job.costs,
    buildUp: {
      ...job.buildUp,
      products: { ...job.buildUp.products, ...Object.fromEntries(ids) },
    },
  };
}

/** Setting up comes first; then the deck is squeegeed and blown. */
const DRY_DOWN_AFTER_MS = 20 * MS_PER_MINUTE;
/** Film a squeegee and blower leave [mm]: the thin end of what a swept deck keeps (from memory). */
const DRY_DOWN_LEAVES_MM = 0.1;

/**
 * What is known of a surface besides the forecast: what was read on it, and that the crew dries the deck
 * down at the start of each working day to come. Only a bare deck has stood in the past days'
 * weather; when a covered one is opened differs from start to start, so that it is taken as laid open
 * all along for its temperature, and `freshlyOpened` keeps earlier rain from counting.
 */
function historyOf(
  kind: SurfaceKind,
  { job, nowMs, readings = [] }: PrepareArgs,
  grid: WeatherGrid,
): SurfaceHistory | null {
  if (kind !== 'deck') return null;
  const zone = job.site.timeZone;
  const endMs = stepStartMs(grid, grid.steps);
  const dryDowns = localDaysBetween(nowMs, endMs, zone)
    .filter((day) => isWorkDay(job.crew, day))
    .map((day) => wallTimeMs(day, job.crew.dayStart, zone) + DRY_DOWN_AFTER_MS)
    .filter((atMs) => atMs >= nowMs)
    .map((atMs) => ({ atMs, leavesMm: DRY_DOWN_LEAVES_MM }));
  return { openedMs: null, coveredMs: null, moistureAtOpeningPct: null, dryDowns, readings };
}

/** The surface an activity's rules are read on: what is coated first, else what is worked on. */
export function surfaceOf(activity: Activity): SurfaceKind {
  if (activity.coats !== undefined) return activity.coats.surfaces[0] ?? 'deck';
  const onSheet = ['laps', 'details', 'sealant', 'edge-fixings', 'check'];
  return onSheet.includes(activity.stage) ? 'sheet' : 'deck';
}

export function productOfActivity(activity: Activity, products: ProductSet): string {
  if (activity.coats !== undefined) return activity.coats.productId;
  switch (activity.productJob) {
    case null:
      return '';
    case 'lap-tape':
      return products.lapTape.id;
    case 'night-seal':
      return products.nightSeal.id;
    default:
      return products[activity.productJob].id;
  }
}

function productOf(productById: ReadonlyMap<string, Product>, id: string): Product {
  const product = productById.get(id);
  if (product === undefined) throw new Error(`product ${id} is not part of this build-up`);
  return product;
}

function nextRainColumn(grid: WeatherGrid, limits: FirmLimits): Int32Array {
  const perStep = (limits.rainMmPerHour * grid.stepMs) / MS_PER_HOUR;
  const out = new Int32Array(grid.steps * grid.memberCount).fill(grid.steps);
  for (let m = 0; m < grid.memberCount; m += 1) {
    let next = grid.steps;
    for (let i = grid.knownSteps[m]! - 1; i >= 0; i -= 1) {
      if (grid.rainMm[m * grid.steps + i]! >= perStep) next = i;
      out[m * grid.steps + i] = next;
    }
  }
  return out;
}

function remember<K, V>(make: (key: K) => V): (key: K) => V {
  const made = new Map<K, V>();
  return (key) => {
    const known = made.get(key);
    if (known !== undefined) return known;
    const value = make(key);
    made.set(key, value);
    return value;
  };
}
