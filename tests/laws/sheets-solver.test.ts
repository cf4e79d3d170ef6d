import fc from 'fast-check';
import highs from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { fillRolls } from '../../src/roof/sheets/fill-rolls.ts';
import { layOutOutlineSheets, type SheetPart } from '../../src/roof/sheets/index.ts';

/** Against a general solver of integer programs, HiGHS (https://highs.dev), on larger roofs and cut lists. */

let solve: (problem: string) => { Status: string; ObjectiveValue: number };
beforeAll(async () => {
  // The package's types say CommonJS, so the loader looks like a member of what is in fact the loader.
  const load = highs as unknown as typeof highs.default;
  const solver = await load();
  solve = (problem) => solver.solve(problem, { mip_rel_gap: 0, output_flag: false });
});

const tenths = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);

describe('the courses of a large hall', () => {
  const LAP = 0.1;
  const PIECE = 2;

  /** How many courses of each width: least sheet, lap and handling that spans the roof. */
  function courses(runM: number, spanM: number, widths: readonly number[]): number {
    const cost = widths.map((w, i) => `${(w * runM + runM + PIECE).toFixed(6)} n${i}`);
    const cover = widths.map((w, i) => `${(w - LAP).toFixed(6)} n${i}`);
    const problem = [
      `Minimize\n cost: ${cost.join(' + ')}`,
      `Subject To\n cover: ${cover.join(' + ')} >= ${(spanM - LAP - 1e-7).toFixed(7)}`,
      `General\n ${widths.map((_, i) => `n${i}`).join(' ')}`,
      'End',
    ].join('\n');
    const { Status, ObjectiveValue } = solve(problem);
    expect(Status).toBe('Optimal');
    // One lap fewer than courses.
    return ObjectiveValue - runM;
  }

  it('are the cheapest set of widths that spans it', () => {
    const widths = fc.uniqueArray(
      fc.constantFrom(1.4, 1.5, 2.1, 3.05, 4.55, 6.1, 7.6, 9.15, 12.2),
      {
        minLength: 1,
        maxLength: 5,
      },
    );
    fc.assert(
      fc.property(tenths(15, 70), tenths(15, 70), widths, (lengthM, widthM, rollWidths) => {
        const hall: SheetPart = {
          points: [
            [0, 0],
            [lengthM, 0],
            [lengthM, widthM],
            [0, widthM],
          ],
          edges: Array.from({ length: 4 }, () => ({ kind: 'verge' as const, upstandMm: 0 })),
          fallDeg: 1.4,
          fallPlanDeg: 180,
          features: [],
        };
        const rolls = rollWidths.map((w) => ({ widthM: w, lengthM: 200 }));
        const weights = { rollRest: 0, nearEdgePerM: 0, nearCorner: 0 };
        const { figures } = layOutOutlineSheets(hall, { rolls, weights });
        const [x, y] = [lengthM + 0.2, widthM + 0.2];
        const least = Math.min(courses(x, y, rollWidths), courses(y, x, rollWidths));
        expect(figures.cost).toBeCloseTo(least, 3);
      }),
      { numRuns: 40, endOnFailure: true },
    );
  });
});

describe('a cut list', () => {
  /** Every way to cut one roll, as counts of each length. */
  function patterns(lengths: readonly number[], rollM: number): number[][] {
    const found: number[][] = [];
    const add = (i: number, leftM: number, counts: readonly number[]): void => {
      if (i === lengths.length) {
        if (counts.some((c) => c > 0)) found.push([...counts]);
        return;
      }
      for (let c = 0; c * lengths[i]! <= leftM + 1e-9; c += 1) {
        add(i + 1, leftM - c * lengths[i]!, [...counts, c]);
      }
    };
    add(0, rollM, []);
    return found;
  }

  function leastRolls(
    lengths: readonly number[],
    counts: readonly number[],
    rollM: number,
  ): number {
    const ways = patterns(lengths, rollM);
    const rows = lengths.map((_, i) => {
      const terms = ways.flatMap((way, k) => (way[i]! > 0 ? [`${way[i]} w${k}`] : []));
      return ` c${i}: ${terms.join(' + ')} >= ${counts[i]}`;
    });
    const names = ways.map((_, k) => `w${k}`);
    const { Status, ObjectiveValue } = solve(
      `Minimize\n rolls: ${names.join(' + ')}\nSubject To\n${rows.join('\n')}\nGeneral\n ${names.join(' ')}\nEnd`,
    );
    expect(Status).toBe('Optimal');
    return Math.round(ObjectiveValue);
  }

  it('takes the fewest rolls wherever that is claimed, and one more at most', () => {
    const wanted = fc.uniqueArray(
      fc.record({ l: tenths(6, 30), n: fc.integer({ min: 1, max: 6 }) }),
      {
        selector: ({ l }) => l,
        minLength: 2,
        maxLength: 5,
      },
    );
    let claimed = 0;
    let all = 0;
    fc.assert(
      fc.property(wanted, (list) => {
        const lengths = list.flatMap(({ l, n }) => Array.from({ length: n }, () => l));
        const { rolls, proven } = fillRolls(lengths, 30.5);
        const least = leastRolls(
          list.map(({ l }) => l),
          list.map(({ n }) => n),
          30.5,
        );
        all += 1;
        if (proven) {
          claimed += 1;
          expect(rolls.length).toBe(least);
        }
        expect(rolls.length - least).toBeLessThanOrEqual(1);
        expect(rolls.flat().toSorted((a, b) => a - b)).toEqual(lengths.map((_, i) => i));
      }),
      { numRuns: 60, endOnFailure: true },
    );
    expect(claimed / all).toBeGreaterThan(0.9);
  });
});
