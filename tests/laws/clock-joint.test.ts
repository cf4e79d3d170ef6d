/** A joint: a clock for each coated face, over its first and last square metre. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  buildDoseTable,
  constantFilm,
  type DoseTable,
  type JointFace,
  type JointWindow,
  jointWindow,
  lastReady,
  type Product,
  readClock,
  readJoint,
  slowestFirst,
  whenReached,
  whenToCoat,
} from '../../src/products/index.ts';
import { everyProduct, productById } from '../accuracy/clock-products.ts';
import { TABLED_WATER } from '../fixtures/products-tabled.ts';
import { real } from '../fixtures/weather/any-weather.ts';
import { fair, filmFrom, MINUTE, type Now, repeat } from '../fixtures/weather/films.ts';

const START = 1_000_000 * MINUTE;
const CONTACT = productById('contact-solvent');
const LOW_VOC = productById('contact-low-voc');
const PRIMER = productById('tape-primer');
const WET = productById('deck-adhesive-wet-lay');
const FOAM: Product = {
  ...productById('polyurethane-foam'),
  closeFrom: { lowMin: 1, typicalMin: 2, highMin: 3, source: 'user' },
};
const joints = fc.constantFrom(CONTACT, LOW_VOC, PRIMER, TABLED_WATER, WET, FOAM);
const weathers = fc.array(fc.array(fair, { minLength: 300, maxLength: 300 }), {
  minLength: 1,
  maxLength: 4,
});

const face = (table: DoseTable, firstMin: number, lastMin: number): JointFace => ({
  table,
  firstMs: START + firstMin * MINUTE,
  lastMs: START + lastMin * MINUTE,
});
const tableOf = (product: Product, weather: readonly Now[]) =>
  buildDoseTable(product, filmFrom([weather]));
const span = (window: JointWindow): { from: number; until: number } | null =>
  window.kind === 'open'
    ? { from: window.fromMs, until: window.untilMs ?? Number.POSITIVE_INFINITY }
    : null;
const still = (product: Product) =>
  buildDoseTable(
    product,
    constantFilm({ startMs: START, hours: 12, surfaceTempC: 20, dewPointC: 9.26, windMps: 1 }),
  );

/** Inside means: begins no earlier and ends no later; nothing is inside everything. */
function expectInside(inner: JointWindow, outer: JointWindow): void {
  const small = span(inner);
  if (small === null) return;
  const large = span(outer);
  expect(large).not.toBeNull();
  expect(small.from).toBeGreaterThanOrEqual(large!.from);
  expect(small.until).toBeLessThanOrEqual(large!.until);
}

describe('the window of a joint', () => {
  it('runs from the last face ready, by its last square metre, to the first gone off, by its first', () => {
    fc.assert(
      fc.property(joints, weathers, real(0, 20), real(0, 20), (product, weather, first, more) => {
        const faces = weather.map((of) => face(tableOf(product, of), first, first + more));
        const window = jointWindow(product, faces, 0, 'highMin', 'lowMin');
        const waits = product.closing === 'touch-dry' ? product.touchDry : product.closeFrom;
        const event = product.closing === 'touch-dry' ? 'touchDry' : 'openUntil';
        const ready = faces.map(
          ({ table, lastMs }) =>
            whenReached(table, event, 0, lastMs, waits?.highMin ?? 0) ?? Number.POSITIVE_INFINITY,
        );
        const off = faces.map(({ table, firstMs }) =>
          product.openEndsBy === 'time'
            ? firstMs + product.openUntil!.lowMin * MINUTE
            : (whenReached(table, 'openUntil', 0, firstMs, product.openUntil!.lowMin) ??
              Number.POSITIVE_INFINITY),
        );
        const [from, until] = [Math.max(...ready), Math.min(...off)];
        if (from < until) expect(window).toMatchObject({ kind: 'open', fromMs: from });
        else if (Number.isFinite(until)) {
          expect(window.kind).toBe('empty');
          if (window.kind !== 'empty') return;
          expect(off[window.early.face]).toBe(until);
          expect(window.early.ms).toBe(until);
          expect(ready[window.late.face]).toBe(from);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('is never widened by one more face', () => {
    fc.assert(
      fc.property(joints, weathers, fair, real(0, 15), (product, weather, other, more) => {
        const faces = weather.map((of) => face(tableOf(product, of), 0, more));
        const another = face(tableOf(product, repeat(300, other)), 0, more);
        for (const [ready, open] of [
          ['highMin', 'lowMin'],
          ['typicalMin', 'typicalMin'],
        ] as const)
          expectInside(
            jointWindow(product, [...faces, another], 0, ready, open),
            jointWindow(product, faces, 0, ready, open),
          );
      }),
      { numRuns: 100 },
    );
  });

  it('never begins earlier, nor ends later, for a last square metre coated later', () => {
    fc.assert(
      fc.property(joints, weathers, real(0, 15), real(0, 30), (product, weather, last, more) => {
        const until = (lastMin: number) =>
          jointWindow(
            product,
            weather.map((of) => face(tableOf(product, of), 0, lastMin)),
            0,
            'highMin',
            'lowMin',
          );
        expectInside(until(last + more), until(last));
      }),
      { numRuns: 100 },
    );
  });

  it('for any tin lies inside the one of an ordinary tin', () => {
    fc.assert(
      fc.property(joints, weathers, real(0, 15), (product, weather, last) => {
        const faces = weather.map((of) => face(tableOf(product, of), 0, last));
        expectInside(
          jointWindow(product, faces, 0, 'highMin', 'lowMin'),
          jointWindow(product, faces, 0, 'typicalMin', 'typicalMin'),
        );
      }),
      { numRuns: 60 },
    );
  });

  it('in weather that does not change is the sheet’s times moved by first and last', () => {
    const window = jointWindow(CONTACT, [face(still(CONTACT), 0, 20)], 0, 'highMin', 'lowMin');
    if (window.kind !== 'open') throw new Error(window.kind);
    expect((window.fromMs - START) / MINUTE).toBeCloseTo(20 + 25, 1);
    expect((window.untilMs! - START) / MINUTE).toBeCloseTo(60, 1);
  });

  it('low-VOC: the slow end of touch dry meets the fast end of open time, so no hour suits any tin', () => {
    const table = still(LOW_VOC);
    const any = jointWindow(LOW_VOC, [face(table, 0, 0)], 0, 'highMin', 'lowMin');
    expect(any.kind).toBe('empty');
    // But one tin is slow in both or quick in both: 30 min are left after its own touch dry, quick ones too.
    for (const level of ['lowMin', 'typicalMin', 'highMin'] as const) {
      const own = span(jointWindow(LOW_VOC, [face(table, 0, 0)], 0, level, level))!;
      expect((own.until - own.from) / MINUTE).toBeGreaterThan(29.9);
    }
  });

  it('foam opens at cream time, wet-laid adhesive at once', () => {
    const foam = span(jointWindow(FOAM, [face(still(FOAM), 0, 0)], 0, 'typicalMin', 'typicalMin'))!;
    expect((foam.from - START) / MINUTE).toBeCloseTo(2, 2);
    const wet = span(jointWindow(WET, [face(still(WET), 0, 3)], 0, 'typicalMin', 'typicalMin'))!;
    expect((wet.from - START) / MINUTE).toBeCloseTo(3, 6);
    expect((wet.until - START) / MINUTE).toBeCloseTo(10, 1);
  });

  it('is not known where the forecast ends before anything happens', () => {
    const short = buildDoseTable(
      CONTACT,
      constantFilm({ startMs: START, hours: 1, surfaceTempC: 3, dewPointC: 0, windMps: 0 }),
    );
    const late = [face(short, 50, 50)];
    expect(jointWindow(CONTACT, late, 0, 'highMin', 'lowMin')).toEqual({ kind: 'unknown' });
  });

  it('asks for a face and for something to close', () => {
    expect(() => jointWindow(CONTACT, [], 0, 'highMin', 'lowMin')).toThrow(RangeError);
    const tape = productById('seam-tape');
    expect(() => jointWindow(tape, [face(still(tape), 0, 0)], 0, 'highMin', 'lowMin')).toThrow(
      /seam-tape closes nothing/,
    );
  });
});

describe('the clock of a joint', () => {
  it('with one face coated at one moment is the clock of that coat', () => {
    const members = [5, 14, 22, 31].map((surfaceTempC) =>
      repeat(3000, { surfaceTempC, dewPointC: 2, windMps: 1 }),
    );
    for (const product of everyProduct()) {
      const table = buildDoseTable(product, filmFrom(members));
      expect(readJoint(product, [{ table, firstMs: START, lastMs: START }])).toEqual(
        readClock(product, table, START),
      );
    }
  });
});

describe('forecasts in which a film is outside its sheet', () => {
  it('count with the fast end of open time only, in the clock of a coat and of a joint alike', () => {
    const table = still(CONTACT);
    const minutes = (ms: number | null) => Math.round((ms! - START) / MINUTE);
    for (const clock of [
      readClock(CONTACT, table, START, () => true),
      readJoint(CONTACT, [face(table, 0, 0)], () => true),
    ]) {
      const { earlyMs, midMs, lateMs } = clock.usableUntil!;
      expect([earlyMs, midMs, lateMs].map(minutes)).toEqual([60, 60, 60]);
      expect(minutes(clock.touchDry!.lateMs)).toBe(25);
    }
    const primer = readClock(PRIMER, still(PRIMER), START, () => true).usableUntil!;
    expect(minutes(primer.lateMs)).toBe(PRIMER.openUntil!.lowMin);
  });
});

describe('a crew that coats the slowest face first', () => {
  it('has all faces ready at the same moment, none coated before the slowest', () => {
    const twoFaced = fc.constantFrom(CONTACT, LOW_VOC, TABLED_WATER);
    fc.assert(
      fc.property(twoFaced, weathers, real(0, 30), (product, weather, atMin) => {
        const tables = weather.map((of) => tableOf(product, of));
        const coatedMs = START + atMin * MINUTE;
        const readyMin = product.touchDry!.typicalMin;
        const coated = slowestFirst(product, tables, 0, coatedMs, readyMin)!;
        const faces = tables.map((table) => ({ table, firstMs: coatedMs, lastMs: coatedMs }));
        const readyMs = lastReady(product, faces, 0, readyMin).ms!;
        expect(Math.min(...coated)).toBe(coatedMs);
        coated.forEach((ms, n) => {
          const ready = whenReached(tables[n]!, 'touchDry', 0, ms, readyMin)!;
          expect(Math.abs(ready - readyMs)).toBeLessThan(1);
        });
      }),
      { numRuns: 80 },
    );
  });
});

describe('when to coat', () => {
  it('is when it is reached the other way round, and null before the forecast', () => {
    fc.assert(
      fc.property(
        joints,
        weathers,
        real(0, 600),
        real(0, 40),
        (product, [weather], from, refMin) => {
          const table = tableOf(product, weather!);
          const fromMs = START + from * MINUTE;
          const atMs = whenReached(table, 'touchDry', 0, fromMs, refMin);
          if (atMs === null) return;
          expect(Math.abs(whenToCoat(table, 'touchDry', 0, atMs, refMin)! - fromMs)).toBeLessThan(
            1,
          );
          expect(whenToCoat(table, 'touchDry', 0, START + MINUTE, 1e6)).toBeNull();
        },
      ),
      { numRuns: 150 },
    );
  });

  it('of a film that stood still is the end of the standstill', () => {
    const frost: Now = { surfaceTempC: -2, dewPointC: -6, windMps: 1 };
    const day: Now = { surfaceTempC: 20, dewPointC: 9, windMps: 1 };
    const table = tableOf(TABLED_WATER, [
      ...repeat(12, day),
      ...repeat(24, frost),
      ...repeat(12, day),
    ]);
    const thawMs = START + 180 * MINUTE;
    expect(Math.abs(whenToCoat(table, 'touchDry', 0, thawMs, 0)! - thawMs)).toBeLessThan(1);
    const done = whenReached(table, 'touchDry', 0, START + 120 * MINUTE, 10)!;
    expect(Math.abs(whenToCoat(table, 'touchDry', 0, done, 10)! - thawMs)).toBeLessThan(1);
  });
});
