import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layOutOutlineSheets, type SheetPart } from '../../src/roof/sheets/index.ts';
import { area, length, offers, overM, roofOn, starry, stepped } from './sheets-roofs.ts';

/** Every square metre of sheet, bought and laid, accounted for once; sums written apart from the code. */

/** Outline moved out edge by edge, right angles only: a x b more at outer corners, less at inner ones. */
function coveredOf(part: SheetPart): number {
  const n = part.points.length;
  const { points, edges } = part;
  return points.reduce((sum, b, i) => {
    const [a, c] = [points[(i + n - 1) % n]!, points[(i + 1) % n]!];
    const turn = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
    const [before, after] = [overM(edges[(i + n - 1) % n]!), overM(edges[i]!)];
    return sum + length(points, i) * after + Math.sign(turn) * before * after;
  }, area(points));
}

/** No allowances that could run into each other across a recess. */
const roomy = roofOn(stepped).filter((part) =>
  part.points.every((_, i) => length(part.points, i) > 0.9),
);

describe('the balance of a roof with right angles', () => {
  it('holds: cut = covered + laps + trimmings; covered = net + turned up and down', () => {
    fc.assert(
      fc.property(roomy, offers, (part, rolls) => {
        const { balance: b, sheets, laps } = layOutOutlineSheets(part, { rolls });
        expect(b.coveredM2).toBeCloseTo(coveredOf(part), 7);
        expect(b.netM2).toBeCloseTo(area(part.points), 7);
        const cut = sheets.reduce((sum, s) => sum + s.widthM * s.lengthM, 0);
        const shapes = sheets.reduce((sum, s) => sum + s.shapeM2, 0);
        const lapped = laps.reduce((sum, l) => sum + (l.kind === 'join' ? 0 : l.areaM2), 0);
        // What the shapes add up to is covered once, and once more in every lap.
        expect(shapes).toBeCloseTo(coveredOf(part) + lapped, 6);
        expect(cut).toBeCloseTo(b.coveredM2 + b.lapM2 + b.trimmingsM2, 6);
        const parts =
          b.netM2 + b.overhangM2 + b.turnUpM2 + b.trimM2 + b.nextBayM2 + b.cornersM2 + b.cutOutsM2;
        expect(parts).toBeCloseTo(b.coveredM2, 7);
        const corners = coveredOf(part) - area(part.points) - byHand(part);
        expect(b.cornersM2).toBeCloseTo(corners, 7);
      }),
      { numRuns: 30, endOnFailure: true },
    );
  });

  it('leaves to the part laid before what its sheet covers past the line', () => {
    const roof = (kind: 'next-bay' | 'earlier-bay'): SheetPart => ({
      points: [
        [0, 0],
        [10, 0],
        [10, 5],
        [0, 5],
      ],
      edges: [
        { kind: 'gutter', upstandMm: 0 },
        { kind: 'verge', upstandMm: 0 },
        { kind, upstandMm: 0, runOnM: 0.3 },
        { kind: 'verge', upstandMm: 0 },
      ],
      fallDeg: 1.4,
      fallPlanDeg: 180,
      features: [],
    });
    const [first, later] = [
      layOutOutlineSheets(roof('next-bay')),
      layOutOutlineSheets(roof('earlier-bay')),
    ];
    // 10.2 wide: 5 + 0.1 and 0.3 + lap 0.1 + 0.15 for the night seal; 5 + 0.1 less 0.3.
    expect(first.balance.coveredM2).toBeCloseTo(10.2 * 5.65, 9);
    expect(later.balance.coveredM2).toBeCloseTo(10.2 * 4.8, 9);
    expect(later.balance.nextBayM2).toBeCloseTo(-3, 9);
    // The lap lies where the later sheet ends, 0.3 to 0.4 inside the line.
    const join = later.laps.find((lap) => lap.kind === 'join')!;
    const ys = join.corners.map((p) => p[1]);
    expect([Math.min(...ys), Math.max(...ys)]).toEqual([
      expect.closeTo(4.6, 9),
      expect.closeTo(4.7, 9),
    ]);
  });

  it('takes a rooflight off the roof and tells what is left open of it', () => {
    const roof: SheetPart = {
      points: [
        [0, 0],
        [20, 0],
        [20, 15],
        [0, 15],
      ],
      edges: Array.from({ length: 4 }, () => ({ kind: 'gutter' as const, upstandMm: 0 })),
      fallDeg: 1.4,
      fallPlanDeg: 180,
      features: [
        { id: 'a', kind: 'rooflight', at: [5, 5], sizeM: [1.2, 1], upstandMm: 150 },
        { id: 'b', kind: 'rooflight', at: [13, 8], sizeM: [5, 4], upstandMm: 150 },
      ],
    };
    const { balance: b } = layOutOutlineSheets(roof);
    // 20 x 15 less 1.2 x 1 and 5 x 4
    expect(b.netM2).toBeCloseTo(278.8, 9);
    // The large one is sheeted as far in as its kerb takes, 150 + 50 mm: 4.6 x 3.6 stay open.
    expect(b.cutOutsM2).toBeCloseTo(1.2 + 20 - 4.6 * 3.6, 9);
    // 70 m of gutter x 0.1 and four corners of 0.1 x 0.1
    expect(b.coveredM2).toBeCloseTo(278.8 + 7 + 0.04 + b.cutOutsM2, 9);
    expect(b.cutM2).toBeCloseTo(b.coveredM2 + b.lapM2 + b.trimmingsM2, 6);
  });
});

function byHand(part: SheetPart): number {
  return part.points.reduce((sum, _, i) => sum + length(part.points, i) * overM(part.edges[i]!), 0);
}

describe('the balance of any roof', () => {
  it('holds', () => {
    fc.assert(
      fc.property(fc.oneof(roofOn(stepped), roofOn(starry)), offers, (part, rolls) => {
        const { balance: b, sheets, rolls: bought, orders } = layOutOutlineSheets(part, { rolls });
        // Polygons are reckoned in steps of 0.1 µm: some 10 m of outline make 1e-5 m2.
        expect(b.cutM2).toBeCloseTo(b.coveredM2 + b.lapM2 + b.trimmingsM2, 4);
        expect(b.trimmingsM2).toBeGreaterThan(-1e-7);
        for (const s of sheets) expect(s.shapeM2).toBeLessThanOrEqual(s.lengthM * s.widthM + 1e-7);
        const area = bought.reduce((sum, r) => sum + r.widthM * r.lengthM, 0);
        expect(b.boughtM2).toBeCloseTo(area, 6);
        expect(orders.reduce((sum, o) => sum + o.areaM2, 0)).toBeCloseTo(area, 6);
        expect(b.boughtM2).toBeCloseTo(b.cutM2 + b.offcutsM2, 6);
        expect(b.wastePct).toBeCloseTo((100 * (area - b.coveredM2 - b.lapM2)) / area, 5);
      }),
      { numRuns: 30, endOnFailure: true },
    );
  });

  it('covers no less than the outline and a strip along it, on slanting edges too', () => {
    fc.assert(
      fc.property(roofOn(starry), (part) => {
        const { balance } = layOutOutlineSheets(part);
        const least = area(part.points);
        expect(balance.coveredM2).toBeGreaterThan(least - 1e-9);
        // Strips overlap at inner corners and leave gaps at outer ones; both are within a square each.
        const most = least + byHand(part) + part.points.length * 0.35 ** 2 * 6;
        expect(balance.coveredM2).toBeLessThan(most);
      }),
      { numRuns: 30, endOnFailure: true },
    );
  });
});

describe('the cut list', () => {
  it('cuts every sheet once, within its roll, no two over each other', () => {
    fc.assert(
      fc.property(fc.oneof(roofOn(stepped), roofOn(starry)), offers, (part, offered) => {
        const { rolls, sheets } = layOutOutlineSheets(part, { rolls: offered });
        const cuts = rolls.flatMap((r) => r.cuts);
        expect(cuts.map((c) => c.sheet).toSorted((a, b) => a - b)).toEqual(
          sheets.map((s) => s.number),
        );
        for (const roll of rolls) {
          for (const c of roll.cuts) {
            const sheet = sheets[c.sheet - 1]!;
            expect([c.lengthM, c.widthM]).toEqual([sheet.lengthM, sheet.widthM]);
            expect(c.atM + c.lengthM).toBeLessThanOrEqual(roll.lengthM + 1e-6);
            expect(c.acrossM + c.widthM).toBeLessThanOrEqual(roll.widthM + 1e-6);
            for (const d of roll.cuts) {
              if (c === d) continue;
              const along = Math.min(c.atM + c.lengthM, d.atM + d.lengthM) - Math.max(c.atM, d.atM);
              const across =
                Math.min(c.acrossM + c.widthM, d.acrossM + d.widthM) -
                Math.max(c.acrossM, d.acrossM);
              expect(Math.min(along, across)).toBeLessThan(1e-6);
            }
          }
        }
      }),
      { numRuns: 30, endOnFailure: true },
    );
  });
});
