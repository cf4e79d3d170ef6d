/** What must hold of the clock of a coat: early, middle and late over forecasts and product scatter. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  buildDoseTable,
  constantFilm,
  type FilmWeather,
  type Product,
  readClock,
} from '../../src/products/index.ts';
import { productById } from '../accuracy/clock-products.ts';
import { real } from '../fixtures/weather/any-weather.ts';
import { filmFrom, MINUTE, products, repeat } from '../fixtures/weather/films.ts';

describe('the clock of a coat', () => {
  const members = (speeds: readonly number[]): FilmWeather =>
    filmFrom(speeds.map((tempC) => repeat(200, { surfaceTempC: tempC, dewPointC: 2, windMps: 1 })));

  it('early is not after middle, nor middle after late, whatever the forecasts', () => {
    fc.assert(
      fc.property(
        products,
        fc.array(real(3, 40), { minLength: 1, maxLength: 20 }),
        (product, temps) => {
          const clock = readClock(
            product,
            buildDoseTable(product, members(temps)),
            1_000_000 * MINUTE,
          );
          for (const range of [clock.touchDry, clock.usableUntil, clock.rainAfter]) {
            if (range === null) continue;
            const [early, mid, late] = [range.earlyMs, range.midMs, range.lateMs].map(
              (ms) => ms ?? Number.POSITIVE_INFINITY,
            );
            expect(early!).toBeLessThanOrEqual(mid!);
            expect(mid!).toBeLessThanOrEqual(late!);
          }
        },
      ),
      { numRuns: 80 },
    );
  });

  it("one forecast gives the sheet's own scatter; ten cut one off at each end", () => {
    const product: Product = productById('contact-solvent');
    const film = constantFilm({
      startMs: 0,
      hours: 5,
      surfaceTempC: 20,
      dewPointC: 9.26,
      windMps: 1,
    });
    const one = readClock(product, buildDoseTable(product, film), 0).touchDry!;
    expect(one.earlyMs! / MINUTE).toBeCloseTo(10, 1);
    expect(one.midMs! / MINUTE).toBeCloseTo(17.5, 1);
    expect(one.lateMs! / MINUTE).toBeCloseTo(25, 1);
    // The hottest and the coldest of eleven are the ones that do not count.
    const eleven = readClock(
      product,
      buildDoseTable(product, members([5, 20, 20, 20, 20, 20, 20, 20, 20, 20, 45])),
      1_000_000 * MINUTE,
    ).touchDry!;
    const nine = readClock(product, buildDoseTable(product, members([20])), 1_000_000 * MINUTE)
      .touchDry!;
    expect(eleven).toEqual(nine);
  });

  it('a forecast that ends first counts as late, and most of them as not known', () => {
    const product = productById('contact-solvent');
    const film = { ...members([20, 20, 20, 20]), knownSteps: Int32Array.of(200, 200, 2, 2) };
    const clock = readClock(product, buildDoseTable(product, film), 1_000_000 * MINUTE).touchDry!;
    expect(clock.earlyMs).not.toBeNull();
    expect(clock.midMs).toBeNull();
    expect(clock.lateMs).toBeNull();
  });

  it("a primer's open time is plain time, however it dries", () => {
    const primer = productById('tape-primer');
    const coatedMs = 1_000_000 * MINUTE;
    const clocks = [3, 40].map((tempC) =>
      readClock(primer, buildDoseTable(primer, members([tempC])), coatedMs),
    );
    expect(clocks[0]!.usableUntil).toEqual(clocks[1]!.usableUntil);
    expect(clocks[0]!.usableUntil!.midMs).toBe(coatedMs + 45 * MINUTE);
    expect(clocks[0]!.touchDry!.midMs!).toBeGreaterThan(clocks[1]!.touchDry!.midMs!);
  });
});
