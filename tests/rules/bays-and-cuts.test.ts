import { describe, expect, it } from 'vitest';
import {
  type DrawnEdge,
  type DrawnFeature,
  type DrawnRoof,
  type LayingBay,
  layingBays,
  type OutlineEdgeKind,
} from '../../src/roof/index.ts';

/** Where a roof is cut into days, and where two areas are lapped: common practice as told in docs/stages.md. */

const edge = (kind: OutlineEdgeKind): DrawnEdge => ({
  kind,
  upstandMm: kind === 'abutment' ? 150 : null,
});

/** Two areas 10 m long, one above the other on the drawing, their common line at y = 6. */
function two(lowFalls: number, highFalls: number, lowM = 6, highM = 5): DrawnRoof {
  const area = (id: string, y: number, widthM: number, fallPlanDeg: number) => ({
    id,
    name: id,
    shape: { kind: 'rectangle', lengthM: 10, widthM, at: [0, y], turnDeg: 0 } as const,
    // 2 degrees: a metre of plan is 0.6 mm longer on the roof.
    fallDeg: 2,
    fallPlanDeg,
    edges: {
      low: edge(id === 'low' ? 'gutter' : 'shared'),
      right: edge('verge'),
      high: edge(id === 'low' ? 'shared' : 'abutment'),
      left: edge('verge'),
    },
    features: [],
  });
  return {
    areas: [area('low', 6 - lowM, lowM, lowFalls), area('high', 6, highM, highFalls)],
    northDeg: 0,
    access: null,
  };
}

/** Laps along the common line: how far beyond it each begins and ends, on the area named. */
function joins(bay: LayingBay) {
  return bay.laid().flatMap(({ layout, area }) => {
    const line = 6 / Math.cos((2 * Math.PI) / 180);
    return layout.laps
      .filter(({ kind }) => kind === 'join')
      .map(({ corners, over, under }) => {
        const off = corners.map((p) => (area.id === 'high' ? p[1] - line : line - p[1]));
        return {
          on: area.id,
          fromM: expect.closeTo(Math.min(...off), 6),
          toM: expect.closeTo(Math.max(...off), 6),
          onTop: over.length > 0 && under.length === 0,
        };
      });
  });
}

describe('the lap where two areas meet', () => {
  it.each([
    // Water comes to the line from both sides: 300 mm clear of it, the sheet coming down is on top.
    ['a valley', 0, 180, 6, 5, 'high', 0.3, true],
    ['a valley whose upper area is the larger', 0, 180, 3, 6, 'low', 0.3, true],
    // It leaves on both sides: 150 mm past the fold, under the sheet that comes over the ridge.
    ['a ridge', 180, 0, 6, 5, 'high', 0.15, false],
    // It crosses the line downwards: the upper sheet runs on over the fold and lies on top.
    ['a change of fall', 180, 180, 6, 5, 'low', 0.15, false],
  ] as const)('at %s', (_, lowFalls, highFalls, lowM, highM, on, fromM, onTop) => {
    const bays = layingBays(two(lowFalls, highFalls, lowM, highM), 1000);
    expect(bays).toHaveLength(2);
    expect(joins(bays[0]!)).toEqual([]);
    const [join, ...more] = joins(bays[1]!);
    expect(more).toEqual([]);
    expect(join).toMatchObject({ on, onTop });
    expect(fromM).toEqual(join!.fromM);
    expect(fromM + 0.1).toEqual(join!.toM);
  });

  it('is reached by the sheet laid first: 300 mm, the lap, and what the night seal spoils', () => {
    const { layout } = layingBays(two(0, 180), 1000)[0]!.laid()[0]!;
    const highest = Math.max(...layout.covered.flat().map((p) => p[1]));
    expect(highest).toBeCloseTo(6 / Math.cos((2 * Math.PI) / 180) + 0.3 + 0.1 + 0.15, 6);
  });

  it('has no other lap beside it: none runs along a valley within 300 mm', () => {
    const line = 6 / Math.cos((2 * Math.PI) / 180);
    // Courses along the valley off the narrow roll: unmoved, the second lap would lie 5.9 m up.
    const along = { rollsRunDeg: 90 };
    const options = { sheetWidthsM: [3.05], choices: { low: along, high: along } };
    for (const lowM of [4, 5.5, 5.9, 6, 6.4, 9, 11.8, 12.1]) {
      for (const bay of layingBays(two(0, 180, lowM, 5), 1000)) {
        for (const { layout } of bay.laid(options)) {
          for (const { kind, corners } of layout.laps) {
            const ys = corners.map((p) => p[1] - line);
            const across = Math.max(...ys) - Math.min(...ys) > 0.11;
            if (kind === 'end' || across) continue;
            const near = Math.max(...ys) > -0.3 + 1e-6 && Math.min(...ys) < 0.3 - 1e-6;
            expect(near, `${lowM} m: ${kind} lap at ${ys}`).toBe(false);
          }
        }
      }
    }
  });
});

describe('a cut between two days', () => {
  const light = (id: string, x: number): DrawnFeature => ({
    id,
    kind: 'rooflight',
    at: [x, 5],
    sizeM: [1, 1],
    upstandMm: 150,
    turnDeg: 0,
  });
  const hall = (features: readonly DrawnFeature[]): DrawnRoof => ({
    areas: [
      {
        id: 'hall',
        name: 'Hall',
        shape: { kind: 'rectangle', lengthM: 20, widthM: 10, at: [0, 0], turnDeg: 0 },
        fallDeg: 0,
        fallPlanDeg: 180,
        edges: {
          low: edge('gutter'),
          right: edge('verge'),
          high: edge('abutment'),
          left: edge('verge'),
        },
        features,
      },
    ],
    northDeg: 0,
    access: null,
  });
  const cutsOf = (bays: readonly LayingBay[]): number[] =>
    bays.slice(1).map((bay) => {
      const [x] = bay.laid().map(({ part }) => Math.min(...part.points.map((p) => p[0])));
      return Number(x!.toFixed(3));
    });

  it('lies in the middle of an empty roof', () => {
    expect(cutsOf(layingBays(hall([]), 100))).toEqual([10]);
  });

  it('goes round a rooflight with 300 mm to spare where that makes no bay 5 % too large', () => {
    // 9.5 + 0.5 + 0.3 = 10.3: the first bay has 103 m2 of 105.
    const bays = layingBays(hall([light('a', 9.5)]), 100);
    expect(cutsOf(bays)).toEqual([10.3]);
    expect(bays[0]!.areaM2).toBeCloseTo(103, 6);
    expect(bays[0]!.takeOff().kerbs).toHaveLength(1);
    expect(bays[1]!.takeOff().kerbs).toHaveLength(0);
  });

  it('is made twice where the way round is too long: three even bays, no rooflight cut', () => {
    // From 9.2 to 10.8 there is no place, and 10.8 makes 108 m2.
    const bays = layingBays(hall([light('a', 10)]), 100);
    expect(cutsOf(bays)).toEqual([6.667, 13.333]);
  });

  it('stays where nothing helps, and says so', () => {
    // A light every 1.5 m, 500 mm apart: no place between them is 300 mm clear of both.
    const lights = Array.from({ length: 11 }, (_, i) => light(`light ${i}`, 2.5 + 1.5 * i));
    const bays = layingBays(hall(lights), 100);
    for (const bay of bays) expect(bay.areaM2).toBeLessThanOrEqual(105 + 1e-6);
    const said = bays.flatMap((bay) => bay.takeOff().warnings);
    expect(said.join(' ')).toMatch(/edge between two days runs through or close by light \d/);
    const none = layingBays(hall([light('a', 9.5)]), 100).flatMap((bay) => bay.takeOff().warnings);
    expect(none.join(' ')).not.toContain('edge between two days');
  });

  it('goes round a pipe, but a pipe is not worth another day', () => {
    const pipe = (x: number): DrawnFeature => ({
      id: 'vent',
      kind: 'pipe',
      at: [x, 5],
      sizeM: [0.1, 0.1],
      upstandMm: 150,
      turnDeg: 0,
    });
    // 10 + 0.05 + 0.3
    expect(cutsOf(layingBays(hall([pipe(10)]), 100)).map((x) => Math.abs(x - 10))).toEqual([
      expect.closeTo(0.35, 6),
    ]);
    const row = Array.from({ length: 24 }, (_, i) => ({ ...pipe(8 + i * 0.17), id: `vent ${i}` }));
    expect(layingBays(hall(row), 100)).toHaveLength(2);
  });
});

describe('sheets that the user moved', () => {
  it('are kept in one day, and told to be left where a roof takes several', () => {
    const roof = two(180, 180);
    const options = { choices: { low: { rollsRunDeg: 90, shiftM: 0.5 } } };
    const said = (maxM2: number): string[] =>
      layingBays(roof, maxM2).flatMap((bay) => [...bay.takeOff(options).warnings]);
    expect(said(1000).join(' ')).not.toContain('moved or fixed');
    expect(said(20).join(' ')).toContain('low is laid over several days');
  });
});
