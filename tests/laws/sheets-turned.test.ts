import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compareLayouts,
  layOutOutlineSheets,
  type SheetPart,
} from '../../src/roof/sheets/index.ts';
import { type P, roofOn, starry, stepped, turnPoint } from './sheets-roofs.ts';

/** A roof has no other quantities when it is drawn another way. */

const roofs = fc.oneof(roofOn(stepped), roofOn(starry));
/** Rolls longer than any run: an end lap falls where a roll ends, and that depends on the side one starts from. */
const rolls = [
  { widthM: 3.05, lengthM: 200 },
  { widthM: 6.1, lengthM: 200 },
];
const RUNS = { numRuns: 40, endOnFailure: true };

function quantities(part: SheetPart): number[] {
  // Layouts of equal cost may fill whole rolls differently; which is met first depends on the page.
  const { figures, balance: b } = layOutOutlineSheets(part, { rolls, weights: { rollRest: 0 } });
  return [figures.cost, b.coveredM2, b.netM2, b.overhangM2, b.turnUpM2, b.trimM2, b.cornersM2];
}

function expectSame(a: readonly number[], b: readonly number[]): void {
  a.forEach((value, i) => {
    expect(b[i]).toBeCloseTo(value, 4);
  });
}

describe('the same roof drawn another way', () => {
  it('turned on the page keeps its quantities', () => {
    fc.assert(
      fc.property(roofs, fc.constantFrom(90, 180, 270, 17, 45), (part, deg) => {
        const turned = {
          ...part,
          points: part.points.map((p) => turnPoint(p, deg)),
          fallPlanDeg: part.fallPlanDeg - deg,
        };
        expectSame(
          quantities(part),
          quantities({ ...turned, fallPlanDeg: turned.fallPlanDeg % 360 }),
        );
      }),
      RUNS,
    );
  });

  it('seen in a mirror costs the same', () => {
    fc.assert(
      fc.property(roofs, (part) => {
        const points = part.points.map(([x, y]): P => [-x, y]).toReversed();
        // Edge i ran from point i onwards; backwards it runs to it.
        const edges = [...part.edges.toReversed().slice(1), part.edges[part.edges.length - 1]!];
        const fallPlanDeg = (360 - part.fallPlanDeg) % 360;
        expectSame(quantities(part), quantities({ ...part, points, edges, fallPlanDeg }));
      }),
      RUNS,
    );
  });

  it('with a straight edge given as two keeps its quantities', () => {
    fc.assert(
      fc.property(
        roofs,
        fc.nat(20),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (part, k, t) => {
          const i = k % part.points.length;
          const [a, b] = [part.points[i]!, part.points[(i + 1) % part.points.length]!];
          const between: P = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
          const points = part.points.toSpliced(i + 1, 0, between);
          const edges = part.edges.toSpliced(i + 1, 0, part.edges[i]!);
          expectSame(quantities(part), quantities({ ...part, points, edges }));
        },
      ),
      RUNS,
    );
  });

  it('listed from another corner keeps its quantities', () => {
    fc.assert(
      fc.property(roofs, fc.nat(20), (part, k) => {
        const i = k % part.points.length;
        const from = <T>(list: readonly T[]): T[] => [...list.slice(i), ...list.slice(0, i)];
        expectSame(
          quantities(part),
          quantities({ ...part, points: from(part.points), edges: from(part.edges) }),
        );
      }),
      RUNS,
    );
  });
});

describe('what the user turns, shifts or fixes', () => {
  const HALL: SheetPart = {
    points: [
      [0, 0],
      [40, 0],
      [40, 17],
      [0, 17],
    ],
    edges: Array.from({ length: 4 }, () => ({ kind: 'verge' as const, upstandMm: 0 })),
    fallDeg: 1.4,
    fallPlanDeg: 180,
    features: [],
  };

  it('is never better than what was found without: the search had it as a choice', () => {
    const choice = fc.record({
      rollsRunDeg: fc.constantFrom(0, 90),
      shiftM: fc.constantFrom(undefined, 0, 0.5, 1.1, 2),
    });
    fc.assert(
      fc.property(roofOn(stepped), choice, (part, { rollsRunDeg, shiftM }) => {
        const weights = { rollRest: 0 };
        const free = layOutOutlineSheets(part, { rolls, weights });
        const choices = shiftM === undefined ? { rollsRunDeg } : { rollsRunDeg, shiftM };
        const set = layOutOutlineSheets(part, { rolls, weights, choices });
        expect(compareLayouts(free, set).cost).toBeGreaterThan(-1e-6);
      }),
      RUNS,
    );
  });

  it('turns the rolls, and says what that costs', () => {
    const along = layOutOutlineSheets(HALL, { choices: { rollsRunDeg: 90 } });
    const up = layOutOutlineSheets(HALL, { choices: { rollsRunDeg: 0 } });
    expect([along.rollsRunDeg, up.rollsRunDeg]).toEqual([90, 0]);
    // 17.2 m takes three courses along, two laps of 40.2; 40.2 m takes seven up, six laps of 17.2.
    expect(along.figures.sideLapM).toBeCloseTo(2 * 40.2, 9);
    expect(up.figures.sideLapM).toBeCloseTo(6 * 17.2, 9);
    expect(compareLayouts(along, up).sideLapM).toBeCloseTo(103.2 - 80.4, 9);
  });

  it('shifts the courses by what the first is cut narrower', () => {
    const choices = { rollsRunDeg: 90, shiftM: 1.5 };
    const { sheets } = layOutOutlineSheets(HALL, { rolls, choices });
    expect(sheets[0]!.rollWidthM - sheets[0]!.widthM).toBeCloseTo(1.5, 9);
  });

  it('leaves a fixed sheet where it is', () => {
    fc.assert(
      fc.property(roofOn(stepped), fc.nat(50), (part, k) => {
        // How rolls are filled is not part of the search, so it may come out better by chance.
        const weights = { rollRest: 0 };
        const free = layOutOutlineSheets(part, { weights });
        const sheet = free.sheets[k % free.sheets.length]!;
        const choices = { rollsRunDeg: free.rollsRunDeg, sheets: [sheet] };
        const { startM, widthM, fromM, toM } = sheet;
        const after = layOutOutlineSheets(part, { choices, weights });
        const same = after.sheets.some(
          (s) =>
            Math.abs(s.startM - startM) + Math.abs(s.widthM - widthM) < 1e-5 &&
            Math.abs(s.fromM - fromM) + Math.abs(s.toM - toM) < 1e-5,
        );
        expect(same).toBe(true);
        expect(after.figures.cost).toBeGreaterThan(free.figures.cost - 1e-6);
      }),
      RUNS,
    );
  });

  it('is refused with a reason where it leaves no layout', () => {
    const sheet = { startM: 5, widthM: 5, rollWidthM: 5, fromM: 0, toM: 10 };
    expect(() => layOutOutlineSheets(HALL, { choices: { sheets: [sheet] } })).toThrow(
      /choices.rollsRunDeg/,
    );
    expect(() =>
      layOutOutlineSheets(HALL, { choices: { rollsRunDeg: 90, sheets: [sheet] } }),
    ).toThrow(/fixed sheets/);
    expect(() => layOutOutlineSheets(HALL, { lapM: Number.NaN })).toThrow(/lapM.*NaN/);
    expect(() => layOutOutlineSheets(HALL, { choices: { shiftM: -1 } })).toThrow(/shiftM.*-1/);
  });
});
