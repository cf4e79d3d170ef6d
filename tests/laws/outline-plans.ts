import fc from 'fast-check';
import {
  type Feature,
  OUTLINE_EDGE_KINDS,
  type OutlineEdge,
  type Point,
  type RoofArea,
} from '../../src/roof/index.ts';

/** Random plans for the laws: simple outlines by construction, whatever the code under test thinks of them. */

export const OUTER_KINDS = OUTLINE_EDGE_KINDS.filter((kind) => kind !== 'shared');
export const edge: fc.Arbitrary<OutlineEdge> = fc
  .record({ kind: fc.constantFrom(...OUTER_KINDS), mm: fc.integer({ min: 50, max: 500 }) })
  .map(({ kind, mm }) => ({
    kind,
    upstandMm: kind === 'gutter' || kind === 'verge' ? 0 : mm,
  }));
export const cm = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((v) => v / 100);

/** Star-shaped about the origin: every corner is seen from there, so edges cannot cross. */
export const starPoints: fc.Arbitrary<readonly Point[]> = fc
  .array(fc.record({ gap: fc.integer({ min: 20, max: 100 }), rM: cm(3, 25) }), {
    minLength: 5,
    maxLength: 24,
  })
  .map((rays) => {
    const all = rays.reduce((sum, ray) => sum + ray.gap, 0);
    let turn = 0;
    return rays.map(({ gap, rM }): Point => {
      turn += (2 * Math.PI * gap) / all;
      return [rM * Math.cos(turn), rM * Math.sin(turn)];
    });
  });

/** Columns side by side, each standing on part of the next: right angles only, reflex ones among them. */
export const squarePoints: fc.Arbitrary<readonly Point[]> = fc
  .array(fc.record({ w: fc.integer({ min: 1, max: 8 }), lo: fc.nat(6), hi: fc.nat(6) }), {
    minLength: 1,
    maxLength: 9,
  })
  .map((columns) => {
    const low: Point[] = [];
    const high: Point[] = [];
    let x = 0;
    for (const { w, lo, hi } of columns) {
      low.push([x, -2 - lo], [x + w, -2 - lo]);
      high.push([x, 2 + hi], [x + w, 2 + hi]);
      x += w;
    }
    const ring = [...low, ...high.reverse()];
    return ring.filter((p, i) => {
      const [a, c] = [ring[(i + ring.length - 1) % ring.length]!, ring[(i + 1) % ring.length]!];
      return (
        (p[0] !== a[0] || p[1] !== a[1]) &&
        (a[0] - p[0]) * (c[1] - p[1]) !== (a[1] - p[1]) * (c[0] - p[0])
      );
    });
  });

export const fall = fc.record({
  fallDeg: fc.integer({ min: 0, max: 100 }).map((tenth) => tenth / 10),
  fallPlanDeg: fc.integer({ min: 0, max: 359 }),
});

export const areaOf = (
  points: fc.Arbitrary<readonly Point[]>,
  falls = fall as fc.Arbitrary<{ fallDeg: number; fallPlanDeg: number }>,
): fc.Arbitrary<RoofArea> =>
  points.chain((list) =>
    fc.record({
      id: fc.constant('a'),
      name: fc.constant('Roof'),
      points: fc.constant(list),
      edges: fc.array(edge, { minLength: list.length, maxLength: list.length }),
      features: fc.constant<readonly Feature[]>([]),
      fallDeg: falls.map((f) => f.fallDeg),
      fallPlanDeg: falls.map((f) => f.fallPlanDeg),
    }),
  );

export const plans = fc.oneof(areaOf(starPoints), areaOf(squarePoints));

/** A rooflight in the middle of the roof: the plans above have 2 m or more round the origin or along y = 0. */
export const withRooflight = (
  area: RoofArea,
  sizeM: readonly [number, number],
  at: Point,
): RoofArea => ({
  ...area,
  features: [{ id: 'r', kind: 'rooflight', at, sizeM, upstandMm: 150, turnDeg: 0 }],
});

export function moved(area: RoofArea, turnDeg: number, by: Point): RoofArea {
  const rad = (turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(rad), Math.sin(rad)];
  const move = ([x, y]: Point): Point => [c * x - s * y + by[0], s * x + c * y + by[1]];
  return {
    ...area,
    points: area.points.map(move),
    fallPlanDeg: (area.fallPlanDeg - turnDeg + 720) % 360,
    features: area.features.map((f) => ({
      ...f,
      at: move(f.at),
      turnDeg: (f.turnDeg ?? 0) + turnDeg,
    })),
  };
}

/** Across the y axis; the outline is read backwards so that it stays counter-clockwise. */
export function mirrored(area: RoofArea): RoofArea {
  const n = area.points.length;
  const flip = ([x, y]: Point): Point => [-x, y];
  return {
    ...area,
    points: area.points.map((_, k) => flip(area.points[n - 1 - k]!)),
    edges: area.edges.map((_, k) => area.edges[(2 * n - 2 - k) % n]!),
    fallPlanDeg: (360 - area.fallPlanDeg) % 360,
    features: area.features.map((f) => ({ ...f, at: flip(f.at), turnDeg: -(f.turnDeg ?? 0) })),
  };
}

/** Shoelace with the products written out, apart from the code under test. */
export function shoelaceM2(points: readonly Point[]): number {
  let down = 0;
  let up = 0;
  for (let i = 0; i < points.length; i += 1) {
    const [x, y] = points[i]!;
    const [u, v] = points[(i + 1) % points.length]!;
    down += x * v;
    up += u * y;
  }
  return Math.abs(down - up) / 2;
}
