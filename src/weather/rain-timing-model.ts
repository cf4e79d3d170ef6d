/**
 * How a rain sum falls into parts of equal length: which parts are wet, and how the sum is shared among
 * them. One form serves two halves (12 h into 6, 6 h into 3) and three hours (3 h into 1).
 */
import { MS_PER_HOUR } from '../units/index.ts';

/** An hour with less is dry: the smallest amount the gauge behind the statistics prints [mm]. */
export const LEAST_WET_MM = 0.1;
/** Sums below this count as a dry neighbour [mm]: the gauge would print 0.0. */
const TRACE_MM = 0.05;
/** A neighbour with more rain than this per hour is a heavy one [mm/h]. */
const HEAVY_MMPH = 0.3;

/** Upper edges of the classes of a sum [mm]; between the gauge's steps, so that none lies on an edge. */
const SUM_EDGES_MM = [0.15, 0.25, 0.45, 0.95, 1.95, 3.95];
export const SUM_CLASSES = SUM_EDGES_MM.length + 1;
/** Upper edges of the classes of the rain beyond LEAST_WET_MM in each wet part [mm]. */
const EXCESS_EDGES_MM = [0.45, 1.95];
export const EXCESS_CLASSES = EXCESS_EDGES_MM.length + 1;

/** Index into `first` and `last`. */
export const NEIGHBOUR = { dry: 0, light: 1, heavy: 2, unknown: 3 } as const;
/** Index into a share's cells: heavier before, alike or unknown, heavier after. */
export const TILT = { falling: 0, level: 1, rising: 2 } as const;

/** Log-linear weights of the wet and dry patterns; fitted, see data/. */
export interface PatternModel {
  /** By class of the sum, then for two and (of three parts) three wet parts; one wet part is 0. */
  readonly wetParts: readonly (readonly number[])[];
  /** A dry part between two wet ones. */
  readonly gap: number;
  /** The first part is wet, by what fell before: dry, light, heavy, unknown. */
  readonly first: readonly number[];
  /** The last part is wet, by what falls after: dry, light, heavy, unknown. */
  readonly last: readonly number[];
  /** For each wet part in the summer half-year. */
  readonly summer: number;
  /** For each wet part, times cosine and sine of its hour angle (0 at solar midnight), winter then summer. */
  readonly dayWinter: readonly number[];
  readonly daySummer: readonly number[];
}

/** First share x of two: logit(x) = shift + width logit(u), u even in 0..1. */
export interface ShareCell {
  readonly shift: number;
  readonly width: number;
}

/** By class of the excess, then by tilt. */
export type ShareModel = readonly (readonly ShareCell[])[];

export interface SplitModel {
  readonly parts: 2 | 3;
  readonly pattern: PatternModel;
  /** Of two wet parts. */
  readonly pair: ShareModel;
  /** Of three wet parts: the first of all, then the second of the other two; empty for two parts. */
  readonly triple: readonly ShareModel[];
}

/** What the pattern of one sum depends on. */
export interface SplitContext {
  readonly sumMm: number;
  readonly before: number;
  readonly after: number;
  readonly tilt: number;
  readonly summer: boolean;
  /** Solar hour of day at the start of the sum, and the length of one part [h]. */
  readonly solarHour: number;
  readonly partHours: number;
}

const DAY_MS = 24 * MS_PER_HOUR;
const YEAR_DAYS = 365.2425;
/** 1 April 1970, in days of the epoch. */
const FIRST_APRIL = 90;

/** April to September in the north, October to March in the south; good to a day. */
export function isSummer(ms: number, latitudeDeg: number): boolean {
  const days = (((ms / DAY_MS - FIRST_APRIL) % YEAR_DAYS) + YEAR_DAYS) % YEAR_DAYS;
  return days < 183 === latitudeDeg >= 0;
}

const classOf = (edges: readonly number[], value: number): number => {
  let c = 0;
  while (c < edges.length && value >= edges[c]!) c += 1;
  return c;
};

export const sumClass = (sumMm: number): number => classOf(SUM_EDGES_MM, sumMm);
export const excessClass = (excessMm: number): number => classOf(EXCESS_EDGES_MM, excessMm);

/** What fell in a neighbouring stretch; NaN = unknown, which is not dry. */
export function neighbourOf(sumMm: number, hours: number): number {
  if (Number.isNaN(sumMm)) return NEIGHBOUR.unknown;
  if (sumMm < TRACE_MM) return NEIGHBOUR.dry;
  return sumMm < HEAVY_MMPH * hours ? NEIGHBOUR.light : NEIGHBOUR.heavy;
}

export function tiltOf(beforeMmph: number, afterMmph: number): number {
  if (beforeMmph > afterMmph) return TILT.falling;
  return afterMmph > beforeMmph ? TILT.rising : TILT.level;
}

export const wetCount = (pattern: number): number =>
  (pattern & 1) + ((pattern >> 1) & 1) + ((pattern >> 2) & 1);

/** Most parts that a sum can wet; a sum below the gauge's step still falls in one. */
export const mostWetParts = (sumMm: number): number =>
  Math.max(1, Math.floor(sumMm / LEAST_WET_MM + 1e-6));

/**
 * Log weight that each part brings to a pattern by being wet, linear in the model's numbers.
 * @returns [-], one per part, any finite number; comparable within one context only
 */
export function partWeights(model: PatternModel, parts: 2 | 3, at: SplitContext): number[] {
  const out: number[] = [];
  const day = at.summer ? model.daySummer : model.dayWinter;
  for (let i = 0; i < parts; i += 1) {
    const angle = ((at.solarHour + (i + 0.5) * at.partHours) * Math.PI) / 12;
    let sum = day[0]! * Math.cos(angle) + day[1]! * Math.sin(angle);
    if (at.summer) sum += model.summer;
    if (i === 0) sum += model.first[at.before]!;
    if (i === parts - 1) sum += model.last[at.after]!;
    out.push(sum);
  }
  return out;
}

/** Log weight of a pattern (bit i = part i is wet), from those of its parts. */
export function logWeight(
  model: PatternModel,
  pattern: number,
  sumMm: number,
  partLogs: readonly number[],
): number {
  const wet = wetCount(pattern);
  let sum = wet > 1 ? model.wetParts[sumClass(sumMm)]![wet - 2]! : 0;
  if (pattern === 0b101) sum += model.gap;
  for (let i = 0; i < partLogs.length; i += 1) if ((pattern & (1 << i)) !== 0) sum += partLogs[i]!;
  return sum;
}

/** The share x in 0..1 for an even draw u in 0..1, with `push` added to its log odds. */
export function shareAt(cell: ShareCell, u: number, push = 0): number {
  return 1 / (1 + Math.exp(-cell.shift - push) * ((1 - u) / u) ** cell.width);
}
