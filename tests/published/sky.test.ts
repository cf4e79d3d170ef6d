/**
 * Long wave from the sky against Walton (NBSIR 83-2655) and the published second opinions of
 * Berdahl & Martin 1984 and Swinbank 1963. Rows: tests/fixtures/published/surface.ts.
 */
import { describe, expect, it } from 'vitest';
import {
  skyEmissivity,
  skyEmissivityBerdahlMartin,
  skyRadiationWm2,
  skyTempC,
  skyTempSwinbankC,
} from '../../src/physics/index.ts';
import { SKY, SKY_SPREAD } from '../fixtures/published/surface.ts';

describe('clear sky', () => {
  it('has the emissivity and radiation of Walton’s worked case', () => {
    const { emissivity, radiationWm2 } = SKY;
    expect(Math.abs(skyEmissivity({ ...SKY, cloudPct: 0 }) - emissivity.value)).toBeLessThan(
      emissivity.tolerance,
    );
    expect(Math.abs(skyRadiationWm2({ ...SKY, cloudPct: 0 }) - radiationWm2.value)).toBeLessThan(
      radiationWm2.tolerance,
    );
  });

  it('is as cold as worked by hand at 10 °C with dew point 5 °C', () => {
    const got = skyTempC({ airTempC: 10, dewPointC: 5, cloudPct: 0 });
    expect(Math.abs(got - SKY_SPREAD.clarkAllenC)).toBeLessThan(0.1);
  });

  it('is colder by 5 K in two other published formulas: the stated +/-3 K', () => {
    // Mean over the day: the cosine term is 0 at 6 h.
    const berdahl =
      283.15 *
        skyEmissivityBerdahlMartin({ dewPointC: 5, solarHour: 6, pressureHPa: 1000 }) ** 0.25 -
      273.15;
    expect(Math.abs(berdahl - SKY_SPREAD.berdahlMartinC)).toBeLessThan(0.1);
    expect(Math.abs(skyTempSwinbankC(10) - SKY_SPREAD.swinbankC)).toBeLessThan(0.1);
  });

  // Berdahl & Martin 1984: the day's swing is 0.013 cos(2 pi h/24), coldest sky emissivity at noon.
  it('radiates 0.026 more at midnight than at noon by Berdahl & Martin', () => {
    const at = (solarHour: number) =>
      skyEmissivityBerdahlMartin({ dewPointC: 5, solarHour, pressureHPa: 1000 });
    expect(at(0) - at(12)).toBeCloseTo(0.026, 10);
    const high = skyEmissivityBerdahlMartin({ dewPointC: 5, solarHour: 0, pressureHPa: 900 });
    expect(at(0) - high).toBeCloseTo(0.012, 10);
  });

  // A package page prints 339 K for this: that number is 1.22 s T^4 - 171, a flux in W/m2.
  it('at 293 K is 276.8 K by Swinbank, not 339', () => {
    expect(
      Math.abs(skyTempSwinbankC(293 - 273.15) + 273.15 - SKY_SPREAD.swinbankAt293K),
    ).toBeLessThan(0.1);
  });
});

describe('cloudy sky', () => {
  // Walton: 1 + 0.0224 N - 0.0035 N^2 + 0.00028 N^3 is 1.154 at N = 10 tenths.
  it('under full cover radiates 1.154 times the clear one', () => {
    const clear = skyEmissivity({ dewPointC: -10, cloudPct: 0 });
    expect(skyEmissivity({ dewPointC: -10, cloudPct: 100 }) / clear).toBeCloseTo(1.154, 10);
  });

  it('never radiates more than a black body at air temperature', () => {
    expect(skyEmissivity({ dewPointC: 31, cloudPct: 100 })).toBe(1);
    expect(skyEmissivity({ dewPointC: 20, cloudPct: 100 })).toBeLessThan(1);
  });
});
