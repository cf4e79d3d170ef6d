/**
 * Moist air against ASHRAE Fundamentals 2017 ch. 1 (tables 1-3, example 1), a trade dew-point table,
 * Stull 2011, the condensation rule after ISO 8502-4, and the library PsychroLib 2.5.0.
 * Sources and precision stand with the rows in tests/fixtures/published/air.ts.
 */
import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import {
  absoluteHumidityGm3,
  dewPointC,
  dewPointFromVapourC,
  enthalpyKJkg,
  frostPointC,
  humidityRatio,
  humidityRatioFromWetBulb,
  magnusIceHPa,
  magnusWaterHPa,
  pressureAtElevationHPa,
  relHumFromDewPct,
  satVapPressureIceHPa,
  satVapPressureWaterHPa,
  vapourPressureFromRatioHPa,
  wetBulbC,
} from '../../src/physics/index.ts';
import { fDiffToK, fToC } from '../../src/units/index.ts';
import {
  CONDENSATION,
  DEW_POINTS,
  PRESSURE,
  PSYCHROMETER,
  SATURATED_RATIO,
  SATURATION,
  WET_BULB,
} from '../fixtures/published/air.ts';

psychrolib.SetUnitSystem(psychrolib.SI);

const within = (value: number, want: number, tolerance: number, what = '') =>
  expect(Math.abs(value - want), `${what} ${value} against ${want}`).toBeLessThanOrEqual(tolerance);

describe('saturation pressure', () => {
  it.each(SATURATION.rows)('over $over at $tempC °C is $pa Pa', ({ tempC, over, pa }) => {
    const got =
      100 * (over === 'ice' ? satVapPressureIceHPa(tempC) : satVapPressureWaterHPa(tempC));
    within(got, pa, (pa * SATURATION.tolerancePct) / 100);
  });

  it('agrees with PsychroLib from -40 to 60 °C within 1e-4 of itself', () => {
    for (let t = -40; t <= 60; t += 5) {
      const own = t < 0.01 ? satVapPressureIceHPa(t) : satVapPressureWaterHPa(t);
      const other = psychrolib.GetSatVapPres(t);
      within(100 * own, other, other * 1e-4, `${t} °C`);
    }
  });

  // WMO-No. 8 against Hyland & Wexler: 0.30 % over 0..50 °C, equal at -20 °C over ice (103.26 Pa).
  it('by Magnus stays within 0.30 % of Hyland & Wexler from 0 to 50 °C', () => {
    for (let t = 0; t <= 50; t += 1) {
      within(magnusWaterHPa(t) / satVapPressureWaterHPa(t), 1, 0.003, `${t} °C`);
    }
  });

  it('by Magnus over ice is 103.26 Pa at -20 °C', () => {
    within(100 * magnusIceHPa(-20), 103.26, 0.03);
  });

  it('by Magnus over ice stays within 0.2 % of Hyland & Wexler from -40 to 0 °C', () => {
    for (let t = -40; t <= 0; t += 1) within(magnusIceHPa(t) / satVapPressureIceHPa(t), 1, 0.002);
  });

  it('by Magnus is 1.1 % high on a roof of 80 °C, as documented', () => {
    within(magnusWaterHPa(80) / satVapPressureWaterHPa(80), 1.011, 0.001);
  });
});

describe('humidity ratio', () => {
  it.each(SATURATED_RATIO.rows)('of saturated air at $tempC °C is $ratio', ({ tempC, ratio }) => {
    const got = humidityRatio({
      vapourPressureHPa: satVapPressureWaterHPa(tempC),
      pressureHPa: SATURATED_RATIO.pressureHPa,
    });
    within(got, ratio, (ratio * SATURATED_RATIO.tolerancePct) / 100);
  });

  it.each(PSYCHROMETER.rows)('of $airTempC °C dry, $wetBulbC °C wet is $ratio', (row) => {
    within(humidityRatioFromWetBulb(row), row.ratio, row.tolerance);
  });

  it('of the ASHRAE example gives its dew point, humidity and enthalpy', () => {
    const row = PSYCHROMETER.rows[0];
    const ratio = humidityRatioFromWetBulb(row);
    const vapour = vapourPressureFromRatioHPa({
      humidityRatio: ratio,
      pressureHPa: row.pressureHPa,
    });
    const dew = dewPointFromVapourC(vapour);
    within(dew, row.dewPointC.value, row.dewPointC.tolerance, 'dew point');
    const rh = relHumFromDewPct({ airTempC: row.airTempC, dewPointC: dew });
    within(rh, row.relHumPct.value, row.relHumPct.tolerance, 'relative humidity');
    within(
      enthalpyKJkg({ airTempC: row.airTempC, humidityRatio: ratio }),
      row.enthalpyKJkg.value,
      row.enthalpyKJkg.tolerance,
      'enthalpy',
    );
  });

  it('off an iced bulb agrees with PsychroLib within 1e-6 of itself', () => {
    for (const [airTempC, wetBulbC] of [
      [-5, -6],
      [-15, -15.5],
      [2, -3],
    ] as const) {
      const other = psychrolib.GetHumRatioFromTWetBulb(airTempC, wetBulbC, 100_000);
      const own = humidityRatioFromWetBulb({ airTempC, wetBulbC, pressureHPa: 1000 });
      within(own / other, 1, 1e-6);
    }
  });

  it('agrees with PsychroLib over the whole range within 1e-6', () => {
    for (const vapourPressureHPa of [1, 8, 20, 60]) {
      for (const pressureHPa of [850, 1013.25]) {
        within(
          humidityRatio({ vapourPressureHPa, pressureHPa }),
          psychrolib.GetHumRatioFromVapPres(vapourPressureHPa * 100, pressureHPa * 100),
          1e-6,
        );
      }
    }
  });
});

describe('dew point', () => {
  it.each(DEW_POINTS.rows)('at $airTempC °C and $relHumPct % is $dewPointC °C', (row) => {
    within(dewPointC(row), row.dewPointC, DEW_POINTS.toleranceK);
  });

  it('at 30 °C and 65 % is 22.7 °C where a trade table misprints 23.7', () => {
    const { misprint } = DEW_POINTS;
    within(dewPointC(misprint), misprint.meantC, DEW_POINTS.toleranceK);
    expect(Math.abs(dewPointC(misprint) - misprint.printedC)).toBeGreaterThan(0.5);
  });

  it('agrees with PsychroLib within 0.05 K where both are over water', () => {
    let rows = 0;
    for (let t = 5; t <= 50; t += 5) {
      for (let rh = 20; rh <= 100; rh += 10) {
        const other = psychrolib.GetTDewPointFromRelHum(t, rh / 100);
        if (other < 0.5) continue;
        rows += 1;
        within(dewPointC({ airTempC: t, relHumPct: rh }), other, 0.05, `${t} °C ${rh} %`);
      }
    }
    expect(rows).toBeGreaterThan(60);
  });

  // WMO-No. 8 constants: at 10 °C and 35 % dew point -4.8, frost point -4.2.
  it('below freezing is distinct from the frost point', () => {
    within(dewPointC({ airTempC: 10, relHumPct: 35 }), -4.8, 0.05);
    within(frostPointC({ airTempC: 10, relHumPct: 35 }) ?? Number.NaN, -4.2, 0.05);
  });

  it('above freezing leaves no frost point', () => {
    expect(frostPointC({ airTempC: 20, relHumPct: 50 })).toBeNull();
  });
});

describe('wet bulb', () => {
  it.each(WET_BULB.rows)('at $airTempC °C and $relHumPct % is $wetBulbC °C', (row) => {
    within(wetBulbC(row), row.wetBulbC, WET_BULB.toleranceK);
  });

  // Stull 2011 eq. 1; he states errors of -1..+0.65 K and 0.3 K on average over 5-99 % and
  // -20..50 °C at sea level. The formula is for a wet bulb, so rows are taken above freezing.
  const stull = (t: number, rh: number) =>
    t * Math.atan(0.151977 * Math.sqrt(rh + 8.313659)) +
    Math.atan(t + rh) -
    Math.atan(rh - 1.676331) +
    0.00391838 * rh ** 1.5 * Math.atan(0.023101 * rh) -
    4.686035;

  it('stays inside the error Stull states for his shortcut up to 35 °C', () => {
    within(stull(20, 50), WET_BULB.rows[0].shortcutC, 0.05);
    let sum = 0;
    let rows = 0;
    for (let t = 0; t <= 35; t += 5) {
      for (let rh = 15; rh <= 99; rh += 6) {
        const own = wetBulbC({ airTempC: t, relHumPct: rh, pressureHPa: 1013.25 });
        if (own < 0) continue;
        const error = stull(t, rh) - own;
        rows += 1;
        sum += Math.abs(error);
        expect(error, `${t} °C ${rh} %`).toBeGreaterThan(-1);
        expect(error, `${t} °C ${rh} %`).toBeLessThan(0.65);
      }
    }
    expect(rows).toBeGreaterThan(90);
    expect(sum / rows).toBeLessThan(0.3);
  });

  // A finding, not a fault of ours: above 35 °C the shortcut runs up to 1.2 K high, outside the error
  // its author states, and PsychroLib sides with us to 0.001 K.
  it('leaves Stull’s shortcut at 50 °C and 26 % by 1.2 K, with PsychroLib on our side', () => {
    const own = wetBulbC({ airTempC: 50, relHumPct: 26, pressureHPa: 1013.25 });
    within(stull(50, 26) - own, 1.16, 0.02);
    within(own, psychrolib.GetTWetBulbFromRelHum(50, 0.26, 101325), 0.001);
  });

  it('agrees with PsychroLib within 0.05 K above freezing', () => {
    for (let t = 5; t <= 45; t += 5) {
      for (let rh = 30; rh <= 100; rh += 10) {
        const own = wetBulbC({ airTempC: t, relHumPct: rh, pressureHPa: 900 });
        if (own < 0.1) continue;
        within(own, psychrolib.GetTWetBulbFromRelHum(t, rh / 100, 90000), 0.05, `${t} ${rh}`);
      }
    }
  });
});

describe('pressure and mass of water', () => {
  it.each(PRESSURE.rows)('at $elevationM m is $pa Pa', ({ elevationM, pa }) => {
    within(100 * pressureAtElevationHPa(elevationM), pa, PRESSURE.tolerancePa);
  });

  // ideal gas law, R = 461.5 J/kgK: saturated air at 20 °C holds 17.3 g/m3 (any physics table).
  it('saturated air at 20 °C holds 17.3 g/m3', () => {
    within(
      absoluteHumidityGm3({ airTempC: 20, vapourPressureHPa: satVapPressureWaterHPa(20) }),
      17.3,
      0.05,
    );
  });
});

describe('condensation rule: surface 3 K above the dew point', () => {
  it.each(CONDENSATION.metric)('at $airTempC °C and $relHumPct % asks $leastSurfaceC °C', (row) => {
    within(dewPointC(row) + 3, row.leastSurfaceC, row.toleranceK);
  });

  it('gives the margin of the painting guide from dry and wet bulb', () => {
    const row = CONDENSATION.psychrometer;
    const ratio = humidityRatioFromWetBulb({ ...row, pressureHPa: 1013.25 });
    const vapour = vapourPressureFromRatioHPa({ humidityRatio: ratio, pressureHPa: 1013.25 });
    within(dewPointFromVapourC(vapour), row.dewPointC, row.toleranceK);
    within(row.surfaceTempC - dewPointFromVapourC(vapour), row.marginK, row.toleranceK);
  });

  it('holds in degrees Fahrenheit, a margin of 5 °F being 2.8 K', () => {
    const row = CONDENSATION.fahrenheit;
    const dew = dewPointC({ airTempC: fToC(row.airTempF), relHumPct: row.relHumPct });
    within(dew, fToC(row.dewPointF), fDiffToK(row.toleranceF));
    within(dew + fDiffToK(5), fToC(row.leastSurfaceF), fDiffToK(row.toleranceF));
  });
});
