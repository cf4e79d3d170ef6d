/** Wind at the roof (ASHRAE 2005 ch. 16; EN 1991-1-4 table 7.2), convection (McAdams 1954; Walton), Beaufort (WMO-No. 8). */
import { describe, expect, it } from 'vitest';
import {
  beaufortForce,
  convectionWm2K,
  freeConvectionWm2K,
  shelterFactor,
  windAtRoofMps,
} from '../../src/physics/index.ts';
import { mphToMps } from '../../src/units/index.ts';
import { CONVECTION, PARAPET } from '../fixtures/published/surface.ts';

describe('wind at roof height', () => {
  // ASHRAE 2005: the station stands at 10 m in open country (a 0.14, d 270 m): nothing changes there.
  it('is the station’s own at 10 m in the open', () => {
    expect(windAtRoofMps({ windMps: 7, roofHeightM: 10, terrain: 'open' })).toBeCloseTo(7, 10);
  });

  // By hand: 27^0.14 (10/370)^0.22 = 0.7167; 27^0.14 (10/460)^0.33 = 0.4483.
  it('at 10 m drops to 0.72 in a suburb and 0.45 in a city', () => {
    expect(windAtRoofMps({ windMps: 1, roofHeightM: 10, terrain: 'suburban' })).toBeCloseTo(
      0.7167,
      3,
    );
    expect(windAtRoofMps({ windMps: 1, roofHeightM: 10, terrain: 'city' })).toBeCloseTo(0.4483, 3);
  });

  it('names a terrain it does not know', () => {
    expect(() => windAtRoofMps({ windMps: 1, roofHeightM: 10, terrain: 'sea' as 'open' })).toThrow(
      'terrain (sea) must be one of open, suburban, city',
    );
  });
});

describe('shelter of a parapet', () => {
  it.each(PARAPET.rows)('at $ratio of the roof height is the root of the suction left', (row) => {
    const got = shelterFactor({ parapetHeightM: 10 * row.ratio, roofHeightM: 10 });
    expect(got ** 2).toBeCloseTo(row.edge / PARAPET.sharp.edge, 10);
  });

  it('is none without a parapet, straight in between and even above the table', () => {
    expect(shelterFactor({ parapetHeightM: 0, roofHeightM: 6 })).toBe(1);
    // Half way from 0.05 to 0.1: suction 0.85 of 1.2.
    expect(shelterFactor({ parapetHeightM: 0.75, roofHeightM: 10 })).toBeCloseTo(0.8416, 4);
    expect(shelterFactor({ parapetHeightM: 3, roofHeightM: 10 })).toBeCloseTo(0.8165, 4);
  });
});

describe('convection', () => {
  it.each(CONVECTION.rows)('at $windMps m/s is $wm2K W/m2K', ({ windMps, wm2K, tolerance }) => {
    expect(Math.abs(convectionWm2K(windMps) - wm2K)).toBeLessThanOrEqual(tolerance);
  });

  it('does not jump at 5 m/s', () => {
    expect(convectionWm2K(5) - convectionWm2K(4.999999)).toBeCloseTo(0, 4);
    expect(convectionWm2K(5)).toBeCloseTo(24.7, 10);
  });

  // The branch as usually printed, 6.47 V^0.78 (from memory), lies 8 % below ours.
  it('above 5 m/s is within 10 % of the usually printed branch', () => {
    for (const v of [6, 10, 15, 20]) {
      const ratio = convectionWm2K(v) / (6.47 * v ** 0.78);
      expect(ratio).toBeGreaterThan(1.05);
      expect(ratio).toBeLessThan(1.1);
    }
  });

  // Walton: 1.51 dT^(1/3) for a warm face up, 0.76 dT^(1/3) for a cool one. 8 K: cube root 2.
  it('in still air is 3.02 from a face 8 K warm and 1.52 to a face 8 K cold', () => {
    expect(freeConvectionWm2K({ surfaceTempC: 28, airTempC: 20 })).toBeCloseTo(3.02, 10);
    expect(freeConvectionWm2K({ surfaceTempC: 12, airTempC: 20 })).toBeCloseTo(1.52, 10);
  });
});

describe('Beaufort', () => {
  // WMO table: 3 3.4-5.4, 4 5.5-7.9, 5 8.0-10.7, 6 10.8-13.8, 7 13.9-17.1, 8 17.2-20.7.
  it.each([
    [3.3, 2],
    [3.4, 3],
    [5.4, 3],
    [5.5, 4],
    [7.9, 4],
    [8, 5],
    [10.7, 5],
    [10.8, 6],
    [13.8, 6],
    [13.9, 7],
    [17.1, 7],
    [17.2, 8],
    [20.7, 8],
    [20.8, 9],
  ])('%f m/s is force %i', (windMps, force) => {
    expect(beaufortForce(windMps)).toBe(force);
  });

  it('puts calm at 0, a hurricane at 12, and 40 mph at force 8', () => {
    expect(beaufortForce(0)).toBe(0);
    expect(beaufortForce(40)).toBe(12);
    expect(beaufortForce(mphToMps(40))).toBe(8);
  });
});
