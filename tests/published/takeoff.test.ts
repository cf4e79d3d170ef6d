import { describe, expect, it } from 'vitest';
import { splitIntoBays, takeOff } from '../../src/roof/index.ts';
import { GARAGE, HALL } from '../rules/stages-examples.ts';

/**
 * Take-offs worked by hand; every sum stands beside the figure. The sizes that go into them are
 * common practice of the trade: strip 150 mm, overhang 100 mm, upstand as given plus 50 mm, lap 100 mm,
 * rolls 3.05 and 6.1 m wide. Lengths m, areas m2; exact to rounding.
 */
describe('a garage of 6 x 3.5 m, eaves low, wall high, verges at the sides', () => {
  const t = takeOff(GARAGE);

  it('has its net area and edges', () => {
    expect(t.areaM2).toBeCloseTo(21, 9); // 6 x 3.5
    expect(t.eavesM).toBe(6);
    expect(t.vergeM).toBe(7); // 2 x 3.5
    expect(t.abutmentM).toBe(6);
    expect(t.upstandM2).toBeCloseTo(0.9, 9); // 6 x 0.15
  });

  it('bonds the field inside a 150 mm strip', () => {
    // (6 - 0.3) x (3.5 - 0.3) = 5.7 x 3.2
    expect(t.fieldM2).toBeCloseTo(18.24, 9);
    // 21 - 18.24
    expect(t.perimeterStripM2).toBeCloseTo(2.76, 9);
  });

  it('is one sheet along the eaves, cut from the wide roll', () => {
    // Run 6 + 2 x 0.1 = 6.2; span 3.5 + 0.1 + (0.15 + 0.05) = 3.8: over 3.05, under 6.1.
    // Up the fall the span would be 6.2, over 6.1: two sheets and a lap.
    expect(t.sheets).toHaveLength(1);
    expect(t.sheets[0]).toMatchObject({ runs: 'along-the-low-edge', rollWidthM: 6.1 });
    expect(t.sheets[0]?.lengthM).toBeCloseTo(6.2, 9);
    expect(t.sheets[0]?.widthM).toBeCloseTo(3.8, 9);
    expect(t.lapM).toBe(0);
    // 1 - (6.2 x 3.8) / (6.2 x 6.1) = 1 - 3.8 / 6.1
    expect(t.balance.wastePct).toBeCloseTo(37.7049, 3);
  });

  it('patches the two corners at the wall', () => {
    expect(t.cornerPatches).toBe(2);
  });
});

describe('a hall of 12.5 x 8 m', () => {
  const t = takeOff(HALL);

  it('takes two sheets with one lap across the fall', () => {
    // Run 12.7, span 8 + 0.1 + 0.2 = 8.3. Two courses: 8.3 + 0.1 lap = 8.4 = 6.1 + 2.3 off a 3.05 roll.
    // Up the fall: run 8.3, span 12.7: three courses, laps 2 x 8.3 = 16.6, more than 12.7.
    expect(t.sheets.map((s) => [s.widthM, s.rollWidthM])).toEqual([
      [6.1, 6.1],
      [expect.closeTo(2.3, 9), 3.05],
    ]);
    expect(t.lapM).toBeCloseTo(12.7, 9);
  });

  it('keeps adhesive out of the lap', () => {
    // (12.5 - 0.3) x (8 - 0.3) = 93.94, less the lap inside it 12.2 x 0.1 = 1.22
    expect(t.fieldM2).toBeCloseTo(92.72, 9);
  });

  it('cuts 106.68 m2 out of 116.205 m2', () => {
    // 12.7 x 6.1 + 12.7 x 2.3 = 77.47 + 29.21
    expect(t.balance.cutM2).toBeCloseTo(106.68, 9);
    // 12.7 x (6.1 + 3.05)
    expect(t.balance.boughtM2).toBeCloseTo(116.205, 9);
  });

  it('covers roof, overhangs, turn-up and trim', () => {
    // Overhang: low 12.5 x 0.1 + sides 2 x 8 x 0.1 = 2.85; turn-up 12.5 x 0.15 = 1.875;
    // trim 12.5 x 0.05 = 0.625; corners 2 x 0.1 x 0.1 + 2 x 0.2 x 0.1 = 0.06. 100 + ... = 105.41
    expect(t.balance.overhangM2).toBeCloseTo(2.85, 9);
    expect(t.balance.turnUpM2).toBeCloseTo(1.875, 9);
    expect(t.balance.trimM2).toBeCloseTo(0.625, 9);
    expect(t.balance.cornersM2).toBeCloseTo(0.06, 9);
    expect(t.balance.coveredM2).toBeCloseTo(105.41, 9);
  });
});

describe('the hall in two bays', () => {
  const bays = splitIntoBays(HALL, 50);

  it('is split across its length, so that the inner edge is 8 m and not 12.5 m', () => {
    expect(bays.map((b) => [b.part.lengthM, b.part.widthM])).toEqual([
      [6.25, 8],
      [6.25, 8],
    ]);
    expect(bays.map((b) => [b.nightSealM, b.joinM])).toEqual([
      [8, 0],
      [0, 8],
    ]);
  });

  it('runs the first bay on for the lap and the strip the night seal spoils', () => {
    const first = takeOff(bays[0]!.part);
    // 8 m x (0.1 lap + 0.15 cut off later)
    expect(first.balance.nextBayM2).toBeCloseTo(2, 9);
    // Inner edge to the next bay has no strip: (6.25 - 0.15) x (8 - 0.3) = 46.97; the sheets are two,
    // 6.6 x 6.1 and 6.6 x 2.3 or up the fall 8.3 x 6.6 in two, so less one lap inside the field.
    expect(first.perimeterStripM2).toBeCloseTo(50 - 46.97, 9);
  });

  it('joins the second bay with a lap up the whole edge', () => {
    const second = takeOff(bays[1]!.part);
    const join = second.laps.filter((lap) => lap.kind === 'join');
    // 8 + 0.1 overhang + 0.2 up the wall
    expect(join.map((lap) => lap.lengthM)).toEqual([expect.closeTo(8.3, 9)]);
    expect(second.cornerPatches).toBe(1);
  });
});

describe('doubtful roofs', () => {
  it('questions an upstand under 150 mm and keeps it', () => {
    const t = takeOff({ ...GARAGE, upstandMm: 100 });
    expect(t.warnings).toEqual(['Upstand is 100 mm; 150 mm or more is usual. Kept as given.']);
    expect(t.upstandM2).toBeCloseTo(0.6, 9);
  });

  it('questions a roof the water cannot leave', () => {
    const walls = { low: 'abutment', high: 'abutment', left: 'abutment', right: 'verge' } as const;
    expect(takeOff({ ...GARAGE, edges: walls }).warnings).toHaveLength(1);
    expect(takeOff({ ...GARAGE, edges: walls, outlets: 1 }).warnings).toEqual([]);
  });

  it.each([
    ['lengthM', { lengthM: Number.NaN }],
    ['widthM', { widthM: 0 }],
    ['upstandMm', { upstandMm: -1 }],
  ])('throws naming %s when it is out of range', (name, change) => {
    expect(() => takeOff({ ...GARAGE, ...change })).toThrow(name);
  });
});

describe('laps and angles', () => {
  const widths = (t: ReturnType<typeof takeOff>) =>
    t.sheets.map((s) => Number(s.widthM.toFixed(3)));

  it('keeps the last lap half a metre clear of a wall, however little the sheet falls short', () => {
    // Span 5.85 + 0.1 + (0.15 + 0.05) = 6.15, 50 mm over the widest roll; run 30.2: one lap of 30.2 m.
    // Up the fall five courses cover 5 x 6.1 - 4 x 0.1 = 30.1, short of 30.2: six, laps 5 x 6.15 = 30.75.
    const t = takeOff({ ...GARAGE, lengthM: 30, widthM: 5.85 });
    expect(t.lapM).toBeCloseTo(30.2, 9);
    // 6.15 + 0.1 lap = 6.25; the course at the wall is not 0.15 but 0.5 + 0.2 = 0.7, the other 5.55.
    expect(widths(t)).toEqual([5.55, 0.7]);
  });

  it('takes the shorter lap the other way on a roof 20 m long', () => {
    // Along: one lap of 20.2. Up: four courses (three cover 18.1, short of 20.2), laps 3 x 6.15 = 18.45.
    const t = takeOff({ ...GARAGE, lengthM: 20, widthM: 5.85 });
    expect(t.sheets.map((s) => s.runs)).toEqual(Array(4).fill('up-the-fall'));
    expect(t.lapM).toBeCloseTo(18.45, 9);
  });

  it('shares a sliver between the last two courses', () => {
    // Up the fall: span 12.25, three courses of 12.25 + 0.2 = 12.45 in all: 6.1 + 6.1 + 0.25. The last
    // is widened to 0.5 + 0.1 = 0.6 at the cost of its neighbour, 5.75.
    const t = takeOff({ ...GARAGE, lengthM: 12.05, widthM: 30 }, { sheetWidthsM: [6.1] });
    expect(widths(t)).toEqual([6.1, 5.75, 0.6]);
  });
});
