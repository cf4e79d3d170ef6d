import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { largestSection, sectionWindow } from '../../src/planner/index.ts';
import { buildDoseTable, rateAt, whenReached } from '../../src/products/index.ts';
import { paceOf, productOf, START_MS, wetPace, windowOver } from '../fixtures/planner/section.ts';
import { real } from '../fixtures/weather/any-weather.ts';
import { fair, filmFrom, MINUTE, type Now, repeat } from '../fixtures/weather/films.ts';

/** Two thirds, the share of the usable time a section may take (docs/stages.md; common practice). */
const SHARE = 2 / 3;
const STEPS = 72;
const WET = ['deck-adhesive-wet-lay', 'polyurethane-one-part'] as const;
const CONTACT = ['contact-solvent', 'contact-low-voc', 'deck-adhesive-two-side'] as const;
const paces = fc
  .record({ people: fc.integer({ min: 2, max: 8 }), rate: real(3, 25), coat: real(0.3, 0.7) })
  .map(({ people, rate, coat }) => ({ people, rate, coat }));
const steady = (now: Now): Now[][] => [repeat(STEPS, now)];

describe('a section under weather that does not change', () => {
  it('closed wet: coating and closing fill two thirds of the open time', () => {
    fc.assert(
      fc.property(fc.constantFrom(...WET), fair, paces, (id, now, { people, rate, coat }) => {
        const product = productOf(id);
        const table = buildDoseTable(product, filmFrom(steady(now)));
        const openMin = product.openUntil!.typicalMin / rateAt(table, 'openUntil', 0, START_MS);
        const window = windowOver(product, [steady(now)], 0.8, 0);
        const { most, limit } = largestSection(paceOf(people, rate, coat), window, START_MS, []);
        expect(limit).toBe('open-time');
        // Found by halving 1,000 m2 to a millionth, which shows on the smallest sections.
        const should = (SHARE * openMin * people * rate) / 60;
        expect(Math.abs(most - should)).toBeLessThan(0.001 + 0.001 * should);
      }),
    );
  });

  it('closed touch dry: two thirds of the time from touch dry to gone off', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CONTACT), fair, paces, (id, now, { people, rate, coat }) => {
        const product = productOf(id);
        const film = filmFrom([repeat(2000, now)]);
        const table = buildDoseTable(product, film);
        const speed = rateAt(table, 'openUntil', 0, START_MS);
        const spareMin = (product.openUntil!.typicalMin - product.touchDry!.typicalMin) / speed;
        fc.pre(spareMin < 5000);
        const doses = [table, table];
        const clock = {
          product,
          doses,
          readyMin: product.touchDry!.typicalMin,
          openMin: product.openUntil!.typicalMin,
        };
        const window = sectionWindow(clock, [0], START_MS, 0.8);
        const pace = paceOf(people, rate, coat);
        const { most } = largestSection(pace, window, START_MS, []);
        expect(((most / (people * rate)) * 60) / (SHARE * spareMin)).toBeCloseTo(1, 2);
      }),
    );
  });
});

describe('a section under weather that changes', () => {
  const hours = fc.array(fair, { minLength: STEPS, maxLength: STEPS });

  it('is the largest that a scan in steps of 0.1 m² finds', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CONTACT, ...WET), hours, paces, (id, weather, p) => {
        const product = productOf(id);
        const table = buildDoseTable(product, filmFrom([weather]));
        const readyMin = product.touchDry?.typicalMin ?? 0;
        const endMs = START_MS + STEPS * 5 * MINUTE;
        const goneMs =
          whenReached(table, 'openUntil', 0, START_MS, product.openUntil!.typicalMin) ?? endMs;
        const pace = paceOf(p.people, p.rate, p.coat, 60);
        let scanned = 0;
        for (let tenths = 1; tenths <= 600; tenths += 1) {
          const coatMs = (tenths / 10) * pace.coatMinPer * MINUTE;
          const closeMs = (tenths / 10) * pace.closeMinPer * MINUTE;
          const readyMs =
            readyMin === 0
              ? START_MS + coatMs
              : whenReached(table, 'touchDry', 0, START_MS + coatMs, readyMin);
          if (readyMs === null) break;
          // Done before it goes off, with a third of ready-to-gone and of the coating to spare.
          const marginMs = (1 - SHARE) * (goneMs - readyMs + coatMs);
          if (readyMs + closeMs > goneMs - marginMs + 1e-6) break;
          scanned = tenths;
        }
        const window = windowOver(product, [[weather]], 0.8, readyMin);
        const { most } = largestSection(pace, window, START_MS, []);
        expect(most * 10).toBeGreaterThan(scanned - 0.01);
        expect(most * 10).toBeLessThan(scanned + 1.01);
      }),
      { numRuns: 60 },
    );
  });

  it('minds sun that comes out after coating, not only the moment of coating', () => {
    const dull: Now = { surfaceTempC: 15, dewPointC: 8, windMps: 2 };
    const sunny: Now = { surfaceTempC: 45, dewPointC: 8, windMps: 2 };
    const product = productOf('polyurethane-one-part');
    const size = (weather: readonly Now[]): number =>
      largestSection(wetPace(4), windowOver(product, [[weather]], 0.8, 0), START_MS, []).most;
    const turning = size([...repeat(1, dull), ...repeat(STEPS, sunny)]);
    expect(turning).toBeLessThan(0.7 * size(repeat(STEPS, dull)));
    expect(turning).toBeGreaterThan(size(repeat(STEPS, sunny)));
  });

  it('never grows with fewer people', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CONTACT, ...WET), hours, paces, (id, weather, p) => {
        const window = windowOver(productOf(id), [[weather]]);
        const size = (people: number): number =>
          largestSection(paceOf(people, p.rate, p.coat), window, START_MS, []).most;
        expect(size(p.people - 1)).toBeLessThanOrEqual(size(p.people) + 1e-9);
      }),
    );
  });

  it('closed wet, never grows with anything that dries it faster', () => {
    fc.assert(
      fc.property(fc.constantFrom(...WET), hours, real(0, 20), (id, weather, warmerK) => {
        const product = productOf(id);
        const size = (moreK: number): number => {
          const changed = weather.map((w) => ({ ...w, surfaceTempC: w.surfaceTempC + moreK }));
          const window = windowOver(product, [[changed]], 0.8, 0);
          return largestSection(wetPace(3), window, START_MS, []).most;
        };
        expect(size(warmerK)).toBeLessThanOrEqual(size(0) + 1e-9);
      }),
    );
  });

  it('never grows with more confidence, with more faces, or with an earlier end', () => {
    const members = fc.array(hours, { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(fc.constantFrom(...CONTACT), members, real(20, 200), (id, forecasts, endMin) => {
        const product = productOf(id);
        const pace = paceOf(3, 6.5, 0.7);
        const size = (faces: number, confidence: number, ends: number[]): number => {
          const window = windowOver(product, Array(faces).fill(forecasts), confidence);
          const by = ends.map((min) => ({ why: 'rain' as const, atMs: START_MS + min * MINUTE }));
          return largestSection(pace, window, START_MS, by).most;
        };
        expect(size(1, 0.95, [])).toBeLessThanOrEqual(size(1, 0.6, []) + 1e-9);
        expect(size(2, 0.8, [])).toBeLessThanOrEqual(size(1, 0.8, []) + 1e-9);
        expect(size(1, 0.8, [endMin])).toBeLessThanOrEqual(size(1, 0.8, [2 * endMin]) + 1e-9);
      }),
      { numRuns: 40 },
    );
  });
});

describe('a window that is not there', () => {
  const hot: Now = { surfaceTempC: 60, dewPointC: 8, windMps: 4 };
  const cold: Now = { surfaceTempC: 6, dewPointC: 2, windMps: 0.5 };

  it('is named where the first metre goes off in some forecasts before the last is ready in others', () => {
    const forecasts = [hot, hot, hot, cold, cold, cold].map((now) => repeat(STEPS, now));
    const window = windowOver(productOf('contact-solvent'), [forecasts, forecasts]);
    expect(largestSection(paceOf(3, 6.5, 0.7), window, START_MS, [])).toEqual({
      most: 0,
      limit: 'window-empty',
    });
  });

  it('is not there where the film never dries', () => {
    const dewy: Now = { surfaceTempC: 8, dewPointC: 9, windMps: 1 };
    const window = windowOver(productOf('deck-adhesive-two-side'), [steady(dewy), steady(dewy)]);
    expect(largestSection(paceOf(3, 6.5, 0.7), window, START_MS, [])).toEqual({
      most: 0,
      limit: 'wont-dry',
    });
  });

  it('is no hindrance for something that never goes off: the largest handy section', () => {
    const window = sectionWindow(null, [0], START_MS, 0.8);
    expect(largestSection(paceOf(3, 6.5, 0.7, 12), window, START_MS, [])).toEqual({
      most: 12,
      limit: 'largest',
    });
  });
});
