/** What must hold of sun times and sunlight wherever the roof stands. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clearSkyWm2,
  diffuseFraction,
  planeIrradianceWm2,
  sunPosition,
  sunTimes,
} from '../../src/physics/index.ts';

const HOUR = 3_600_000;
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const dayOf2026 = fc.integer({ min: 0, max: 364 });
const place = fc.record({ latitudeDeg: real(-60, 60), longitudeDeg: real(-180, 180) });

/** A day from one solar midnight (to the nearest hour angle of longitude) to the next. */
const solarDay = (day: number, longitudeDeg: number) => {
  const dayStartMs = Date.UTC(2026, 0, 1) + day * 24 * HOUR - (longitudeDeg / 15) * HOUR;
  return { dayStartMs, dayEndMs: dayStartMs + 24 * HOUR };
};

describe('sun times', () => {
  it('lie even about the highest sun within a minute', () => {
    fc.assert(
      fc.property(dayOf2026, place, (day, where) => {
        const t = sunTimes({ ...solarDay(day, where.longitudeDeg), ...where });
        if (t.sunriseMs === null || t.sunsetMs === null) throw new Error('the sun must rise');
        const middle = (t.sunriseMs + t.sunsetMs) / 2;
        const at = (ms: number) => sunPosition({ ...where, atMs: ms }).elevationDeg;
        // Declination drifts, most at the equinoxes and high latitudes, hence the minute.
        const rising = at(t.sunriseMs);
        expect(Math.abs(rising - at(t.sunsetMs))).toBeLessThan(0.001);
        const noonSide = sunPosition({ ...where, atMs: middle });
        const fromMeridian = Math.min(
          Math.abs(noonSide.azimuthDeg - 180),
          noonSide.azimuthDeg,
          360 - noonSide.azimuthDeg,
        );
        const degPerMinute =
          (0.25 * Math.cos((23.5 * Math.PI) / 180)) /
          Math.max(0.02, Math.cos((noonSide.elevationDeg * Math.PI) / 180));
        expect(fromMeridian).toBeLessThan(degPerMinute * 1.2 + 0.02);
      }),
    );
  });

  it('come in the order dawn, sunrise, sunset, dusk', () => {
    fc.assert(
      fc.property(dayOf2026, place, (day, where) => {
        fc.pre(Math.abs(where.latitudeDeg) < 55);
        const t = sunTimes({ ...solarDay(day, where.longitudeDeg), ...where });
        const order = [t.civilDawnMs, t.sunriseMs, t.sunsetMs, t.civilDuskMs];
        expect(order).not.toContain(null);
        expect(order).toEqual([...order].sort((a, b) => a! - b!));
        expect(t.polar).toBeNull();
      }),
    );
  });

  it('have the sun at 0.833 and 6 degrees below', () => {
    fc.assert(
      fc.property(dayOf2026, place, (day, where) => {
        const t = sunTimes({ ...solarDay(day, where.longitudeDeg), ...where });
        const at = (atMs: number) => sunPosition({ ...where, atMs }).elevationDeg;
        if (t.sunriseMs !== null) expect(at(t.sunriseMs)).toBeCloseTo(-0.833, 2);
        if (t.civilDuskMs !== null) expect(at(t.civilDuskMs)).toBeCloseTo(-6, 2);
      }),
    );
  });

  it('say "none" in the polar day and night, never NaN', () => {
    const north = { latitudeDeg: 69.65, longitudeDeg: 18.95 };
    const at = (month: number, day: number) => {
      const dayStartMs = Date.UTC(2026, month - 1, day) - HOUR;
      return sunTimes({ ...north, dayStartMs, dayEndMs: dayStartMs + 24 * HOUR });
    };
    expect(at(6, 21)).toEqual({
      sunriseMs: null,
      sunsetMs: null,
      civilDawnMs: null,
      civilDuskMs: null,
      polar: 'day',
    });
    const winter = at(12, 21);
    expect(winter.polar).toBe('night');
    expect(winter.sunriseMs).toBeNull();
    // At noon it still comes within 6 degrees of the horizon.
    expect(winter.civilDawnMs).not.toBeNull();
  });

  it('fill in a day with only a sunset, at the end of the polar day', () => {
    const where = { latitudeDeg: 69.65, longitudeDeg: 18.95 };
    const seen: string[] = [];
    for (let d = 15; d < 32; d += 1) {
      const dayStartMs = Date.UTC(2026, 6, d) - 2 * HOUR;
      const t = sunTimes({ ...where, dayStartMs, dayEndMs: dayStartMs + 24 * HOUR });
      seen.push(
        t.polar ?? `${t.sunriseMs === null ? '-' : 'up'}/${t.sunsetMs === null ? '-' : 'down'}`,
      );
    }
    expect(seen[0]).toBe('day');
    expect(seen.at(-1)).toBe('up/down');
    expect(seen).not.toContain('night');
  });

  it('work on days of 23 and 25 hours', () => {
    const berlin = { latitudeDeg: 52.5, longitudeDeg: 13.4 };
    // Clocks go forward on 29 March 2026 and back on 25 October 2026 (01:00 UTC).
    const spring = { dayStartMs: Date.UTC(2026, 2, 28, 23), dayEndMs: Date.UTC(2026, 2, 29, 22) };
    const autumn = { dayStartMs: Date.UTC(2026, 9, 24, 22), dayEndMs: Date.UTC(2026, 9, 25, 23) };
    for (const day of [spring, autumn]) {
      const t = sunTimes({ ...berlin, ...day });
      for (const ms of [t.civilDawnMs, t.sunriseMs, t.sunsetMs, t.civilDuskMs]) {
        expect(ms).toBeGreaterThan(day.dayStartMs);
        expect(ms).toBeLessThan(day.dayEndMs);
      }
    }
    expect(() => sunTimes({ ...berlin, ...spring, dayEndMs: spring.dayStartMs + HOUR })).toThrow(
      'dayEndMs',
    );
  });
});

describe('sunlight on a plane', () => {
  const sky = fc.record({
    globalWm2: real(0, 1200),
    sunElevationDeg: real(-10, 90),
    sunAzimuthDeg: real(0, 360),
  });
  const open = { skylineElevationDeg: -90, groundReflectance: 0.2 };

  it('is the global itself on a flat roof in the open', () => {
    fc.assert(
      fc.property(sky, real(0, 360), (s, azimuthDeg) => {
        const got = planeIrradianceWm2({ ...s, ...open, diffuseWm2: null, fallDeg: 0, azimuthDeg });
        expect(Math.abs(got - s.globalWm2)).toBeLessThan(1e-9 * (1 + s.globalWm2));
      }),
    );
  });

  it('is never more behind a skyline', () => {
    fc.assert(
      fc.property(sky, real(0, 90), real(0, 360), (s, fallDeg, azimuthDeg) => {
        const args = { ...s, ...open, diffuseWm2: null, fallDeg, azimuthDeg };
        const shaded = planeIrradianceWm2({ ...args, skylineElevationDeg: 90 });
        expect(shaded).toBeLessThanOrEqual(planeIrradianceWm2(args) + 1e-9);
        expect(shaded).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('is most on the face turned to the sun and stays finite at sunrise', () => {
    fc.assert(
      fc.property(real(0.1, 60), real(50, 800), (sunElevationDeg, globalWm2) => {
        const at = (azimuthDeg: number) =>
          planeIrradianceWm2({
            globalWm2,
            diffuseWm2: 0,
            sunElevationDeg,
            sunAzimuthDeg: 120,
            fallDeg: 90,
            azimuthDeg,
            ...open,
          });
        expect(at(120)).toBeGreaterThan(at(180));
        expect(at(180)).toBeGreaterThan(at(300));
        // No beam is stronger than outside the air.
        expect(at(120)).toBeLessThan(1366.1 + globalWm2);
      }),
    );
  });

  it('has a diffuse share that never leaves 0.165..1 and falls with clearness', () => {
    fc.assert(
      fc.property(real(0, 1.2), (k) => {
        expect(diffuseFraction(k)).toBeGreaterThanOrEqual(0.165 - 0.001);
        expect(diffuseFraction(k)).toBeLessThanOrEqual(1);
        // The quartic dips 0.0008 under its own end value before 0.8.
        expect(diffuseFraction(k + 0.05)).toBeLessThanOrEqual(diffuseFraction(k) + 0.002);
      }),
    );
  });

  it('under a clear sky grows with the sun', () => {
    fc.assert(
      fc.property(real(0, 85), fc.integer({ min: 1, max: 366 }), (sunElevationDeg, dayOfYear) => {
        const low = clearSkyWm2({ sunElevationDeg, dayOfYear }).globalWm2;
        const high = clearSkyWm2({ sunElevationDeg: sunElevationDeg + 5, dayOfYear }).globalWm2;
        expect(high).toBeGreaterThan(low);
      }),
    );
  });
});
