/** What must hold of the heat and water balance of an exposed face. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  convectionWm2K,
  evaporationMmPerHour,
  latentHeatJkg,
  latentSlopeWm2K,
  magnusIceHPa,
  magnusWaterHPa,
  skyRadiationWm2,
  steadySurfaceTempC,
  steadyWetSurfaceTempC,
  stepSurfaceTempC,
} from '../../src/physics/index.ts';

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const weather = fc.record({
  airTempC: real(-15, 35),
  spreadK: real(2, 20),
  windMps: real(0, 12),
  cloudPct: real(0, 100),
  emissivity: real(0.2, 1),
  conductanceWm2K: real(0, 5),
});
type Weather = typeof weather extends fc.Arbitrary<infer W> ? W : never;

const drive = (w: Weather, absorbedWm2: number) => ({
  absorbedWm2,
  skyWm2: skyRadiationWm2({
    airTempC: w.airTempC,
    dewPointC: w.airTempC - w.spreadK,
    cloudPct: w.cloudPct,
  }),
  emissivity: w.emissivity,
  convectionWm2K: convectionWm2K(w.windMps),
  airTempC: w.airTempC,
  conductanceWm2K: w.conductanceWm2K,
  belowTempC: w.airTempC,
});

describe('a dry face at rest', () => {
  it('balances: what comes in goes out within 1e-4 W/m2', () => {
    fc.assert(
      fc.property(weather, real(0, 1000), (w, absorbed) => {
        const d = drive(w, absorbed);
        const t = steadySurfaceTempC(d);
        const out =
          d.emissivity * 5.670374419e-8 * (t + 273.15) ** 4 +
          d.convectionWm2K * (t - d.airTempC) +
          d.conductanceWm2K * (t - d.belowTempC);
        expect(Math.abs(d.absorbedWm2 + d.emissivity * d.skyWm2 - out)).toBeLessThan(1e-4);
      }),
    );
  });

  it('warms with sun and with absorptance', () => {
    fc.assert(
      fc.property(weather, real(50, 1000), real(0.05, 0.9), (w, sun, absorptance) => {
        const at = (s: number, a: number) => steadySurfaceTempC(drive(w, s * a));
        expect(at(sun * 1.1, absorptance)).toBeGreaterThan(at(sun, absorptance));
        expect(at(sun, absorptance + 0.05)).toBeGreaterThan(at(sun, absorptance));
      }),
    );
  });

  it('comes closer to the air the more wind there is', () => {
    fc.assert(
      fc.property(weather, real(0, 900), (w, absorbed) => {
        const apart = (windMps: number) =>
          Math.abs(steadySurfaceTempC(drive({ ...w, windMps }, absorbed)) - w.airTempC);
        expect(apart(w.windMps + 1)).toBeLessThanOrEqual(apart(w.windMps) + 1e-6);
      }),
    );
    const sunny = drive(
      { airTempC: 20, spreadK: 8, windMps: 1, cloudPct: 0, emissivity: 0.86, conductanceWm2K: 0 },
      800,
    );
    const windy = { ...sunny, convectionWm2K: convectionWm2K(6) };
    expect(steadySurfaceTempC(sunny) - steadySurfaceTempC(windy)).toBeGreaterThan(10);
  });

  it('without sun under a clear sky is colder than the air, and warms as cloud thickens', () => {
    fc.assert(
      fc.property(weather, real(0, 90), (w, cloudPct) => {
        const at = (cloud: number) => steadySurfaceTempC(drive({ ...w, cloudPct: cloud }, 0));
        expect(at(0)).toBeLessThan(w.airTempC);
        expect(at(cloudPct + 10)).toBeGreaterThanOrEqual(at(cloudPct) - 1e-6);
        expect(at(100)).toBeGreaterThan(at(0));
      }),
    );
  });

  it('refuses a face that can lose no heat', () => {
    const d = drive(
      { airTempC: 10, spreadK: 5, windMps: 0, cloudPct: 0, emissivity: 0.5, conductanceWm2K: 0 },
      100,
    );
    expect(() => steadySurfaceTempC({ ...d, emissivity: 0, convectionWm2K: 0 })).toThrow(
      'can lose no heat',
    );
  });
});

describe('a face stepped through time', () => {
  const start = fc.record({ surfaceTempC: real(-20, 70), capacityJm2K: real(1500, 20_000) });

  it('comes to rest at the steady temperature, whatever the step', () => {
    fc.assert(
      fc.property(weather, start, real(0, 900), real(300, 1e6), (w, s, absorbed, stepS) => {
        const d = drive(w, absorbed);
        // Bare metal in calm sun gets hotter than any roof, and than the model goes.
        fc.pre(steadySurfaceTempC(d) < 140);
        let surfaceTempC = s.surfaceTempC;
        for (let i = 0; i < 60 + (60 * s.capacityJm2K) / stepS; i += 1)
          surfaceTempC = stepSurfaceTempC({ ...d, ...s, surfaceTempC, stepS, latentWm2: 0 });
        expect(surfaceTempC).toBeCloseTo(steadySurfaceTempC(d), 3);
      }),
      { numRuns: 60 },
    );
  });

  it('moves towards the steady temperature, and past it only by the bend of the long wave', () => {
    fc.assert(
      fc.property(weather, start, real(0, 900), real(1, 1e7), (w, s, absorbed, stepS) => {
        const d = drive(w, absorbed);
        const end = steadySurfaceTempC(d);
        const next = stepSurfaceTempC({ ...d, ...s, stepS, latentWm2: 0 });
        const gap = end - s.surfaceTempC;
        if (Math.abs(gap) < 0.01) return;
        expect((next - s.surfaceTempC) * Math.sign(gap)).toBeGreaterThan(0);
        // The long wave is a straight line within a step. Too far by at most Taylor's remainder; when
        // cooling, not at all.
        const hotK = Math.max(end, s.surfaceTempC) + 273.15;
        const stiffness =
          4 * d.emissivity * 5.67e-8 * (s.surfaceTempC + 273.15) ** 3 +
          d.convectionWm2K +
          d.conductanceWm2K;
        const bendK = (6 * d.emissivity * 5.671e-8 * hotK * hotK * gap * gap) / stiffness;
        expect((next - end) * Math.sign(gap)).toBeLessThan(gap > 0 ? bendK + 1e-3 : 1e-3);
      }),
    );
  });

  it('keeps its books: heat stored over a day is the heat that came in, within 0.2 %', () => {
    const capacityJm2K = 16_000;
    let surfaceTempC = 8;
    let inJ = 0;
    let throughJ = 0;
    for (let i = 0; i < 288; i += 1) {
      const sun = Math.max(0, 700 * Math.sin(((i - 72) / 144) * Math.PI));
      const d = drive(
        {
          airTempC: 12 + 6 * Math.sin((i - 108) / 45.8),
          spreadK: 6,
          windMps: 2,
          cloudPct: 20,
          emissivity: 0.9,
          conductanceWm2K: 0.5,
        },
        0.9 * sun,
      );
      const next = stepSurfaceTempC({ ...d, capacityJm2K, surfaceTempC, stepS: 300, latentWm2: 0 });
      const k = next + 273.15;
      // The true, curved fluxes at the end of the step, not the straight ones the step used.
      const netWm2 =
        d.absorbedWm2 +
        d.emissivity * (d.skyWm2 - 5.670374419e-8 * k ** 4) -
        d.convectionWm2K * (next - d.airTempC) -
        d.conductanceWm2K * (next - d.belowTempC);
      inJ += netWm2 * 300;
      throughJ += (d.absorbedWm2 + d.emissivity * d.skyWm2) * 300;
      surfaceTempC = next;
    }
    const storedJ = capacityJm2K * (surfaceTempC - 8);
    expect(Math.abs(inJ - storedJ) / throughJ).toBeLessThan(0.002);
    expect(throughJ).toBeGreaterThan(1e7);
  });

  it('does not swing on a thin wet sheet in wind when given the slope of the latent heat', () => {
    const pressureHPa = 1013.25;
    const vapourPressureHPa = magnusWaterHPa(8);
    const d = {
      absorbedWm2: 500,
      skyWm2: 300,
      emissivity: 0.9,
      convectionWm2K: convectionWm2K(6),
      airTempC: 18,
      conductanceWm2K: 0.3,
      belowTempC: 18,
    };
    const end = steadyWetSurfaceTempC({ ...d, vapourPressureHPa, pressureHPa });
    const run = (withSlope: boolean) => {
      let surfaceTempC = 30;
      for (let i = 0; i < 40; i += 1) {
        const latentWm2 =
          (latentHeatJkg(surfaceTempC) *
            evaporationMmPerHour({ ...d, surfaceTempC, vapourPressureHPa, pressureHPa })) /
          3600;
        const latentSlope = latentSlopeWm2K({ ...d, surfaceTempC, pressureHPa });
        surfaceTempC = stepSurfaceTempC({
          ...d,
          surfaceTempC,
          capacityJm2K: 2600,
          stepS: 300,
          latentWm2: Math.max(-2000, Math.min(2000, latentWm2)),
          latentSlopeWm2K: withSlope ? latentSlope : 0,
        });
        if (Math.abs(surfaceTempC) > 90) return surfaceTempC;
      }
      return surfaceTempC;
    };
    expect(run(true)).toBeCloseTo(end, 2);
    expect(Math.abs(run(false) - end)).toBeGreaterThan(2);
  });
});

describe('a wet face', () => {
  const wet = (surfaceTempC: number, vapourPressureHPa: number, convection = 15) =>
    evaporationMmPerHour({
      surfaceTempC,
      airTempC: 20,
      vapourPressureHPa,
      convectionWm2K: convection,
      pressureHPa: 1000,
    });

  it('dries faster the warmer it is, the drier the air and the more the wind', () => {
    fc.assert(
      fc.property(real(-20, 70), real(0, 6), (surfaceTempC, vapour) => {
        expect(wet(surfaceTempC + 1, vapour)).toBeGreaterThan(wet(surfaceTempC, vapour));
        expect(wet(surfaceTempC, vapour)).toBeGreaterThan(wet(surfaceTempC, vapour + 0.5));
        if (wet(surfaceTempC, vapour) > 0) {
          expect(wet(surfaceTempC, vapour, 20)).toBeGreaterThan(wet(surfaceTempC, vapour));
        }
      }),
    );
  });

  it('turns from drying to dew exactly at the dew point, to frost at the frost point', () => {
    fc.assert(
      fc.property(real(-30, 40), (faceC) => {
        const vapour = faceC >= 0 ? magnusWaterHPa(faceC) : magnusIceHPa(faceC);
        expect(wet(faceC, vapour)).toBe(0);
        expect(wet(faceC + 0.001, vapour)).toBeGreaterThan(0);
        expect(wet(faceC - 0.001, vapour)).toBeLessThan(0);
      }),
    );
  });

  it('is never warmer than the same face dry while it dries, never colder while dew forms', () => {
    fc.assert(
      fc.property(weather, real(0, 500), (w, absorbed) => {
        const d = drive(w, absorbed);
        const dry = steadySurfaceTempC(d);
        const vapour = magnusWaterHPa(w.airTempC - w.spreadK);
        const t = steadyWetSurfaceTempC({ ...d, vapourPressureHPa: vapour, pressureHPa: 1000 });
        const drying = wet(dry, vapour) > 0;
        if (drying) expect(t).toBeLessThanOrEqual(dry + 1e-5);
        else expect(t).toBeGreaterThanOrEqual(dry - 1e-5);
      }),
    );
  });
});
