/** What must hold of solvent films, curing and wood. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  arrheniusFactor,
  type FilmLiquid,
  filmFluxAtKgM2S,
  filmFluxKgM2S,
  filmTempC,
  moistureFrontTimeFactor,
  q10Factor,
  SOLVENTS,
  solventFluxKgM2S,
  woodEquilibriumMoisturePct,
} from '../../src/physics/index.ts';

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const solvent = fc.constantFrom(...(Object.keys(SOLVENTS) as (keyof typeof SOLVENTS)[]));

const film = (liquid: FilmLiquid, more: object = {}) => ({
  liquid,
  airTempC: 18,
  windMps: 2,
  lengthM: 2,
  absorbedWm2: 0,
  conductanceWm2K: 15,
  belowTempC: 18,
  ambientHPa: 0,
  activity: 1,
  ...more,
});

describe('a film held at a temperature', () => {
  it('flashes off sooner the warmer it is and the more the wind', () => {
    fc.assert(
      fc.property(solvent, real(-5, 45), real(0.3, 12), (name, filmTempCIn, windMps) => {
        const flashS = (tempC: number, wind: number) =>
          0.1 / solventFluxKgM2S({ solvent: name, filmTempC: tempC, windMps: wind, lengthM: 2 });
        expect(flashS(filmTempCIn + 1, windMps)).toBeLessThan(flashS(filmTempCIn, windMps));
        expect(flashS(filmTempCIn, windMps + 0.5)).toBeLessThan(flashS(filmTempCIn, windMps));
      }),
    );
  });

  it('of half the weight takes half the time: flux does not depend on what is left', () => {
    const flux = filmFluxAtKgM2S(film('toluene'), 20);
    const timeTo = (kgM2: number) => {
      let left = kgM2;
      let s = 0;
      while (left > 0) {
        left -= filmFluxAtKgM2S(film('toluene'), 20) * 0.5;
        s += 0.5;
      }
      return s;
    };
    expect(timeTo(0.2) / timeTo(0.1)).toBeCloseTo(2, 2);
    expect(timeTo(0.2)).toBeCloseTo(0.2 / flux, 0);
  });

  it('loses the same in an hour taken as 1 or as 60 steps, within 1 %, while the deck warms by 3 K', () => {
    const lost = (steps: number) => {
      let kg = 0;
      for (let i = 0; i < steps; i += 1) {
        const tempC = 15 + 3 * ((i + 0.5) / steps);
        kg += (filmFluxAtKgM2S(film('n-heptane'), tempC) * 3600) / steps;
      }
      return kg;
    };
    expect(Math.abs(lost(1) / lost(60) - 1)).toBeLessThan(0.01);
    expect(lost(1)).not.toBe(lost(60));
  });

  it('of water dries slower in damper air and takes up water once the air holds more', () => {
    fc.assert(
      fc.property(real(1, 40), real(0, 5), (tempC, ambientHPa) => {
        const at = (e: number) => filmFluxAtKgM2S(film('water', { ambientHPa: e }), tempC);
        expect(at(ambientHPa + 1)).toBeLessThan(at(ambientHPa));
        expect(at(90)).toBeLessThan(0);
      }),
    );
  });
});

describe('a film left to its own temperature', () => {
  it('is colder than its surroundings, and closer to the deck the better it touches it', () => {
    fc.assert(
      fc.property(solvent, real(0, 35), real(0.5, 8), (liquid, airTempC, windMps) => {
        const at = (conductanceWm2K: number) =>
          filmTempC(film(liquid, { airTempC, belowTempC: airTempC, windMps, conductanceWm2K }));
        expect(at(0)).toBeLessThan(airTempC);
        expect(at(30)).toBeGreaterThan(at(5));
        expect(at(30)).toBeLessThan(airTempC);
      }),
    );
  });

  it('dries faster in the sun and slower than one held at air temperature', () => {
    fc.assert(
      fc.property(solvent, real(50, 600), (liquid, absorbedWm2) => {
        const shade = filmFluxKgM2S(film(liquid));
        expect(filmFluxKgM2S(film(liquid, { absorbedWm2 }))).toBeGreaterThan(shade);
        expect(shade).toBeLessThan(filmFluxAtKgM2S(film(liquid), 18));
      }),
    );
  });

  // With the balance switched on, wind cools a sunlit deck: the film then may dry slower.
  it('in wind dries faster when the deck holds its temperature', () => {
    fc.assert(
      fc.property(solvent, real(1, 6), (liquid, windMps) => {
        const at = (wind: number) => filmFluxKgM2S(film(liquid, { windMps: wind }));
        expect(at(windMps + 1)).toBeGreaterThan(at(windMps));
      }),
    );
  });
});

describe('curing', () => {
  it('takes no time change at the reference, less when warmer, and factors chain', () => {
    fc.assert(
      fc.property(real(-10, 40), real(-10, 40), real(-10, 40), real(20, 100), (a, b, c, ea) => {
        const f = (tempC: number, refTempC: number) =>
          arrheniusFactor({ tempC, refTempC, activationKJmol: ea });
        expect(f(a, a)).toBe(1);
        expect(f(a, b) * f(b, c)).toBeCloseTo(f(a, c), 8);
        expect(f(a + 5, b)).toBeLessThan(f(a, b));
        expect(q10Factor({ tempC: a + 10, refTempC: a })).toBeCloseTo(0.5, 10);
      }),
    );
  });

  it('by moisture is never slower in air that holds more vapour', () => {
    fc.assert(
      fc.property(real(1, 30), real(0.1, 10), (vapourPressureHPa, more) => {
        const at = (e: number) =>
          moistureFrontTimeFactor({ vapourPressureHPa: e, refVapourPressureHPa: 14 });
        expect(at(vapourPressureHPa + more)).toBeLessThan(at(vapourPressureHPa));
      }),
    );
  });
});

describe('wood', () => {
  it('holds more water in damper air and less in warmer air, and none in dry air', () => {
    fc.assert(
      fc.property(real(0, 40), real(5, 90), (airTempC, relHumPct) => {
        const at = (t: number, h: number) =>
          woodEquilibriumMoisturePct({ airTempC: t, relHumPct: h });
        expect(at(airTempC, relHumPct + 3)).toBeGreaterThan(at(airTempC, relHumPct));
        // Below 10 °C the handbook's curve is flat to 0.1 point.
        expect(at(airTempC + 10, relHumPct)).toBeLessThan(at(airTempC, relHumPct) + 0.1);
        expect(at(airTempC, 0)).toBe(0);
      }),
    );
  });
});
