import type { WeatherGrid } from '../../weather/index.ts';

/** From `from` up to `to`, which is no part of it. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** What a rule is asked about; of everything else it says nothing. */
export interface Asked {
  readonly spans: readonly Span[];
  /** The cells of those steps in every member, as far as it is known: runs of column indices. */
  readonly cells: readonly Span[];
}

/** A column of bit sets, one cell per member and step, with the cells and the bit a rule may set. */
export interface Marks extends Asked {
  readonly broken: Uint16Array;
  readonly bit: number;
}

export function askedOf(
  { steps, memberCount, knownSteps }: WeatherGrid,
  spans: readonly Span[],
): Asked {
  const cells: Span[] = [];
  for (let m = 0; m < memberCount; m += 1) {
    for (const span of spans) {
      const to = Math.min(span.to, knownSteps[m]!);
      if (to > span.from) cells.push({ from: m * steps + span.from, to: m * steps + to });
    }
  }
  return { spans, cells };
}

/** Broken under a limit; met exactly on it. */
export function markBelow({ cells, broken, bit }: Marks, column: Float32Array, limit: number) {
  for (const { from, to } of cells) {
    for (let at = from; at < to; at += 1) if (column[at]! < limit) broken[at]! |= bit;
  }
}

/** Broken over a limit; met exactly on it. */
export function markAbove({ cells, broken, bit }: Marks, column: Float32Array, limit: number) {
  for (const { from, to } of cells) {
    for (let at = from; at < to; at += 1) if (column[at]! > limit) broken[at]! |= bit;
  }
}

/** Broken over a limit, and exactly on it. */
export function markFrom({ cells, broken, bit }: Marks, column: Float32Array, limit: number) {
  for (const { from, to } of cells) {
    for (let at = from; at < to; at += 1) if (column[at]! >= limit) broken[at]! |= bit;
  }
}

/** Broken under a limit, and exactly on it. */
export function markUpTo({ cells, broken, bit }: Marks, column: Float32Array, limit: number) {
  for (const { from, to } of cells) {
    for (let at = from; at < to; at += 1) if (column[at]! <= limit) broken[at]! |= bit;
  }
}
