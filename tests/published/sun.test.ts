/**
 * Sun position and times against the SPA worked example (NREL/TP-560-34302), NREL's calculator, USNO
 * tables, and the library suncalc 2.0.2. Rows: tests/fixtures/published/sun.ts.
 */
import { getPosition, getTimes } from 'suncalc';
import { describe, expect, it } from 'vitest';
import { type SunTimes, sunPosition, sunTimes } from '../../src/physics/index.ts';
import { SOLAR_TRANSIT, SUN_POSITION, SUN_TIMES } from '../fixtures/published/sun.ts';

const HOUR = 3_600_000;

const localDay = (day: readonly number[], utcOffsetH: number) => {
  const dayStartMs = Date.UTC(day[0]!, day[1]! - 1, day[2]!) - utcOffsetH * HOUR;
  return { dayStartMs, dayEndMs: dayStartMs + 24 * HOUR };
};
const clockMs = (text: string) => {
  const [h, m, s] = text.split(':').map(Number);
  return ((h! * 60 + m!) * 60 + s!) * 1000;
};
const seconds = (a: number | null, b: number) => Math.abs((a ?? Number.NaN) - b) / 1000;

describe('sun position', () => {
  it('matches the SPA worked example', () => {
    const got = sunPosition(SUN_POSITION);
    expect(Math.abs(got.elevationDeg - SUN_POSITION.elevationDeg)).toBeLessThan(
      SUN_POSITION.toleranceDeg,
    );
    expect(Math.abs(got.apparentElevationDeg - SUN_POSITION.apparentElevationDeg)).toBeLessThan(
      SUN_POSITION.toleranceDeg,
    );
    expect(Math.abs(got.azimuthDeg - SUN_POSITION.azimuthDeg)).toBeLessThan(
      SUN_POSITION.toleranceDeg,
    );
  });

  it('does better than the 0.05 deg allowed: within 0.01 deg of SPA', () => {
    const got = sunPosition(SUN_POSITION);
    expect(Math.abs(got.elevationDeg - SUN_POSITION.elevationDeg)).toBeLessThan(0.01);
    expect(Math.abs(got.azimuthDeg - SUN_POSITION.azimuthDeg)).toBeLessThan(0.01);
  });

  it('agrees with suncalc over the year and the globe within 0.02 deg', () => {
    let rows = 0;
    for (let day = 0; day < 366; day += 13) {
      for (const latitudeDeg of [-45, -20, 0, 35, 52, 68]) {
        for (const hour of [0, 5, 10, 15, 20]) {
          const atMs = Date.UTC(2026, 0, 1) + (day * 24 + hour) * HOUR;
          const longitudeDeg = ((day * 37) % 360) - 180;
          const own = sunPosition({ atMs, latitudeDeg, longitudeDeg });
          if (own.elevationDeg < 2 || own.elevationDeg > 88) continue;
          const other = getPosition(new Date(atMs), latitudeDeg, longitudeDeg);
          rows += 1;
          expect(Math.abs(own.apparentElevationDeg - other.altitude)).toBeLessThan(0.02);
          const turn = Math.abs(own.azimuthDeg - other.azimuth) * Math.cos(own.elevationDeg / 57.3);
          expect(Math.min(turn, 360 - turn)).toBeLessThan(0.02);
        }
      }
    }
    expect(rows).toBeGreaterThan(300);
  });

  it('crosses south at the transit NREL prints', () => {
    const { dayStartMs } = localDay(SOLAR_TRANSIT.day, SOLAR_TRANSIT.utcOffsetH);
    const at = (offsetMs: number) =>
      sunPosition({ ...SOLAR_TRANSIT, atMs: dayStartMs + clockMs(SOLAR_TRANSIT.clock) + offsetMs });
    expect(at(-60_000).azimuthDeg).toBeLessThan(180);
    expect(at(60_000).azimuthDeg).toBeGreaterThan(180);
  });
});

describe('sun times', () => {
  it.each(SUN_TIMES.rows)('$by $day $event is $clock', (row) => {
    const day = localDay(row.day, row.utcOffsetH);
    const got = sunTimes({ ...row, ...day })[row.event as keyof SunTimes] as number | null;
    expect(seconds(got, day.dayStartMs + clockMs(row.clock))).toBeLessThanOrEqual(
      SUN_TIMES.toleranceS,
    );
  });

  it('gives the sunset of the local day, not the one SPA prints for the UTC day', () => {
    const row = SUN_TIMES.wrongDay;
    const day = localDay(row.day, row.utcOffsetH);
    const got = sunTimes({ ...row, ...day }).sunsetMs;
    expect(seconds(got, day.dayStartMs + clockMs(row.printed))).toBeGreaterThan(80);
    // The day before has the printed one.
    const before = sunTimes({
      ...row,
      dayStartMs: day.dayStartMs - 24 * HOUR,
      dayEndMs: day.dayStartMs,
    }).sunsetMs;
    expect(seconds(before, day.dayStartMs - 24 * HOUR + clockMs(row.printed))).toBeLessThan(20);
  });

  it('agrees with suncalc within 30 s at latitudes people build at', () => {
    let worst = 0;
    let rows = 0;
    for (let day = 0; day < 365; day += 11) {
      for (const latitudeDeg of [-43, -12, 0, 25, 47, 58]) {
        // Greenwich: the local day is the UTC day.
        const dayStartMs = Date.UTC(2026, 0, 1) + day * 24 * HOUR;
        const own = sunTimes({
          dayStartMs,
          dayEndMs: dayStartMs + 24 * HOUR,
          latitudeDeg,
          longitudeDeg: 0,
        });
        const other = getTimes(new Date(dayStartMs + 12 * HOUR), latitudeDeg, 0);
        const pairs = [
          [own.sunriseMs, other.sunrise],
          [own.sunsetMs, other.sunset],
          [own.civilDawnMs, other.dawn],
          [own.civilDuskMs, other.dusk],
        ] as const;
        for (const [a, b] of pairs) {
          if (a === null || b === null) throw new Error(`no event at ${latitudeDeg} on day ${day}`);
          rows += 1;
          worst = Math.max(worst, seconds(a, b.getTime()));
        }
      }
    }
    expect(rows).toBe(34 * 6 * 4);
    expect(worst).toBeLessThan(30);
  });
});
