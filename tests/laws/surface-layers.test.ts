/** Heat in the layers under a face: against the textbook's half-space, and kept to the last joule. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  planeIrradianceWm2,
  shelterFactor,
  skyViewOfSkyline,
  steadySurfaceTempC,
} from '../../src/physics/index.ts';
import { surfaceWeather } from '../../src/weather/index.ts';
import { type Face, newState, stepFace } from '../../src/weather/surface-core.ts';
import { ladderOf } from '../../src/weather/surface-ladder.ts';
import { lightOnFace, sunOnFace } from '../../src/weather/surface-sun.ts';
import { air, MILD, ROOFS, real, roofs } from '../fixtures/weather/any-weather.ts';
import {
  gridOf,
  INSULATION,
  NO_HEAT_BELOW,
  OSB,
  RUBBER,
  roofOf,
} from '../fixtures/weather/by-hand.ts';

const MASONRY = {
  name: 'masonry',
  thicknessM: 1,
  densityKgM3: 1800,
  conductivityWmK: 0.8,
  heatCapacityJkgK: 1000,
};
/** McAdams in a calm. */
const CALM_WM2K = 5.7;

function faceOf(spec: ReturnType<typeof roofOf>, stepS: number, changes: Partial<Face> = {}): Face {
  return {
    ladder: ladderOf(spec, stepS),
    stepS,
    emissivity: 0,
    pressureHPa: 1013,
    filmRoomMm: 1,
    soakRoomMm: 0,
    soakMmPerStep: 0,
    resistanceSpm: 0,
    supplyMmPerStep: 0,
    ...changes,
  };
}
const still = (airC: number, belowC: number) => ({
  absorbedWm2: 0,
  longwaveWm2: 0,
  windMps: 0,
  airC,
  dewC: -60,
  vapourHPa: 0.01,
  belowC,
  rainMm: 0,
});

/** Complementary error function, Abramowitz & Stegun 7.1.26 (error under 1.5e-7). */
function erfc(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const poly =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return poly * Math.exp(-x * x);
}

describe('a thick wall that meets warmer air (Carslaw & Jaeger 1959, half-space with convection)', () => {
  it.each([
    [300, 0.015],
    [1800, 0.03],
  ])('in steps of %i s: the rise after 1, 3 and 6 hours within %f of all of it', (stepS, band) => {
    const face = faceOf(roofOf({ layers: [MASONRY] }), stepS);
    const state = newState(face.ladder);
    const drive = still(10, 0);
    const alpha = MASONRY.conductivityWmK / (MASONRY.densityKgM3 * MASONRY.heatCapacityJkgK);
    for (let s = stepS; s <= 6 * 3600; s += stepS) {
      stepFace(face, state, drive);
      if (![3600, 3 * 3600, 6 * 3600].includes(s)) continue;
      const b = (CALM_WM2K * Math.sqrt(alpha * s)) / MASONRY.conductivityWmK;
      const share = 1 - Math.exp(b * b) * erfc(b);
      expect(Math.abs(state.tempsC[0]! / 10 - share)).toBeLessThan(band);
    }
  });
});

describe('layers', () => {
  it('a sheet is one element, a panel three or four, insulation four', () => {
    const nodes = (layer: typeof RUBBER): number =>
      ladderOf({ ...roofOf(), layers: [layer] }, 300).nodes - 1;
    expect(nodes(RUBBER)).toBe(1);
    expect(nodes(OSB)).toBe(3);
    expect(nodes(INSULATION)).toBe(4);
  });

  it('settle to the flow of EN ISO 6946: difference over the sum of the resistances', () => {
    const spec = roofOf({
      layers: [RUBBER, OSB, INSULATION],
      below: { kind: 'room', tempC: 20 },
    });
    const face = faceOf(spec, 300);
    const state = newState(face.ladder);
    for (let i = 0; i < 12 * 24 * 5; i += 1) stepFace(face, state, still(0, 20));
    const resistance = 0.1 + 0.1 / 0.025 + 0.018 / 0.13 + 0.0015 / 0.25 + 1 / CALM_WM2K;
    expect(CALM_WM2K * state.tempsC[0]!).toBeCloseTo(20 / resistance, 3);
  });

  it('what they hold grows by what flows in, in any weather and any step', () => {
    fc.assert(
      fc.property(
        roofs,
        real(60, 7200),
        real(-20, 40),
        real(-20, 40),
        real(0, 900),
        (spec, stepS, airC, startC, absorbedWm2) => {
          const face = faceOf(spec, stepS);
          const state = newState(face.ladder);
          state.tempsC.fill(startC);
          const { holdsJm2K, pathWm2K, nodes } = face.ladder;
          const held = (): number => holdsJm2K.reduce((sum, c, i) => sum + c * state.tempsC[i]!, 0);
          const drive = { ...still(airC, 15), absorbedWm2 };
          for (let i = 0; i < 20; i += 1) {
            const before = held();
            stepFace(face, state, drive);
            const inWm2 =
              absorbedWm2 +
              CALM_WM2K * (airC - state.tempsC[0]!) +
              pathWm2K[nodes - 1]! * (15 - state.tempsC[nodes - 1]!);
            expect(held() - before).toBeCloseTo(inWm2 * stepS, 3);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('half-hour steps stay numbers within bounds and end where five-minute steps end', () => {
    fc.assert(
      fc.property(roofs, air, (spec, now) => {
        const dry = { ...now, rainMmPerHour: 0, dewPointC: now.airTempC - 20 };
        const end = (stepMin: number): number =>
          surfaceWeather(gridOf({ hours: 24, stepMin, at: () => dry }), spec, 0).surfaceTempC.at(
            -1,
          )!;
        expect(Math.abs(end(30) - end(5))).toBeLessThan(0.3);
        const wet = surfaceWeather(gridOf({ hours: 24, stepMin: 30, at: () => now }), spec, 0);
        for (const tempC of wet.surfaceTempC) {
          expect(tempC).toBeGreaterThan(-45);
          expect(tempC).toBeLessThan(120);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('under a sheet they matter: over a panel noon comes later and lower than over insulation', () => {
    const day = gridOf({
      hours: 24,
      at: (h) => ({ ...MILD, solarWm2: Math.max(0, 900 * Math.sin((Math.PI * (h - 6)) / 12)) }),
    });
    const of = (name: string) => surfaceWeather(day, ROOFS[name]!, 0).surfaceTempC;
    const [light, heavy] = [of('sheet over insulation'), of('sheet on a board')];
    expect(Math.max(...heavy)).toBeLessThan(Math.max(...light));
    expect(heavy.indexOf(Math.max(...heavy))).toBeGreaterThan(light.indexOf(Math.max(...light)));
  });
});

describe('one step', () => {
  const sheet = roofOf({ layers: [RUBBER, NO_HEAT_BELOW] });

  it('of half an hour from shade into full sun lands on the steady balance, long wave and all', () => {
    const face = faceOf(sheet, 1800, { emissivity: 0.86 });
    const state = newState(face.ladder);
    state.tempsC.fill(10);
    const drive = { ...still(20, 20), absorbedWm2: 900, longwaveWm2: 330 };
    stepFace(face, state, drive);
    const steadyC = steadySurfaceTempC({
      absorbedWm2: 900,
      skyWm2: 330,
      emissivity: 0.86,
      convectionWm2K: CALM_WM2K,
      airTempC: 20,
      // The sheet's own 1.7 kJ/m2K over the step, held at 10 °C.
      conductanceWm2K: (0.0015 * 1150 * 1000) / 1800,
      belowTempC: 10,
    });
    expect(steadyC).toBeGreaterThan(80);
    expect(Math.abs(state.tempsC[0]! - steadyC)).toBeLessThan(0.5);
  });

  it('on five millimetres of water warms by no more than the water takes up (4186 J/kgK)', () => {
    const face = faceOf(sheet, 300, { filmRoomMm: 10 });
    const state = newState(face.ladder);
    state.tempsC.fill(20);
    state.filmMm = 5;
    stepFace(face, state, { ...still(20, 20), absorbedWm2: 500, vapourHPa: 23.4, dewC: 20 });
    const riseK = state.tempsC[0]! - 20;
    expect(riseK).toBeLessThan((500 * 300) / (5 * 4186));
    expect(riseK).toBeGreaterThan(4);
  });

  it('of a downpour brings a hot sheet down to the rain, by mixing heats', () => {
    const face = faceOf(sheet, 300);
    const state = newState(face.ladder);
    state.tempsC.fill(60);
    stepFace(face, state, { ...still(10, 10), rainMm: 5 });
    const mixedC = (1.725 * 60 + 5 * 4.186 * 10) / (1.725 + 5 * 4.186);
    expect(state.tempsC[0]).toBeLessThan(mixedC + 0.1);
    expect(state.tempsC[0]).toBeGreaterThan(5);
  });

  it('feels the wind that a parapet leaves (EN 1991-1-4 by `shelterFactor`)', () => {
    const sunny = (windMps: number) =>
      gridOf({ hours: 4, at: () => ({ ...MILD, windMps, solarWm2: 700 }) });
    const end = (windMps: number, parapetHeightM: number): number =>
      surfaceWeather(sunny(windMps), roofOf({ parapetHeightM }), 0).surfaceTempC.at(-1)!;
    const left = shelterFactor({ parapetHeightM: 1, roofHeightM: 10 });
    expect(end(4, 1)).toBeGreaterThan(end(4, 0) + 1);
    expect(end(4, 1)).toBeCloseTo(end(4 * left, 0), 3);
  });
});

describe('a surface that cannot be', () => {
  it.each([
    [{ emissivity: 1.2 }, /roof\.emissivity.*1\.2/],
    [{ solarAbsorptance: Number.NaN }, /roof\.solarAbsorptance.*NaN/],
    [{ pondingMm: -1 }, /roof\.pondingMm.*-1/],
    [{ layers: [{ ...RUBBER, thicknessM: 0 }] }, /roof\.layers\[0\]\.thicknessM.*0/],
    [{ layers: [] }, /no layers/],
  ])('is refused by the name of what is wrong: %o', (changes, words) => {
    const grid = gridOf({ hours: 1, at: () => MILD });
    expect(() => surfaceWeather(grid, roofOf(changes), 0)).toThrow(words);
  });
});

describe('sun on a face', () => {
  it('is that of `planeIrradianceWm2`, for any fall, direction and skyline', () => {
    fc.assert(
      fc.property(
        real(0, 90),
        real(0, 360),
        real(-10, 60),
        real(0, 1100),
        real(0, 50),
        (fallDeg, azimuthDeg, sunElevationDeg, globalWm2, skylineDeg) => {
          const horizon = skylineDeg < 5 ? [] : [{ azimuthDeg: 0, elevationDeg: skylineDeg }];
          const grid = {
            ...gridOf({ hours: 1, at: () => MILD }),
            sunElevationDeg: new Float32Array(12).fill(sunElevationDeg),
          };
          const spec = roofOf({ fallDeg, azimuthDeg, horizon });
          const sun = sunOnFace(grid, spec);
          fc.pre(sun.steps !== null && Math.abs(sunElevationDeg - skylineDeg) > 0.01);
          const expected = planeIrradianceWm2({
            globalWm2,
            diffuseWm2: null,
            sunElevationDeg: grid.sunElevationDeg[0]!,
            sunAzimuthDeg: 180,
            fallDeg,
            azimuthDeg,
            skylineElevationDeg: horizon[0]?.elevationDeg ?? 0,
            groundReflectance: 0.2,
            skyViewShare: skyViewOfSkyline(horizon, fallDeg, azimuthDeg),
            dayOfYear: 1,
          });
          expect(Math.abs(lightOnFace(sun, 0, globalWm2) - expected)).toBeLessThan(0.05);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('a wall close by warms a roof by night: it hides cold sky', () => {
    const night = gridOf({ hours: 6, at: () => ({ ...MILD, cloudPct: 0 }) });
    const end = (horizon: ReturnType<typeof roofOf>['horizon']): number =>
      surfaceWeather(night, roofOf({ horizon }), 0).surfaceTempC.at(-1)!;
    expect(end([{ azimuthDeg: 0, elevationDeg: 40 }])).toBeGreaterThan(end([]) + 0.5);
  });
});
