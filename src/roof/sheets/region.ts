import type { Point } from '../outline/types.ts';

/** Corners sharper than this reach of their mitre, in allowances, are cut straight. */
const MITRE_REACH = 2.5;
const FLAT = 1e-6;

export type Loop = readonly Point[];

/** A set of loops whose union, by non-zero winding, is the region. `simple`: no loop crosses any other. */
export interface Region {
  readonly loops: readonly Loop[];
  readonly simple: boolean;
}

/** The outline with every edge moved out by its own allowance, inwards where that is below 0 [m]. */
export function widen(points: readonly Point[], outM: readonly number[]): Region {
  const loop: Point[] = [];
  points.forEach((_, i) => {
    loop.push(...cornerOf(points, outM, i).boundary);
  });
  const tidy = withoutRepeats(loop);
  if (isSimple(tidy) && signedArea(tidy) > 0) return { loops: [tidy], simple: true };
  // Allowances run into each other, as in a narrow slot: take the union of outline, strips, corners.
  const loops: Loop[] = [points];
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    const a = outM[i]!;
    if (a > 0) {
      const n = outward(p, q);
      loops.push([p, shift(p, n, a), shift(q, n, a), q]);
    }
    const corner = cornerOf(points, outM, i);
    if (corner.patch !== null) loops.push(corner.patch);
  });
  return { loops, simple: false };
}

interface Corner {
  readonly boundary: Point[];
  /** What an outer corner adds to the two strips. */
  readonly patch: Loop | null;
}

function cornerOf(points: readonly Point[], outM: readonly number[], i: number): Corner {
  const n = points.length;
  const before = points[(i + n - 1) % n]!;
  const p = points[i]!;
  const after = points[(i + 1) % n]!;
  const a = outM[(i + n - 1) % n]!;
  const b = outM[i]!;
  const n1 = outward(before, p);
  const n2 = outward(p, after);
  const cos = n1[0] * n2[0] + n1[1] * n2[1];
  const sin = n1[0] * n2[1] - n1[1] * n2[0];
  const end1 = shift(p, n1, a);
  const end2 = shift(p, n2, b);
  if (Math.abs(sin) < FLAT) {
    return { boundary: Math.abs(a - b) < 1e-9 && cos > 0 ? [end1] : [end1, end2], patch: null };
  }
  const t1 = (b - a * cos) / sin;
  const t2 = (a - b * cos) / sin;
  // Along edge 1, its outward normal turned left by a quarter.
  const mitre: Point = [end1[0] - n1[1] * t1, end1[1] + n1[0] * t1];
  // An edge moved inwards only shortens its neighbours.
  if (Math.min(a, b) < 0) return { boundary: [mitre], patch: null };
  if (sin > 0) {
    const reach = Math.hypot(mitre[0] - p[0], mitre[1] - p[1]);
    const sharp = reach > MITRE_REACH * Math.max(a, b);
    if (t1 < 0 || t2 < 0 || sharp) return { boundary: [end1, end2], patch: [p, end1, end2] };
    return { boundary: [mitre], patch: [p, end1, mitre, end2] };
  }
  if (t1 > FLAT && cos > FLAT) return { boundary: [end1, shift(p, n1, b / cos)], patch: null };
  if (t2 > FLAT && cos > FLAT) return { boundary: [shift(p, n2, a / cos), end2], patch: null };
  return { boundary: [mitre], patch: null };
}

/** Unit normal on the right of p to q: outwards of a counter-clockwise outline. */
function outward(p: Point, q: Point): Point {
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  const length = Math.hypot(dx, dy);
  return [dy / length, -dx / length];
}

function shift(p: Point, n: Point, by: number): Point {
  return [p[0] + n[0] * by, p[1] + n[1] * by];
}

function withoutRepeats(loop: readonly Point[]): Point[] {
  return loop.filter((p, i) => {
    const q = loop[(i + 1) % loop.length]!;
    return Math.hypot(p[0] - q[0], p[1] - q[1]) > 1e-9;
  });
}

export function signedArea(loop: Loop): number {
  let sum = 0;
  loop.forEach((p, i) => {
    const q = loop[(i + 1) % loop.length]!;
    sum += p[0] * q[1] - p[1] * q[0];
  });
  return sum / 2;
}

function isSimple(loop: Loop): boolean {
  const n = loop.length;
  for (let i = 0; i < n; i += 1) {
    for (let j = i + 2; j < n; j += 1) {
      if (i === 0 && j === n - 1) continue;
      if (meet(loop[i]!, loop[(i + 1) % n]!, loop[j]!, loop[(j + 1) % n]!)) return false;
    }
  }
  return true;
}

/** Whether two stretches touch or cross. */
function meet(a: Point, b: Point, c: Point, d: Point): boolean {
  if (Math.max(a[0], b[0]) < Math.min(c[0], d[0]) - FLAT) return false;
  if (Math.max(c[0], d[0]) < Math.min(a[0], b[0]) - FLAT) return false;
  const side = (p: Point, q: Point, r: Point): number =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  const tiny = FLAT * FLAT;
  return side(a, b, c) * side(a, b, d) <= tiny && side(c, d, a) * side(c, d, b) <= tiny;
}
