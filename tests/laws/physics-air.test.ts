/** What must hold of moist air whatever the weather. Each law is bounded tightly enough to break. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dewPointC,
  frostPointC,
  humidityRatio,
  pressureAtElevationHPa,
  relHumFromDewPct,
  satVapPressureIceHPa,
  satVapPressureWaterHPa,
  vapourDeficitHPa,
  vapourPressureFromDewHPa,
  vapourPressureFromRatioHPa,
  vapourPressureHPa,
  wetBulbC,
} from '../../src/physics/index.ts';
import { cToF, fToC } from '../../src/units/index.ts';

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('moist air', () => {
  it('has dew point <= wet bulb <= air temperature above freezing', () => {
    fc.assert(
      fc.property(
        real(0, 50),
        real(5, 99.9),
        real(700, 1050),
        (airTempC, relHumPct, pressureHPa) => {
          const wet = wetBulbC({ airTempC, relHumPct, pressureHPa });
          if (wet < 0) return;
          expect(wet).toBeLessThan(airTempC + 1e-6);
          // 0.01 K: dew point by Magnus, wet bulb by Hyland & Wexler.
          expect(dewPointC({ airTempC, relHumPct })).toBeLessThan(wet + 0.01);
        },
      ),
    );
  });

  it('has all three equal at 100 %', () => {
    fc.assert(
      fc.property(real(0.1, 50), real(700, 1050), (airTempC, pressureHPa) => {
        const air = { airTempC, relHumPct: 100 };
        expect(dewPointC(air)).toBeCloseTo(airTempC, 9);
        expect(wetBulbC({ ...air, pressureHPa })).toBeCloseTo(airTempC, 5);
      }),
    );
  });

  it('has an iced bulb between the air temperature and the frost point', () => {
    fc.assert(
      fc.property(real(-30, -0.5), real(20, 100), (airTempC, relHumPct) => {
        const frost = frostPointC({ airTempC, relHumPct }) ?? Number.NaN;
        const wet = wetBulbC({ airTempC, relHumPct, pressureHPa: 1000 });
        expect(wet).toBeGreaterThan(Math.min(frost, airTempC) - 0.02);
        expect(wet).toBeLessThan(Math.max(frost, airTempC) + 0.02);
      }),
    );
  });

  it('has a frost point above the dew point below freezing', () => {
    fc.assert(
      fc.property(real(-30, 5), real(5, 60), (airTempC, relHumPct) => {
        const frost = frostPointC({ airTempC, relHumPct });
        if (frost === null || frost > -0.1) return;
        expect(frost).toBeGreaterThan(dewPointC({ airTempC, relHumPct }));
      }),
    );
  });

  it('comes back from humidity ratio, dew point and vapour pressure within 0.01 %', () => {
    fc.assert(
      fc.property(real(-20, 50), real(1, 100), real(0, 3000), (airTempC, relHumPct, elevationM) => {
        const pressureHPa = pressureAtElevationHPa(elevationM);
        const e = vapourPressureHPa({ airTempC, relHumPct });
        const ratio = humidityRatio({ vapourPressureHPa: e, pressureHPa });
        const back = vapourPressureFromRatioHPa({ humidityRatio: ratio, pressureHPa });
        expect(Math.abs(back / e - 1)).toBeLessThan(1e-4);
        const dew = dewPointC({ airTempC, relHumPct });
        expect(Math.abs(vapourPressureFromDewHPa(dew) / e - 1)).toBeLessThan(1e-9);
        const rh = relHumFromDewPct({ airTempC, dewPointC: dew });
        expect(Math.abs(rh / relHumPct - 1)).toBeLessThan(1e-4);
      }),
    );
  });

  it('has a dew point that rises with humidity and a deficit that falls', () => {
    fc.assert(
      fc.property(real(-20, 50), real(1, 95), (airTempC, relHumPct) => {
        const damper = { airTempC, relHumPct: relHumPct + 5 };
        expect(dewPointC(damper)).toBeGreaterThan(dewPointC({ airTempC, relHumPct }));
        expect(vapourDeficitHPa(damper)).toBeLessThan(vapourDeficitHPa({ airTempC, relHumPct }));
      }),
    );
  });

  it('gives one dew point in both units of temperature', () => {
    fc.assert(
      fc.property(real(0, 110), real(5, 100), (airTempF, relHumPct) => {
        const one = dewPointC({ airTempC: fToC(airTempF), relHumPct });
        const other = dewPointC({ airTempC: fToC(cToF(fToC(airTempF))), relHumPct });
        expect(one).toBeCloseTo(other, 9);
      }),
    );
  });

  it('saturates lower over ice than over supercooled water, equal at 0.01 °C', () => {
    for (let t = -40; t <= -1; t += 1) {
      expect(satVapPressureIceHPa(t)).toBeLessThan(satVapPressureWaterHPa(t));
    }
    expect(satVapPressureIceHPa(0.01) / satVapPressureWaterHPa(0.01)).toBeCloseTo(1, 4);
  });

  it('counts a dew point rounded just above the air as saturated, and refuses one far above', () => {
    expect(relHumFromDewPct({ airTempC: 10, dewPointC: 10.04 })).toBe(100);
    expect(() => relHumFromDewPct({ airTempC: 10, dewPointC: 11 })).toThrow('dewPointC (11)');
  });
});
