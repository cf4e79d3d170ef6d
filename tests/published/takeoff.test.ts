import { describe, expect, it } from 'vitest';
import { layingBays, type Roof, roofIssues, type TakeOffOptions } from '../../src/roof/index.ts';
import { GARAGE, HALL } from '../rules/stages-examples.ts';

/**
 * Take-offs worked by hand; every sum stands beside the figure. The sizes that go into them are
 * common practice of the trade: strip 150 mm, overhang 100 mm, upstand as given plus 50 mm, lap 100 mm,
 * rolls 3.05 and 6.1 m wide and 30.5 m long. What sheets are chosen follows the weights of
 * docs/sheet-layout.md: 1 per m2 run off a roll, 1 per m of lap, 2 per piece, 0.25 per m2 of roll rest.
 * Lengths m, areas m2; exact to rounding.
 */
function wholeOf(roof: Roof, options: TakeOffOptions = {}) {
  const [bay] = layingBays(roof, 1e6);
  const t = bay!.takeOff(options);
  const { layout } = bay!.laid(options)[0]!;
  const along = (kind: string): number =>
    t.edges.reduce((sum, edge) => sum + (edge.kind === kind ? edge.lengthM : 0), 0);
  const lapM = t.laps.reduce((sum, lap) => sum + lap.lengthM, 0);
  return { ...t, layout, along, lapM };
}
const widths = (sheets: readonly { readonly widthM: number }[]): number[] =>
  sheets.map((s) => Number(s.widthM.toFixed(3)));

describe('a garage of 6 x 3.5 m, eaves low, wall high, verges at the sides', () => {
  const t = wholeOf(GARAGE);

  it('has its net area and edges', () => {
    expect(t.areaM2).toBeCloseTo(21, 6); // 6 x 3.5
    expect(t.along('gutter')).toBeCloseTo(6, 9);
    expect(t.along('verge')).toBeCloseTo(7, 9); // 2 x 3.5
    expect(t.along('abutment')).toBeCloseTo(6, 9);
    expect(t.layout.balance.turnUpM2).toBeCloseTo(0.9, 9); // 6 x 0.15
  });

  it('bonds the field inside a 150 mm strip', () => {
    // (6 - 0.3) x (3.5 - 0.3) = 5.7 x 3.2; the strip is 21 - 18.24 = 2.76
    expect(t.fieldM2).toBeCloseTo(18.24, 5);
    expect(t.areaM2 - t.fieldM2).toBeCloseTo(2.76, 5);
  });

  it('is one sheet along the eaves, cut from the wide roll', () => {
    // Run 6 + 2 x 0.1 = 6.2; span 3.5 + 0.1 + (0.15 + 0.05) = 3.8: over 3.05, under 6.1.
    // One sheet: 6.2 x 6.1 + 2 = 39.82. Up the fall the span is 6.2, over 6.1: at least
    // 3.8 x (6.1 + 3.05) + 3.8 of lap + 4 = 42.57. Two narrow ones along: 37.82 + 6.2 + 4 = 48.02.
    expect(t.layout.rollsRunDeg).toBeCloseTo(90, 9);
    expect(t.layout.sheets).toHaveLength(1);
    expect(t.layout.sheets[0]).toMatchObject({ rollWidthM: 6.1 });
    expect(t.sheets[0]?.lengthM).toBeCloseTo(6.2, 9);
    expect(t.sheets[0]?.widthM).toBeCloseTo(3.8, 9);
    expect(t.lapM).toBe(0);
    expect(t.layout.figures.cost).toBeCloseTo(39.82, 9);
  });

  it('wastes what is cut off beside it; the rest of the roll goes back', () => {
    const { balance, figures } = t.layout;
    expect(balance.cutM2).toBeCloseTo(23.56, 9); // 6.2 x 3.8
    // Of the 6.2 m run off: 1 - 3.8 / 6.1
    expect(1 - balance.cutM2 / figures.runOffM2).toBeCloseTo(0.377049, 6);
    expect(balance.boughtM2).toBeCloseTo(186.05, 9); // one roll, 30.5 x 6.1
    expect(balance.rollEndsM2).toBeCloseTo(148.23, 9); // (30.5 - 6.2) x 6.1
  });

  it('patches the two corners at the wall', () => {
    expect(t.corners.map((c) => [...c.edges].sort())).toEqual([
      ['high', 'right'],
      ['high', 'left'],
    ]);
  });
});

describe('a hall of 12.5 x 8 m', () => {
  const t = wholeOf(HALL);

  it('takes two sheets with one lap across the fall', () => {
    // Run 12.7, span 8 + 0.1 + 0.2 = 8.3. Two courses: 8.3 + 0.1 lap = 8.4, off 6.1 and 3.05:
    // 12.7 x 9.15 + 12.7 + 4 = 132.905. Both come off one wide roll: of 186.05, 116.205 is run off and
    // 5.1 x 6.1 = 31.11 left over at its end; 38.735 lies beside the narrow one, a quarter of that counts: 142.58875.
    // Up the fall: run 8.3, span 12.7: three courses, 8.3 x 15.25 + 2 x 8.3 + 6 = 149.175 at least.
    expect(t.layout.sheets.map((s) => s.rollWidthM).sort()).toEqual([3.05, 6.1]);
    expect(widths(t.sheets).reduce((sum, w) => sum + w, 0)).toBeCloseTo(8.4, 9);
    expect(t.lapM).toBeCloseTo(12.7, 9);
    expect(t.layout.figures.cost).toBeCloseTo(142.58875, 6);
  });

  it('keeps adhesive out of the lap', () => {
    // (12.5 - 0.3) x (8 - 0.3) = 93.94, less the lap inside it 12.2 x 0.1 = 1.22
    expect(t.fieldM2).toBeCloseTo(92.72, 5);
  });

  it('cuts 106.68 m2 out of 116.205 m2', () => {
    expect(t.layout.balance.cutM2).toBeCloseTo(106.68, 9); // 12.7 x 8.4
    expect(t.layout.figures.runOffM2).toBeCloseTo(116.205, 9); // 12.7 x (6.1 + 3.05)
  });

  it('covers roof, overhangs, turn-up and trim', () => {
    // Overhang: low 12.5 x 0.1 + sides 2 x 8 x 0.1 = 2.85; turn-up 12.5 x 0.15 = 1.875;
    // trim 12.5 x 0.05 = 0.625; corners 2 x 0.1 x 0.1 + 2 x 0.2 x 0.1 = 0.06. 100 + ... = 105.41
    const { balance } = t.layout;
    expect(balance.netM2).toBeCloseTo(100, 9);
    expect(balance.overhangM2).toBeCloseTo(2.85, 9);
    expect(balance.turnUpM2).toBeCloseTo(1.875, 9);
    expect(balance.trimM2).toBeCloseTo(0.625, 9);
    expect(balance.cornersM2).toBeCloseTo(0.06, 9);
    expect(balance.coveredM2).toBeCloseTo(105.41, 9);
    expect(balance.lapM2).toBeCloseTo(1.27, 9); // 12.7 x 0.1 = 106.68 - 105.41
  });
});

describe('the hall in two bays', () => {
  const bays = layingBays(HALL, 50);

  it('is split across its length, so that the inner edge is 8 m and not 12.5 m', () => {
    expect(bays.map((b) => [b.areaM2, b.nightSealM])).toEqual([
      [expect.closeTo(50, 9), expect.closeTo(8, 9)],
      [expect.closeTo(50, 9), 0],
    ]);
    const inner = bays.map((b) =>
      b
        .takeOff()
        .edges.filter((e) => e.kind === 'next-bay' || e.kind === 'earlier-bay')
        .map((e) => [e.kind, e.lengthM]),
    );
    expect(inner).toEqual([
      [['next-bay', expect.closeTo(8, 9)]],
      [['earlier-bay', expect.closeTo(8, 9)]],
    ]);
  });

  it('runs the first bay on for the lap and the strip the night seal spoils', () => {
    const { layout } = bays[0]!.laid()[0]!;
    // 8 m x (0.1 lap + 0.15 cut off later); the sheets are 6.25 + 0.1 + 0.25 = 6.6 long
    expect(layout.balance.nextBayM2).toBeCloseTo(2, 9);
    expect(layout.sheets.map((s) => s.lengthM)).toEqual([
      expect.closeTo(6.6, 9),
      expect.closeTo(6.6, 9),
    ]);
    // No strip towards the next bay: (6.25 - 0.15) x (8 - 0.3) = 46.97, less the lap 6.1 x 0.1
    expect(bays[0]!.takeOff().fieldM2).toBeCloseTo(46.36, 5);
  });

  it('joins the second bay with a lap up the whole edge, and down and up past its ends', () => {
    const second = bays[1]!.takeOff();
    const join = second.laps.filter((lap) => lap.kind === 'join');
    // 8 + 0.1 overhang + 0.2 up the wall
    expect(join.map((lap) => lap.lengthM)).toEqual([expect.closeTo(8.3, 9)]);
    // Its own side lap meets it: three sheets in one place.
    expect(second.tJoints).toBe(1);
    expect(second.corners).toHaveLength(1);
    // 46.97 less the side lap 6.1 x 0.1 and the join 7.7 x 0.1, which cross in 0.1 x 0.1
    expect(second.fieldM2).toBeCloseTo(46.97 - 0.61 - 0.77 + 0.01, 5);
  });
});

describe('a rooflight of 1 x 1 m in a roof of 5.5 x 5 m under one sheet', () => {
  const t = wholeOf({ ...GARAGE, lengthM: 5.5, widthM: 5, pipes: 0, rooflights: 1, fallDeg: 0 });

  it('is taken off the area, and its own strip off the field', () => {
    expect(t.areaM2).toBeCloseTo(26.5, 5); // 27.5 - 1
    // (5.5 - 0.3) x (5 - 0.3) = 24.44, less (1 + 0.3) x (1 + 0.3) = 1.69
    expect(t.fieldM2).toBeCloseTo(22.75, 5);
    expect(t.kerbs).toMatchObject([{ aroundM: 4, corners: 4 }]);
    expect(t.layout.balance.cutOutsM2).toBeCloseTo(1, 9);
  });
});

describe('doubtful roofs', () => {
  const said = (change: Partial<Roof>) =>
    roofIssues({ ...GARAGE, ...change }).map(({ level, message }) => `${level}: ${message}`);

  it('questions an upstand under 150 mm and keeps it', () => {
    expect(said({})).toEqual([]);
    expect(said({ upstandMm: 100 })).toEqual([
      'warn: Upstand is 100 mm; 150 mm or more is usual. Kept as given.',
    ]);
    const { balance } = wholeOf({ ...GARAGE, upstandMm: 100 }).layout;
    expect(balance.turnUpM2).toBeCloseTo(0.6, 9);
    // Where nothing goes up it is no matter.
    const verges = { low: 'eaves', high: 'verge', left: 'verge', right: 'verge' } as const;
    expect(said({ upstandMm: 0, edges: verges })).toEqual([]);
  });

  it('questions a roof the water cannot leave', () => {
    const walls = { low: 'abutment', high: 'abutment', left: 'abutment', right: 'verge' } as const;
    expect(said({ edges: walls })).toHaveLength(1);
    expect(said({ edges: walls, outlets: 1 })).toEqual([]);
    // Eaves on the high side take nothing off.
    const uphill = { low: 'abutment', high: 'eaves', left: 'verge', right: 'verge' } as const;
    expect(said({ edges: uphill })[0]).toContain('Water runs away from every gutter');
  });

  it.each([
    ['lengthM', { lengthM: Number.NaN }],
    ['widthM', { widthM: 0 }],
    ['upstandMm', { upstandMm: -1 }],
  ])('throws naming %s when it is out of range', (name, change) => {
    expect(() => layingBays({ ...GARAGE, ...change }, 100)).toThrow(name);
  });

  it('throws naming the size of a bay that is none', () => {
    expect(() => layingBays(GARAGE, 0)).toThrow('maxBayM2');
    expect(() => layingBays(GARAGE, Number.NaN)).toThrow('maxBayM2');
  });
});

describe('laps and angles', () => {
  it('lays a roof 30 m long up the fall: half a metre more lap, but 70 m2 less sheet', () => {
    // Span 5.85 + 0.1 + (0.15 + 0.05) = 6.15, 50 mm over the widest roll; run 30.2. Along: one lap of
    // 30.2 m, rolls 6.1 + 3.05: 30.2 x 9.15 = 276.33, + 30.2 + 4 = 310.53.
    // Up: 6.1 x 5 - 0.1 x 4 = 30.1, short of 30.2: six courses, 30.2 + 0.5 = 30.7 off five wide rolls and a
    // narrow one: 6.15 x 33.55 = 206.3325, laps 5 x 6.15 = 30.75, pieces 12: 249.08 and the rests of rolls.
    const t = wholeOf({ ...GARAGE, lengthM: 30, widthM: 5.85 });
    expect(t.lapM).toBeCloseTo(30.75, 9);
    expect(t.layout.figures.runOffM2).toBeCloseTo(206.3325, 9);
    expect(t.layout.figures.cost).toBeLessThan(310.53);
  });

  it('keeps laps half a metre clear of wall and eaves when turned along them all the same', () => {
    const choices = { roof: { rollsRunDeg: 90 } };
    const t = wholeOf({ ...GARAGE, lengthM: 30, widthM: 5.85 }, { choices });
    expect(t.lapM).toBeCloseTo(30.2, 9);
    const ys = t.layout.laps.flatMap((lap) => lap.corners.map((p) => p[1]));
    expect(Math.min(...ys)).toBeGreaterThanOrEqual(0.5 - 1e-6);
    expect(Math.max(...ys)).toBeLessThanOrEqual(5.85 - 0.5 + 1e-6);
  });

  it('takes the shorter lap the other way on a roof 20 m long', () => {
    // Along: one lap of 20.2. Up: four courses (three cover 18.1, short of 20.2), laps 3 x 6.15 = 18.45.
    const t = wholeOf({ ...GARAGE, lengthM: 20, widthM: 5.85 });
    expect(t.layout.rollsRunDeg).toBeCloseTo(0, 9);
    expect(t.sheets).toHaveLength(4);
    expect(t.lapM).toBeCloseTo(18.45, 9);
  });

  it('shares a sliver at the wall between the last two courses', () => {
    // Along, off 6.1: run 12.25, span 30 + 0.1 + 0.2 = 30.3; five courses cover 30.1, so six:
    // 6 x 12.25 x 6.1 + 5 x 12.25 + 12 = 521.6 and rests; up the fall 3 x 30.3 x 6.1 alone is 554.49.
    // In all 30.3 + 0.5 = 30.8 = 4 x 6.1 + 6.4: the lap keeps 0.5 off the wall, so the last course is
    // 0.5 + 0.1 lap + 0.2 up the wall = 0.8 and its neighbour 5.6.
    const t = wholeOf({ ...GARAGE, lengthM: 12.05, widthM: 30 }, { sheetWidthsM: [6.1] });
    expect(widths(t.sheets)).toEqual([6.1, 6.1, 6.1, 6.1, 5.6, 0.8]);
  });
});
