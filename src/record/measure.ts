import { brokenLimits, type DoseTable, type Product, whenReached } from '../products/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import { type SurfaceWeather, stepAt, type WeatherGrid } from '../weather/index.ts';

/** The weather over one coated face, and what the product's sheet makes of it. */
export interface CoatedFace {
  readonly surface: SurfaceWeather;
  readonly doses: DoseTable;
}

/** What is known of the weather while a film dried: on one grid, its faces in any order. */
export interface WeatherOfFilm {
  readonly grid: WeatherGrid;
  /** One or more. */
  readonly faces: readonly CoatedFace[];
}

export type MeasuredFilm =
  | {
      readonly ok: true;
      /** Reference minutes of drying the slowest face had had, middle of the forecasts; above 0. */
      readonly doseMin: number;
      /** Standard deviation of its logarithm between the forecasts. */
      readonly forecastSd: number;
      /**
       * Minutes from coating to so many reference minutes, middle of the forecasts: from an eighth of the
       * sheet's typical time to eight times it, rising. Plain numbers, so that they can be kept.
       */
      readonly curve: readonly { readonly refMin: number; readonly minutes: number }[];
    }
  | {
      readonly ok: false;
      /** 'aside' = not to be learned from; 'no-drying' = logged dry though nothing could dry. */
      readonly kind: 'aside' | 'no-drying';
      readonly why: string;
    };

/** Rain in the time a film dried that counts as rain on it [mm]. */
const RAIN_MM = 0.05;

/**
 * How far the sheet says a film had dried when somebody found it touch dry.
 * @param product  with a touch-dry time
 * @param coatedMs  before `dryMs`
 * @param weather  null = not known for that time
 * @throws RangeError where `dryMs` does not lie after `coatedMs`
 */
export function measureFilm(
  product: Product,
  coatedMs: number,
  dryMs: number,
  weather: WeatherOfFilm | null,
): MeasuredFilm {
  if (weather === null) return aside('the weather while it dried is not known');
  const { grid, faces } = weather;
  const sheet = product.touchDry;
  if (sheet === null) throw new Error(`${product.id} has no touch-dry time to measure by`);
  if (!(dryMs > coatedMs)) throw new RangeError(`dryMs (${dryMs}) must lie after ${coatedMs}`);
  if (faces.length === 0) throw new Error('a film lies on at least one face');
  const known = membersKnown(grid, coatedMs, dryMs);
  if (2 * known.length < grid.memberCount || known.length === 0) {
    return aside('the weather while it dried is not known');
  }
  if (rainedOn(grid, known, coatedMs, dryMs))
    return aside('by the weather known, it was rained on');
  const broken = outsideSheet(product, weather, known, coatedMs, dryMs);
  if (broken !== null) return aside(`outside the data sheet while it dried: ${broken}`);

  const dosesMin = known.map((m) =>
    Math.min(...faces.map(({ doses }) => gainedMin(doses, m, coatedMs, dryMs))),
  );
  const doseMin = middle(dosesMin);
  if (!(doseMin > 0)) {
    const why = 'by the weather known it could not dry at all';
    return { ok: false, kind: 'no-drying', why };
  }
  const elapsedMin = (dryMs - coatedMs) / MS_PER_MINUTE;
  const minutesTo = (refMin: number): number => {
    const found = middle(
      known.map((m) => {
        const reached = faces.map(({ doses }) =>
          whenReached(doses, 'touchDry', m, coatedMs, refMin),
        );
        const lastMs = Math.max(...reached.map((ms) => ms ?? Number.POSITIVE_INFINITY));
        return (lastMs - coatedMs) / MS_PER_MINUTE;
      }),
    );
    // Beyond what was kept of the weather it goes on as fast as it had on the whole.
    return Number.isFinite(found) ? found : (elapsedMin * refMin) / doseMin;
  };
  const typicalMin = sheet.typicalMin;
  const curve = Array.from({ length: 2 * CURVE_REACH + 1 }, (_, k) => {
    const refMin = typicalMin * 2 ** ((k - CURVE_REACH) / CURVE_PER_DOUBLING);
    return { refMin, minutes: minutesTo(refMin) };
  });
  return { ok: true, doseMin, forecastSd: sdOfLogs(dosesMin), curve };
}

/** Points of the curve on either side of the sheet's typical time, and how many to a doubling. */
const CURVE_REACH = 12;
const CURVE_PER_DOUBLING = 4;

/**
 * Minutes from coating to so many reference minutes, between the points of a film's curve; beyond its
 * ends as fast as at them.
 */
export function minutesAlong(film: MeasuredFilm & { readonly ok: true }, refMin: number): number {
  const { curve } = film;
  let k = curve.findIndex((point) => point.refMin >= refMin);
  if (k < 0) k = curve.length - 1;
  const above = curve[k]!;
  const below = curve[k - 1];
  if (below === undefined || above.refMin < refMin) return (above.minutes * refMin) / above.refMin;
  const share = (refMin - below.refMin) / (above.refMin - below.refMin);
  return below.minutes + share * (above.minutes - below.minutes);
}

function aside(why: string): MeasuredFilm {
  return { ok: false, kind: 'aside', why };
}

function membersKnown(grid: WeatherGrid, fromMs: number, toMs: number): number[] {
  if (fromMs < grid.startMs) return [];
  const last = (toMs - grid.startMs) / grid.stepMs;
  return Array.from({ length: grid.memberCount }, (_, m) => m).filter(
    (m) => last <= grid.knownSteps[m]!,
  );
}

/** Columns of the steps a film lay through in one forecast. */
function columnsBetween(grid: WeatherGrid, m: number, fromMs: number, toMs: number): number[] {
  const first = stepAt(grid, fromMs);
  const last = Math.max(first, Math.ceil((toMs - grid.startMs) / grid.stepMs) - 1);
  return Array.from({ length: last - first + 1 }, (_, k) => m * grid.steps + first + k);
}

/** In at least half of the forecasts; rain inside a step is taken as even. */
function rainedOn(
  grid: WeatherGrid,
  known: readonly number[],
  fromMs: number,
  toMs: number,
): boolean {
  const wet = known.filter((m) => {
    let rainMm = 0;
    for (const at of columnsBetween(grid, m, fromMs, toMs)) {
      const stepMs = grid.startMs + (at - m * grid.steps) * grid.stepMs;
      const overlapMs = Math.min(toMs, stepMs + grid.stepMs) - Math.max(fromMs, stepMs);
      rainMm += (grid.rainMm[at]! * overlapMs) / grid.stepMs;
    }
    // A long film is judged by the hour, so that a drizzle of hundredths does not add up over a day.
    return rainMm >= RAIN_MM * Math.max(1, (toMs - fromMs) / MS_PER_HOUR);
  });
  return 2 * wet.length >= known.length;
}

/** The limit broken at some moment on some face in at least half of the forecasts, in words; or null. */
function outsideSheet(
  product: Product,
  { grid, faces }: WeatherOfFilm,
  known: readonly number[],
  fromMs: number,
  toMs: number,
): string | null {
  const seen = new Map<string, { count: number; words: string }>();
  for (const m of known) {
    const broken = new Map<string, string>();
    for (const at of columnsBetween(grid, m, fromMs, toMs)) {
      for (const { surface } of faces) {
        const now = {
          airTempC: grid.airTempC[at]!,
          surfaceTempC: surface.surfaceTempC[at]!,
          dewPointC: grid.dewPointC[at]!,
        };
        for (const { limit, words } of brokenLimits(product, now)) broken.set(limit, words);
      }
    }
    for (const [limit, words] of broken) {
      seen.set(limit, { count: (seen.get(limit)?.count ?? 0) + 1, words });
    }
  }
  for (const { count, words } of seen.values()) if (2 * count >= known.length) return words;
  return null;
}

/** Reference minutes of drying between two instants inside what is known of a forecast. */
function gainedMin(doses: DoseTable, m: number, fromMs: number, toMs: number): number {
  const { startMs, stepMs, steps } = doses.film;
  const total = doses.total('touchDry');
  const base = m * (steps + 1);
  const at = (ms: number): number => {
    const place = (ms - startMs) / stepMs;
    const i = Math.min(Math.floor(place), steps);
    const before = total[base + i]!;
    return i >= steps ? before : before + (total[base + i + 1]! - before) * (place - i);
  };
  return at(toMs) - at(fromMs);
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Over the forecasts in which it dried at all; 0 for a single one. */
function sdOfLogs(values: readonly number[]): number {
  const logs = values.filter((value) => value > 0).map(Math.log);
  if (logs.length < 2) return 0;
  const mean = logs.reduce((sum, log) => sum + log, 0) / logs.length;
  const squares = logs.reduce((sum, log) => sum + (log - mean) ** 2, 0);
  return Math.sqrt(squares / (logs.length - 1));
}
