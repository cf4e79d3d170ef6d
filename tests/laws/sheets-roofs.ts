import fc from 'fast-check';
import type { SheetEdge, SheetPart } from '../../src/roof/sheets/index.ts';

/** Roofs of many outlines, and geometry written apart from the code under test. */

export type P = readonly [number, number];

const EDGES: readonly SheetEdge[] = [
  { kind: 'gutter', upstandMm: 0 },
  { kind: 'verge', upstandMm: 0 },
  { kind: 'kerb', upstandMm: 100 },
  { kind: 'abutment', upstandMm: 150 },
  { kind: 'parapet', upstandMm: 300 },
  { kind: 'boundary', upstandMm: 200 },
  { kind: 'next-bay', upstandMm: 0 },
  { kind: 'earlier-bay', upstandMm: 0 },
];
export const anyEdge = fc.constantFrom(...EDGES);

/** What practice cuts over the edge, by hand: 100 mm down, upstand + 50 mm, over a kerb + 100 mm, lap + 150 mm. */
export function overM(edge: SheetEdge): number {
  const upM = edge.upstandMm / 1000;
  return (
    {
      gutter: 0.1,
      verge: 0.1,
      kerb: upM + 0.1,
      'next-bay': 0.1 + 0.15,
      'earlier-bay': 0,
      shared: 0.05,
    }[edge.kind as string] ?? upM + 0.05
  );
}

export function area(points: readonly P[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);
}

export function length(points: readonly P[], i: number): number {
  const [a, b] = [points[i]!, points[(i + 1) % points.length]!];
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

export function inside([x, y]: P, points: readonly P[]): boolean {
  let odd = false;
  points.forEach(([ax, ay], i) => {
    const [bx, by] = points[(i + 1) % points.length]!;
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) odd = !odd;
  });
  return odd;
}

/** Distance to the nearest edge. */
export function toEdge([x, y]: P, points: readonly P[]): number {
  return Math.min(
    ...points.map(([ax, ay], i) => {
      const [bx, by] = points[(i + 1) % points.length]!;
      const l2 = (bx - ax) ** 2 + (by - ay) ** 2;
      const t = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / l2));
      return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
    }),
  );
}

const tenths = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);

/** A base with towers of several widths and heights on it: L, T, U and comb shapes. */
export const stepped: fc.Arbitrary<readonly P[]> = fc
  .record({
    base: tenths(2, 8),
    towers: fc.array(fc.record({ w: tenths(1.5, 9), h: tenths(1, 12) }), {
      minLength: 1,
      maxLength: 4,
    }),
  })
  .map(({ base, towers }) => {
    const top: P[] = [];
    let x = 0;
    for (const { w, h } of towers) {
      top.push([x, base + h], [x + w, base + h]);
      x = Math.round((x + w) * 10) / 10;
      top[top.length - 1] = [x, base + h];
    }
    const points: P[] = [[0, 0], [x, 0], ...top.reverse()];
    // Towers of one height meet without a step.
    return points.filter((p, i) => {
      const q = points[(i + 1) % points.length]!;
      return Math.hypot(p[0] - q[0], p[1] - q[1]) > 1e-9;
    });
  });

/** Points at rising angles round a middle: any number of slanting edges, dents included. */
export const starry: fc.Arbitrary<readonly P[]> = fc
  .array(fc.record({ turn: fc.double({ min: 0.5, max: 1, noNaN: true }), r: tenths(4, 12) }), {
    minLength: 4,
    maxLength: 9,
  })
  .map((spokes) => {
    const whole = spokes.reduce((sum, s) => sum + s.turn, 0);
    let angle = 0;
    return spokes.map(({ turn, r }): P => {
      angle += (turn / whole) * 2 * Math.PI;
      return [r * Math.cos(angle), r * Math.sin(angle)];
    });
  });

export function roofOn(outlines: fc.Arbitrary<readonly P[]>): fc.Arbitrary<SheetPart> {
  return outlines.chain((points) =>
    fc.record({
      points: fc.constant(points),
      edges: fc.array(anyEdge, { minLength: points.length, maxLength: points.length }),
      fallDeg: fc.constantFrom(0, 1.4, 3),
      fallPlanDeg: fc.constantFrom(0, 90, 180, 270, 33),
      features: fc.constant([]),
    }),
  );
}

export const turnPoint = ([x, y]: P, deg: number): P => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return [x * c - y * s, x * s + y * c];
};

export const offers = fc.constantFrom(
  [
    { widthM: 3.05, lengthM: 30.5 },
    { widthM: 6.1, lengthM: 30.5 },
  ],
  [{ widthM: 1.5, lengthM: 20 }],
  [
    { widthM: 2.1, lengthM: 15 },
    { widthM: 4.55, lengthM: 10 },
  ],
  [
    { widthM: 1.4, lengthM: 6 },
    { widthM: 3.05, lengthM: 8 },
    { widthM: 6.1, lengthM: 7 },
  ],
);
