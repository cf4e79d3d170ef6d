/** A sheet's own table of times over the physics: exact at its points, continuous at its border. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dewPointC, magnusWaterHPa } from '../../src/physics/index.ts';
import {
  buildDoseTable,
  type ClockEvent,
  constantFilm,
  type FilmAir,
  type Product,
  rateLaw,
  readClock,
  readTimesTable,
  type TimesTable,
} from '../../src/products/index.ts';
import {
  PRINTED_POINTS,
  TABLED,
  TABLED_SEALANT,
  TABLED_SOLVENT,
  TABLED_WATER,
  TABLED_WET,
} from '../fixtures/products-tabled.ts';
import { real } from '../fixtures/weather/any-weather.ts';

const TEST_PANEL_WM2K = 15;
const asOnSheet = (product: Product, tempC: number, relHumPct: number): FilmAir => ({
  surfaceTempC: tempC,
  vapourHPa: (relHumPct / 100) * magnusWaterHPa(tempC),
  windMps: product.reference.windMps,
  substrateWm2K: TEST_PANEL_WM2K,
});
const minutesOf = (product: Product, event: ClockEvent, air: FilmAir): number =>
  product[event]!.typicalMin / rateLaw(product, event)(air);
const nameOf = { openUntil: 'usableUntil' } as const;

describe('at a printed point, in the weather of the sheet', () => {
  it.each(PRINTED_POINTS)(
    '$product.id, $event, $tempC °C and $relHumPct %: exactly $minutes min',
    ({ product, event, tempC, relHumPct, minutes }) => {
      const got = minutesOf(product, event, asOnSheet(product, tempC, relHumPct));
      expect(Math.abs(got / minutes - 1)).toBeLessThan(1e-12);
    },
  );

  it.each(PRINTED_POINTS)(
    'and the clock runs to it, with the sheet’s scatter kept as a ratio: $product.id, $event, $tempC °C, $relHumPct %',
    ({ product, event, tempC, relHumPct, minutes }) => {
      const film = constantFilm({
        startMs: 0,
        hours: 240,
        surfaceTempC: tempC,
        dewPointC: dewPointC({ airTempC: tempC, relHumPct }),
        windMps: product.reference.windMps,
      });
      const clock = readClock(product, buildDoseTable(product, film), 0);
      const range = clock[event === 'openUntil' ? nameOf.openUntil : event]!;
      const time = product[event]!;
      // The columns of weather are 32-bit: a hundred-thousandth of the time.
      const off = (ms: number | null, level: number) =>
        Math.abs(ms! / 60_000 / (minutes * (level / time.typicalMin)) - 1);
      expect(off(range.midMs, time.typicalMin)).toBeLessThan(2e-5);
      expect(off(range.earlyMs, time.lowMin)).toBeLessThan(2e-5);
      expect(off(range.lateMs, time.highMin)).toBeLessThan(2e-5);
    },
  );
});

describe('between the points', () => {
  it('never leaves the four times around it', () => {
    const table = TABLED_WATER.tables[0]!;
    const read = readTimesTable(table, 50);
    fc.assert(
      fc.property(real(5, 30), real(30, 80), (tempC, relHumPct) => {
        const { minutes, inside } = read(tempC, relHumPct);
        const row = Math.min(2, table.tempC.filter((t) => t <= tempC).length - 1);
        const column = Math.min(1, table.relHumPct.filter((h) => h <= relHumPct).length - 1);
        const around = [row, row + 1].flatMap((r) =>
          [column, column + 1].map((c) => table.minutes[r]![c]!),
        );
        expect(inside).toBe(true);
        expect(minutes).toBeGreaterThanOrEqual(Math.min(...around) - 1e-9);
        expect(minutes).toBeLessThanOrEqual(Math.max(...around) + 1e-9);
      }),
      { numRuns: 300 },
    );
  });

  it('half-way is the geometric mean: 10 to 20 °C at 50 %, 70 and 32 min', () => {
    const { minutes } = readTimesTable(TABLED_WATER.tables[0]!, 50)(15, 50);
    expect(minutes).toBeCloseTo(Math.sqrt(70 * 32), 9);
  });
});

describe('physics beside the table', () => {
  const bare = (product: Product): Product => ({ ...product, tables: [] });

  it('says how wind and the surface below differ from the panel of the sheet', () => {
    fc.assert(
      fc.property(real(6, 29), real(31, 79), real(0, 10), real(0, 60), (t, h, windMps, below) => {
        const still = asOnSheet(TABLED_WATER, t, h);
        const now = { ...still, windMps, substrateWm2K: below };
        const plain = rateLaw(bare(TABLED_WATER), 'touchDry');
        const ratio =
          minutesOf(TABLED_WATER, 'touchDry', still) / minutesOf(TABLED_WATER, 'touchDry', now);
        expect(ratio / (plain(now) / plain(still))).toBeCloseTo(1, 9);
      }),
      { numRuns: 200 },
    );
  });

  it('carries on from the nearest point outside: 40 °C from 30 °C at 50 %', () => {
    const law = rateLaw(bare(TABLED_WATER), 'touchDry');
    const edge = asOnSheet(TABLED_WATER, 30, 50);
    const hot = asOnSheet(TABLED_WATER, 40, 50);
    const expected = 17 / (law(hot) / law(edge));
    expect(minutesOf(TABLED_WATER, 'touchDry', hot)).toBeCloseTo(expected, 9);
    expect(expected).toBeLessThan(17);
  });

  it('of a table without humidities tells them apart where the mechanism does', () => {
    const water: Product = {
      ...TABLED_WATER,
      tables: [{ ...TABLED_SOLVENT.tables[0]!, event: 'touchDry' }],
    };
    const at = (relHumPct: number) => minutesOf(water, 'touchDry', asOnSheet(water, 23, relHumPct));
    expect(at(50)).toBeCloseTo(15, 9);
    expect(at(80)).toBeGreaterThan(30);
    const solvent = (relHumPct: number) =>
      minutesOf(TABLED_SOLVENT, 'touchDry', asOnSheet(TABLED_SOLVENT, 23, relHumPct));
    expect(solvent(85)).toBeCloseTo(15, 9);
  });

  it('still stops where no vapour can leave, and where the film is frozen', () => {
    const rate = rateLaw(TABLED_WATER, 'touchDry');
    expect(rate(asOnSheet(TABLED_WATER, 12, 100.5))).toBe(0);
    expect(rate(asOnSheet(TABLED_WATER, -1, 50))).toBe(0);
    expect(rateLaw(TABLED_SEALANT, 'rainAfter')(asOnSheet(TABLED_SEALANT, -1, 50))).toBe(0);
    // Outside its sheet, and still drying.
    expect(rate(asOnSheet(TABLED_WATER, 2, 95))).toBeGreaterThan(0);
  });

  it('takes a printed time below freezing at its word, and nothing colder', () => {
    const frosty: Product = {
      ...TABLED_WATER,
      tables: [
        {
          event: 'touchDry',
          tempC: [-5, 20],
          relHumPct: [50],
          minutes: [[300], [30]],
          source: 'user',
        },
      ],
    };
    expect(minutesOf(frosty, 'touchDry', asOnSheet(frosty, -5, 50))).toBeCloseTo(300, 9);
    expect(rateLaw(frosty, 'touchDry')(asOnSheet(frosty, -6, 50))).toBe(0);
  });

  it('keeps a film closed wet from standing still', () => {
    const rate = rateLaw(TABLED_WET, 'openUntil');
    expect(rate(asOnSheet(TABLED_WET, -5, 100))).toBeGreaterThan(0.3);
  });
});

describe('at the border of the table', () => {
  const border = fc.constantFrom(
    ...TABLED.flatMap((product) => product.tables.map((table) => ({ product, table }))),
  );

  it('nothing jumps, in temperature or in humidity, whatever the wind and the surface', () => {
    fc.assert(
      fc.property(
        border,
        real(0, 1),
        real(0, 1),
        fc.boolean(),
        fc.boolean(),
        real(0, 8),
        real(0, 40),
        ({ product, table }, share, other, atTop, inTemp, windMps, substrateWm2K) => {
          const rate = rateLaw(product, table.event);
          const humidities = table.relHumPct.length === 0 ? [50] : table.relHumPct;
          const along = (axis: readonly number[], by: number) =>
            axis[0]! + by * (axis.at(-1)! - axis[0]!);
          const edge = (axis: readonly number[]) => (atTop ? axis.at(-1)! : axis[0]!);
          // Half of the draws walk past the range in the other direction, too.
          const wide = other * 1.4 - 0.2;
          const step = 1e-7;
          const at = (sign: number): number => {
            const tempC = inTemp
              ? edge(table.tempC) + sign * step
              : Math.max(0.5, along(table.tempC, wide));
            const relHumPct = inTemp ? along(humidities, share) : edge(humidities) + sign * step;
            return rate({ ...asOnSheet(product, tempC, relHumPct), windMps, substrateWm2K });
          };
          fc.pre(!inTemp || edge(table.tempC) > 0);
          expect(Math.abs(at(1) / at(-1) - 1)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('laws that hold over a table too', () => {
  it('more wind never slows a water-borne film on a surface of fixed temperature', () => {
    fc.assert(
      fc.property(real(1, 60), real(5, 99), real(0, 10), real(0, 10), (t, h, wind, more) => {
        const rate = rateLaw(TABLED_WATER, 'touchDry');
        const air = { ...asOnSheet(TABLED_WATER, t, h), windMps: wind };
        expect(rate({ ...air, windMps: wind + more })).toBeGreaterThanOrEqual(
          rate(air) * (1 - 1e-3),
        );
      }),
      { numRuns: 300 },
    );
  });

  it('a table that falls with warmth and rises with damp keeps the laws of vapour', () => {
    fc.assert(
      fc.property(real(1, 55), real(0.5, 25), real(0, 8), real(0, 15), (t, e, moreK, moreHPa) => {
        const rate = rateLaw(TABLED_WATER, 'touchDry');
        const air: FilmAir = { surfaceTempC: t, vapourHPa: e, windMps: 1, substrateWm2K: 15 };
        const damper = rate({ ...air, vapourHPa: e + moreHPa });
        expect(rate(air)).toBeGreaterThanOrEqual(damper * (1 - 1e-3));
        const warmer = rate({ ...air, surfaceTempC: t + moreK });
        expect(warmer).toBeGreaterThanOrEqual(rate(air) * (1 - 1e-3));
      }),
      { numRuns: 400 },
    );
  });
});

describe('a table that is no table', () => {
  const good = TABLED_WATER.tables[0]!;
  it.each<[string, TimesTable, RegExp]>([
    [
      'temperatures that fall',
      { ...good, tempC: [5, 20, 10, 30] },
      /temperatures that do not rise/,
    ],
    [
      'humidities twice the same',
      { ...good, relHumPct: [30, 30, 80] },
      /humidities that do not rise/,
    ],
    ['a missing row', { ...good, minutes: good.minutes.slice(1) }, /one time for each/],
    [
      'a missing time',
      { ...good, minutes: good.minutes.map((r) => r.slice(1)) },
      /one time for each/,
    ],
    ['a time of 0', { ...good, minutes: good.minutes.map((r) => r.map(() => 0)) }, /has 0 min/],
    [
      'not a number',
      { ...good, minutes: good.minutes.map((r) => r.map(() => Number.NaN)) },
      /has NaN min/,
    ],
  ])('with %s is refused', (_what, table, why) => {
    expect(() => readTimesTable(table, 50)).toThrow(why);
  });

  it('for an event the product has no time of is refused', () => {
    const product: Product = { ...TABLED_WATER, touchDry: null };
    expect(() => rateLaw(product, 'touchDry')).toThrow(/table of touchDry but no time for it/);
  });
});
