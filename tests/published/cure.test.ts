/**
 * Curing: the ten-degree rule, Arrhenius, the moisture front (Comyn 1998), the constant-rate stage of
 * a water-borne film. Rows: tests/fixtures/published/solvent.ts (CURE).
 */
import { describe, expect, it } from 'vitest';
import {
  activationFromSpeedUpKJmol,
  arrheniusFactor,
  evaporationMmPerHour,
  moistureFrontDepthMm,
  moistureFrontTimeFactor,
  q10Factor,
  vapourPressureHPa,
} from '../../src/physics/index.ts';
import { CURE } from '../fixtures/published/solvent.ts';

describe('temperature and curing', () => {
  it('ten degrees warmer turns 10 and 60 minutes into 5 and 30', () => {
    const { rule } = CURE;
    const factor = q10Factor({ tempC: rule.hotC, refTempC: rule.atC });
    expect(rule.gelMin * factor).toBeCloseTo(rule.hotGelMin, 10);
    expect(rule.cureMin * factor).toBeCloseTo(rule.hotCureMin, 10);
  });

  it('at 50 kJ/mol from 23 to 35 °C takes 0.453 of the time', () => {
    expect(Math.abs(arrheniusFactor(CURE.arrhenius) - CURE.arrhenius.factor)).toBeLessThan(0.001);
  });

  it.each(CURE.q10Equivalent)('doubling from $fromC to $toC °C is $kJmol kJ/mol', (row) => {
    expect(Math.abs(activationFromSpeedUpKJmol({ ...row, factor: 2 }) - row.kJmol)).toBeLessThan(
      0.1,
    );
  });
});

describe('moisture and curing', () => {
  it('four times the time gives twice the depth', () => {
    const got = moistureFrontDepthMm({
      minutes: 960,
      refMinutes: 240,
      refDepthMm: 2,
      vapourPressureHPa: 12,
      refVapourPressureHPa: 12,
    });
    expect(got).toBeCloseTo(4, 10);
  });

  it('at 5 °C has 0.31 of the vapour of 23 °C and takes 3.2 times as long', () => {
    const at = (airTempC: number) => vapourPressureHPa({ airTempC, relHumPct: 50 });
    const cold = at(CURE.coldFront.tempC);
    const warm = at(CURE.coldFront.refTempC);
    expect(Math.abs(cold / warm - CURE.coldFront.vapourShare)).toBeLessThan(0.005);
    const factor = moistureFrontTimeFactor({ vapourPressureHPa: cold, refVapourPressureHPa: warm });
    expect(Math.abs(factor - CURE.coldFront.timeFactor)).toBeLessThan(0.05);
  });
});

describe('a water-borne film held at air temperature', () => {
  it('dries at 80 % at 0.40 of its speed at 50 %', () => {
    const rate = (relHumPct: number) =>
      evaporationMmPerHour({
        surfaceTempC: 20,
        airTempC: 20,
        vapourPressureHPa: vapourPressureHPa({ airTempC: 20, relHumPct }),
        convectionWm2K: 12,
        pressureHPa: 1013.25,
      });
    const { dampPct, dryPct, ratio } = CURE.latexRatio;
    expect(rate(dampPct) / rate(dryPct)).toBeCloseTo(ratio, 6);
  });

  it('stalls at 100 %', () => {
    const got = evaporationMmPerHour({
      surfaceTempC: 15,
      airTempC: 15,
      vapourPressureHPa: vapourPressureHPa({ airTempC: 15, relHumPct: 100 }),
      convectionWm2K: 12,
      pressureHPa: 1013.25,
    });
    expect(Math.abs(got)).toBeLessThan(1e-12);
  });
});
