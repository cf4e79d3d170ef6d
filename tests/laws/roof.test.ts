import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type AnyRoof,
  type BayTakeOff,
  isDrawn,
  type LayingBay,
  layingBays,
  measureRoof,
  outlineOf,
  type Point,
  type Roof,
  roofLie,
} from '../../src/roof/index.ts';
import { elShapes, lengthInSpaceM, metres, rectangles, threeAreas } from './bays-roofs.ts';
import { inside, type P } from './sheets-roofs.ts';

/** Whatever the roof and however it is split, its days are the roof; independent sums, no published figure needed. */

const falls = fc.constantFrom(0, 1.4, 6);
const turns = fc.constantFrom(0, 90, 37);
const oneArea: fc.Arbitrary<AnyRoof> = fc.oneof(rectangles, elShapes(falls, turns));
const anyRoof: fc.Arbitrary<AnyRoof> = fc.oneof(oneArea, threeAreas(0), threeAreas(2));
const most = metres(10, 400);

const total = (bays: readonly LayingBay[], of: (t: BayTakeOff) => number): number =>
  bays.reduce((sum, bay) => sum + of(bay.takeOff()), 0);
const isInner = (kind: string): boolean => kind === 'next-bay' || kind === 'earlier-bay';

describe('the bays of a roof', () => {
  it('add up to it in area, with rooflights taken off what is bonded', () => {
    fc.assert(
      fc.property(anyRoof, most, (roof, maxM2) => {
        const bays = layingBays(roof, maxM2);
        expect(bays.map((bay) => [bay.number, bay.of])).toEqual(
          bays.map((_, i) => [i + 1, bays.length]),
        );
        const grossM2 = outlineOf(roof).areas.reduce(
          (sum, area) => sum + shoelaceM2(area.points) / Math.cos((area.fallDeg * Math.PI) / 180),
          0,
        );
        expect(roofLie(roof).areaM2).toBeCloseTo(grossM2, 6);
        expect(bays.reduce((sum, bay) => sum + bay.areaM2, 0)).toBeCloseTo(grossM2, 4);
        const lightsM2 = outlineOf(roof).areas.reduce((sum, { features, fallDeg }) => {
          const lights = features.filter((f) => f.kind === 'rooflight');
          const planM2 = lights.reduce((m2, f) => m2 + f.sizeM[0] * f.sizeM[1], 0);
          return sum + planM2 / Math.cos((fallDeg * Math.PI) / 180);
        }, 0);
        expect(total(bays, (t) => t.areaM2)).toBeCloseTo(grossM2 - lightsM2, 3);
      }),
      { numRuns: 35 },
    );
  });

  it('have each edge of the outline in all its length, once', () => {
    fc.assert(
      fc.property(anyRoof, most, (roof, maxM2) => {
        const lengths = new Map<string, number>();
        for (const bay of layingBays(roof, maxM2)) {
          const edges = bay.takeOff().edges;
          expect(new Set(edges.map((e) => e.id)).size).toBe(edges.length);
          for (const { id, kind, lengthM } of edges)
            if (!isInner(kind)) lengths.set(id, (lengths.get(id) ?? 0) + lengthM);
        }
        const outline = outlineOf(roof).areas.flatMap((area) =>
          area.edges.flatMap((edge, i) => {
            if (edge.kind === 'shared') return [];
            const [a, b] = [area.points[i]!, area.points[(i + 1) % area.points.length]!];
            const name = edge.side ?? String(i + 1);
            const id = area.id === 'roof' ? name : `${area.id}-${name}`;
            return [[id, lengthInSpaceM(a, b, area.fallDeg, area.fallPlanDeg)] as const];
          }),
        );
        expect([...lengths.keys()].sort()).toEqual(outline.map(([id]) => id).sort());
        for (const [id, lengthM] of outline) expect(lengths.get(id), id).toBeCloseTo(lengthM, 4);
      }),
      { numRuns: 35 },
    );
  });

  it('have each corner and each feature once', () => {
    fc.assert(
      fc.property(anyRoof, most, (roof, maxM2) => {
        const bays = layingBays(roof, maxM2);
        const { cornerCounts, features } = measureRoof(outlineOf(roof));
        const { internal, external, upstandEnds } = cornerCounts;
        expect(total(bays, (t) => t.corners.length)).toBe(internal + external + upstandEnds);
        expect(total(bays, (t) => t.outlets)).toBe(features.outlet);
        expect(total(bays, (t) => t.pipes)).toBe(features.pipe);
        expect(total(bays, (t) => t.kerbs.length)).toBe(features.rooflight);
        expect(bays.reduce((sum, bay) => sum + bay.standing, 0)).toBe(
          features.outlet + features.pipe + features.rooflight,
        );
      }),
      { numRuns: 35 },
    );
  });

  it('meet along inner edges: open on the day before, joined on a later one', () => {
    fc.assert(
      fc.property(oneArea, most, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (roof, m, u) => {
        const bays = layingBays(roof, m);
        const inner = bays.flatMap((bay) => innerEdges(bay));
        for (const { a, b } of inner) {
          const at: Point = [a[0] + (b[0] - a[0]) * u, a[1] + (b[1] - a[1]) * u];
          const here = inner.filter((edge) => offM(at, edge.a, edge.b) < 1e-5);
          // On a corner of another bay three meet: one day's open edge is joined on two later ones.
          if (here.some((edge) => nearEnd(at, edge.a, edge.b))) continue;
          expect(here.map((edge) => edge.kind).sort()).toEqual(['earlier-bay', 'next-bay']);
          const day = (kind: string): number => here.find((edge) => edge.kind === kind)!.bay;
          expect(day('next-bay')).toBeLessThan(day('earlier-bay'));
        }
        let openM = 0;
        for (const bay of bays) {
          const lengthM = (kind: string): number =>
            bay.takeOff().edges.reduce((sum, e) => sum + (e.kind === kind ? e.lengthM : 0), 0);
          expect(bay.nightSealM).toBeCloseTo(lengthM('next-bay'), 6);
          openM += lengthM('next-bay') - lengthM('earlier-bay');
          expect(openM).toBeGreaterThan(-1e-4);
        }
        expect(openM).toBeCloseTo(0, 4);
      }),
      { numRuns: 35 },
    );
  });

  it('also where areas meet', () => {
    fc.assert(
      fc.property(fc.oneof(threeAreas(0), threeAreas(2)), most, (roof, maxM2) => {
        const bays = layingBays(roof, maxM2);
        const along = (kind: string): number =>
          total(bays, (t) => t.edges.reduce((m, e) => m + (e.kind === kind ? e.lengthM : 0), 0));
        // A line that one area falls along and the other across is longer on the one: 1 / cos 2 degrees.
        expect(along('next-bay') / along('earlier-bay')).toBeGreaterThan(0.999);
        expect(along('next-bay') / along('earlier-bay')).toBeLessThan(1.001);
        expect(bays[0]!.takeOff().edges.some((e) => e.kind === 'earlier-bay')).toBe(false);
        expect(bays[bays.length - 1]!.nightSealM).toBe(0);
      }),
      { numRuns: 40 },
    );
  });

  it('begin on the high side: no open edge looks up the fall', () => {
    fc.assert(
      fc.property(oneArea, most, (roof, maxM2) => {
        const area = outlineOf(roof).areas[0]!;
        const rad = (area.fallPlanDeg * Math.PI) / 180;
        for (const bay of layingBays(roof, maxM2)) {
          for (const { kind, a, b } of innerEdges(bay)) {
            const lengthM = Math.hypot(b[0] - a[0], b[1] - a[1]);
            const outwards = [(b[1] - a[1]) / lengthM, (a[0] - b[0]) / lengthM];
            const downhill = outwards[0]! * Math.sin(rad) + outwards[1]! * Math.cos(rad);
            if (kind === 'next-bay') expect(downhill).toBeGreaterThan(-1e-6);
            else expect(downhill).toBeLessThan(1e-6);
          }
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('the size of bays', () => {
  it('is at most 5 % over what was asked for, and of a rectangle none at all', () => {
    fc.assert(
      fc.property(anyRoof, most, (roof, maxM2) => {
        for (const { areaM2 } of layingBays(roof, maxM2))
          expect(areaM2).toBeLessThanOrEqual(maxM2 * (isDrawn(roof) ? 1.05 : 1) + 1e-4);
      }),
    );
  });

  it('is that of a rectangle when it fits, and there are never many more than asked for', () => {
    fc.assert(
      fc.property(rectangles, fc.integer({ min: 1, max: 40 }), (roof, days) => {
        const areaM2 = roof.lengthM * roof.widthM;
        expect(layingBays(roof, areaM2 * (1 + 1e-9))).toHaveLength(1);
        fc.pre(areaM2 / days >= 4);
        const bays = layingBays(roof, areaM2 / days);
        expect(bays.length).toBeGreaterThanOrEqual(days);
        expect(bays.length).toBeLessThanOrEqual(Math.floor(days * 1.1));
        for (const bay of bays) expect(bay.areaM2).toBeCloseTo(areaM2 / bays.length, 6);
      }),
    );
  });
});

describe('the sheets of a bay', () => {
  it('name edges and sheets of that bay alone, and reach each of its outer edges', () => {
    fc.assert(
      fc.property(anyRoof, most, (roof, maxM2) => {
        for (const bay of layingBays(roof, maxM2)) {
          const { edges, sheets, laps } = bay.takeOff();
          const ids = new Set(edges.map((e) => e.id));
          const reached = new Set(sheets.flatMap((sheet) => sheet.halves.flat()));
          for (const id of reached) expect(ids).toContain(id);
          for (const { id, kind, lengthM } of edges)
            if (!isInner(kind) && lengthM > 0.05)
              expect(reached, `bay ${bay.number}`).toContain(id);
          expect(sheets.map((sheet) => sheet.number)).toEqual(sheets.map((_, i) => i + 1));
          expect(laps.map((lap) => lap.number)).toEqual(laps.map((_, i) => i + 1));
          for (const lap of laps) {
            expect(lap.lengthM).toBeGreaterThan(0);
            for (const n of lap.sheets) {
              expect(n).toBeGreaterThanOrEqual(1);
              expect(n).toBeLessThanOrEqual(sheets.length);
            }
          }
        }
      }),
      { numRuns: 35 },
    );
  });

  it('leave no point of the roof bare, whichever day and area it belongs to', () => {
    const flat = fc.oneof(elShapes(fc.constant(0), turns), threeAreas(0));
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        flat,
        most,
        fc.array(fc.tuple(share, share), { minLength: 20 }),
        (roof, m, at) => {
          const { areas } = outlineOf(roof);
          const xs = areas.flatMap(({ points }) => points.map((p) => p[0]));
          const ys = areas.flatMap(({ points }) => points.map((p) => p[1]));
          const sheets = layingBays(roof, m).flatMap((bay) =>
            bay.laid().flatMap(({ layout }) => layout.sheets.map(({ corners }) => corners)),
          );
          for (const [u, v] of at) {
            const p: P = [
              Math.min(...xs) + u * (Math.max(...xs) - Math.min(...xs)),
              Math.min(...ys) + v * (Math.max(...ys) - Math.min(...ys)),
            ];
            if (!areas.some(({ points }) => inside(p, points))) continue;
            const onSheet = sheets.some(
              (corners) =>
                inside(p, corners) ||
                corners.some((a, i) => offM(p, a, corners[(i + 1) % 4]!) < 1e-6),
            );
            expect(onSheet, `${p}`).toBe(true);
          }
        },
      ),
      { numRuns: 35 },
    );
  });
});

describe('the field of a bay', () => {
  it('is what neither strip, rooflight nor lap takes, cell by cell', () => {
    const square = fc.oneof(
      rectangles.map((roof): AnyRoof => ({ ...roof, fallDeg: 0 })),
      elShapes(fc.constant(0), fc.constantFrom(0, 90), fc.constantFrom(0, 90, 180, 270)),
    );
    fc.assert(
      fc.property(square, most, (roof, maxM2) => {
        const { points } = outlineOf(roof).areas[0]!;
        const bays = layingBays(roof, maxM2);
        const lights = bays.flatMap((bay) =>
          bay.laid().flatMap(({ part }) => part.features.filter((f) => f.kind === 'rooflight')),
        );
        const turned = isDrawn(roof) && (roof.areas[0]!.features[0]?.turnDeg ?? 0) === 90;
        const boxes = lights.map(({ at, sizeM }) => {
          const [w, h] = turned ? [sizeM[1], sizeM[0]] : sizeM;
          return [
            at[0] - w / 2 - 0.15,
            at[0] + w / 2 + 0.15,
            at[1] - h / 2 - 0.15,
            at[1] + h / 2 + 0.15,
          ];
        });
        for (const bay of bays) {
          let fieldM2 = 0;
          for (const { part, layout } of bay.laid()) {
            const laps = layout.laps.map(({ corners }) => [
              Math.min(...corners.map((p) => p[0])),
              Math.max(...corners.map((p) => p[0])),
              Math.min(...corners.map((p) => p[1])),
              Math.max(...corners.map((p) => p[1])),
            ]);
            const taken = [...boxes, ...laps];
            const all = [...points, ...part.points];
            const cuts = (axis: 0 | 1): number[] =>
              [
                ...all.flatMap((p) => [p[axis] - 0.15, p[axis], p[axis] + 0.15]),
                ...taken.flatMap((box) => [box[2 * axis]!, box[2 * axis + 1]!]),
              ].sort((a, b) => a - b);
            const [xs, ys] = [cuts(0), cuts(1)];
            for (let i = 1; i < xs.length; i += 1) {
              for (let j = 1; j < ys.length; j += 1) {
                const cellM2 = (xs[i]! - xs[i - 1]!) * (ys[j]! - ys[j - 1]!);
                if (cellM2 < 1e-9) continue;
                const c: P = [(xs[i]! + xs[i - 1]!) / 2, (ys[j]! + ys[j - 1]!) / 2];
                if (!inside(c, part.points) || nearSquare(c, points, 0.15)) continue;
                if (
                  taken.some(
                    ([x0, x1, y0, y1]) => c[0] > x0! && c[0] < x1! && c[1] > y0! && c[1] < y1!,
                  )
                )
                  continue;
                fieldM2 += cellM2;
              }
            }
          }
          expect(bay.takeOff().fieldM2).toBeCloseTo(fieldM2, 3);
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('turning and mirroring a rectangle', () => {
  // Rolls long enough for every run: an end lap falls where a roll ends, and that depends on the
  // side one starts from.
  const options = { rollLengthM: 200 };
  const quantities = (roof: Roof): number[] => {
    const [bay] = layingBays(roof, 1e6);
    const t = bay!.takeOff(options);
    const { balance } = bay!.laid(options)[0]!.layout;
    const along = (kind: string): number =>
      t.edges.reduce((sum, e) => sum + (e.kind === kind ? e.lengthM : 0), 0);
    const lengthsM = [along('gutter'), along('verge'), along('abutment')];
    const { netM2, overhangM2, turnUpM2, trimM2 } = balance;
    return [t.areaM2, t.corners.length, ...lengthsM, netM2, overhangM2, turnUpM2, trimM2];
  };
  const cost = (roof: Roof): number =>
    layingBays(roof, 1e6)[0]!.laid(options)[0]!.layout.figures.cost;

  it('keeps its quantities, and what its sheets cost, read from another side', () => {
    fc.assert(
      fc.property(rectangles, (any) => {
        const roof = { ...any, outlets: 0, pipes: 0, rooflights: 0 };
        const { low, high, left, right } = roof.edges;
        const turned = {
          ...roof,
          lengthM: roof.widthM,
          widthM: roof.lengthM,
          edges: { low: left, right: low, high: right, left: high },
        };
        const mirrored = { ...roof, edges: { low, high, left: right, right: left } };
        const same = quantities(roof).map((q) => expect.closeTo(q, 5));
        for (const other of [turned, mirrored]) {
          expect(quantities(other)).toEqual(same);
          // Among layouts of one cost the rest of the last roll may differ: it is not searched for.
          expect(cost(other) / cost(roof)).toBeGreaterThan(0.99);
          expect(cost(other) / cost(roof)).toBeLessThan(1.01);
        }
      }),
      { numRuns: 40 },
    );
  });
});

function shoelaceM2(points: readonly Point[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);
}

function innerEdges(bay: LayingBay) {
  return bay.laid().flatMap(({ part: { points, edges } }) =>
    edges.flatMap(({ kind }, i) => {
      if (!isInner(kind)) return [];
      return [{ kind, a: points[i]!, b: points[(i + 1) % points.length]!, bay: bay.number }];
    }),
  );
}

function offM(p: Point, a: Point, b: Point): number {
  const l2 = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2;
  const t = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / l2;
  const u = Math.min(1, Math.max(0, t));
  return Math.hypot(p[0] - a[0] - u * (b[0] - a[0]), p[1] - a[1] - u * (b[1] - a[1]));
}

const nearEnd = (p: Point, a: Point, b: Point): boolean =>
  [a, b].some((end) => Math.hypot(p[0] - end[0], p[1] - end[1]) < 1e-3);

/** Within a distance of an edge that runs along an axis, corners squared off as strips are. */
function nearSquare([x, y]: P, points: readonly Point[], byM: number): boolean {
  return points.some(([ax, ay], i) => {
    const [bx, by] = points[(i + 1) % points.length]!;
    const [x0, x1, y0, y1] = [
      Math.min(ax, bx),
      Math.max(ax, bx),
      Math.min(ay, by),
      Math.max(ay, by),
    ];
    return x > x0 - byM && x < x1 + byM && y > y0 - byM && y < y1 + byM;
  });
}
