/** What must hold of heat, cold, sky view and shelter whatever the day and the roof. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  coldBand,
  heatIndexC,
  nioshLimitC,
  planeIrradianceWm2,
  shelterFactor,
  skyViewOfSkyline,
  wetBulbGlobeC,
  windChillC,
} from '../../src/physics/index.ts';
import { fToC, mphToMps } from '../../src/units/index.ts';

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const more = real(0.01, 5);

describe('heat index', () => {
  // From 82 °F up the regression alone is in force; at the switch below it the published formula jumps.
  it('never falls as the air gets hotter or damper, from 82 °F up', () => {
    fc.assert(
      fc.property(real(fToC(82), 50), real(0, 95), more, (airTempC, relHumPct, step) => {
        const at = heatIndexC({ airTempC, relHumPct });
        expect(heatIndexC({ airTempC: airTempC + step, relHumPct })).toBeGreaterThan(at);
        expect(heatIndexC({ airTempC, relHumPct: relHumPct + step })).toBeGreaterThan(at);
      }),
    );
  });

  it('steps by no more than 1.9 K where the formulas change over', () => {
    fc.assert(
      fc.property(real(15, 30), real(0, 100), (airTempC, relHumPct) => {
        const step =
          heatIndexC({ airTempC: airTempC + 0.01, relHumPct }) -
          heatIndexC({ airTempC, relHumPct });
        expect(Math.abs(step)).toBeLessThan(1.9);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('wind chill', () => {
  const windy = real(mphToMps(3) + 1e-6, 40);
  it('lies below the air, and falls with wind and with the air', () => {
    fc.assert(
      fc.property(real(-60, 5), windy, more, (airTempC, windMps, step) => {
        const at = windChillC({ airTempC, windMps })!;
        expect(at).toBeLessThan(airTempC);
        expect(windChillC({ airTempC, windMps: windMps + step })).toBeLessThan(at);
        expect(windChillC({ airTempC: airTempC + step, windMps })).toBeGreaterThan(at);
      }),
    );
  });

  it('never makes the hazard of cold less than that of a calm', () => {
    const order = ['none', 'low', 'moderate', 'high', 'very high', 'severe', 'extreme'];
    fc.assert(
      fc.property(real(-70, 20), real(0, 40), (airTempC, windMps) => {
        const calm = order.indexOf(coldBand({ airTempC, windMps: 0 }));
        expect(order.indexOf(coldBand({ airTempC, windMps }))).toBeGreaterThanOrEqual(calm);
      }),
    );
  });
});

describe('heat at work', () => {
  it('limits fall with effort, and lie lower for those not used to the heat', () => {
    fc.assert(
      fc.property(real(100, 550), real(1, 50), (metabolicW, extra) => {
        const used = nioshLimitC({ metabolicW, acclimatised: true });
        const fresh = nioshLimitC({ metabolicW, acclimatised: false });
        expect(fresh).toBeLessThan(used);
        expect(nioshLimitC({ metabolicW: metabolicW + extra, acclimatised: true })).toBeLessThan(
          used,
        );
      }),
    );
  });

  it('wet-bulb globe temperature lies between its parts, and is theirs where they agree', () => {
    fc.assert(
      fc.property(real(-10, 35), real(0, 40), real(0, 10), (wet, sun, dry) => {
        const globeTempC = wet + dry + sun;
        const args = { naturalWetBulbC: wet, globeTempC };
        const inSun = wetBulbGlobeC({ ...args, inSun: true, airTempC: wet + dry });
        const shade = wetBulbGlobeC({ ...args, inSun: false });
        expect(inSun).toBeGreaterThanOrEqual(wet - 1e-9);
        expect(inSun).toBeLessThanOrEqual(shade + 1e-9);
        expect(shade).toBeLessThanOrEqual(globeTempC + 1e-9);
        const same = { naturalWetBulbC: wet, globeTempC: wet };
        expect(wetBulbGlobeC({ ...same, inSun: true, airTempC: wet })).toBeCloseTo(wet, 10);
        expect(wetBulbGlobeC({ ...same, inSun: false })).toBeCloseTo(wet, 10);
      }),
    );
  });
});

describe('sky view', () => {
  const point = fc.record({ azimuthDeg: real(0, 360), elevationDeg: real(-20, 90) });
  const skyline = fc.array(point, { minLength: 1, maxLength: 8 });

  it('never grows as the skyline does, and stays in 0..1', () => {
    fc.assert(
      fc.property(skyline, real(0, 90), real(0, 360), real(0, 30), (points, fall, facing, up) => {
        const raised = points.map((p) => ({
          ...p,
          elevationDeg: Math.min(90, p.elevationDeg + up),
        }));
        const low = skyViewOfSkyline(points, fall, facing);
        const high = skyViewOfSkyline(raised, fall, facing);
        expect(high).toBeLessThanOrEqual(low + 1e-9);
        expect(high).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('does not depend on the order of the points, nor on where north is', () => {
    fc.assert(
      fc.property(skyline, real(0, 90), real(0, 359), (points, fall, turn) => {
        const seen = skyViewOfSkyline(points, fall, 0);
        // Points at one azimuth make a step, whose two sides the order decides.
        fc.pre(new Set(points.map((p) => p.azimuthDeg % 360)).size === points.length);
        expect(skyViewOfSkyline([...points].reverse(), fall, 0)).toBeCloseTo(seen, 10);
        const turned = points.map((p) => ({ ...p, azimuthDeg: (p.azimuthDeg + turn) % 360 }));
        fc.pre(new Set(turned.map((p) => p.azimuthDeg)).size === points.length);
        expect(Math.abs(skyViewOfSkyline(turned, fall, turn) - seen)).toBeLessThan(1e-3);
      }),
    );
  });

  // The same integral over the hemisphere, patch by patch, shares nothing with the closed inner part.
  it('is what counting patches of sky gives', () => {
    const patches = (
      points: { azimuthDeg: number; elevationDeg: number }[],
      s: number,
      a: number,
    ) => {
      const rad = Math.PI / 180;
      const ordered = [...points].sort((p, q) => p.azimuthDeg - q.azimuthDeg);
      const first = ordered[0]!;
      const last = ordered[ordered.length - 1]!;
      const around = [
        { ...last, azimuthDeg: last.azimuthDeg - 360 },
        ...ordered,
        { ...first, azimuthDeg: first.azimuthDeg + 360 },
      ];
      let seen = 0;
      let open = 0;
      for (let az = 0.5; az < 360; az += 1) {
        const i = around.findIndex((p) => p.azimuthDeg >= az);
        const [p, q] = [around[i - 1]!, around[i]!];
        const share = (az - p.azimuthDeg) / (q.azimuthDeg - p.azimuthDeg);
        const edge = p.elevationDeg + share * (q.elevationDeg - p.elevationDeg);
        for (let el = 0.25; el < 90; el += 0.5) {
          const incidence =
            Math.sin(el * rad) * Math.cos(s * rad) +
            Math.cos(el * rad) * Math.sin(s * rad) * Math.cos((az - a) * rad);
          const light = Math.max(0, incidence) * Math.cos(el * rad);
          open += light;
          if (el > edge) seen += light;
        }
      }
      return seen / open;
    };
    fc.assert(
      fc.property(skyline, real(0, 90), real(0, 360), (points, fall, facing) => {
        // Steps between neighbouring points closer than a patch are beyond the count.
        const sorted = points.map((p) => p.azimuthDeg).sort((p, q) => p - q);
        fc.pre(sorted.every((p, i) => i === 0 || p - sorted[i - 1]! > 4));
        const off = skyViewOfSkyline(points, fall, facing) - patches(points, fall, facing);
        expect(Math.abs(off)).toBeLessThan(0.006);
      }),
      { numRuns: 40 },
    );
  });

  it('takes sky light off a flat roof in proportion', () => {
    fc.assert(
      fc.property(real(0, 1), real(0, 600), (skyViewShare, globalWm2) => {
        const got = planeIrradianceWm2({
          globalWm2,
          diffuseWm2: globalWm2,
          sunElevationDeg: 30,
          sunAzimuthDeg: 180,
          fallDeg: 0,
          azimuthDeg: 180,
          skylineElevationDeg: 0,
          groundReflectance: 0.2,
          skyViewShare,
        });
        expect(got).toBeCloseTo(skyViewShare * globalWm2, 8);
      }),
    );
  });
});

describe('shelter of a parapet', () => {
  it('never adds wind, and never lessens as the parapet grows', () => {
    fc.assert(
      fc.property(real(0, 9), real(0.5, 200), real(0, 1), (parapetHeightM, roofHeightM, extra) => {
        const low = shelterFactor({ parapetHeightM, roofHeightM });
        const high = shelterFactor({ parapetHeightM: parapetHeightM + extra, roofHeightM });
        expect(low).toBeLessThanOrEqual(1);
        expect(high).toBeLessThanOrEqual(low + 1e-12);
        expect(high).toBeGreaterThan(0.8);
      }),
    );
  });
});
