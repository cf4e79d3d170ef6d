/** Errors that hang together over hours: seeded, mirrored in pairs, with an exact spread at every hour. */
import { seededRandom } from '../units/index.ts';

/**
 * Members made of one forecast: itself, and fifteen pairs that err as far to one side as to the other.
 * The middle of them is the forecast, whatever the draw.
 */
export const MADE_COUNT = 31;

/** One value per member and hour, [member][hour]; member 0 is 0 throughout, the mean of all is 0. */
export type Errors = readonly Float64Array[];

/** What one series of draws belongs to; each has its own, so that none shifts when another changes. */
export interface Series {
  readonly seed: number;
  readonly hours: number;
  /** A number of its own for each thing that errs. */
  readonly what: number;
}

/** How long an error lasts [h]; a smooth one has no kinks from hour to hour. */
export interface Memory {
  readonly hours: number;
  readonly smooth: boolean;
}

/** Draws before the first hour, in multiples of the memory: by then the start is forgotten. */
const WARM_UP = 6;

/**
 * Errors of unit spread. A plain one is first-order autoregressive, correlation exp(-k / memory) after
 * k hours; a smooth one is that filtered once more, correlation about (1 + k / memory) exp(-k / memory).
 * Hour h hangs on the draws up to h only.
 */
export function drawErrors(series: Series, memory: Memory): Errors {
  return pairs(series.hours, (pair, out) => {
    const draw = normalDraws(mix(series.seed, series.what, pair));
    const keep = Math.exp(-1 / memory.hours);
    const fresh = Math.sqrt(1 - keep * keep);
    // Spread of the filtered series: an AR(2) with a double root (Box & Jenkins, ch. 3).
    const filtered = Math.sqrt((1 + keep ** 2) / (1 - keep ** 2) ** 2);
    let quick = draw();
    let slow = 0;
    const warmUp = Math.ceil(WARM_UP * memory.hours);
    for (let h = -warmUp; h < series.hours; h += 1) {
      quick = keep * quick + fresh * draw();
      slow = keep * slow + quick;
      if (h >= 0) out[h] = memory.smooth ? slow / filtered : quick;
    }
  });
}

/**
 * A weighted sum of errors, again of unit spread at every hour.
 * @param weights  by hour, one per part; not all 0
 */
export function blend(
  parts: readonly Errors[],
  weights: (hour: number) => readonly number[],
): Errors {
  const hours = parts[0]![0]!.length;
  const byHour = Array.from({ length: hours }, (_, h) => weights(h));
  return pairs(hours, (pair, out) => {
    for (let h = 0; h < hours; h += 1) {
      parts.forEach((part, n) => {
        out[h]! += byHour[h]![n]! * part[2 * pair + 1]![h]!;
      });
    }
  });
}

/** Fills one side of each pair, mirrors it, and scales every hour to a spread (n - 1) of exactly 1. */
function pairs(hours: number, fill: (pair: number, out: Float64Array) => void): Errors {
  const count = (MADE_COUNT - 1) / 2;
  const sides = Array.from({ length: count }, (_, pair) => {
    const out = new Float64Array(hours);
    fill(pair, out);
    return out;
  });
  for (let h = 0; h < hours; h += 1) {
    let square = 0;
    for (const side of sides) square += side[h]! ** 2;
    const scale = Math.sqrt(count / square);
    for (const side of sides) side[h]! *= scale;
  }
  return [new Float64Array(hours), ...sides.flatMap((side) => [side, side.map((x) => -x)])];
}

/** Place of each member among all at one hour, 0 = least; equal ones in the order of the list. */
export function ranksAt(errors: Errors, hour: number): Int32Array {
  const order = errors
    .map((_, m) => m)
    .sort((a, b) => errors[a]![hour]! - errors[b]![hour]! || a - b);
  const ranks = new Int32Array(errors.length);
  order.forEach((m, rank) => {
    ranks[m] = rank;
  });
  return ranks;
}

/** Even draws of a series, 0 <= x < 1, one per hour. */
export function evenDraws({ seed, hours, what }: Series): Float64Array {
  const draw = seededRandom(mix(seed, what, 0));
  return Float64Array.from({ length: hours }, draw);
}

/** Normal draws by Box & Muller 1958. */
function normalDraws(seed: number): () => number {
  const even = seededRandom(seed);
  return () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
}

function mix(seed: number, what: number, pair: number): number {
  let h = Math.imul(seed | 0, 0x9e3779b1);
  for (const part of [what, pair]) {
    h = Math.imul(h ^ (part + 1), 0x85ebca6b);
    h ^= h >>> 15;
    h = Math.imul(h, 0xc2b2ae35);
    h ^= h >>> 13;
  }
  return h;
}
