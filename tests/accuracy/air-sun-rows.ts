/** Accuracy of moist air, sun and sunlight. */
import psychrolib from 'psychrolib';
import { getPosition, getTimes } from 'suncalc';
import * as physics from '../../src/physics/index.ts';
import { degToRad } from '../../src/units/index.ts';
import * as air from '../fixtures/published/air.ts';
import * as sun from '../fixtures/published/sun.ts';
import { type AccuracyRow, percent, range, row } from './table.ts';

const HOUR = 3_600_000;

export function airRows(): AccuracyRow[] {
  psychrolib.SetUnitSystem(psychrolib.SI);
  const humid = range(5, 45, 5).flatMap((t) => range(30, 100, 10).map((rh) => ({ t, rh })));
  return [
    row(
      'saturation pressure, Hyland & Wexler',
      'ASHRAE 2017 table 3',
      '%',
      air.SATURATION.rows.map((r) =>
        percent(
          100 *
            (r.over === 'ice'
              ? physics.satVapPressureIceHPa(r.tempC)
              : physics.satVapPressureWaterHPa(r.tempC)),
          r.pa,
        ),
      ),
    ),
    row(
      'saturation pressure, Magnus, 0..50 °C',
      'Hyland & Wexler',
      '%',
      range(0, 50, 1).map((t) =>
        percent(physics.magnusWaterHPa(t), physics.satVapPressureWaterHPa(t)),
      ),
    ),
    row(
      'saturated humidity ratio',
      'ASHRAE 2017 table 2',
      '%',
      air.SATURATED_RATIO.rows.map((r) =>
        percent(
          physics.humidityRatio({
            vapourPressureHPa: physics.satVapPressureWaterHPa(r.tempC),
            pressureHPa: air.SATURATED_RATIO.pressureHPa,
          }),
          r.ratio,
        ),
      ),
    ),
    row(
      'dew point',
      'trade dew-point table',
      'K',
      air.DEW_POINTS.rows.map((r) => physics.dewPointC(r) - r.dewPointC),
    ),
    row(
      'dew point above freezing',
      'PsychroLib 2.5.0',
      'K',
      humid
        .map(({ t, rh }) => ({
          own: physics.dewPointC({ airTempC: t, relHumPct: rh }),
          other: psychrolib.GetTDewPointFromRelHum(t, rh / 100),
        }))
        .filter(({ other }) => other > 0.5)
        .map(({ own, other }) => own - other),
    ),
    row(
      'wet bulb above freezing, 900 hPa',
      'PsychroLib 2.5.0',
      'K',
      humid
        .map(({ t, rh }) => ({
          own: physics.wetBulbC({ airTempC: t, relHumPct: rh, pressureHPa: 900 }),
          other: psychrolib.GetTWetBulbFromRelHum(t, rh / 100, 90_000),
        }))
        .filter(({ own }) => own > 0.1)
        .map(({ own, other }) => own - other),
    ),
    row(
      'air pressure at elevation',
      'ASHRAE 2017 table 1',
      'hPa',
      air.PRESSURE.rows.map((r) => physics.pressureAtElevationHPa(r.elevationM) - r.pa / 100),
    ),
  ];
}

export function sunRows(): AccuracyRow[] {
  const spa = physics.sunPosition(sun.SUN_POSITION);
  const places = range(0, 360, 15).flatMap((day) =>
    [-45, 0, 35, 52].flatMap((latitudeDeg) =>
      [6, 10, 14].map((hour) => ({
        atMs: Date.UTC(2026, 0, 1) + (day * 24 + hour) * HOUR,
        latitudeDeg,
        longitudeDeg: 0,
      })),
    ),
  );
  const timesError = sun.SUN_TIMES.rows.map((r) => {
    const [year, month, day] = r.day;
    const dayStartMs = Date.UTC(year, month - 1, day) - r.utcOffsetH * HOUR;
    const got = physics.sunTimes({ ...r, dayStartMs, dayEndMs: dayStartMs + 24 * HOUR })[r.event];
    const [h, m, s] = r.clock.split(':').map(Number);
    const printed = dayStartMs + ((h! * 60 + m!) * 60 + s!) * 1000;
    return { by: r.by, error: ((got ?? Number.NaN) - printed) / 1000 };
  });
  const riseErrors = range(0, 360, 15).flatMap((day) =>
    [-43, 0, 25, 47, 58].map((latitudeDeg) => {
      const dayStartMs = Date.UTC(2026, 0, 1) + day * 24 * HOUR;
      const own = physics.sunTimes({
        dayStartMs,
        dayEndMs: dayStartMs + 24 * HOUR,
        latitudeDeg,
        longitudeDeg: 0,
      });
      const other = getTimes(new Date(dayStartMs + 12 * HOUR), latitudeDeg, 0).sunrise;
      return ((own.sunriseMs ?? Number.NaN) - (other?.getTime() ?? Number.NaN)) / 1000;
    }),
  );
  return [
    row('sun elevation and azimuth', 'SPA worked example', 'deg', [
      spa.elevationDeg - sun.SUN_POSITION.elevationDeg,
      spa.azimuthDeg - sun.SUN_POSITION.azimuthDeg,
    ]),
    row(
      'sun elevation over 2026',
      'suncalc 2.0.2',
      'deg',
      places
        .map((p) => ({ own: physics.sunPosition(p).apparentElevationDeg, p }))
        .filter(({ own }) => own > 2)
        .map(({ own, p }) => own - getPosition(new Date(p.atMs), p.latitudeDeg, 0).altitude),
    ),
    row(
      'sunrise and sunset',
      'SPA and NREL',
      's',
      timesError.filter((t) => t.by === 'SPA' || t.by === 'NREL').map((t) => t.error),
    ),
    row(
      'sunrise and sunset',
      'USNO, printed to the minute',
      's',
      timesError.filter((t) => t.by === 'USNO').map((t) => t.error),
    ),
    row('sunrise over 2026', 'suncalc 2.0.2', 's', riseErrors),
    row(
      'direct share of sunlight',
      'pvlib values of Erbs 1982',
      'W/m2',
      sun.DIFFUSE_SPLIT.rows.map((r) => {
        const outside = physics.extraterrestrialWm2(r.dayOfYear) * Math.cos(degToRad(r.zenithDeg));
        const share = 1 - physics.diffuseFraction(r.globalWm2 / outside);
        return r.globalWm2 * share - r.directHorizontalWm2;
      }),
    ),
    row(
      'sunlight on a slope',
      'pvlib',
      'W/m2',
      sun.PLANE.rows.map(
        (r) =>
          physics.planeIrradianceWm2({ ...sun.PLANE, ...r, skylineElevationDeg: 0 }) -
          (r.directWm2 + r.skyWm2 + r.groundWm2),
      ),
    ),
  ];
}
