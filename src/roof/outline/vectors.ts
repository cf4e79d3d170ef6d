import type { Point } from './types.ts';

/** Plane vectors and polygons, coordinates in metres. A polygon is a list of points without a repeated last one. */

export const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1]];
export const along = (a: Point, direction: Point, byM: number): Point => [
  a[0] + direction[0] * byM,
  a[1] + direction[1] * byM,
];
export const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1];
/** Above 0 where b is counter-clockwise of a. */
export const cross = (a: Point, b: Point): number => a[0] * b[1] - a[1] * b[0];
export const distanceM = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const between = (a: Point, b: Point, share: number): Point => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
];
export const middle = (a: Point, b: Point): Point => between(a, b, 0.5);

/** Unit vector from a to b; the two must differ. */
export function towards(a: Point, b: Point): Point {
  const lengthM = distanceM(a, b);
  if (!(lengthM > 0)) throw new RangeError(`points ${a} and ${b} give no direction`);
  return [(b[0] - a[0]) / lengthM, (b[1] - a[1]) / lengthM];
}

/** Left of a direction: inwards, for an edge of a counter-clockwise outline. */
export const leftOf = (direction: Point): Point => [-direction[1], direction[0]];

/** Direction on the drawing from an angle as `fallPlanDeg` counts it: 0 = +y, 90 = +x. */
export function planDirection(planDeg: number): Point {
  const rad = (planDeg * Math.PI) / 180;
  return [Math.sin(rad), Math.cos(rad)];
}

/** Turned counter-clockwise about a centre. */
export function turned(p: Point, aroundM: Point, turnDeg: number): Point {
  if (turnDeg === 0) return p;
  const rad = (turnDeg * Math.PI) / 180;
  const [x, y] = minus(p, aroundM);
  const [c, s] = [Math.cos(rad), Math.sin(rad)];
  return [aroundM[0] + c * x - s * y, aroundM[1] + s * x + c * y];
}

/** Twice the signed area is summed about the first point, so that a far-off origin costs no digits. */
export function signedAreaM2(points: readonly Point[]): number {
  const first = points[0];
  if (first === undefined) return 0;
  let twice = 0;
  for (let i = 1; i + 1 < points.length; i += 1) {
    twice += cross(minus(points[i]!, first), minus(points[i + 1]!, first));
  }
  return twice / 2;
}

export function perimeterM(points: readonly Point[]): number {
  return points.reduce((sum, p, i) => sum + distanceM(p, points[(i + 1) % points.length]!), 0);
}

/** Nearest point of a segment. */
export function nearestOn(p: Point, a: Point, b: Point): Point {
  const ab = minus(b, a);
  const lengthSq = dot(ab, ab);
  if (lengthSq === 0) return a;
  return between(a, b, Math.min(1, Math.max(0, dot(minus(p, a), ab) / lengthSq)));
}

/** Where two segments come closest, and how close; 0 where they cross or touch. */
export function segmentsMeet(
  a: Point,
  b: Point,
  c: Point,
  d: Point,
): { readonly at: Point; readonly gapM: number } {
  const [ab, cd] = [minus(b, a), minus(d, c)];
  const sine = cross(ab, cd);
  if (sine !== 0) {
    const s = cross(minus(c, a), cd) / sine;
    const t = cross(minus(c, a), ab) / sine;
    if (s >= 0 && s <= 1 && t >= 0 && t <= 1) return { at: between(a, b, s), gapM: 0 };
  }
  const pairs: readonly (readonly [Point, Point])[] = [
    [a, nearestOn(a, c, d)],
    [b, nearestOn(b, c, d)],
    [c, nearestOn(c, a, b)],
    [d, nearestOn(d, a, b)],
  ];
  let best = pairs[0]!;
  for (const pair of pairs) if (distanceM(...pair) < distanceM(...best)) best = pair;
  return { at: middle(...best), gapM: distanceM(...best) };
}

/** True inside or on the line; even-odd, so it says something of a self-crossing outline, too. */
export function isInside(p: Point, points: readonly Point[]): boolean {
  let inside = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i, i += 1) {
    const [a, b] = [points[i]!, points[j]!];
    if (a[1] > p[1] === b[1] > p[1]) continue;
    if (p[0] < a[0] + ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1])) inside = !inside;
  }
  return inside;
}

/** Distance to the nearest edge, whichever side the point is on. */
export function edgeDistanceM(p: Point, points: readonly Point[]): number {
  let bestM = Number.POSITIVE_INFINITY;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!;
    bestM = Math.min(bestM, distanceM(p, nearestOn(p, a, b)));
  });
  return bestM;
}
