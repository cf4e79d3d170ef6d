/** What must hold of a product corrected by what a firm's films teach. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  asOnSheet,
  buildDoseTable,
  constantFilm,
  type Product,
  readClock,
  type SpeedCorrection,
  withSpeed,
} from '../../src/products/index.ts';
import { everyProduct, productById } from '../accuracy/clock-products.ts';

const GLUE = productById('contact-solvent');
const TABLED: Product = {
  ...GLUE,
  tables: [
    {
      event: 'touchDry',
      tempC: [5, 20, 30],
      relHumPct: [],
      minutes: [[40], [17.5], [9]],
      source: 'data sheet',
    },
    {
      event: 'openUntil',
      tempC: [5, 20, 30],
      relHumPct: [],
      minutes: [[200], [90], [50]],
      source: 'data sheet',
    },
  ],
};
const products = fc.constantFrom(...everyProduct(), TABLED);
const corrections: fc.Arbitrary<SpeedCorrection> = fc.record({
  factor: fc.double({ min: 0.05, max: 20, noNaN: true }),
  spread: fc.double({ min: 0.05, max: 1, noNaN: true }),
});

describe('no correction', () => {
  it('gives an equal product', () => {
    for (const product of everyProduct()) {
      expect(withSpeed(product, { factor: 1, spread: 1 })).toEqual(product);
    }
  });
});

describe('any correction', () => {
  it('leaves the product it was given alone, and the sheet can be had back whole', () => {
    fc.assert(
      fc.property(products, corrections, corrections, (product, correction, other) => {
        const copy = structuredClone(product);
        const learned = withSpeed(product, correction);
        expect(product).toEqual(copy);
        expect(asOnSheet(learned)).toEqual(product);
        expect(withSpeed(withSpeed(product, other), correction)).toEqual(learned);
      }),
    );
  });

  it('keeps low, typical and high in order, and open time within the sheet’s latest', () => {
    fc.assert(
      fc.property(products, corrections, (product, correction) => {
        const learned = withSpeed(product, correction);
        for (const time of [learned.touchDry, learned.openUntil, learned.rainAfter]) {
          if (time === null) continue;
          expect(time.lowMin).toBeGreaterThan(0);
          expect(time.lowMin).toBeLessThanOrEqual(time.typicalMin * (1 + 1e-12));
          expect(time.typicalMin).toBeLessThanOrEqual(time.highMin * (1 + 1e-12));
        }
        if (learned.openUntil !== null) {
          expect(learned.openUntil.highMin).toBeLessThanOrEqual(product.openUntil!.highMin);
        }
      }),
    );
  });

  it('never makes the range of touch dry wider, nor that of open time narrower at its early end', () => {
    fc.assert(
      fc.property(products, corrections, (product, { factor, spread }) => {
        const learned = withSpeed(product, { factor, spread });
        const width = ({ touchDry }: Product) => Math.log(touchDry!.highMin / touchDry!.lowMin);
        if (product.touchDry !== null) {
          expect(width(learned)).toBeCloseTo(spread * width(product), 9);
        }
        if (product.openUntil === null || product.openEndsBy === 'time') return;
        const early = Math.min(product.openUntil.lowMin / factor, product.openUntil.highMin);
        expect(learned.openUntil!.lowMin).toBeCloseTo(early, 9);
      }),
    );
  });

  it('does not touch what plain time ends, curing under the sheet, or limits', () => {
    fc.assert(
      fc.property(products, corrections, (product, correction) => {
        const learned = withSpeed(product, correction);
        if (product.openEndsBy === 'time') expect(learned.openUntil).toEqual(product.openUntil);
        expect(learned.fullCure).toEqual(product.fullCure);
        expect(learned.footTraffic).toEqual(product.footTraffic);
        expect(learned.closeFrom).toEqual(product.closeFrom);
        expect(learned.limits).toEqual(product.limits);
      }),
    );
  });
});

describe('the clock of a product that dries 1.25 times as fast', () => {
  it.each([
    ['by physics', GLUE],
    ['by the sheet’s own table', TABLED],
  ])('is touch dry after 1/1.25 of the time %s, at any temperature', (_, product) => {
    for (const surfaceTempC of [8, 15, 20, 27]) {
      const film = constantFilm({ startMs: 0, hours: 24, surfaceTempC, dewPointC: 2, windMps: 1 });
      const dry = (of: Product): number =>
        readClock(of, buildDoseTable(of, film), 0).touchDry!.midMs!;
      const learned = withSpeed(product, { factor: 1.25, spread: 0.8 });
      expect(dry(learned) / dry(product)).toBeCloseTo(1 / 1.25, 6);
    }
  });
});

describe('rain after', () => {
  it('comes sooner by the factor, its range as wide as the sheet’s', () => {
    const sealant = productById('lap-sealant');
    const { rainAfter } = withSpeed(sealant, { factor: 2, spread: 0.5 });
    const sheet = sealant.rainAfter!;
    expect(rainAfter!.typicalMin).toBe(sheet.typicalMin / 2);
    expect(rainAfter!.lowMin).toBeCloseTo(sheet.lowMin / 2, 9);
    expect(rainAfter!.highMin).toBeCloseTo(sheet.highMin / 2, 9);
  });
});

describe('a slower firm', () => {
  it('waits longer for touch dry and gets no open time beyond the sheet’s latest', () => {
    const slow = withSpeed(GLUE, { factor: 0.5, spread: 1 });
    expect(slow.touchDry!.typicalMin).toBe(35);
    expect(slow.openUntil).toEqual({ lowMin: 120, typicalMin: 120, highMin: 120, source: 'user' });
  });
});

describe('a correction out of range', () => {
  it.each([
    [{ factor: 0, spread: 1 }, /factor \(0\)/],
    [{ factor: Number.NaN, spread: 1 }, /factor \(NaN\)/],
    [{ factor: 1, spread: 1.1 }, /spread \(1\.1\)/],
    [{ factor: 1, spread: 0 }, /spread \(0\)/],
  ])('%j throws with name and value', (correction, words) => {
    expect(() => withSpeed(GLUE, correction)).toThrow(words);
  });
});
