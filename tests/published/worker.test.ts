/**
 * Heat index and wind chill (US National Weather Service, Environment Canada), heat limits at work
 * (ISO 7243, NIOSH 2016-106, ACGIH), lightning. Rows: tests/fixtures/published/worker.ts.
 */
import { describe, expect, it } from 'vitest';
import {
  coldBand,
  FULL_SUN_HEAT_INDEX_K,
  flashDistanceKm,
  heatBand,
  heatIndexC,
  lightning,
  METABOLIC_W,
  nioshLimitC,
  SKIN_FREEZES_MIN,
  wetBulbGlobeC,
  windChillC,
} from '../../src/physics/index.ts';
import { cToF, fDiffToK, fToC, kmhToMps, mphToMps } from '../../src/units/index.ts';
import {
  COLD_HAZARD,
  HEAT_INDEX,
  LIGHTNING,
  NIOSH,
  WBGT,
  WIND_CHILL_C,
  WIND_CHILL_F,
} from '../fixtures/published/worker.ts';

const indexF = (airF: number, relHumPct: number) =>
  cToF(heatIndexC({ airTempC: fToC(airF), relHumPct }));

describe('heat index', () => {
  it.each(HEAT_INDEX.rows)('at $airF °F and $relHumPct % is $indexF °F', (row) => {
    expect(Math.abs(indexF(row.airF, row.relHumPct) - row.indexF)).toBeLessThan(
      HEAT_INDEX.toleranceF,
    );
  });

  it('at 82 °F and 95 % is the algorithm’s 94.0, not the 93 the chart prints', () => {
    const { airF, relHumPct, algorithmF, chartF } = HEAT_INDEX.misprint;
    expect(indexF(airF, relHumPct)).toBeCloseTo(algorithmF, 1);
    expect(indexF(airF, relHumPct) - chartF).toBeGreaterThan(0.9);
  });

  // Dry adjustment by hand: 95 °F, 5 %: regression 90.35, less (13 - 5)/4 x 1 = 88.35 °F.
  it('in air of 5 % at 95 °F is 2 °F under the regression', () => {
    const t = 95;
    const r = 5;
    const regression =
      -42.379 +
      2.04901523 * t +
      10.14333127 * r -
      0.22475541 * t * r -
      6.83783e-3 * t ** 2 -
      5.481717e-2 * r ** 2 +
      1.22874e-3 * t ** 2 * r +
      8.5282e-4 * t * r ** 2 -
      1.99e-6 * t ** 2 * r ** 2;
    expect(indexF(t, r)).toBeCloseTo(regression - 2, 8);
  });

  // Below 80 °F: mean of air and simple formula. By hand 70 °F, 50 %: (69.05 + 70)/2; 76 °F, 90 %:
  // (77.53 + 76)/2; just short of the change-over, 79 °F, 70 %: (79.89 + 79)/2.
  it('on a mild day is the simple formula, averaged with the air', () => {
    expect(indexF(70, 50)).toBeCloseTo(69.525, 8);
    expect(indexF(76, 90)).toBeCloseTo(76.765, 8);
    expect(indexF(79, 70)).toBeCloseTo(79.445, 8);
  });

  it('has the chart’s bands, whole °F', () => {
    const limits = [
      [79.4, 'none'],
      [79.6, 'caution'],
      [89.4, 'caution'],
      [89.6, 'extreme caution'],
      [102.4, 'extreme caution'],
      [102.6, 'danger'],
      [124.4, 'danger'],
      [124.6, 'extreme danger'],
    ] as const;
    for (const [f, band] of limits) expect(heatBand(fToC(f)), `${f} °F`).toBe(band);
  });

  // NWS: full sun adds up to 15 °F. 90 °F and 60 % is 100 in the shade, danger in the sun.
  it('in full sun goes up by as much as 15 °F', () => {
    expect(FULL_SUN_HEAT_INDEX_K).toBeCloseTo(fDiffToK(15), 12);
    const shadeC = heatIndexC({ airTempC: fToC(90), relHumPct: 60 });
    expect(heatBand(shadeC)).toBe('extreme caution');
    expect(heatBand(shadeC + FULL_SUN_HEAT_INDEX_K)).toBe('danger');
  });
});

describe('wind chill', () => {
  it.each(WIND_CHILL_F.rows)('at $airF °F and $windMph mph is $chillF °F', (row) => {
    const got = windChillC({ airTempC: fToC(row.airF), windMps: mphToMps(row.windMph) });
    expect(Math.abs(cToF(got ?? Number.NaN) - row.chillF)).toBeLessThan(WIND_CHILL_F.toleranceF);
  });

  it('at -10 °C and 10 km/h is -15.3 °C', () => {
    const { airTempC, windKmh, chillC, toleranceK } = WIND_CHILL_C.worked;
    const got = windChillC({ airTempC, windMps: kmhToMps(windKmh) });
    expect(Math.abs((got ?? Number.NaN) - chillC)).toBeLessThan(toleranceK);
  });

  it.each(WIND_CHILL_C.rows)('in $windKmh km/h is the Canadian chart’s', ({ windKmh, chillC }) => {
    WIND_CHILL_C.airTempsC.forEach((airTempC, i) => {
      const got = windChillC({ airTempC, windMps: kmhToMps(windKmh) });
      const off = Math.abs((got ?? Number.NaN) - chillC[i]!);
      expect(off, `${airTempC} °C`).toBeLessThan(WIND_CHILL_C.toleranceK);
    });
  });

  // Stated validity of the 2001 index: 50 °F and below, above 3 mph.
  it('is not defined above 10 °C or up to 3 mph', () => {
    expect(windChillC({ airTempC: 10.01, windMps: 5 })).toBeNull();
    expect(windChillC({ airTempC: 10, windMps: 5 })).not.toBeNull();
    expect(windChillC({ airTempC: 0, windMps: mphToMps(3) })).toBeNull();
    expect(windChillC({ airTempC: 0, windMps: mphToMps(3.01) })).not.toBeNull();
  });
});

describe('hazard of cold', () => {
  // In a calm the air temperature is what is felt, so it serves to step through the limits.
  it.each(COLD_HAZARD.rows)('from $warmestC to $coldestC °C is $band', (row) => {
    for (const airTempC of [row.warmestC, row.coldestC]) {
      expect(coldBand({ airTempC, windMps: 0 })).toBe(row.band);
    }
    expect(SKIN_FREEZES_MIN[row.band]).toEqual(row.freezesMin);
  });

  it('takes half degrees to the cold side, and has no word above 0 °C', () => {
    expect(coldBand({ airTempC: -27.5, windMps: 0 })).toBe('high');
    expect(coldBand({ airTempC: -27.4, windMps: 0 })).toBe('moderate');
    expect(coldBand({ airTempC: 0.6, windMps: 0 })).toBe('none');
    expect(coldBand({ airTempC: 25, windMps: 20 })).toBe('none');
  });

  // NWS: frostbite in 30 minutes near a wind chill of -18 °F, which is -27.8 °C.
  it('sees skin freeze within 30 minutes near the -18 °F of the US chart', () => {
    const band = coldBand({ airTempC: fToC(-18), windMps: 0 });
    expect(SKIN_FREEZES_MIN[band]?.[1]).toBe(30);
  });
});

describe('wet-bulb globe temperature', () => {
  const { naturalWetBulbC, globeTempC, airTempC } = WBGT;
  it('of 25, 32 and 20 °C is 25.9 in sun and 27.1 without', () => {
    const inSunC = wetBulbGlobeC({ naturalWetBulbC, globeTempC, inSun: true, airTempC });
    expect(Math.abs(inSunC - WBGT.inSunC)).toBeLessThan(WBGT.toleranceK);
    const shadeC = wetBulbGlobeC({ naturalWetBulbC, globeTempC, inSun: false });
    expect(Math.abs(shadeC - WBGT.shadeC)).toBeLessThan(WBGT.toleranceK);
  });
});

describe('heat limits at work', () => {
  it('at 300 W are 28.2 and 25.0 °C', () => {
    const { limitC, alertC, toleranceK } = NIOSH.at300W;
    const limit = (acclimatised: boolean) => nioshLimitC({ metabolicW: 300, acclimatised });
    expect(Math.abs(limit(true) - limitC)).toBeLessThan(toleranceK);
    expect(Math.abs(limit(false) - alertC)).toBeLessThan(toleranceK);
  });

  it.each(NIOSH.acgih)('at $metabolicW W lie within 0.3 K of the ACGIH values', (row) => {
    const limit = (acclimatised: boolean) =>
      nioshLimitC({ metabolicW: row.metabolicW, acclimatised });
    expect(Math.abs(limit(true) - row.limitC)).toBeLessThan(NIOSH.acgihToleranceK);
    expect(Math.abs(limit(false) - row.alertC)).toBeLessThan(NIOSH.acgihToleranceK);
  });

  // NIOSH 2016-106: light 180, moderate 300, heavy 415, very heavy 520 W.
  it('name four rates of work', () => {
    expect(METABOLIC_W).toEqual({ light: 180, moderate: 300, heavy: 415, veryHeavy: 520 });
  });
});

describe('lightning', () => {
  it('30 seconds off is 6 miles, about 10 km; back after 30 minutes', () => {
    const km = flashDistanceKm(LIGHTNING.flashToBangS);
    expect(km).toBeCloseTo(LIGHTNING.miles * 1.609344, 10);
    expect(Math.abs(km - LIGHTNING.km)).toBeLessThan(LIGHTNING.toleranceKm);
    expect(lightning).toEqual({ shelterAtFlashToBangS: 30, resumeAfterMin: 30 });
  });

  // Sound does 343 m/s at 20 °C and 331 at 0 °C: the rule must not put a flash farther off than that.
  it('is never put farther off than sound travels', () => {
    for (const s of [1, 10, 30, 60]) expect(flashDistanceKm(s)).toBeLessThan(0.331 * s);
  });
});
