/**
 * FAO Irrigation and Drainage Paper 56 (Allen et al. 1998): worked examples 4, 11, 17 and 19, term by
 * term. Rows: tests/fixtures/published/water.ts.
 */
import { describe, expect, it } from 'vitest';
import {
  faoExtraterrestrialHour,
  faoNetLongwaveDayMJ,
  faoNetLongwaveHourMJ,
  faoPsychrometerKPa,
  faoPsychrometricKPaK,
  faoSaturationKPa,
  faoSlopeKPaK,
  penmanMonteithDailyMm,
  penmanMonteithHourly,
  penmanMonteithHourlyMm,
  pressureAtElevationHPa,
} from '../../src/physics/index.ts';
import {
  FAO_DAILY,
  FAO_HOURLY,
  FAO_LONGWAVE,
  FAO_PSYCHROMETER,
} from '../fixtures/published/water.ts';

const near = (value: number, want: number, tolerance: number, what: string) =>
  expect(Math.abs(value - want), `${what}: ${value} against ${want}`).toBeLessThanOrEqual(
    tolerance,
  );

describe('FAO-56 example 4', () => {
  it('reads 1.91 kPa off a psychrometer', () => {
    near(
      faoPsychrometerKPa(FAO_PSYCHROMETER),
      FAO_PSYCHROMETER.kPa,
      FAO_PSYCHROMETER.tolerance,
      'ea',
    );
  });
});

describe('FAO-56 example 11', () => {
  it('loses 3.5 MJ/m2 a day by long wave', () => {
    near(faoNetLongwaveDayMJ(FAO_LONGWAVE), FAO_LONGWAVE.mj, FAO_LONGWAVE.tolerance, 'Rnl');
  });
});

describe('FAO-56 example 17', () => {
  it('evaporates 5.72 mm a day', () => {
    near(
      faoSlopeKPaK(FAO_DAILY.airTempC),
      FAO_DAILY.slope.value,
      FAO_DAILY.slope.tolerance,
      'slope',
    );
    near(
      penmanMonteithDailyMm({ ...FAO_DAILY, grass: true }),
      FAO_DAILY.mm.value,
      FAO_DAILY.mm.tolerance,
      'ET0',
    );
  });
});

describe('FAO-56 example 19', () => {
  const ex = FAO_HOURLY;
  const t = ex.terms;
  const saturation = faoSaturationKPa(ex.airTempC);
  const vapour = (saturation * ex.relHumPct) / 100;
  const sun = faoExtraterrestrialHour(ex);
  const clearSky = (0.75 + 2e-5 * ex.elevationM) * sun.radiationMJ;
  const netShort = (1 - ex.albedo) * ex.solarMJ;
  const netLong = faoNetLongwaveHourMJ({
    airTempC: ex.airTempC,
    vapourPressureKPa: vapour,
    relativeShortwave: ex.solarMJ / clearSky,
  });
  const net = netShort - netLong;
  const pressureKPa = pressureAtElevationHPa(ex.elevationM) / 10;

  it('has every printed term', () => {
    near(faoSlopeKPaK(ex.airTempC), t.slope, ex.termTolerance, 'slope');
    near(faoPsychrometricKPaK(pressureKPa), t.gamma, ex.termTolerance, 'gamma');
    near(saturation, t.saturation, ex.termTolerance, 'es');
    near(vapour, t.vapour, ex.termTolerance, 'ea');
    near(sun.hourAngleRad, t.omega, ex.termTolerance, 'omega');
    near(sun.radiationMJ, t.extraterrestrial, ex.termTolerance, 'Ra');
    near(clearSky, t.clearSky, ex.termTolerance, 'Rso');
    near(ex.solarMJ / clearSky, t.ratio, ex.termTolerance, 'Rs/Rso');
    near(netShort, t.netShort, ex.termTolerance, 'Rns');
    near(netLong, t.netLong, ex.termTolerance, 'Rnl');
    near(net, t.net, ex.termTolerance, 'Rn');
    near(ex.groundShare * net, t.ground, ex.termTolerance, 'G');
  });

  it('evaporates 0.46 + 0.17 = 0.63 mm in the hour', () => {
    const args = {
      airTempC: ex.airTempC,
      saturationKPa: null,
      vapourPressureKPa: vapour,
      windMps: ex.windMps,
      netRadiationMJ: net,
      groundHeatMJ: ex.groundShare * net,
      pressureKPa,
      grass: true,
    };
    const terms = penmanMonteithHourly(args);
    near(terms.radiationMm, ex.radiationMm, ex.mmTolerance, 'radiation');
    near(terms.aerodynamicMm, ex.aerodynamicMm, ex.mmTolerance, 'aerodynamic');
    near(penmanMonteithHourlyMm(args), ex.mm, ex.mmTolerance, 'ET0');
    // A film has no leaf resistance: more leaves in the same hour.
    expect(penmanMonteithHourlyMm({ ...args, grass: false })).toBeGreaterThan(ex.mm);
  });
});
