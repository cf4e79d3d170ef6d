import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  EDGE_KINDS,
  type Roof,
  type SheetPiece,
  splitIntoBays,
  takeOff,
} from '../../src/roof/index.ts';

/** Geometry must balance whatever the roof; independent sums, no published figure needed. */

const kind = fc.constantFrom(...EDGE_KINDS);
const metres = (min: number, max: number) =>
  fc.integer({ min: min * 100, max: max * 100 }).map((cm) => cm / 100);
const roofs: fc.Arbitrary<Roof> = fc.record({
  lengthM: metres(2, 80),
  widthM: metres(2, 60),
  fallDeg: fc.constant(1.4),
  fallAzimuthDeg: fc.constant(180),
  edges: fc.record({ low: kind, high: kind, left: kind, right: kind }),
  upstandMm: fc.integer({ min: 100, max: 400 }),
  outlets: fc.nat(6),
  pipes: fc.nat(9),
  rooflights: fc.nat(4),
});
const sizes = fc.uniqueArray(fc.constantFrom(1.5, 2.1, 3.05, 4.57, 6.1, 7.6, 9.15), {
  minLength: 1,
  maxLength: 4,
});

const size = (s: SheetPiece) =>
  s.runs === 'up-the-fall' ? { x: s.widthM, y: s.lengthM } : { x: s.lengthM, y: s.widthM };

describe('sheet layout', () => {
  it('balances: cut - laps = roof + upstands + overhangs + trim', () => {
    fc.assert(
      fc.property(roofs, sizes, (roof, sheetWidthsM) => {
        const t = takeOff(roof, { sheetWidthsM });
        const cut = t.sheets.reduce((sum, s) => sum + s.lengthM * s.widthM, 0);
        const laps = t.laps.reduce((sum, lap) => sum + lap.lengthM * 0.1, 0);
        const b = t.balance;
        const laid = t.areaM2 + t.upstandM2 + b.overhangM2 + b.trimM2 + b.cornersM2;
        expect(cut - laps).toBeCloseTo(laid, 6);
        const bought = t.sheets.reduce((sum, s) => sum + s.lengthM * s.rollWidthM, 0);
        expect(bought).toBeGreaterThanOrEqual(cut - 1e-9);
        expect(b.wastePct).toBeCloseTo(100 * (1 - cut / bought), 6);
      }),
    );
  });

  it('leaves no point uncovered, and doubles sheet only inside laps', () => {
    const share = fc.double({ min: 0.0001, max: 0.9999, noNaN: true });
    fc.assert(
      fc.property(roofs, sizes, share, share, (roof, sheetWidthsM, u, v) => {
        const t = takeOff(roof, { sheetWidthsM });
        const a = t.allowancesM;
        const x = -a.left + u * (roof.lengthM + a.left + a.right);
        const y = -a.low + v * (roof.widthM + a.low + a.high);
        const over = t.sheets.filter((s) => {
          const { x: w, y: h } = size(s);
          return x > s.xM && x < s.xM + w && y > s.yM && y < s.yM + h;
        });
        const inLap = t.laps.some(
          (l) => x >= l.xM && x <= l.xM + l.sizeXM && y >= l.yM && y <= l.yM + l.sizeYM,
        );
        const onCut = over.length === 0;
        expect(onCut).toBe(false);
        expect(over.length > 1).toBe(inLap);
      }),
      { numRuns: 400 },
    );
  });

  it('cuts every piece from a roll that is on offer and long enough', () => {
    fc.assert(
      fc.property(roofs, sizes, (roof, sheetWidthsM) => {
        for (const s of takeOff(roof, { sheetWidthsM, rollLengthM: 20 }).sheets) {
          expect(sheetWidthsM).toContain(s.rollWidthM);
          expect(s.widthM).toBeLessThanOrEqual(s.rollWidthM + 1e-9);
          expect(s.lengthM).toBeLessThanOrEqual(20 + 1e-9);
        }
      }),
    );
  });

  it('staggers end laps of neighbouring courses by more than 300 mm', () => {
    fc.assert(
      fc.property(metres(21, 190), metres(7, 60), (lengthM, widthM) => {
        const edges = { low: 'eaves', high: 'verge', left: 'verge', right: 'verge' } as const;
        const base = { fallDeg: 1, fallAzimuthDeg: 0, upstandMm: 150, outlets: 0, pipes: 0 };
        const roof: Roof = { ...base, lengthM, widthM, edges, rooflights: 0 };
        const t = takeOff(roof, { rollLengthM: 20 });
        const ends = t.laps.filter((lap) => lap.kind === 'end');
        const along = t.sheets[0]?.runs === 'along-the-low-edge';
        for (const a of ends) {
          for (const b of ends) {
            const [across, run] = along
              ? [Math.abs(a.yM - b.yM), Math.abs(a.xM - b.xM)]
              : [Math.abs(a.xM - b.xM), Math.abs(a.yM - b.yM)];
            if (a !== b && across > 0.01 && across < 6.2) expect(run).toBeGreaterThan(0.3);
          }
        }
      }),
    );
  });

  it('finds what an exhaustive search finds: least lap, then least offcut', () => {
    const small = fc.record({
      lengthM: metres(2, 18),
      widthM: metres(2, 18),
      edges: fc.record({ low: kind, high: kind, left: kind, right: kind }),
    });
    fc.assert(
      fc.property(small, sizes, (s, sheetWidthsM) => {
        const base = { fallDeg: 1.4, fallAzimuthDeg: 0, upstandMm: 150, outlets: 1, pipes: 0 };
        const t = takeOff({ ...base, ...s, rooflights: 0 }, { sheetWidthsM });
        const a = t.allowancesM;
        const x = s.lengthM + a.left + a.right;
        const y = s.widthM + a.low + a.high;
        const [lapM, boughtM2] = [
          ...everyCover(x, y, sheetWidthsM),
          ...everyCover(y, x, sheetWidthsM),
        ].reduce((best, next) =>
          next[0] < best[0] - 1e-9 || (Math.abs(next[0] - best[0]) < 1e-9 && next[1] < best[1])
            ? next
            : best,
        );
        expect(t.lapM).toBeCloseTo(lapM, 6);
        expect(t.balance.boughtM2).toBeCloseTo(boughtM2, 6);
      }),
    );
  });
});

/** Every multiset of rolls that just covers a span: [lap length, area bought]. */
function everyCover(runM: number, spanM: number, rolls: readonly number[]): [number, number][] {
  const found: [number, number][] = [];
  const add = (from: number, coveredM: number, sumM: number, count: number): void => {
    if (count > 0 && coveredM >= spanM - 1e-9) {
      found.push([(count - 1) * runM, sumM * runM]);
      return;
    }
    for (let i = from; i < rolls.length; i += 1) {
      const roll = rolls[i]!;
      add(i, coveredM + roll - (count > 0 ? 0.1 : 0), sumM + roll, count + 1);
    }
  };
  add(0, 0, 0, 0);
  return found;
}

describe('turning and mirroring a roof', () => {
  const quantities = (roof: Roof) => {
    // Rolls long enough for every run: an end lap falls where a roll ends, and that depends on the
    // side one starts from.
    const t = takeOff(roof, { rollLengthM: 200 });
    const { areaM2, fieldM2, perimeterStripM2, eavesM, vergeM, abutmentM, upstandM2 } = t;
    const { lapM, cornerPatches, balance } = t;
    return [areaM2, fieldM2, perimeterStripM2, eavesM, vergeM, abutmentM, upstandM2, lapM]
      .concat([cornerPatches, balance.cutM2, balance.boughtM2])
      .map((q) => Math.round(q * 1e6) / 1e6);
  };

  it('keeps the quantities when the same rectangle is read from another side', () => {
    fc.assert(
      fc.property(roofs, (roof) => {
        const { low, high, left, right } = roof.edges;
        const turned = {
          ...roof,
          lengthM: roof.widthM,
          widthM: roof.lengthM,
          edges: { low: left, right: low, high: right, left: high },
        };
        const mirrored = { ...roof, edges: { low, high, left: right, right: left } };
        expect(quantities(turned)).toEqual(quantities(roof));
        expect(quantities(mirrored)).toEqual(quantities(roof));
      }),
    );
  });
});

describe('bays', () => {
  it('sum to the whole roof in area, edges, strip, corners and features', () => {
    fc.assert(
      fc.property(roofs, metres(10, 400), (roof, maxM2) => {
        const whole = takeOff(roof);
        const bays = splitIntoBays(roof, maxM2);
        const parts = bays.map((b) => takeOff(b.part));
        const sum = (of: (t: ReturnType<typeof takeOff>) => number) =>
          parts.reduce((total, t) => total + of(t), 0);
        expect(sum((t) => t.areaM2)).toBeCloseTo(whole.areaM2, 6);
        expect(sum((t) => t.eavesM)).toBeCloseTo(whole.eavesM, 6);
        expect(sum((t) => t.vergeM)).toBeCloseTo(whole.vergeM, 6);
        expect(sum((t) => t.upstandM2)).toBeCloseTo(whole.upstandM2, 6);
        expect(sum((t) => t.perimeterStripM2)).toBeCloseTo(whole.perimeterStripM2, 6);
        expect(sum((t) => t.cornerPatches)).toBe(whole.cornerPatches);
        expect(sum((t) => t.outlets)).toBe(roof.outlets);
        expect(sum((t) => t.pipes)).toBe(roof.pipes);
        expect(sum((t) => t.rooflights)).toBe(roof.rooflights);
      }),
    );
  });

  it('stay within the area asked for, and every open edge is joined by a later bay', () => {
    fc.assert(
      fc.property(roofs, metres(10, 400), (roof, maxM2) => {
        const bays = splitIntoBays(roof, maxM2);
        let openM = 0;
        for (const bay of bays) {
          expect(bay.areaM2).toBeLessThanOrEqual(maxM2 + 1e-6);
          openM += bay.nightSealM - bay.joinM;
          expect(openM).toBeGreaterThan(-1e-6);
          expect(bay.part.edges.high).not.toBe('next-bay');
          expect(bay.part.edges.low).not.toBe('earlier-bay');
        }
        expect(openM).toBeCloseTo(0, 6);
      }),
    );
  });

  it('are the roof itself when it fits, and never many more than asked for', () => {
    fc.assert(
      fc.property(roofs, fc.integer({ min: 1, max: 40 }), (roof, days) => {
        const areaM2 = roof.lengthM * roof.widthM;
        expect(splitIntoBays(roof, areaM2)[0]?.part).toEqual(roof);
        fc.pre(areaM2 / days >= 4);
        const bays = splitIntoBays(roof, areaM2 / days);
        expect(bays.length).toBeGreaterThanOrEqual(days);
        expect(bays.length).toBeLessThanOrEqual(Math.floor(days * 1.1));
      }),
    );
  });
});
