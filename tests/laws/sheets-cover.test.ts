import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  layOutOutlineSheets,
  type OutlineLayout,
  type Sheet,
  type SheetPart,
} from '../../src/roof/sheets/index.ts';
import { inside, offers, overM, type P, roofOn, starry, stepped, toEdge } from './sheets-roofs.ts';

/** Sheets on roofs of any outline, checked point by point and rectangle by rectangle. */

const roofs = fc.oneof(roofOn(stepped), roofOn(starry));
/** Shrinking a roof takes longer than reading the one that failed. */
const RUNS = { numRuns: 30, endOnFailure: true };
const share = fc.double({ min: 0, max: 1, noNaN: true });

/** Where a plan point lies on the rolls: along, across. */
function onRolls(layout: OutlineLayout, [x, y]: P): P {
  const { along, across } = layout.axes;
  return [x * along[0] + y * along[1], x * across[0] + y * across[1]];
}

function covers(s: Sheet, [u, v]: P, by = 0): boolean {
  const e = by - 1e-7;
  return u >= s.fromM + e && u <= s.toM - e && v >= s.startM + e && v <= s.startM + s.widthM - e;
}

function somewhere(part: SheetPart, a: number, b: number): P {
  const xs = part.points.map((p) => p[0]);
  const ys = part.points.map((p) => p[1]);
  const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
  return [x0 + a * (Math.max(...xs) - x0), y0 + b * (Math.max(...ys) - y0)];
}

describe('sheets on a roof of any outline', () => {
  it('cover every point of it', () => {
    fc.assert(
      fc.property(
        roofs,
        offers,
        fc.array(fc.tuple(share, share), { minLength: 40 }),
        (part, rolls, at) => {
          const layout = layOutOutlineSheets(part, { rolls });
          for (const [a, b] of at) {
            const p = somewhere(part, a, b);
            if (!inside(p, part.points)) continue;
            const q = onRolls(layout, p);
            expect(layout.sheets.some((s) => covers(s, q))).toBe(true);
          }
        },
      ),
      RUNS,
    );
  });

  it('reach over every edge as far as practice asks', () => {
    fc.assert(
      fc.property(roofs, offers, share, share, (part, rolls, t, d) => {
        const layout = layOutOutlineSheets(part, { rolls });
        part.points.forEach(([ax, ay], i) => {
          const [bx, by] = part.points[(i + 1) % part.points.length]!;
          const l = Math.hypot(bx - ax, by - ay);
          const out = overM(part.edges[i]!) * d;
          const p: P = [
            ax + (bx - ax) * t + ((by - ay) / l) * out,
            ay + (by - ay) * t - ((bx - ax) / l) * out,
          ];
          const q = onRolls(layout, p);
          expect(layout.sheets.some((s) => covers(s, q))).toBe(true);
        });
      }),
      RUNS,
    );
  });

  it('lie over each other by the width of a lap, wherever one ends inside the roof', () => {
    fc.assert(
      fc.property(
        roofs,
        offers,
        fc.array(share, { minLength: 5, maxLength: 5 }),
        (part, rolls, at) => {
          const [lapM, endLapM] = [0.1, 0.15];
          const { sheets, ...layout } = layOutOutlineSheets(part, { rolls, lapM, endLapM });
          const plan = ([u, v]: P): P => {
            const { along, across } = layout.axes;
            return [along[0] * u + across[0] * v, along[1] * u + across[1] * v];
          };
          for (const s of sheets) {
            const top = s.startM + s.widthM;
            for (const t of at) {
              const u = s.fromM + t * (s.toM - s.fromM);
              const v = s.startM + t * s.widthM;
              // A point on each side of the sheet, the way into the sheet, and how far the next one reaches in.
              const sides: [P, P, number][] = [
                [[u, s.startM], [0, 1], lapM],
                [[u, top], [0, -1], lapM],
                [[s.fromM, v], [1, 0], endLapM],
                [[s.toM, v], [-1, 0], endLapM],
              ];
              for (const [p, way, wide] of sides) {
                if (!inside(plan(p), part.points) || toEdge(plan(p), part.points) < 0.01) continue;
                const q: P = [p[0] + way[0] * wide, p[1] + way[1] * wide];
                const over = sheets.filter((o) => o !== s && covers(o, p));
                expect(over.length).toBeGreaterThan(0);
                // Past the roof's edge the lap may be cut short.
                if (!inside(plan(q), part.points)) continue;
                expect(sheets.some((o) => o !== s && covers(o, q))).toBe(true);
              }
            }
          }
        },
      ),
      RUNS,
    );
  });

  it('double each other nowhere but in laps', () => {
    fc.assert(
      fc.property(
        roofs,
        offers,
        fc.array(fc.tuple(share, share), { minLength: 40 }),
        (part, rolls, at) => {
          const layout = layOutOutlineSheets(part, { rolls });
          for (const [a, b] of at) {
            const p = somewhere(part, a, b);
            if (!inside(p, part.points)) continue;
            const q = onRolls(layout, p);
            const count = layout.sheets.filter((s) => covers(s, q, 1e-6)).length;
            // On a sheet's very edge nothing can be said.
            if (count !== layout.sheets.filter((s) => covers(s, q, -1e-6)).length) continue;
            const laps = layout.laps.filter((l) => l.kind !== 'join' && inside(p, l.corners));
            expect(count - 1).toBe(laps.length);
          }
        },
      ),
      RUNS,
    );
  });

  it('are no wider and no longer than a roll on offer', () => {
    fc.assert(
      fc.property(roofs, offers, (part, rolls) => {
        for (const s of layOutOutlineSheets(part, { rolls }).sheets) {
          const roll = rolls.find((r) => r.widthM === s.rollWidthM)!;
          expect(s.widthM).toBeLessThanOrEqual(roll.widthM + 1e-6);
          expect(s.lengthM).toBeLessThanOrEqual(roll.lengthM + 1e-6);
        }
      }),
      RUNS,
    );
  });
});

describe('the order of laying', () => {
  it('puts a later sheet over an earlier one, and the sheet up the fall over the one below', () => {
    fc.assert(
      fc.property(roofs, offers, (part, rolls) => {
        const { laps, sheets } = layOutOutlineSheets(part, { rolls });
        const fall = (part.fallPlanDeg * Math.PI) / 180;
        const down = (n: number): number => {
          const [a, , c] = sheets[n - 1]!.corners;
          return ((a[0] + c[0]) / 2) * Math.sin(fall) + ((a[1] + c[1]) / 2) * Math.cos(fall);
        };
        for (const lap of laps) {
          if (lap.kind === 'join') continue;
          expect(Math.min(...lap.over)).toBeGreaterThan(Math.max(...lap.under));
          // Downhill across the lap, from the upper to the lower sheet.
          if (part.fallDeg === 0 || lap.kind === 'side') continue;
          expect(down(lap.under[0]!) - down(lap.over[0]!)).toBeGreaterThan(-0.03 * 40);
        }
      }),
      RUNS,
    );
  });

  it('runs each side lap with the upper course on top', () => {
    fc.assert(
      fc.property(roofs, offers, (part, rolls) => {
        fc.pre(part.fallDeg > 0);
        const { laps, axes, sheets } = layOutOutlineSheets(part, { rolls });
        const fall = (part.fallPlanDeg * Math.PI) / 180;
        const fallAcross = axes.across[0] * Math.sin(fall) + axes.across[1] * Math.cos(fall);
        for (const lap of laps.filter((l) => l.kind === 'side')) {
          const [over, under] = [sheets[lap.over[0]! - 1]!, sheets[lap.under[0]! - 1]!];
          expect(Math.sign(over.startM - under.startM) * fallAcross).toBeLessThan(0.03);
        }
      }),
      RUNS,
    );
  });

  it('keeps end laps of neighbouring courses apart, or says where it cannot', () => {
    fc.assert(
      fc.property(
        roofOn(stepped),
        offers,
        fc.constantFrom(0.3, 0.5, 1),
        (part, rolls, staggerM) => {
          const { sheets, laps, notes } = layOutOutlineSheets(part, { rolls, staggerM });
          if (notes.some((n) => n.startsWith('End laps of neighbouring'))) return;
          const ends = laps
            .filter((l) => l.kind === 'end')
            .map((l) => ({
              course: sheets[l.over[0]! - 1]!.course,
              u: sheets[l.over[0]! - 1]!.fromM,
            }));
          for (const a of ends) {
            for (const b of ends) {
              if (b.course !== a.course + 1) continue;
              expect(Math.abs(a.u - b.u)).toBeGreaterThan(staggerM - 1e-5);
            }
          }
        },
      ),
      RUNS,
    );
  });
});
