import fc from 'fast-check';
import {
  type DrawnArea,
  type DrawnEdge,
  type DrawnFeature,
  type DrawnRoof,
  EDGE_KINDS,
  type OutlineEdgeKind,
  type Point,
  type Roof,
} from '../../src/roof/index.ts';

/** Roofs to be split into laying days: rectangles by their sizes, L-shapes, and three areas that meet. */

const kind = fc.constantFrom(...EDGE_KINDS);
export const metres = (min: number, max: number) =>
  fc.integer({ min: min * 100, max: max * 100 }).map((cm) => cm / 100);

export const rectangles: fc.Arbitrary<Roof> = fc.record({
  lengthM: metres(2, 80),
  widthM: metres(2, 60),
  fallDeg: fc.constantFrom(0, 1.4, 5),
  fallAzimuthDeg: fc.constant(180),
  edges: fc.record({ low: kind, high: kind, left: kind, right: kind }),
  upstandMm: fc.integer({ min: 100, max: 400 }),
  outlets: fc.nat(6),
  pipes: fc.nat(9),
  rooflights: fc.nat(4),
});

const OUTER: readonly OutlineEdgeKind[] = [
  'gutter',
  'verge',
  'kerb',
  'abutment',
  'parapet',
  'boundary',
];
const outer: fc.Arbitrary<DrawnEdge> = fc
  .constantFrom(...OUTER)
  .map((of) => ({ kind: of, upstandMm: of === 'gutter' || of === 'verge' ? null : 200 }));
const SHARED: DrawnEdge = { kind: 'shared', upstandMm: null };

/** A row of features along the middle of a strip; no two of them, and no edge, within reach. */
function row(id: string, kinds: readonly DrawnFeature['kind'][], lengthM: number, yM: number) {
  const room = Math.max(0, Math.floor((lengthM - 1.5) / 2));
  return kinds.slice(0, room).map(
    (of, i): DrawnFeature => ({
      id: `${id}-${of}-${i}`,
      kind: of,
      at: [1.75 + 2 * i, yM],
      sizeM: of === 'rooflight' ? [1, 0.8] : [0.1, 0.1],
      upstandMm: of === 'outlet' ? null : 150,
      turnDeg: 0,
    }),
  );
}
const features = fc.array(fc.constantFrom('outlet', 'pipe', 'rooflight'), { maxLength: 9 });

function turnPoint([x, y]: Point, deg: number): Point {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return [c * x - s * y, s * x + c * y];
}

/** The cut-out is the high right corner; features stand in the low strip, which runs all along. */
export const elShapes = (
  fallDeg: fc.Arbitrary<number>,
  turn: fc.Arbitrary<number>,
  fallPlanDeg: fc.Arbitrary<number> = fc.constantFrom(0, 90, 180, 270, 33),
): fc.Arbitrary<DrawnRoof> =>
  fc
    .record({
      lengthM: metres(4, 40),
      lowM: metres(2, 15),
      highM: metres(1, 15),
      share: fc.constantFrom(0.25, 0.4, 0.5, 0.6),
      edges: fc.array(outer, { minLength: 6, maxLength: 6 }),
      kinds: features,
      fallDeg,
      fallPlanDeg,
      turn,
    })
    .map(({ lengthM, lowM, highM, share, edges, kinds, turn: turnDeg, ...fall }) => {
      const area: DrawnArea = {
        id: 'el',
        name: 'L',
        shape: {
          kind: 'l-shape',
          lengthM,
          widthM: lowM + highM,
          cutLengthM: Math.round(lengthM * share * 100) / 100,
          cutWidthM: highM,
          cutCorner: 'high-right',
          at: [0, 0],
          turnDeg,
        },
        edges,
        features: row('f', kinds, lengthM, lowM / 2).map((f) => ({
          ...f,
          at: turnPoint(f.at, turnDeg),
          turnDeg,
        })),
        ...fall,
      };
      return { areas: [area], northDeg: 0, access: null };
    });

/** One area below, two side by side above it: its long edge is shared with both, in two stretches. */
export const threeAreas = (fallDeg: number): fc.Arbitrary<DrawnRoof> =>
  fc
    .record({
      lengthM: metres(4, 30),
      lowM: metres(2, 12),
      highM: metres(2, 12),
      share: fc.constantFrom(0.3, 0.5, 0.6),
      edges: fc.array(outer, { minLength: 8, maxLength: 8 }),
      falls: fc.array(fc.constantFrom(0, 90, 180, 270), { minLength: 3, maxLength: 3 }),
      kinds: features,
      turnDeg: fc.constantFrom(0, 90, 25),
    })
    .map(({ lengthM, lowM, highM, share, edges: e, falls, kinds, turnDeg }) => {
      const midM = Math.round(lengthM * share * 100) / 100;
      const box = (x0: number, x1: number, y0: number, y1: number): Point[] => [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ];
      const area = (
        id: string,
        points: readonly Point[],
        edges: readonly DrawnEdge[],
        fall: number,
        standing: readonly DrawnFeature[] = [],
      ): DrawnArea => ({
        id,
        name: id,
        shape: { kind: 'polygon', points: points.map((p) => turnPoint(p, turnDeg)) },
        fallDeg,
        fallPlanDeg: (fall - turnDeg + 360) % 360,
        edges,
        features: standing.map((f) => ({ ...f, at: turnPoint(f.at, turnDeg), turnDeg })),
      });
      const topM = lowM + highM;
      return {
        areas: [
          area(
            'below',
            box(0, lengthM, 0, lowM),
            [e[0]!, e[1]!, SHARED, e[2]!],
            falls[0]!,
            row('f', kinds, lengthM, lowM / 2),
          ),
          area('left', box(0, midM, lowM, topM), [SHARED, SHARED, e[3]!, e[4]!], falls[1]!),
          area('right', box(midM, lengthM, lowM, topM), [SHARED, e[5]!, e[6]!, SHARED], falls[2]!),
        ],
        northDeg: 0,
        access: null,
      };
    });

/** Length of a stretch of the drawing on a plane that falls: its rise is worked out in space. */
export function lengthInSpaceM(a: Point, b: Point, fallDeg: number, fallPlanDeg: number): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const plan = (fallPlanDeg * Math.PI) / 180;
  const rise = (dx * Math.sin(plan) + dy * Math.cos(plan)) * Math.tan((fallDeg * Math.PI) / 180);
  return Math.hypot(dx, dy, rise);
}
