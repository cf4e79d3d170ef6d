/** What must hold of any product's speed of drying, mechanism by mechanism. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convectionWm2K, magnusWaterHPa, SOLVENTS } from '../../src/physics/index.ts';
import { CLOCK_EVENTS, type FilmAir, type Product, rateLaw } from '../../src/products/index.ts';
import { surfaceWeather } from '../../src/weather/index.ts';
import { everyProduct, productById } from '../accuracy/clock-products.ts';
import { type Air, gridOf, roofOf } from '../fixtures/weather/by-hand.ts';

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const WATER = productById('deck-adhesive-two-side');
const SOLVENT = productById('contact-solvent');
const MOISTURE = productById('lap-sealant');
const CHEMICAL = productById('polyurethane-foam');
const solventNames = ['toluene', 'n-heptane', 'n-hexane', 'acetone', 'cyclohexane', 'mek'] as const;
const solventProducts = solventNames.map((solvent): Product => ({ ...SOLVENT, solvent }));
const dryers = fc.constantFrom(WATER, ...solventProducts);
const all = fc.constantFrom(WATER, ...solventProducts, MOISTURE, CHEMICAL);

const events = fc.constantFrom(...CLOCK_EVENTS);

/** A surface so ready with heat that the film has its temperature: the laws' 'fixed film temperature'. */
const HELD_WM2K = 1e8;
const film = fc.record({
  surfaceTempC: real(-15, 75),
  vapourHPa: real(0.5, 30),
  windMps: real(0, 15),
  substrateWm2K: fc.constantFrom(0, 3, 8, 15, HELD_WM2K),
});

/** Rates are compared to a part in a thousand: film temperatures are settled to about 0.01 K. */
const notBelow = (value: number, other: number): void => {
  expect(value).toBeGreaterThanOrEqual(other * (1 - 1e-3));
};

describe('more wind', () => {
  it('never slows solvent or water at a fixed film temperature', () => {
    fc.assert(
      fc.property(dryers, film, real(0, 10), (product, air, more) => {
        const rate = rateLaw(product, 'openUntil');
        const now = { ...air, substrateWm2K: HELD_WM2K };
        notBelow(rate({ ...now, windMps: now.windMps + more }), rate(now));
      }),
      { numRuns: 400 },
    );
  });

  it('nor on a surface of fixed temperature whose film may cool', () => {
    fc.assert(
      fc.property(dryers, film, real(0, 10), (product, air, more) => {
        const rate = rateLaw(product, 'openUntil');
        notBelow(rate({ ...air, windMps: air.windMps + more }), rate(air));
      }),
      { numRuns: 400 },
    );
  });

  it('leaves curing as it is', () => {
    for (const product of [MOISTURE, CHEMICAL]) {
      const rate = rateLaw(product, 'openUntil');
      const air = { surfaceTempC: 12, vapourHPa: 8, windMps: 1, substrateWm2K: 8 };
      expect(rate({ ...air, windMps: 12 })).toBe(rate(air));
    }
  });

  it('may slow drying on a sunny roof, because it cools the roof', () => {
    const rateAtNoon = (product: Product, windMps: number): number => {
      const now: Air = {
        airTempC: 12,
        dewPointC: 4,
        windMps,
        cloudPct: 10,
        solarWm2: 800,
        rainMmPerHour: 0,
      };
      const { surfaceTempC } = surfaceWeather(gridOf({ hours: 3, at: () => now }), roofOf(), 0);
      return rateLaw(
        product,
        'openUntil',
      )({
        surfaceTempC: surfaceTempC.at(-1)!,
        vapourHPa: magnusWaterHPa(4),
        windMps,
        substrateWm2K: 8,
      });
    };
    // Solvent: the first half metre a second takes 8 K off the sheet and hardly stirs the vapour.
    expect(rateAtNoon(SOLVENT, 0.5)).toBeLessThan(0.95 * rateAtNoon(SOLVENT, 0));
    // Curing knows no wind but for the sheet it cools.
    expect(rateAtNoon(MOISTURE, 6)).toBeLessThan(rateAtNoon(MOISTURE, 0.5) / 2);
  });
});

describe('more vapour in the air', () => {
  it('never speeds water up', () => {
    fc.assert(
      fc.property(film, real(0, 10), (air, more) => {
        const rate = rateLaw(WATER, 'openUntil');
        notBelow(rate(air), rate({ ...air, vapourHPa: air.vapourHPa + more }));
      }),
      { numRuns: 300 },
    );
  });

  it('never slows moisture cure', () => {
    fc.assert(
      fc.property(film, real(0, 10), (air, more) => {
        const rate = rateLaw(MOISTURE, 'openUntil');
        notBelow(rate({ ...air, vapourHPa: air.vapourHPa + more }), rate(air));
      }),
      { numRuns: 200 },
    );
  });

  it('is nothing to solvents and to two-part foam', () => {
    for (const product of [SOLVENT, CHEMICAL]) {
      const rate = rateLaw(product, 'openUntil');
      const air = { surfaceTempC: 12, vapourHPa: 8, windMps: 1, substrateWm2K: 8 };
      expect(rate({ ...air, vapourHPa: 13 })).toBe(rate(air));
    }
  });
});

describe('a warmer film', () => {
  it('is never slower at the same vapour pressure, whatever the product and the event', () => {
    fc.assert(
      fc.property(all, events, film, real(0, 20), (product, event, air, more) => {
        const rate = rateLaw(product, event);
        notBelow(rate({ ...air, surfaceTempC: air.surfaceTempC + more }), rate(air));
      }),
      { numRuns: 500 },
    );
  });

  it('and so is one on a surface that gives it more heat', () => {
    fc.assert(
      fc.property(dryers, film, real(0, 20), (product, air, more) => {
        const rate = rateLaw(product, 'openUntil');
        notBelow(rate({ ...air, substrateWm2K: air.substrateWm2K + more }), rate(air));
      }),
      { numRuns: 300 },
    );
  });
});

describe('standing still', () => {
  it('water stops exactly where no vapour can leave: frozen, or at the dew point and below', () => {
    fc.assert(
      fc.property(film, (air) => {
        const stops = air.surfaceTempC <= 0 || magnusWaterHPa(air.surfaceTempC) <= air.vapourHPa;
        expect(rateLaw(WATER, 'openUntil')(air) === 0).toBe(stops);
      }),
      { numRuns: 500 },
    );
  });

  it('moisture cure stops frozen or in air without vapour; solvents and two-part foam never', () => {
    fc.assert(
      fc.property(film, (air) => {
        expect(rateLaw(MOISTURE, 'openUntil')(air) === 0).toBe(air.surfaceTempC <= 0);
        expect(rateLaw(MOISTURE, 'openUntil')({ ...air, vapourHPa: 0 })).toBe(0);
        for (const product of [...solventProducts, CHEMICAL])
          expect(rateLaw(product, 'openUntil')(air)).toBeGreaterThan(0);
      }),
      { numRuns: 100 },
    );
  });

  it('curing under the sheet stops where water-borne and moisture-curing films freeze, and only there', () => {
    fc.assert(
      fc.property(film, (air) => {
        for (const event of ['footTraffic', 'fullCure'] as const) {
          const frozen = air.surfaceTempC <= 0;
          expect(rateLaw(WATER, event)(air) === 0).toBe(frozen);
          expect(rateLaw(MOISTURE, event)(air) === 0).toBe(frozen);
          expect(rateLaw(SOLVENT, event)(air)).toBeGreaterThan(0);
          expect(rateLaw(CHEMICAL, event)(air)).toBeGreaterThan(0);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('the open time of a film closed wet never stands still: its end is all that counts', () => {
    const wet = productById('deck-adhesive-wet-lay');
    fc.assert(
      fc.property(film, (air) => {
        expect(rateLaw(wet, 'openUntil')(air)).toBeGreaterThanOrEqual(0.4);
      }),
      { numRuns: 100 },
    );
  });

  it('a broken product limit never stops it', () => {
    // 2 °C and 95 %: outside every limit of the sheet, and still some water leaves.
    const vapourHPa = 0.95 * magnusWaterHPa(2);
    expect(
      rateLaw(WATER, 'openUntil')({ surfaceTempC: 2, vapourHPa, windMps: 2, substrateWm2K: 8 }),
    ).toBeGreaterThan(0);
  });

  it('tape has no speed at all', () => {
    const tape = productById('seam-tape');
    expect(
      rateLaw(tape, 'openUntil')({ surfaceTempC: 20, vapourHPa: 10, windMps: 1, substrateWm2K: 8 }),
    ).toBe(0);
  });
});

describe('the scale', () => {
  it("is 1 at every product's own reference conditions, and doubles nowhere by units", () => {
    for (const product of everyProduct()) {
      if (product.mechanism === 'none') continue;
      const { airTempC, relHumPct, windMps } = product.reference;
      const vapourHPa = (relHumPct / 100) * magnusWaterHPa(airTempC);
      expect(
        rateLaw(
          product,
          'openUntil',
        )({ surfaceTempC: airTempC, vapourHPa, windMps, substrateWm2K: 15 }),
      ).toBeCloseTo(1, 6);
    }
  });

  it('refuses a product that could not dry at its own reference', () => {
    const never: Product = {
      ...WATER,
      id: 'never',
      reference: { airTempC: 20, relHumPct: 100, windMps: 1 },
    };
    expect(() => rateLaw(never, 'openUntil')).toThrow(
      'never does not dry at its own reference conditions',
    );
  });
});

describe('the temperature a film settles at', () => {
  /** Halving instead of Newton, on the same balance: heat from air, surroundings and surface = heat of evaporation. */
  function halved(low: number, high: number, surplus: (tempC: number) => number): number {
    let [a, b] = [low, high];
    for (let i = 0; i < 60; i += 1) {
      const middle = (a + b) / 2;
      if (surplus(middle) > 0) a = middle;
      else b = middle;
    }
    return (a + b) / 2;
  }
  const RADIATION = 5.2;

  it('is solved for water to half a per cent of speed, on hot thin sheets in dry wind too', () => {
    const perHPa = (2.45e6 * 0.622) / (1013 * 1006 * 0.9);
    const exact = (air: FilmAir): number => {
      const hc = convectionWm2K(air.windMps);
      const heat = (t: number): number => hc * perHPa * (magnusWaterHPa(t) - air.vapourHPa);
      const supply = hc + RADIATION + air.substrateWm2K;
      return heat(halved(-40, air.surfaceTempC, (t) => supply * (air.surfaceTempC - t) - heat(t)));
    };
    const reference = exact({
      surfaceTempC: 20,
      vapourHPa: 0.5 * magnusWaterHPa(20),
      windMps: 1,
      substrateWm2K: 15,
    });
    fc.assert(
      fc.property(film, (air) => {
        const now = { ...air, substrateWm2K: Math.min(air.substrateWm2K, 15) };
        fc.pre(now.surfaceTempC > 0.5 && magnusWaterHPa(now.surfaceTempC) > now.vapourHPa * 1.05);
        expect(
          Math.abs((rateLaw(WATER, 'openUntil')(now) * reference) / exact(now) - 1),
        ).toBeLessThan(0.005);
      }),
      { numRuns: 300 },
    );
  });

  it.each(solventNames)('is solved for %s likewise', (solvent) => {
    const { a, b, c } = SOLVENTS[solvent].antoine;
    // Mackay & Matsugu at 1 m/s over 2 m with Sc 2, worked by hand: 0.0292 x 3600^0.78 x 2^-0.11 x 2^-0.67 / 3600.
    const atOneMps = (0.0292 * 3600 ** 0.78 * 2 ** -0.11 * 2 ** -(2 / 3)) / 3600;
    const exact = (air: FilmAir): number => {
      const k = atOneMps * Math.max(0.5, air.windMps) ** 0.78;
      const pa = (kelvin: number): number => 1e5 * 10 ** (a - b / (kelvin + c));
      const heat = (kelvin: number): number =>
        (k * pa(kelvin) * kelvin * Math.LN10 * b) / (kelvin + c) ** 2;
      const supply = convectionWm2K(air.windMps) + RADIATION + air.substrateWm2K;
      const surfaceK = air.surfaceTempC + 273.15;
      const kelvin = halved(180, surfaceK, (t) => supply * (surfaceK - t) - heat(t));
      return (k * pa(kelvin)) / kelvin;
    };
    const reference = exact({ surfaceTempC: 20, vapourHPa: 0, windMps: 1, substrateWm2K: 15 });
    const rate = rateLaw({ ...SOLVENT, solvent }, 'openUntil');
    fc.assert(
      fc.property(film, (air) => {
        const now = { ...air, substrateWm2K: Math.min(air.substrateWm2K, 15) };
        // 2 %: the twin formula of mass transfer differs from this one by 1 % in level.
        expect(Math.abs((rate(now) * reference) / exact(now) - 1)).toBeLessThan(0.02);
      }),
      { numRuns: 100 },
    );
  });
});
