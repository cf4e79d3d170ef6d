/**
 * Every public function refuses NaN, infinities and values out of range in every numeric argument, and
 * says which, what it got and what it accepts. The unguarded twins of hot.ts agree with them.
 */
import { describe, expect, it } from 'vitest';
import * as physics from '../../src/physics/index.ts';

const film = {
  liquid: 'toluene' as const,
  airTempC: 20,
  windMps: 2,
  lengthM: 2,
  absorbedWm2: 100,
  conductanceWm2K: 10,
  belowTempC: 20,
  ambientHPa: 0,
  activity: 1,
  windExponent: 0.7,
};
const surface = {
  absorbedWm2: 300,
  skyWm2: 300,
  emissivity: 0.9,
  convectionWm2K: 12,
  airTempC: 15,
  conductanceWm2K: 1,
  belowTempC: 18,
};
const slab = { surfaceTempC: 20, airTempC: 15, relHumPct: 60, windMps: 3 };
const penman = {
  airTempC: 20,
  saturationKPa: 2.3,
  vapourPressureKPa: 1.2,
  windMps: 2,
  netRadiationMJ: 1,
  groundHeatMJ: 0.1,
  pressureKPa: 100,
  grass: true,
};

/** A good call of each function; for a single number, its name and a good value. */
const CALLS: Record<string, object | readonly [name: string, good: number]> = {
  satVapPressureWaterHPa: ['tempC', 20],
  satVapPressureIceHPa: ['tempC', -5],
  magnusWaterHPa: ['tempC', 20],
  magnusIceHPa: ['tempC', -5],
  absoluteHumidityGm3: { airTempC: 20, vapourPressureHPa: 10 },
  pressureAtElevationHPa: ['elevationM', 200],
  vapourPressureHPa: { airTempC: 20, relHumPct: 50 },
  vapourPressureFromDewHPa: ['dewPointC', 8],
  vapourDeficitHPa: { airTempC: 20, relHumPct: 50 },
  dewPointFromVapourC: ['vapourPressureHPa', 10],
  dewPointC: { airTempC: 20, relHumPct: 50 },
  frostPointC: { airTempC: -3, relHumPct: 50 },
  relHumFromDewPct: { airTempC: 20, dewPointC: 8 },
  humidityRatio: { vapourPressureHPa: 10, pressureHPa: 1000 },
  vapourPressureFromRatioHPa: { humidityRatio: 0.01, pressureHPa: 1000 },
  enthalpyKJkg: { airTempC: 20, humidityRatio: 0.01 },
  humidityRatioFromWetBulb: { airTempC: 20, wetBulbC: 15, pressureHPa: 1000 },
  wetBulbC: { airTempC: 20, relHumPct: 50, pressureHPa: 1000 },
  faceVapourPressureHPa: ['tempC', 20],
  sunPosition: { atMs: 1.8e12, latitudeDeg: 50, longitudeDeg: 10 },
  sunTimes: {
    dayStartMs: 1.8e12,
    dayEndMs: 1.8e12 + 86_400_000,
    latitudeDeg: 50,
    longitudeDeg: 10,
  },
  extraterrestrialWm2: ['dayOfYear', 100],
  diffuseFraction: ['clearness', 0.5],
  clearSkyWm2: { sunElevationDeg: 40, dayOfYear: 100 },
  planeIrradianceWm2: {
    globalWm2: 500,
    diffuseWm2: 100,
    sunElevationDeg: 40,
    sunAzimuthDeg: 170,
    fallDeg: 3,
    azimuthDeg: 180,
    skylineElevationDeg: 5,
    groundReflectance: 0.2,
    skyViewShare: 0.9,
    dayOfYear: 100,
  },
  skyEmissivity: { dewPointC: 8, cloudPct: 40 },
  skyRadiationWm2: { airTempC: 15, dewPointC: 8, cloudPct: 40 },
  skyTempC: { airTempC: 15, dewPointC: 8, cloudPct: 40 },
  skyEmissivityBerdahlMartin: { dewPointC: 8, solarHour: 5, pressureHPa: 1000 },
  skyTempSwinbankC: ['airTempC', 10],
  windAtRoofMps: { windMps: 4, roofHeightM: 8, terrain: 'suburban' },
  shelterFactor: { parapetHeightM: 0.5, roofHeightM: 8 },
  convectionWm2K: ['windMps', 4],
  freeConvectionWm2K: { surfaceTempC: 30, airTempC: 20 },
  beaufortForce: ['windMps', 4],
  evaporationMmPerHour: {
    surfaceTempC: 20,
    airTempC: 15,
    vapourPressureHPa: 10,
    convectionWm2K: 12,
    pressureHPa: 1000,
  },
  latentHeatJkg: ['tempC', 20],
  latentSlopeWm2K: { surfaceTempC: 20, convectionWm2K: 12, pressureHPa: 1000 },
  menzelEvaporationKgM2H: slab,
  unoEvaporationKgM2H: slab,
  faoSaturationKPa: ['tempC', 20],
  faoSlopeKPaK: ['tempC', 20],
  faoPsychrometricKPaK: ['pressureKPa', 100],
  faoPsychrometerKPa: { airTempC: 20, wetBulbC: 15, pressureKPa: 100 },
  faoNetLongwaveDayMJ: {
    maxTempC: 25,
    minTempC: 15,
    vapourPressureKPa: 1.5,
    relativeShortwave: 0.8,
  },
  faoNetLongwaveHourMJ: { airTempC: 20, vapourPressureKPa: 1.5, relativeShortwave: 0.8 },
  faoExtraterrestrialHour: {
    dayOfYear: 100,
    clockHour: 12,
    latitudeDeg: 40,
    longitudeDeg: 10,
    zoneLongitudeDeg: 15,
  },
  penmanMonteithHourly: penman,
  penmanMonteithHourlyMm: penman,
  penmanMonteithDailyMm: penman,
  steadySurfaceTempC: surface,
  steadyWetSurfaceTempC: { ...surface, vapourPressureHPa: 10, pressureHPa: 1000 },
  stepSurfaceTempC: {
    ...surface,
    surfaceTempC: 20,
    capacityJm2K: 16_000,
    stepS: 300,
    latentWm2: 50,
    latentSlopeWm2K: 20,
  },
  faceVapourSlopeHPaK: ['tempC', 20],
  solAirTempC: { airTempC: 20, globalWm2: 500, absorptancePerHo: 0.05, longwaveDropK: 4 },
  solventVapourPressureKPa: { solvent: 'toluene', tempC: 20 },
  solventLatentHeatJkg: { solvent: 'toluene', tempC: 20 },
  massTransferMps: { windMps: 2, lengthM: 2, schmidt: 1.5, windExponent: 0.7 },
  solventFluxKgM2S: {
    solvent: 'toluene',
    filmTempC: 20,
    windMps: 2,
    lengthM: 2,
    activity: 1,
    windExponent: 0.7,
  },
  filmTempC: film,
  filmFluxKgM2S: film,
  arrheniusFactor: { tempC: 20, refTempC: 23, activationKJmol: 50 },
  q10Factor: { tempC: 20, refTempC: 23, q10: 2 },
  activationFromSpeedUpKJmol: { fromC: 20, toC: 30, factor: 2 },
  moistureFrontTimeFactor: { vapourPressureHPa: 10, refVapourPressureHPa: 14 },
  moistureFrontDepthMm: {
    minutes: 60,
    refMinutes: 60,
    refDepthMm: 2,
    vapourPressureHPa: 10,
    refVapourPressureHPa: 14,
  },
  woodEquilibriumMoisturePct: { airTempC: 20, relHumPct: 65 },
  heatIndexC: { airTempC: 32, relHumPct: 60 },
  heatBand: ['heatIndexC', 35],
  windChillC: { airTempC: -5, windMps: 6 },
  coldBand: { airTempC: -5, windMps: 6 },
  wetBulbGlobeC: { naturalWetBulbC: 24, globeTempC: 40, inSun: true, airTempC: 30 },
  nioshLimitC: { metabolicW: 300, acclimatised: true },
  flashDistanceKm: ['flashToBangS', 12],
};

/** Take something else than numbers, or two loose ones; checked by hand below. */
const BY_HAND = ['solventData', 'schmidtNumber', 'filmFluxAtKgM2S', 'skyViewOfSkyline'];

const call = (name: string, argument: unknown): unknown =>
  (physics as unknown as Record<string, (a: unknown) => unknown>)[name]!(argument);

const cases = Object.entries(CALLS).flatMap(([name, good]) =>
  Array.isArray(good)
    ? [
        {
          name,
          key: good[0] as string,
          good: good[1] as unknown,
          make: (v: number) => v as unknown,
        },
      ]
    : Object.entries(good)
        .filter(([, value]) => typeof value === 'number')
        .map(([key]) => ({
          name,
          key,
          good: good as unknown,
          make: (v: number): unknown => ({ ...good, [key]: v }),
        })),
);

describe('every public function', () => {
  it('is listed here or in hot.ts', () => {
    const all = Object.entries(physics)
      .filter(([name, value]) => typeof value === 'function' && !name.startsWith('hot'))
      .map(([name]) => name);
    expect([...Object.keys(CALLS), ...BY_HAND].sort()).toEqual(all.sort());
  });

  it.each(cases)('$name answers with finite numbers to a good $key', ({ name, good }) => {
    const answer = call(name, good);
    const numbers = typeof answer === 'number' ? [answer] : Object.values(answer as object);
    for (const n of numbers) {
      if (typeof n === 'number') expect(Number.isFinite(n)).toBe(true);
    }
    expect(numbers.length).toBeGreaterThan(0);
  });

  it.each(cases)('$name refuses a $key of NaN or beyond any range', ({ name, key, make }) => {
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, -1e15]) {
      expect(() => call(name, make(bad)), `${key} ${bad}`).toThrow(RangeError);
      expect(() => call(name, make(bad))).toThrow(`${key} (${bad}) must be in `);
    }
  });

  it('says name, value and range', () => {
    expect(() => physics.dewPointC({ airTempC: 20, relHumPct: 130 })).toThrow(
      'relHumPct (130) must be in 1..100',
    );
    expect(() => physics.schmidtNumber(0.1, Number.NaN)).toThrow('tempC (NaN) must be in -60..150');
    expect(() => physics.solventData('gin' as 'toluene')).toThrow('solvent (gin) must be one of');
    const skyline = [{ azimuthDeg: 0, elevationDeg: 95 }];
    expect(() => physics.skyViewOfSkyline(skyline, 0, 0)).toThrow(
      'points[0].elevationDeg (95) must be in -90..90',
    );
    expect(() => physics.skyViewOfSkyline([], Number.NaN, 0)).toThrow('fallDeg (NaN) must be in');
    expect(() => physics.skyViewOfSkyline([], 0, Number.NaN)).toThrow('azimuthDeg (NaN) must be');
    expect(() => physics.filmFluxAtKgM2S(film, 200)).toThrow('tempC (200) must be in -59..149');
  });
});

describe('the unguarded twins', () => {
  it('give the same answers', () => {
    const p = physics;
    expect(p.hotMagnusWaterHPa(17)).toBe(p.magnusWaterHPa(17));
    expect(p.hotMagnusIceHPa(-7)).toBe(p.magnusIceHPa(-7));
    expect(p.hotFaceVapourHPa(-7)).toBe(p.faceVapourPressureHPa(-7));
    expect(p.hotLatentHeatJkg(12)).toBe(p.latentHeatJkg(12));
    expect(p.hotSkyEmissivity(8, 40)).toBe(p.skyEmissivity({ dewPointC: 8, cloudPct: 40 }));
    expect(p.hotSkyRadiationWm2(15, 8, 40)).toBe(
      p.skyRadiationWm2({ airTempC: 15, dewPointC: 8, cloudPct: 40 }),
    );
    expect(p.hotConvectionWm2K(7)).toBe(p.convectionWm2K(7));
    expect(p.hotEvaporationMmPerHour(20, 10, 12, 1000)).toBe(
      p.evaporationMmPerHour({
        surfaceTempC: 20,
        airTempC: 15,
        vapourPressureHPa: 10,
        convectionWm2K: 12,
        pressureHPa: 1000,
      }),
    );
    expect(p.hotStepSurface(20, 16_000, 300, 300, 300, 0.9, 12, 15, 1, 18, 50, 20)).toBe(
      p.stepSurfaceTempC(CALLS['stepSurfaceTempC'] as Parameters<typeof p.stepSurfaceTempC>[0]),
    );
    // The slope is the derivative of the vapour curve, on both sides of freezing.
    for (const t of [-8, 12]) {
      const difference = (p.hotFaceVapourHPa(t + 1e-4) - p.hotFaceVapourHPa(t - 1e-4)) / 2e-4;
      expect(p.hotFaceVapourSlope(t)).toBeCloseTo(difference, 6);
      expect(p.faceVapourSlopeHPaK(t)).toBe(p.hotFaceVapourSlope(t));
    }
  });

  it('pass NaN on instead of throwing', () => {
    expect(physics.hotSkyEmissivity(Number.NaN, 0)).toBeNaN();
    expect(physics.hotConvectionWm2K(Number.NaN)).toBeNaN();
    expect(physics.hotEvaporationMmPerHour(Number.NaN, 1, 1, 1000)).toBeNaN();
  });
});
