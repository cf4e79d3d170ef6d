/**
 * Sunlight: ASHRAE 2005 clear sky, the diffuse split of Erbs et al. 1982 and light on a slope against
 * values pinned in the public tests of pvlib and thermofeel. Rows: tests/fixtures/published/sun.ts.
 */
import { describe, expect, it } from 'vitest';
import {
  clearSkyWm2,
  diffuseFraction,
  extraterrestrialWm2,
  planeIrradianceWm2,
} from '../../src/physics/index.ts';
import { degToRad } from '../../src/units/index.ts';
import { CLEAR_SKY, CLEAR_SKY_MONTHS, DIFFUSE_SPLIT, PLANE } from '../fixtures/published/sun.ts';

describe('clear sky', () => {
  it('at 40 N, noon of 21 July, is 897 direct and 970 global', () => {
    const got = clearSkyWm2(CLEAR_SKY);
    expect(Math.abs(got.directNormalWm2 - CLEAR_SKY.directNormalWm2)).toBeLessThan(
      CLEAR_SKY.toleranceWm2,
    );
    expect(Math.abs(got.globalWm2 - CLEAR_SKY.globalWm2)).toBeLessThan(CLEAR_SKY.toleranceWm2);
  });

  it.each(CLEAR_SKY_MONTHS)('on day %i takes A %f, B %f, C %f', (dayOfYear, a, b, c) => {
    const got = clearSkyWm2({ sunElevationDeg: 30, dayOfYear });
    expect(got.directNormalWm2).toBeCloseTo(a * Math.exp(-b / 0.5), 6);
    expect(got.diffuseWm2 / got.directNormalWm2).toBeCloseTo(c, 10);
  });

  it('runs over the turn of the year without a jump', () => {
    const direct = (dayOfYear: number) =>
      clearSkyWm2({ sunElevationDeg: 90, dayOfYear }).directNormalWm2;
    expect(direct(5)).toBeGreaterThan(direct(21));
    expect(direct(5)).toBeLessThan(direct(355));
    expect(Math.abs(direct(365) - direct(1))).toBeLessThan(0.2);
  });
});

describe('sunlight outside the atmosphere', () => {
  it.each(DIFFUSE_SPLIT.distanceFactor)('on day $dayOfYear is the mean times $factor', (row) => {
    expect(extraterrestrialWm2(row.dayOfYear) / 1366.1).toBeCloseTo(row.factor, 7);
  });
});

describe('diffuse split', () => {
  it.each(DIFFUSE_SPLIT.rows)(
    'of $globalWm2 W/m2 at zenith $zenithDeg leaves $directHorizontalWm2 direct',
    (row) => {
      const horizontal = extraterrestrialWm2(row.dayOfYear) * Math.cos(degToRad(row.zenithDeg));
      const direct = row.globalWm2 * (1 - diffuseFraction(row.globalWm2 / horizontal));
      expect(direct).toBeCloseTo(row.directHorizontalWm2, 5);
    },
  );
});

describe('light of a very clear hour', () => {
  // Erbs 1982: above a clearness of 0.8 the diffuse share is 0.165 (thermofeel: 0.835 x global direct).
  it('is 0.165 diffuse', () => {
    expect(1 - diffuseFraction(0.85)).toBeCloseTo(0.835, 12);
  });
});

describe('light on a slope', () => {
  it.each(PLANE.rows)('of $globalWm2 W/m2 is direct + sky + ground as pvlib has it', (row) => {
    const got = planeIrradianceWm2({ ...PLANE, ...row, skylineElevationDeg: 0 });
    expect(Math.abs(got - row.directWm2 - row.skyWm2 - row.groundWm2)).toBeLessThan(
      PLANE.toleranceWm2,
    );
  });

  it.each(PLANE.rows)('of $globalWm2 W/m2 behind a skyline is sky + ground only', (row) => {
    const got = planeIrradianceWm2({ ...PLANE, ...row, skylineElevationDeg: 85 });
    expect(Math.abs(got - row.skyWm2 - row.groundWm2)).toBeLessThan(PLANE.toleranceWm2);
  });

  it('with no diffuse reading uses the split of the day', () => {
    const row = DIFFUSE_SPLIT.rows[0];
    const sunElevationDeg = 90 - row.zenithDeg;
    const got = planeIrradianceWm2({
      globalWm2: row.globalWm2,
      diffuseWm2: null,
      dayOfYear: row.dayOfYear,
      sunElevationDeg,
      sunAzimuthDeg: 180,
      fallDeg: 90,
      azimuthDeg: 180,
      skylineElevationDeg: 0,
      groundReflectance: 0,
    });
    const direct = row.directHorizontalWm2 / Math.tan(degToRad(sunElevationDeg));
    expect(got).toBeCloseTo(direct + (row.globalWm2 - row.directHorizontalWm2) / 2, 4);
  });
});
