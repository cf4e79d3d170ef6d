/**
 * Evaporation of a water film against the Menzel/Lerch table of the concrete trade, the film form of
 * FAO-56 and the psychrometer. Rows: tests/fixtures/published/water.ts.
 */
import { describe, expect, it } from 'vitest';
import {
  convectionWm2K,
  evaporationMmPerHour,
  faoPsychrometricKPaK,
  faoSaturationKPa,
  faoSlopeKPaK,
  latentHeatJkg,
  latentSlopeWm2K,
  magnusWaterHPa,
  menzelEvaporationKgM2H,
  skyRadiationWm2,
  steadyWetSurfaceTempC,
  unoEvaporationKgM2H,
  vapourPressureHPa,
  wetBulbC,
} from '../../src/physics/index.ts';
import { fToC, mphToMps } from '../../src/units/index.ts';
import { CONCRETE_TABLE } from '../fixtures/published/water.ts';

const si = (row: (typeof CONCRETE_TABLE.rows)[number]) => ({
  surfaceTempC: fToC(row.surfaceF),
  airTempC: fToC(row.airF),
  relHumPct: row.relHumPct,
  windMps: mphToMps(row.windMph),
});

describe('a wet slab', () => {
  it.each(CONCRETE_TABLE.rows)(
    'of $surfaceF °F in $airF °F, $relHumPct %, $windMph mph loses $lbFt2H lb/ft2h',
    (row) => {
      const printed = row.lbFt2H * CONCRETE_TABLE.kgM2PerLbFt2;
      const menzel = menzelEvaporationKgM2H(si(row)) / printed - 1;
      const uno = unoEvaporationKgM2H(si(row)) / printed - 1;
      expect(Math.abs(menzel) * 100).toBeLessThanOrEqual(CONCRETE_TABLE.menzelPct);
      expect(Math.abs(uno) * 100).toBeLessThanOrEqual(CONCRETE_TABLE.unoPct);
    },
  );

  it.each(CONCRETE_TABLE.rows)(
    'has the Menzel and Uno columns of the table at $surfaceF/$airF/$relHumPct/$windMph',
    (row) => {
      const toKg = CONCRETE_TABLE.kgM2PerLbFt2;
      // Columns are printed to 0.001 lb/ft2h; the SI form of Uno is rounded to 18 °C and 4 km/h.
      expect(Math.abs(menzelEvaporationKgM2H(si(row)) / toKg - row.menzel)).toBeLessThan(0.0015);
      expect(Math.abs(unoEvaporationKgM2H(si(row)) / toKg / row.uno - 1)).toBeLessThan(0.05);
    },
  );

  // The two published fits part company both ways; neither is bent to the other. 1.13 is the ratio of
  // the two columns of the table for a slab of 70 °F in air of 50 °F.
  it('by Uno is above Menzel in cool damp air and below on a hot slab', () => {
    const ratio = (surfaceTempC: number, airTempC: number, relHumPct: number) => {
      const args = { surfaceTempC, airTempC, relHumPct, windMps: 4 };
      return unoEvaporationKgM2H(args) / menzelEvaporationKgM2H(args);
    };
    expect(ratio(15, 5, 90)).toBeGreaterThan(1.1);
    expect(ratio(15, 5, 90)).toBeLessThan(1.19);
    expect(ratio(30, 10, 50)).toBeCloseTo(1, 1);
    expect(ratio(50, 20, 50)).toBeLessThan(0.85);
  });
});

describe('our film of water', () => {
  const film = (surfaceTempC: number, airTempC: number, relHumPct: number, windMps: number) =>
    evaporationMmPerHour({
      surfaceTempC,
      airTempC,
      vapourPressureHPa: vapourPressureHPa({ airTempC, relHumPct }),
      convectionWm2K: convectionWm2K(windMps),
      pressureHPa: 1013.25,
    });

  // By hand: hc 17.1, 10 hPa, 1013.25 hPa: 17.1 x 0.621945 x 10 / (1013.25 x 1006 x 0.9) x 3600.
  it('by the Lewis relation loses 0.417 mm/h at 10 hPa and 3 m/s', () => {
    const got = evaporationMmPerHour({
      surfaceTempC: 20,
      airTempC: 20,
      vapourPressureHPa: magnusWaterHPa(20) - 10,
      convectionWm2K: 17.1,
      pressureHPa: 1013.25,
    });
    expect(got).toBeCloseTo(0.4173, 3);
  });

  // Hover: such estimates are good to about +/-40 %. Against a roof's McAdams coefficient, Menzel's
  // lake gives about two thirds; within a factor of 1.7 over 1-8 m/s.
  it('loses 1.2 to 1.75 times what Menzel gives for the same wind', () => {
    for (const wind of [1, 2, 4, 8]) {
      const menzel = menzelEvaporationKgM2H({
        surfaceTempC: 20,
        airTempC: 20,
        relHumPct: 50,
        windMps: wind,
      });
      const ratio = film(20, 20, 50, wind) / menzel;
      expect(ratio, `${wind} m/s`).toBeGreaterThan(1.2);
      expect(ratio, `${wind} m/s`).toBeLessThan(1.75);
    }
  });

  // A psychrometer is a film with no radiation: psychrometric coefficient 6.6e-4 /K (WMO-No. 8)
  // against ours of 0.9 cp/(0.622 L), so the film sits within 0.4 K of the wet bulb.
  it.each([
    [30, 30],
    [20, 50],
    [10, 60],
    [25, 90],
  ])('at %i °C and %i %% with no radiation settles at the wet bulb', (airTempC, relHumPct) => {
    const got = steadyWetSurfaceTempC({
      absorbedWm2: 0,
      skyWm2: 0,
      emissivity: 0,
      convectionWm2K: 20,
      airTempC,
      conductanceWm2K: 0,
      belowTempC: 20,
      vapourPressureHPa: vapourPressureHPa({ airTempC, relHumPct }),
      pressureHPa: 1013.25,
    });
    expect(Math.abs(got - wetBulbC({ airTempC, relHumPct, pressureHPa: 1013.25 }))).toBeLessThan(
      0.4,
    );
  });

  // Penman's combination for a film of water (FAO-56 with the leaf resistance dropped): the same
  // balance made linear. Written here in W/m2 and K from FAO's own slope and psychrometric constant,
  // with our wind coefficient, so only Penman's linearisation and constants differ.
  it.each([
    [20, 50, 2, 400],
    [25, 40, 4, 600],
    [12, 70, 3, 200],
  ])(
    'at %i °C, %i %%, %i m/s and %i W/m2 agrees with Penman within 8 %%',
    (airTempC, relHumPct, wind, absorbedWm2) => {
      const vapour = vapourPressureHPa({ airTempC, relHumPct });
      const sky = skyRadiationWm2({ airTempC, dewPointC: airTempC - 10, cloudPct: 40 });
      const drive = {
        absorbedWm2,
        skyWm2: sky,
        emissivity: 0.95,
        convectionWm2K: convectionWm2K(wind),
        airTempC,
        conductanceWm2K: 0,
        belowTempC: airTempC,
      };
      const wetC = steadyWetSurfaceTempC({
        ...drive,
        vapourPressureHPa: vapour,
        pressureHPa: 1013.25,
      });
      const ours = evaporationMmPerHour({
        surfaceTempC: wetC,
        airTempC,
        vapourPressureHPa: vapour,
        convectionWm2K: drive.convectionWm2K,
        pressureHPa: 1013.25,
      });
      const netWm2 = absorbedWm2 + 0.95 * sky - 0.95 * 5.67e-8 * (wetC + 273.15) ** 4;
      const slope = faoSlopeKPaK(airTempC);
      const gamma = 0.9 * faoPsychrometricKPaK(101.325);
      const deficit = faoSaturationKPa(airTempC) - vapour / 10;
      const latentWm2 = (slope * netWm2 + drive.convectionWm2K * deficit) / (slope + gamma);
      const penman = (latentWm2 * 3600) / 2.45e6;
      expect(Math.abs(ours / penman - 1)).toBeLessThan(0.08);
    },
  );
});

describe('latent heat', () => {
  // FAO-56 box 1: 2.45 MJ/kg at 20 °C; annex 3: 2.501 MJ/kg at 0 °C.
  it('is 2.45 MJ/kg at 20 °C', () => {
    expect(latentHeatJkg(20) / 1e6).toBeCloseTo(2.454, 3);
  });

  // Smithsonian tables (from memory): sublimation 2.834 MJ/kg at 0 °C, 2.839 at -20 °C.
  it('over ice is 2.834 MJ/kg at 0 °C and 2.839 at -20 °C', () => {
    expect(latentHeatJkg(-1e-9) / 1e6).toBeCloseTo(2.834, 3);
    expect(Math.abs(latentHeatJkg(-20) / 1e6 - 2.839)).toBeLessThan(0.002);
  });

  it('has the slope of the flux it belongs to', () => {
    const flux = (t: number) =>
      (latentHeatJkg(t) *
        evaporationMmPerHour({
          surfaceTempC: t,
          airTempC: 20,
          vapourPressureHPa: magnusWaterHPa(20),
          convectionWm2K: 15,
          pressureHPa: 1000,
        })) /
      3600;
    const slope = latentSlopeWm2K({ surfaceTempC: 20, convectionWm2K: 15, pressureHPa: 1000 });
    expect(slope / ((flux(20.01) - flux(19.99)) / 0.02)).toBeCloseTo(1, 3);
  });
});
