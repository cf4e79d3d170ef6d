/** What must hold of any exposed surface stepped through any weather: heat, and the step of the grid. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type SurfaceSpec, surfaceWeather } from '../../src/weather/index.ts';
import { air, MILD, ROOFS, real, roofs } from '../fixtures/weather/any-weather.ts';
import { type Air, BOARD, gridOf, roofOf } from '../fixtures/weather/by-hand.ts';

/** Temperature after steady weather. */
function endC(spec: SurfaceSpec, now: Air, hours = 6): number {
  return surfaceWeather(gridOf({ hours, at: () => now }), spec, 50).surfaceTempC.at(-1)!;
}

describe('sun, wind and cloud', () => {
  it('more sun never cools a dry surface, and more absorbed never either', () => {
    fc.assert(
      fc.property(roofs, air, real(0, 1000), (spec, now, other) => {
        const dry = { ...now, rainMmPerHour: 0, dewPointC: now.airTempC - 25 };
        const [less, more] = [dry.solarWm2, other].sort((a, b) => a - b) as [number, number];
        expect(endC(spec, { ...dry, solarWm2: more })).toBeGreaterThanOrEqual(
          endC(spec, { ...dry, solarWm2: less }) - 1e-4,
        );
        expect(endC({ ...spec, solarAbsorptance: 0.94 }, dry)).toBeGreaterThanOrEqual(
          endC({ ...spec, solarAbsorptance: 0.3 }, dry) - 1e-4,
        );
      }),
      { numRuns: 60 },
    );
  });

  it('more wind draws a dry surface towards the air: hot ones down, cold ones up', () => {
    fc.assert(
      fc.property(air, real(0.5, 10), fc.boolean(), (now, moreMps, day) => {
        const dry = {
          ...now,
          rainMmPerHour: 0,
          dewPointC: now.airTempC - 25,
          cloudPct: 0,
          solarWm2: day ? 700 : 0,
        };
        const calm = endC(roofOf(), dry) - dry.airTempC;
        const windy = endC(roofOf(), { ...dry, windMps: dry.windMps + moreMps }) - dry.airTempC;
        expect(Math.sign(calm)).toBe(day ? 1 : -1);
        expect(Math.abs(windy)).toBeLessThan(Math.abs(calm) + 1e-3);
      }),
      { numRuns: 60 },
    );
  });

  it('at night more cloud never leaves a surface colder', () => {
    fc.assert(
      fc.property(roofs, air, real(0, 100), (spec, now, other) => {
        const [less, more] = [now.cloudPct, other].sort((a, b) => a - b) as [number, number];
        const night = { ...now, solarWm2: 0, rainMmPerHour: 0 };
        expect(endC(spec, { ...night, cloudPct: more })).toBeGreaterThanOrEqual(
          endC(spec, { ...night, cloudPct: less }) - 2e-3,
        );
      }),
      { numRuns: 80 },
    );
  });

  it('a skyline takes the sun away when it stands behind it', () => {
    const sunny = { ...MILD, solarWm2: 600 };
    const open = endC(roofOf({ fallDeg: 10 }), sunny);
    const shade = endC(
      roofOf({ fallDeg: 10, horizon: [{ azimuthDeg: 180, elevationDeg: 60 }] }),
      sunny,
    );
    expect(shade).toBeLessThan(open - 5);
  });
});

describe('the step of the grid', () => {
  /** A spring day with a shower at seven and sun after it. */
  const day = (h: number): Air => ({
    airTempC: 15 - 6 * Math.cos((Math.PI * (h - 3)) / 12),
    dewPointC: 8,
    windMps: 2,
    cloudPct: 10,
    solarWm2: Math.max(0, 850 * Math.sin((Math.PI * (h - 6)) / 12)),
    rainMmPerHour: h > 7 && h < 8.5 ? 2 : 0,
  });
  const wetUntilH = (filmMm: Float32Array, stepMin: number): number =>
    (filmMm.findLastIndex((mm) => mm >= 0.01) + 1) * (stepMin / 60);

  it.each(['sheet over insulation', 'folded sheet', 'bare board'])(
    'halved or cut to a minute it changes little: %s',
    (name) => {
      const spec = ROOFS[name]!;
      const coarse = surfaceWeather(gridOf({ hours: 24, at: day }), spec, 0);
      for (const stepMin of [2.5, 1]) {
        const fine = surfaceWeather(gridOf({ hours: 24, stepMin, at: day }), spec, 0);
        const per = 5 / stepMin;
        const errors = Array.from(
          coarse.surfaceTempC,
          (tempC, i) => tempC - fine.surfaceTempC[(i + 1) * per - 1]!,
        );
        // While the last of a film goes, the two differ by when: a step of time, some K of temperature.
        const dries = Array.from(fine.filmMm.keys()).filter(
          (k) => k > 0 && fine.filmMm[k - 1]! > 0 && fine.filmMm[k] === 0,
        );
        const away = errors.filter((_, i) => dries.every((k) => Math.abs(i - k / per) > 3));
        expect(Math.max(...away.map(Math.abs))).toBeLessThan(1);
        expect(Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length)).toBeLessThan(
          0.5,
        );
        expect(
          Math.abs(wetUntilH(coarse.filmMm, 5) - wetUntilH(fine.filmMm, stepMin)),
        ).toBeLessThan(0.2);
      }
    },
  );

  it('a thin sheet over insulation meets sudden sun without a swing', () => {
    const grid = gridOf({
      hours: 4,
      at: (h) => ({ ...MILD, windMps: 0.5, solarWm2: h < 1 || h > 3 ? 0 : 1000 }),
    });
    const { surfaceTempC } = surfaceWeather(grid, roofOf(), 0);
    for (let i = 13; i < 36; i += 1)
      expect(surfaceTempC[i]).toBeGreaterThanOrEqual(surfaceTempC[i - 1]! - 1e-3);
    for (let i = 37; i < 48; i += 1)
      expect(surfaceTempC[i]).toBeLessThanOrEqual(surfaceTempC[i - 1]! + 1e-3);
    // 95 % of the rise is done in a quarter of an hour, as 1.7 kJ/m2K over 15 W/m2K asks for; the rest
    // is the insulation warming through.
    const riseK = surfaceTempC[35]! - surfaceTempC[11]!;
    expect(surfaceTempC[35]! - surfaceTempC[15]!).toBeLessThan(0.05 * riseK);
  });

  it('in any weather: numbers throughout, and no swinging from step to step in steady weather', () => {
    fc.assert(
      fc.property(roofs, air, (spec, now) => {
        const { surfaceTempC } = surfaceWeather(gridOf({ hours: 3, at: () => now }), spec, 500);
        expect(surfaceTempC.every(Number.isFinite)).toBe(true);
        for (const tempC of surfaceTempC) {
          expect(tempC).toBeGreaterThan(-45);
          expect(tempC).toBeLessThan(120);
        }
        // After two hours of the same weather a swing would show as steps of alternating sign.
        for (let i = 26; i < 36; i += 1) {
          const one = surfaceTempC[i]! - surfaceTempC[i - 1]!;
          const two = surfaceTempC[i - 1]! - surfaceTempC[i - 2]!;
          if (one * two < 0) expect(Math.min(Math.abs(one), Math.abs(two))).toBeLessThan(0.3);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('beyond what a member knows, nothing is made up', () => {
    const grid = { ...gridOf({ hours: 2, at: () => MILD }), knownSteps: Int32Array.of(10) };
    const out = surfaceWeather(grid, BOARD, 0);
    for (const column of [out.surfaceTempC, out.dewMarginK, out.filmMm, out.soakedMm]) {
      expect(column.subarray(0, 10).every(Number.isFinite)).toBe(true);
      expect(column.subarray(10).every(Number.isNaN)).toBe(true);
    }
  });
});
