import { type Frame, toFrame } from './frame.ts';
import type { Interval } from './intervals.ts';
import type { Region } from './region.ts';

/**
 * A region cut across at every corner: between two neighbouring levels `v[k]` and `v[k+1]` it is a row
 * of trapezoids, four numbers each: left and right at the lower level, left and right at the upper.
 */
export interface Slabs {
  readonly v: readonly number[];
  readonly rows: readonly Float64Array[];
}

const EPS = 1e-9;

interface Side {
  readonly u0: number;
  readonly v0: number;
  readonly u1: number;
  readonly v1: number;
  /** +1 upwards, -1 downwards. */
  readonly turn: number;
}

export function cutIntoSlabs(region: Region, frame: Frame): Slabs {
  const sides: Side[] = [];
  const levels: number[] = [];
  for (const loop of region.loops) {
    const uv = loop.map((p) => toFrame(frame, p));
    uv.forEach((p, i) => {
      const q = uv[(i + 1) % uv.length]!;
      levels.push(p[1]);
      if (Math.abs(q[1] - p[1]) < EPS) return;
      const up = q[1] > p[1];
      const [a, b] = up ? [p, q] : [q, p];
      sides.push({ u0: a[0], v0: a[1], u1: b[0], v1: b[1], turn: up ? 1 : -1 });
    });
  }
  if (!region.simple) addCrossings(sides, levels);
  levels.sort((a, b) => a - b);
  const v = levels.filter((level, i) => i === 0 || level - levels[i - 1]! > EPS);
  const rows: Float64Array[] = [];
  for (let k = 0; k + 1 < v.length; k += 1) rows.push(rowOf(sides, v[k]!, v[k + 1]!));
  return { v, rows };
}

function addCrossings(sides: readonly Side[], levels: number[]): void {
  for (let i = 0; i < sides.length; i += 1) {
    const a = sides[i]!;
    for (let j = i + 1; j < sides.length; j += 1) {
      const b = sides[j]!;
      const slope = (a.u1 - a.u0) / (a.v1 - a.v0) - (b.u1 - b.u0) / (b.v1 - b.v0);
      if (Math.abs(slope) < EPS) continue;
      const lo = Math.max(a.v0, b.v0);
      const hi = Math.min(a.v1, b.v1);
      const v = lo - (at(a, lo) - at(b, lo)) / slope;
      if (v > lo + EPS && v < hi - EPS) levels.push(v);
    }
  }
}

function at(side: Side, v: number): number {
  return side.u0 + ((side.u1 - side.u0) * (v - side.v0)) / (side.v1 - side.v0);
}

function rowOf(sides: readonly Side[], low: number, high: number): Float64Array {
  const middle = (low + high) / 2;
  const here = sides
    .filter((side) => side.v0 < middle && side.v1 > middle)
    .map((side) => ({ side, u: at(side, middle) }))
    .sort((a, b) => a.u - b.u);
  const out: number[] = [];
  let wound = 0;
  let left: Side | null = null;
  for (const { side } of here) {
    const before = wound;
    // The outline runs counter-clockwise: down on its left.
    wound -= side.turn;
    if (before === 0) left = side;
    else if (wound === 0 && left !== null) {
      out.push(at(left, low), at(side, low), at(left, high), at(side, high));
    }
  }
  return Float64Array.from(out);
}

/** Where the region lies between two levels, seen along the courses. */
export function extent(slabs: Slabs, from: number, to: number, gap: number): Interval[] {
  const ends: number[] = [];
  const count = extentInto(slabs, from, to, gap, ends);
  return Array.from({ length: count }, (_, i): Interval => [ends[2 * i]!, ends[2 * i + 1]!]);
}

/** `extent` written into an array that is used again and again: from, to, from, to ... @returns how many */
export function extentInto(
  slabs: Slabs,
  from: number,
  to: number,
  gap: number,
  out: number[],
): number {
  const { v, rows } = slabs;
  let n = 0;
  for (let k = firstRow(v, from); k < rows.length && v[k]! < to - EPS; k += 1) {
    const low = v[k]!;
    const height = v[k + 1]! - low;
    const a = Math.max(0, (from - low) / height);
    const b = Math.min(1, (to - low) / height);
    const row = rows[k]!;
    for (let t = 0; t < row.length; t += 4) {
      const l = row[t]!;
      const r = row[t + 1]!;
      const dl = row[t + 2]! - l;
      const dr = row[t + 3]! - r;
      n = join(out, n, l + Math.min(dl * a, dl * b), r + Math.max(dr * a, dr * b), gap);
    }
  }
  return n;
}

/** Puts an interval among `n` sorted, disjoint ones, closing gaps up to `gap`. @returns how many there are then */
function join(out: number[], n: number, from: number, to: number, gap: number): number {
  let i = 0;
  while (i < n && out[2 * i + 1]! + gap < from) i += 1;
  let j = i;
  let lo = from;
  let hi = to;
  while (j < n && out[2 * j]! <= hi + gap) {
    lo = Math.min(lo, out[2 * j]!);
    hi = Math.max(hi, out[2 * j + 1]!);
    j += 1;
  }
  const shift = 1 - (j - i);
  if (shift === 1) for (let k = n - 1; k >= i; k -= 1) copy(out, k, k + 1);
  else if (shift < 0) for (let k = j; k < n; k += 1) copy(out, k, k + shift);
  out[2 * i] = lo;
  out[2 * i + 1] = hi;
  return n + shift;
}

function copy(out: number[], from: number, to: number): void {
  out[2 * to] = out[2 * from]!;
  out[2 * to + 1] = out[2 * from + 1]!;
}

/** Area of the region inside a rectangle of the frame [m2]; exact. */
export function areaIn(
  slabs: Slabs,
  fromU: number,
  toU: number,
  fromV: number,
  toV: number,
): number {
  let sum = 0;
  const { v, rows } = slabs;
  for (let k = firstRow(v, fromV); k < rows.length && v[k]! < toV; k += 1) {
    const low = v[k]!;
    const high = v[k + 1]!;
    const a = Math.max(0, (fromV - low) / (high - low));
    const b = Math.min(1, (toV - low) / (high - low));
    const row = rows[k]!;
    for (let t = 0; t < row.length; t += 4) {
      const l = row[t]!;
      const r = row[t + 1]!;
      const dl = row[t + 2]! - l;
      const dr = row[t + 3]! - r;
      const width =
        meanWithin(r + dr * a, r + dr * b, fromU, toU) -
        meanWithin(l + dl * a, l + dl * b, fromU, toU);
      sum += width * (b - a) * (high - low);
    }
  }
  return sum;
}

export function areaOf(slabs: Slabs): number {
  const { v } = slabs;
  return areaIn(slabs, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, v[0]!, v[v.length - 1]!);
}

/** Mean of x, kept within lo..hi, as x goes evenly from x0 to x1. */
function meanWithin(x0: number, x1: number, lo: number, hi: number): number {
  const a = Math.min(x0, x1);
  const b = Math.max(x0, x1);
  if (a >= hi) return hi;
  if (b <= lo) return lo;
  if (a >= lo && b <= hi) return (a + b) / 2;
  const c = Math.max(a, lo);
  const d = Math.min(b, hi);
  const below = a < lo ? (lo - a) * lo : 0;
  const above = b > hi ? (b - hi) * hi : 0;
  return (below + ((c + d) / 2) * (d - c) + above) / (b - a);
}

function firstRow(v: readonly number[], from: number): number {
  let lo = 0;
  let hi = v.length - 1;
  while (lo < hi) {
    const middle = (lo + hi + 1) >> 1;
    if (v[middle]! <= from + EPS) lo = middle;
    else hi = middle - 1;
  }
  return lo;
}

export function levels(slabs: Slabs): Interval {
  return [slabs.v[0]!, slabs.v[slabs.v.length - 1]!];
}
