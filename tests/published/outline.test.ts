import { describe, expect, it } from 'vitest';
import {
  type DrawnArea,
  type DrawnEdge,
  type DrawnRoof,
  measureRoof,
  outlineRoof,
  type Point,
  surfaceFactor,
} from '../../src/roof/index.ts';

/**
 * Roofs of any plan against published geometry and against take-offs worked by hand. The allowances of
 * the trade (strip 150 mm, overhang 100 mm, trim 50 mm, upstand as given) are common practice.
 */

const verge: DrawnEdge = { kind: 'verge', upstandMm: null };
const gutter: DrawnEdge = { kind: 'gutter', upstandMm: null };
const wall: DrawnEdge = { kind: 'abutment', upstandMm: 150 };
const shared: DrawnEdge = { kind: 'shared', upstandMm: null };

function area(change: Partial<DrawnArea> & Pick<DrawnArea, 'shape' | 'edges'>): DrawnArea {
  return { id: 'a', name: '', fallDeg: 0, fallPlanDeg: 180, features: [], ...change };
}

function measured(...areas: readonly DrawnArea[]) {
  const drawn: DrawnRoof = { areas, northDeg: 0, access: null };
  const { roof, issues } = outlineRoof(drawn);
  expect(issues.filter((issue) => issue.level === 'refuse')).toEqual([]);
  return measureRoof(roof!);
}

const polygon = (points: readonly Point[]) =>
  measured(area({ shape: { kind: 'polygon', points }, edges: points.map(() => verge) }));

describe('published areas of polygons', () => {
  it('shoelace example: 30 (Rosetta Code, Shoelace formula for polygonal area)', () => {
    const points: Point[] = [
      [3, 4],
      [5, 11],
      [12, 8],
      [9, 5],
      [5, 6],
    ];
    // Clockwise as printed.
    expect(polygon(points).planM2).toBeCloseTo(30, 9);
    expect(polygon([...points].reverse()).planM2).toBeCloseTo(30, 9);
  });

  it('shoelace example: 2.5 (Art of Problem Solving, Shoelace Theorem)', () => {
    expect(
      polygon([
        [2, 1],
        [2, 3],
        [1, 2],
        [0, 0],
      ]).planM2,
    ).toBeCloseTo(2.5, 9);
  });

  it('lattice polygons have interior + boundary / 2 - 1 (Pick 1899)', () => {
    const shapes: readonly (readonly Point[])[] = [
      [
        [0, 0],
        [7, 0],
        [7, 3],
        [4, 3],
        [4, 6],
        [0, 6],
      ],
      [
        [0, 0],
        [9, 1],
        [6, 4],
        [8, 9],
        [3, 5],
        [-4, 8],
        [1, 3],
      ],
      [
        [-5, -2],
        [0, -7],
        [3, -1],
        [10, 0],
        [2, 2],
        [1, 9],
        [-2, 3],
      ],
    ];
    for (const points of shapes) {
      const { inside, onEdge } = latticePoints(points);
      expect(polygon(points).planM2).toBeCloseTo(inside + onEdge / 2 - 1, 9);
    }
  });

  it('a regular hexagon of side s has 3/2 √3 s², six corners of 120°', () => {
    const corners = [0, 60, 120, 180, 240, 300].map((deg): Point => {
      const rad = (deg * Math.PI) / 180;
      return [4 * Math.cos(rad), 4 * Math.sin(rad)];
    });
    const m = polygon(corners);
    expect(m.planM2).toBeCloseTo(1.5 * Math.sqrt(3) * 16, 9);
    for (const corner of m.areas[0]!.corners) expect(corner.angleDeg).toBeCloseTo(120, 9);
    // The hexagon inside the strip has an apothem 0.15 less: side 4 - 0.15 x 2 / √3.
    const side = 4 - 0.3 / Math.sqrt(3);
    expect(m.fieldM2).toBeCloseTo(1.5 * Math.sqrt(3) * side * side, 5);
  });
});

/** Counted one by one with whole numbers: on an edge, or inside by crossings of a ray. */
function latticePoints(points: readonly Point[]): { inside: number; onEdge: number } {
  let inside = 0;
  let onEdge = 0;
  for (let x = -10; x <= 12; x += 1) {
    for (let y = -10; y <= 12; y += 1) {
      let on = false;
      let odd = false;
      points.forEach(([ax, ay], i) => {
        const [bx, by] = points[(i + 1) % points.length]!;
        const side = (bx - ax) * (y - ay) - (by - ay) * (x - ax);
        const between =
          Math.min(ax, bx) <= x &&
          x <= Math.max(ax, bx) &&
          Math.min(ay, by) <= y &&
          y <= Math.max(ay, by);
        if (side === 0 && between) on = true;
        if (ay > y !== by > y && side > 0 === by > ay) odd = !odd;
      });
      if (on) onEdge += 1;
      else if (odd) inside += 1;
    }
  }
  return { inside, onEdge };
}

describe('area on the fall', () => {
  it('1 : 40 is 1.00031 and 1 : 80 is 1.00008 of the plan (√(1 + 1/n²))', () => {
    const degOf = (n: number): number => (Math.atan(1 / n) * 180) / Math.PI;
    expect(surfaceFactor(degOf(40))).toBeCloseTo(1.00031245, 8);
    expect(surfaceFactor(degOf(80))).toBeCloseTo(1.00007812, 8);
  });

  it('steep pitches agree with a roofers’ table to its two places', () => {
    // Printed: 3 in 12 1.03, 5 in 12 1.08, 6 in 12 1.12, 7 in 12 1.16, 8 in 12 1.20 (a shake supplier's
    // page on measuring). Its 2 in 12, 1.02, and 4 in 12, 1.06, are rounded up from 1.014 and 1.054.
    const factor = (rise: number): number => surfaceFactor((Math.atan(rise / 12) * 180) / Math.PI);
    for (const [rise, printed] of [
      [3, 1.03],
      [5, 1.08],
      [6, 1.12],
      [7, 1.16],
      [8, 1.2],
    ] as const)
      expect(factor(rise)).toBeCloseTo(printed, 2);
    expect(factor(2)).toBeGreaterThan(1.01);
    expect(factor(2)).toBeLessThan(1.02);
  });

  it('10 x 20 ft at 12 in 12 is 282.8 sq ft (a roofer’s worked example, printed 282 10/12)', () => {
    expect(200 * surfaceFactor(45)).toBeCloseTo(282 + 10 / 12, 1);
  });
});

describe('an L of 10 x 8 m with 4 x 3 m cut out of its high right corner', () => {
  // Eaves low; walls in the cut-out and along the left; the rest verges. Worked by hand.
  const m = measured(
    area({
      shape: {
        kind: 'l-shape',
        lengthM: 10,
        widthM: 8,
        cutLengthM: 4,
        cutWidthM: 3,
        cutCorner: 'high-right',
        at: [0, 0],
        turnDeg: 0,
      },
      edges: {
        low: gutter,
        right: verge,
        cutLength: wall,
        cutWidth: wall,
        high: verge,
        left: wall,
      },
      features: [
        { id: 'r1', kind: 'rooflight', at: [2, 3], sizeM: [1, 1.5], upstandMm: 200, turnDeg: 0 },
        { id: 'p1', kind: 'pipe', at: [8, 2], sizeM: [0.11, 0.11], upstandMm: null, turnDeg: 0 },
      ],
    }),
  );

  it('has its areas and edges', () => {
    expect(m.planM2).toBeCloseTo(68, 9); // 80 - 12
    expect(m.openingsPlanM2).toBeCloseTo(1.5, 9); // 1 x 1.5
    expect(m.surfaceM2).toBeCloseTo(66.5, 9);
    expect(m.areas[0]!.deducted).toEqual([{ featureId: 'r1', planM2: 1.5 }]);
    expect(m.lengthByKindM.gutter).toBeCloseTo(10, 9);
    expect(m.lengthByKindM.verge).toBeCloseTo(5 + 6, 9); // right 8 - 3, high 10 - 4
    expect(m.lengthByKindM.abutment).toBeCloseTo(4 + 3 + 8, 9);
    expect(m.perimeterM).toBeCloseTo(36, 9);
  });

  it('goes up and over its edges', () => {
    expect(m.turnUpM2).toBeCloseTo(2.25, 9); // 15 x 0.15
    expect(m.trimM2).toBeCloseTo(0.75, 9); // 15 x 0.05
    expect(m.turnDownM2).toBeCloseTo(2.1, 9); // (10 + 11) x 0.1
    expect(m.rooflightKerbM).toBeCloseTo(5, 9); // 2 x (1 + 1.5)
    expect(m.rooflightTurnUpM2).toBeCloseTo(1, 9); // 5 x 0.2
  });

  it('has five corners out and one in; one patched outside, four ends of upstands', () => {
    // Where the two walls of the cut-out meet the outline bends back: the sheet is cut round that corner.
    expect(m.cornerCounts).toMatchObject({
      out: 5,
      in: 1,
      external: 1,
      internal: 0,
      upstandEnds: 4,
    });
    expect(m.rooflightCorners).toBe(4);
  });

  it('is bonded in a strip at its edges and round the rooflight', () => {
    // 36 x 0.15 - 0.15² x (5 - 1) = 5.31; rooflight (1.3 x 1.8) - 1.5 = 0.84
    expect(m.perimeterStripM2).toBeCloseTo(5.31 + 0.84, 5);
    expect(m.fieldM2).toBeCloseTo(66.5 - 6.15, 5);
  });
});

describe('two areas of 6 x 4 m that share an edge of 6 m', () => {
  const rectangle = (id: string, y: number, fallPlanDeg: number, low: DrawnEdge, high: DrawnEdge) =>
    area({
      id,
      shape: { kind: 'rectangle', lengthM: 6, widthM: 4, at: [0, y], turnDeg: 0 },
      fallDeg: 2,
      fallPlanDeg,
      edges: { low, high, left: verge, right: verge },
    });
  const roof = (lowFall: number, highFall: number) =>
    measured(
      rectangle('low', 0, lowFall, gutter, shared),
      rectangle('high', 4, highFall, shared, gutter),
    );

  it('meet in a ridge, a valley or a change of fall, as the water runs', () => {
    const meeting = (a: number, b: number) => roof(a, b).sharedEdges.map((s) => s.meeting);
    expect(meeting(180, 0)).toEqual(['ridge']);
    expect(meeting(0, 180)).toEqual(['valley']);
    expect(meeting(180, 180)).toEqual(['change-of-fall']);
    expect(meeting(90, 90)).toEqual(['level']);
  });

  it('lap 300 mm clear of a valley, and at a change of fall the upper sheet runs on', () => {
    expect(roof(0, 180).sharedEdges[0]).toMatchObject({ runOnM: 0.3, lengthM: 6 });
    expect(roof(180, 180).sharedEdges[0]).toMatchObject({ sheetOf: 1, runOnM: 0.15 });
    expect(roof(0, 0).sharedEdges[0]).toMatchObject({ sheetOf: 0, runOnM: 0.15 });
  });

  it('have no edge, strip or corner where they meet', () => {
    const m = roof(180, 0);
    // Each 6 x 4 on a fall of 2°: 4 / cos 2° = 4.002438 along it.
    const upM = 4 / Math.cos((2 * Math.PI) / 180);
    expect(m.surfaceM2).toBeCloseTo(2 * 6 * upM, 9);
    expect(m.perimeterM).toBeCloseTo(12 + 4 * upM, 9);
    expect(m.cornerCounts).toMatchObject({ out: 4, in: 0, straight: 0 });
    // Strip: inside it (6 - 0.3) wide and 0.15 short at the gutters only.
    expect(m.fieldM2).toBeCloseTo(2 * 5.7 * (upM - 0.15), 4);
  });
});
