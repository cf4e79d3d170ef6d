import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clipToBand,
  convexParts,
  cutBoth,
  EDGE_KINDS,
  type EdgeSide,
  extentM,
  lineAt,
  measureArea,
  measureParts,
  type OutlineEdgeKind,
  type OutlinePiece,
  outlineOf,
  outlineRoof,
  type Point,
  pieceOf,
  type Roof,
  type RoofArea,
  splitAcross,
  splitByLines,
} from '../../src/roof/index.ts';
import { areaOf, cm, plans, shoelaceM2, squarePoints, withRooflight } from './outline-plans.ts';

/** Cutting a plan by straight lines: the parts are the whole, whatever the plan and the lines. */

const across: fc.Arbitrary<Point> = fc.integer({ min: 0, max: 359 }).map((deg) => {
  const rad = (deg * Math.PI) / 180;
  return [Math.cos(rad), Math.sin(rad)];
});
const cuts = fc.uniqueArray(cm(-24, 24), { minLength: 0, maxLength: 6 });

const sumM2 = (pieces: readonly OutlinePiece[]): number =>
  pieces.reduce((sum, piece) => sum + shoelaceM2(piece.points), 0);

/** Length of a piece's edges, by the edge of the uncut outline they come from; -1 for cuts. */
function lengthsBySource(pieces: readonly OutlinePiece[]): Map<number, number> {
  const lengths = new Map<number, number>();
  for (const { points, edges } of pieces) {
    points.forEach((a, i) => {
      const b = points[(i + 1) % points.length]!;
      const source = edges[i]!.source ?? -1;
      lengths.set(source, (lengths.get(source) ?? 0) + Math.hypot(a[0] - b[0], a[1] - b[1]));
    });
  }
  return lengths;
}

function wholeFrom(area: RoofArea, pieces: readonly OutlinePiece[]): void {
  expect(sumM2(pieces)).toBeCloseTo(shoelaceM2(area.points), 5);
  const lengths = lengthsBySource(pieces);
  area.points.forEach((a, i) => {
    const b = area.points[(i + 1) % area.points.length]!;
    expect(lengths.get(i)).toBeCloseTo(Math.hypot(a[0] - b[0], a[1] - b[1]), 5);
  });
  // Each cut is there twice, once each way: taken as vectors they cancel.
  let [x, y] = [0, 0];
  for (const piece of pieces) {
    piece.points.forEach((a, i) => {
      const b = piece.points[(i + 1) % piece.points.length]!;
      if (piece.edges[i]!.kind === 'inner') [x, y] = [x + b[0] - a[0], y + b[1] - a[1]];
    });
    expect(piece.points.length).toBeGreaterThanOrEqual(3);
    expect(piece.edges).toHaveLength(piece.points.length);
    for (const edge of piece.edges) {
      if (edge.source === null) expect(edge).toMatchObject({ kind: 'inner', upstandMm: 0 });
      else expect(edge).toMatchObject(area.edges[edge.source]!);
    }
  }
  expect(Math.hypot(x, y)).toBeLessThan(1e-5);
}

describe('strips across a plan', () => {
  it('add up to it in area and, edge by edge, in length; every cut is there twice', () => {
    fc.assert(
      fc.property(plans, across, cuts, (area, direction, cutsM) => {
        const strips = splitAcross(pieceOf(area), direction, cutsM);
        wholeFrom(area, strips.flat());
        const { fromM, toM } = extentM(pieceOf(area), direction);
        const inside = cutsM.filter((m) => m > fromM && m < toM).length;
        expect(strips).toHaveLength(inside + 1);
      }),
    );
  });

  it('lie in their band, and a point of the plan lies in just one', () => {
    fc.assert(
      fc.property(plans, across, cm(-10, 10), cm(0.1, 9), (area, direction, fromM, widthM) => {
        for (const piece of clipToBand(pieceOf(area), direction, fromM, fromM + widthM)) {
          const { fromM: low, toM: high } = extentM(piece, direction);
          expect(low).toBeGreaterThanOrEqual(fromM - 1e-6);
          expect(high).toBeLessThanOrEqual(fromM + widthM + 1e-6);
        }
      }),
    );
    fc.assert(
      fc.property(plans, across, cuts, fc.tuple(cm(-25, 25), cm(-25, 25)), (area, d, cutsM, p) => {
        const inside = (points: readonly Point[]): boolean => windsRound(p, points);
        const pieces = splitAcross(pieceOf(area), d, cutsM).flat();
        const near = pieces.some((piece) => nearEdge(p, piece.points));
        fc.pre(!near);
        const hits = pieces.filter((piece) => inside(piece.points)).length;
        expect(hits).toBe(inside(area.points) ? 1 : 0);
      }),
      { numRuns: 300 },
    );
  });

  it('also where cuts run along edges and through corners', () => {
    const whole = fc.uniqueArray(fc.integer({ min: -9, max: 30 }), { maxLength: 12 });
    fc.assert(
      fc.property(
        areaOf(squarePoints),
        whole,
        fc.constantFrom<Point>([1, 0], [0, 1], [-1, 0], [0, -1]),
        (area, cutsM, d) => {
          wholeFrom(area, splitAcross(pieceOf(area), d, cutsM).flat());
        },
      ),
      { numRuns: 300 },
    );
  });

  it('through two corners on a slant, whichever they are', () => {
    fc.assert(
      fc.property(plans, fc.nat(), fc.nat(), (area, i, j) => {
        const n = area.points.length;
        const [a, b] = [area.points[i % n]!, area.points[j % n]!];
        const lengthM = Math.hypot(a[0] - b[0], a[1] - b[1]);
        fc.pre(lengthM > 0.01);
        const direction: Point = [(b[0] - a[0]) / lengthM, (b[1] - a[1]) / lengthM];
        const { left, right } = cutBoth(pieceOf(area), { through: a, direction });
        wholeFrom(area, [...left, ...right]);
      }),
      { numRuns: 300 },
    );
  });
});

describe('a plan taken apart', () => {
  it('into convex parts is whole again, and no part bends back', () => {
    fc.assert(
      fc.property(plans, (area) => {
        const parts = convexParts(pieceOf(area));
        wholeFrom(area, parts);
        for (const { points } of parts) {
          points.forEach((b, i) => {
            const [a, c] = [
              points[(i + points.length - 1) % points.length]!,
              points[(i + 1) % points.length]!,
            ];
            const turn = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
            expect(turn).toBeGreaterThan(-1e-6);
          });
        }
      }),
    );
  });

  it('by any lines keeps its quantities, each corner and each feature once', () => {
    fc.assert(
      fc.property(
        plans,
        fc.array(fc.tuple(across, cm(-9, 9)), { maxLength: 4 }),
        (plain, lines) => {
          // Half its diagonal is 0.61 m: clear of every edge.
          const fits =
            windsRound([1.2, 0.1], plain.points) && !nearEdge([1.2, 0.1], plain.points, 0.7);
          const light = fits ? withRooflight(plain, [1, 0.7], [1.2, 0.1]) : plain;
          const pipes = [-1, 0, 1].map((x) => ({
            id: `p${x}`,
            kind: 'pipe' as const,
            at: [x, 0] as const,
            sizeM: [0.1, 0.1] as const,
            upstandMm: 150,
          }));
          const area = { ...light, features: [...light.features, ...pipes] };
          const pieces = splitByLines(
            pieceOf(area),
            lines.map(([d, m]) => lineAt(d, m)),
          );
          wholeFrom(area, pieces);
          const whole = measureArea(area);
          const parts = measureParts(area, whole, pieces);
          const sum = (of: (part: (typeof parts)[number]) => number) =>
            parts.reduce((total, part) => total + of(part), 0);
          expect(sum((p) => p.surfaceM2)).toBeCloseTo(whole.surfaceM2, 4);
          expect(sum((p) => p.fieldM2)).toBeCloseTo(whole.fieldM2, 4);
          expect(sum((p) => p.perimeterStripM2)).toBeCloseTo(whole.perimeterStripM2, 4);
          expect(sum((p) => p.turnUpM2)).toBeCloseTo(whole.turnUpM2, 5);
          expect(sum((p) => p.turnDownM2)).toBeCloseTo(whole.turnDownM2, 5);
          expect(sum((p) => p.trimM2)).toBeCloseTo(whole.trimM2, 5);
          expect(sum((p) => p.corners.length)).toBe(whole.corners.length);
          expect(sum((p) => p.featureCounts.pipe)).toBe(3);
          expect(sum((p) => p.featureCounts.rooflight)).toBe(fits ? 1 : 0);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('a rectangle', () => {
  const kind = fc.constantFrom(...EDGE_KINDS);
  const roofs: fc.Arbitrary<Roof> = fc.record({
    lengthM: cm(2, 80),
    widthM: cm(2, 60),
    fallDeg: fc.constantFrom(0, 1.4, 7),
    fallAzimuthDeg: fc.constant(180),
    edges: fc.record({ low: kind, high: kind, left: kind, right: kind }),
    upstandMm: fc.integer({ min: 100, max: 400 }),
    outlets: fc.constant(1),
    pipes: fc.constant(0),
    rooflights: fc.constant(0),
  });
  const drawnKind: Record<(typeof EDGE_KINDS)[number], OutlineEdgeKind> = {
    eaves: 'gutter',
    verge: 'verge',
    abutment: 'abutment',
  };

  it('measures as plain sums of its sizes say, drawn or given by its sizes, turned or not', () => {
    fc.assert(
      fc.property(roofs, fc.integer({ min: -180, max: 180 }), (roof, turnDeg) => {
        const edgeOf = (side: EdgeSide) => {
          const k = roof.edges[side];
          return { kind: drawnKind[k], upstandMm: k === 'abutment' ? roof.upstandMm : null };
        };
        const { lengthM, widthM, fallDeg, edges, upstandMm } = roof;
        const read = outlineRoof({
          areas: [
            {
              id: 'a',
              name: '',
              // Drawn in plan: shorter up the fall than on the roof.
              shape: {
                kind: 'rectangle',
                lengthM,
                widthM: widthM * Math.cos((fallDeg * Math.PI) / 180),
                at: [3, -4],
                turnDeg,
              },
              fallDeg,
              fallPlanDeg: (540 - turnDeg) % 360,
              edges: {
                low: edgeOf('low'),
                high: edgeOf('high'),
                left: edgeOf('left'),
                right: edgeOf('right'),
              },
              features: [],
            },
          ],
          northDeg: 0,
          access: null,
        });
        const along = (wanted: (typeof EDGE_KINDS)[number]): number =>
          (edges.low === wanted ? lengthM : 0) +
          (edges.high === wanted ? lengthM : 0) +
          (edges.left === wanted ? widthM : 0) +
          (edges.right === wanted ? widthM : 0);
        const goesUp = (side: EdgeSide): boolean => edges[side] === 'abutment';
        const corners = (
          [
            ['low', 'left'],
            ['low', 'right'],
            ['high', 'left'],
            ['high', 'right'],
          ] as const
        ).filter(([a, b]) => goesUp(a) || goesUp(b));
        for (const area of [read.roof!.areas[0]!, outlineOf(roof).areas[0]!]) {
          const m = measureArea(area);
          expect(m.surfaceM2).toBeCloseTo(lengthM * widthM, 6);
          expect(m.fieldM2).toBeCloseTo((lengthM - 0.3) * (widthM - 0.3), 4);
          expect(m.perimeterStripM2).toBeCloseTo(0.3 * (lengthM + widthM) - 0.09, 4);
          expect(m.turnUpM2).toBeCloseTo((along('abutment') * upstandMm) / 1000, 9);
          expect(m.turnDownM2).toBeCloseTo(0.1 * (along('eaves') + along('verge')), 9);
          expect(m.trimM2).toBeCloseTo(0.05 * along('abutment'), 9);
          expect(m.lengthByKindM.gutter).toBeCloseTo(along('eaves'), 9);
          expect(m.lengthByKindM.verge).toBeCloseTo(along('verge'), 9);
          expect(m.lengthByKindM.abutment).toBeCloseTo(along('abutment'), 9);
          expect(m.cornerCounts.internal + m.cornerCounts.upstandEnds).toBe(corners.length);
        }
      }),
    );
  });
});

function windsRound(p: Point, points: readonly Point[]): boolean {
  let turn = 0;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!;
    const [ax, ay, bx, by] = [a[0] - p[0], a[1] - p[1], b[0] - p[0], b[1] - p[1]];
    turn += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  });
  return Math.abs(turn) > Math.PI;
}

function nearEdge(p: Point, points: readonly Point[], withinM = 1e-6): boolean {
  return points.some((a, i) => {
    const b = points[(i + 1) % points.length]!;
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const t = Math.min(
      1,
      Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)),
    );
    return Math.hypot(a[0] + t * dx - p[0], a[1] + t * dy - p[1]) < withinM;
  });
}
