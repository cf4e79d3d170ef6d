import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Corner,
  type CutLine,
  cutBoth,
  lineAt,
  measureArea,
  measureRoof,
  type OutlineMeasures,
  onSurface,
  outlineRoof,
  type Point,
  pieceOf,
  type RoofArea,
} from '../../src/roof/index.ts';
import {
  areaOf,
  cm,
  fall,
  mirrored,
  moved,
  plans,
  shoelaceM2,
  squarePoints,
  starPoints,
  withRooflight,
} from './outline-plans.ts';

/** Geometry of roofs of any plan: laws that hold whatever the roof; independent sums beside them. */

const place = fc.tuple(fc.integer({ min: -90, max: 90 }), fc.integer({ min: -90, max: 90 }));

function figures(m: OutlineMeasures): readonly number[] {
  const { planM2, openingsPlanM2, surfaceM2, perimeterM, turnUpM2, turnDownM2, trimM2 } = m;
  const { perimeterStripM2, fieldM2, rooflightKerbM, rooflightTurnUpM2 } = m;
  return [planM2, openingsPlanM2, surfaceM2, perimeterM, turnUpM2, turnDownM2, trimM2]
    .concat([perimeterStripM2, fieldM2, rooflightKerbM, rooflightTurnUpM2])
    .concat(Object.values(m.lengthByKindM));
}

function same(a: OutlineMeasures, b: OutlineMeasures): void {
  figures(a).forEach((figure, i) => {
    expect(figure).toBeCloseTo(figures(b)[i]!, 4);
  });
  expect(a.cornerCounts).toEqual(b.cornerCounts);
  expect(a.features).toEqual(b.features);
}

describe('an area of any plan', () => {
  it('keeps its quantities however the drawing is turned, moved or mirrored', () => {
    fc.assert(
      fc.property(plans, fc.integer({ min: 0, max: 360 }), place, (plain, turnDeg, by) => {
        const area = withRooflight(plain, [0.8, 1.2], [0.5, 0]);
        const still = measureArea(area);
        same(measureArea(moved(area, turnDeg, by)), still);
        same(measureArea(mirrored(area)), still);
      }),
      { numRuns: 150 },
    );
  });

  it('has the area the shoelace gives, over the cosine of the fall', () => {
    fc.assert(
      fc.property(plans, (area) => {
        const m = measureArea(area);
        const planM2 = shoelaceM2(area.points);
        expect(m.planM2).toBeCloseTo(planM2, 7);
        const cos = Math.cos((area.fallDeg * Math.PI) / 180);
        expect(m.surfaceM2 * cos).toBeCloseTo(planM2, 7);
        expect(m.fieldM2 + m.perimeterStripM2).toBeCloseTo(m.surfaceM2, 4);
      }),
    );
  });

  it('has edges as long as the straight line through space', () => {
    fc.assert(
      fc.property(plans, (area) => {
        const rad = (area.fallPlanDeg * Math.PI) / 180;
        const heightM = ([x, y]: Point): number =>
          -Math.tan((area.fallDeg * Math.PI) / 180) * (x * Math.sin(rad) + y * Math.cos(rad));
        measureArea(area).edges.forEach(({ lengthM }, i) => {
          const [a, b] = [area.points[i]!, area.points[(i + 1) % area.points.length]!];
          const inSpaceM = Math.hypot(a[0] - b[0], a[1] - b[1], heightM(a) - heightM(b));
          expect(lengthM).toBeCloseTo(inSpaceM, 9);
        });
      }),
    );
  });
});

describe('corners', () => {
  const level = fall.map((f) => ({ ...f, fallDeg: 0 }));

  it('of right angles: four more point out than bend back (turning number)', () => {
    fc.assert(
      fc.property(areaOf(squarePoints), (area) => {
        const { out, in: bend } = measureArea(area).cornerCounts;
        expect(out - bend).toBe(4);
        expect(out + bend).toBe(area.points.length);
      }),
    );
  });

  it('turn through a full circle whatever the angles, and the inside adds up to (n - 2) x 180', () => {
    fc.assert(
      fc.property(areaOf(starPoints, level), (area) => {
        const corners: readonly Corner[] = measureArea(area).corners;
        const sumDeg = corners.reduce((sum, corner) => sum + corner.angleDeg, 0);
        // A point in a straight run of one kind is no corner: 180 each, to the degree within which straight is straight.
        const left = area.points.length - corners.length;
        const off = Math.abs(sumDeg + 180 * left - (area.points.length - 2) * 180);
        expect(off).toBeLessThan(left + 1e-6);
      }),
    );
  });

  it('are patched where an upstand is, and only there', () => {
    fc.assert(
      fc.property(plans, (area) => {
        const n = area.points.length;
        const up = area.edges.map((edge) => edge.kind !== 'gutter' && edge.kind !== 'verge');
        const counts = measureArea(area).cornerCounts;
        const changes = up.filter((u, i) => u !== up[(i + 1) % n]).length;
        expect(counts.upstandEnds).toBe(changes);
        const both = up.filter((u, i) => u && up[(i + 1) % n]).length;
        expect(counts.internal + counts.external).toBeLessThanOrEqual(both);
        expect(counts.internal).toBeLessThanOrEqual(counts.out);
        expect(counts.external).toBeLessThanOrEqual(counts.in);
      }),
    );
  });
});

describe('the perimeter strip', () => {
  /** Mitred strip of a right-angled outline: corners that point out overlap in a square, others gain one. */
  it('of right angles is 0.15 x perimeter - 0.15² x (corners out - in), where it nowhere meets itself', () => {
    const level = fall.map((f) => ({ ...f, fallDeg: 0 }));
    fc.assert(
      fc.property(areaOf(squarePoints, level), (area) => {
        // All lengths are whole metres and every part is 1 m wide or more: strips of 0.15 m stay apart.
        const m = measureArea(area);
        const { out, in: bend } = m.cornerCounts;
        const expected = 0.15 * m.perimeterM - 0.15 ** 2 * (out - bend);
        expect(m.perimeterStripM2).toBeCloseTo(expected, 5);
      }),
    );
  });

  it('is what throwing points at the roof finds (Monte Carlo, distance to the edges)', () => {
    fc.assert(
      fc.property(areaOf(starPoints), fc.integer(), (area, seed) => {
        const level: RoofArea = { ...area, fallDeg: 0 };
        const m = measureArea(level);
        const { inside, nearEdge } = thrown(level.points, seed);
        const share = nearEdge / inside;
        // Round corners that bend back the mitre holds more than the plain distance: at most 0.15² each.
        const mitreM2 = m.cornerCounts.in * 0.15 ** 2 * 2;
        const spread = (4 * Math.sqrt(share * (1 - share) * inside)) / inside;
        const found = m.perimeterStripM2 / m.planM2;
        expect(found).toBeGreaterThan(share - spread - 1e-6);
        expect(found).toBeLessThan(share + spread + mitreM2 / m.planM2);
      }),
      { numRuns: 20 },
    );
  });
});

/** Seeded throws over the bounding box; inside by angles summed, not by the code under test. */
function thrown(points: readonly Point[], seed: number): { inside: number; nearEdge: number } {
  let state = seed | 1;
  const next = (): number => {
    state = Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x9e3779b9;
    state ^= state >>> 12;
    return (state >>> 0) / 2 ** 32;
  };
  let inside = 0;
  let nearEdge = 0;
  for (let k = 0; k < 20_000; k += 1) {
    const p: Point = [50 * next() - 25, 50 * next() - 25];
    let turn = 0;
    let nearestM = Number.POSITIVE_INFINITY;
    points.forEach((a, i) => {
      const b = points[(i + 1) % points.length]!;
      const [ax, ay, bx, by] = [a[0] - p[0], a[1] - p[1], b[0] - p[0], b[1] - p[1]];
      turn += Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
      const [dx, dy] = [bx - ax, by - ay];
      const t = Math.min(1, Math.max(0, -(ax * dx + ay * dy) / (dx * dx + dy * dy)));
      nearestM = Math.min(nearestM, Math.hypot(ax + t * dx, ay + t * dy));
    });
    if (Math.abs(turn) < Math.PI) continue;
    inside += 1;
    if (nearestM < 0.15) nearEdge += 1;
  }
  return { inside, nearEdge };
}

describe('a roof drawn in several areas', () => {
  const line = fc.record({ turnDeg: fc.integer({ min: 0, max: 179 }), offM: cm(-9, 9) });

  it('has the quantities of the same roof drawn as one, however it is divided', () => {
    fc.assert(
      fc.property(plans, line, (area, { turnDeg, offM }) => {
        const rad = (turnDeg * Math.PI) / 180;
        const across: Point = [Math.cos(rad), Math.sin(rad)];
        // Set out to the centimetre: a line that misses a corner by less would leave a sliver.
        const offs = area.points.map(([x, y]) => Math.abs(x * across[0] + y * across[1] - offM));
        fc.pre(offs.every((m) => m > 0.01));
        divided(area, lineAt(across, offM));
      }),
      { numRuns: 200 },
    );
  });

  it('also where the line runs along an edge', () => {
    fc.assert(
      fc.property(areaOf(squarePoints), fc.nat(), (area, pick) => {
        const [x] = area.points[pick % area.points.length]!;
        divided(area, lineAt([1, 0], x));
      }),
      { numRuns: 200 },
    );
  });
});

function divided(area: RoofArea, cut: CutLine): void {
  const { left, right } = cutBoth(pieceOf(area), cut);
  const areas = [...left, ...right].map((piece, i): RoofArea => {
    const edges = piece.edges.map(({ kind, upstandMm }) => ({
      kind: kind === 'inner' ? ('shared' as const) : kind,
      upstandMm,
    }));
    return { ...area, id: String(i), points: piece.points, edges };
  });
  const whole = measureRoof({ areas: [area], northDeg: 0, access: null });
  const split = measureRoof({ areas, northDeg: 0, access: null });
  const { shared, ...lengths } = split.lengthByKindM;
  same({ ...split, lengthByKindM: { ...lengths, shared: 0 } }, whole);
  const metM = split.sharedEdges.reduce((sum, { from, to }) => {
    const [a, b] = onSurface([from, to], area);
    return sum + Math.hypot(a![0] - b![0], a![1] - b![1]);
  }, 0);
  expect(shared).toBeCloseTo(2 * metM, 5);
  // One plane throughout: water crosses the line or runs along it, but no ridge or valley is there.
  for (const met of split.sharedEdges) {
    expect(['level', 'change-of-fall']).toContain(met.meeting);
    expect(met.heightsPartM).toBeCloseTo(0, 9);
  }
}

describe('an outline of 40 corners with 60 features', () => {
  it('is read and measured in well under 20 ms', () => {
    const points = Array.from({ length: 40 }, (_, i): Point => {
      const [rad, rM] = [(2 * Math.PI * i) / 40, i % 2 === 0 ? 24 : 31];
      return [rM * Math.cos(rad), rM * Math.sin(rad)];
    });
    const kinds = ['rooflight', 'pipe', 'outlet'] as const;
    const features = Array.from({ length: 60 }, (_, i) => {
      const kind = kinds[i % 3]!;
      const at: Point = [-13 + (i % 10) * 2.8, -8 + Math.floor(i / 10) * 3];
      const sizeM = kind === 'rooflight' ? ([1.2, 1] as const) : ([0.1, 0.1] as const);
      return { id: `f${i}`, kind, at, sizeM, upstandMm: null, turnDeg: 13 };
    });
    const edges = points.map((_, i) => ({
      kind: i % 2 === 0 ? ('gutter' as const) : ('abutment' as const),
      upstandMm: null,
    }));
    const shape = { kind: 'polygon', points } as const;
    const area = { id: 'a', name: '', shape, fallDeg: 1.4, fallPlanDeg: 200, edges, features };
    const took = Array.from({ length: 25 }, () => {
      const startMs = performance.now();
      const { roof } = outlineRoof({ areas: [area], northDeg: 0, access: null });
      expect(measureRoof(roof!).rooflightCorners).toBe(80);
      return performance.now() - startMs;
    }).sort((a, b) => a - b);
    // Once the code is warm, and whatever else the machine is doing: the quicker quarter.
    expect(took[6]).toBeLessThan(20);
  });
});
