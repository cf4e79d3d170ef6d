/**
 * The surface balance under measured sun, air and wind against measured surface temperature and
 * wetness (tests/data/README.md). The ground measured is no roof: rough, and under it a whole earth.
 * So the bands are wide, and where the air temperature is the better guess, that is said.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { surfaceWeather } from '../../src/weather/index.ts';
import {
  AIR,
  errorOf,
  fieldMarkdown,
  fieldPoints,
  fitField,
  MODEL,
  SOL_AIR,
  SOL_AIR_SKY,
} from '../accuracy/measured-field.ts';
import { bundledSets, FIELD_FIT, type Fit, fieldMonths } from '../accuracy/measured-sets.ts';
import {
  compare,
  gridOfRun,
  isNight,
  isSunny,
  longwaveMisfitWm2,
  measuredMarkdown,
  type Point,
  runsOf,
  score,
} from '../accuracy/measured-surface.ts';
import {
  bootstrap,
  HUMID,
  says,
  skillOf,
  type WetPoint,
  wetPoints,
} from '../accuracy/measured-wet.ts';

const sets = bundledSets();
const page = readFileSync(new URL('../../docs/accuracy.md', import.meta.url), 'utf8');

it('the accuracy page carries the table of the extracts as printed', () => {
  expect(page).toContain(measuredMarkdown([sets.alamosa, sets.bondville]));
});

describe('a stubble field, seven dry November days (NOAA ARL, Bondville)', () => {
  const points = compare(sets.bondville);
  // By night the two masts' radiometers are 20 W/m2 apart (the data's own record), which is 1 K of a
  // surface that loses 5 W/m2K to the sky and 15 to the wind: no bias under that can be asked for.
  const INSTRUMENTS_K = 1.2;

  it('all hours: a fifth closer than the air, bias within what the instruments close to', () => {
    const s = score(points);
    expect(s.n).toBe(330);
    expect(Math.abs(s.biasK)).toBeLessThan(INSTRUMENTS_K);
    expect(s.rmseK).toBeLessThan(0.8 * s.airRmseK);
  });

  it('in sun it is less than half as far off as the air temperature, in spread and in bias', () => {
    const s = score(points.filter(isSunny));
    expect(s.n).toBeGreaterThan(50);
    expect(s.rmseK).toBeLessThan(s.airRmseK / 2);
    expect(Math.abs(s.biasK)).toBeLessThan(Math.abs(s.airBiasK) / 2);
  });

  it('at night it is cold by no more than that; a field in wind is as close to the air, so no test of more', () => {
    const s = score(points.filter(isNight));
    expect(Math.abs(s.biasK)).toBeLessThan(INSTRUMENTS_K);
    expect(s.rmseK).toBeLessThan(1.3);
  });

  it('with only what a forecast offers, cloud and sun, it is as close', () => {
    const s = score(compare(sets.bondville, 'cloud from global radiation'));
    expect(Math.abs(s.biasK)).toBeLessThan(INSTRUMENTS_K);
    expect(s.rmseK).toBeLessThan(0.8 * s.airRmseK);
  });

  it('dew by night: nine in ten wet half-hours known, Peirce skill over 0.55 and over humidity above 90 %', () => {
    const wet = wetPoints([sets.bondville], 'cloud from measured long wave');
    const s = skillOf(wet, says('liquid'));
    expect(s.n).toBe(201);
    expect(s.hits).toBeGreaterThan(0.9);
    expect(s.peirce).toBeGreaterThan(0.55);
    expect(s.peirce).toBeGreaterThan(skillOf(wet, HUMID).peirce);
  });

  it('and the sky in the model is worth having: long wave from air, dew point and cloud within 20 W/m2', () => {
    const misfit = longwaveMisfitWm2(sets.bondville, 'cloud from measured long wave');
    expect(misfit.rmseWm2).toBeLessThan(20);
    // Not knowing the cloud costs about as much again.
    expect(longwaveMisfitWm2(sets.bondville, 'clear').rmseWm2).toBeGreaterThan(25);
  });

  it('a reading of the surface helps for the hours after it', () => {
    const [run] = runsOf(sets.bondville);
    const { ground, elevationM } = sets.bondville;
    const grid = gridOfRun(sets.bondville, run!.rows, 'cloud from global radiation');
    const readings = run!.rows.flatMap((row, i) =>
      i % 12 === 11 && row.surfaceC !== null
        ? [
            {
              atMs: row.startMs + 1_800_000,
              surfaceId: ground.id,
              kind: 'surface-temp' as const,
              value: row.surfaceC,
            },
          ]
        : [],
    );
    const history = {
      openedMs: null,
      coveredMs: null,
      moistureAtOpeningPct: null,
      dryDowns: [],
      readings,
    };
    const errorK = (columns: Float32Array, hours: number): number => {
      const errors = run!.rows.flatMap((row, i) =>
        i > 11 && i % 12 === 2 * hours - 1 && row.surfaceC !== null
          ? [columns[i * 6 + 5]! - row.surfaceC]
          : [],
      );
      return Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
    };
    const free = surfaceWeather(grid, ground, elevationM).surfaceTempC;
    const read = surfaceWeather(grid, ground, elevationM, history).surfaceTempC;
    expect(errorK(read, 1)).toBeLessThan(0.8 * errorK(free, 1));
    expect(errorK(read, 2)).toBeLessThan(errorK(free, 2));
  });
});

describe('semi-desert on a clear winter day (NOAA SURFRAD, Alamosa)', () => {
  const points = compare(sets.alamosa);

  it('at night within 2 K and on the cold side, the side that warns of dew', () => {
    const s = score(points.filter(isNight));
    expect(s.rmseK).toBeLessThan(2);
    expect(s.biasK).toBeLessThan(0);
    expect(s.biasK).toBeGreaterThan(-2);
  });

  it('in sun within 8 K: calm-air convection of a smooth roof on rough ground runs hot', () => {
    // The air temperature is as far off, the other way: it does not beat that, and is not said to.
    const s = score(points.filter(isSunny));
    expect(Math.abs(s.biasK)).toBeLessThan(8);
    expect(s.rmseK).toBeLessThan(9);
  });

  it('rises and falls with the measured ground: correlation above 0.95', () => {
    const mean = (of: (p: (typeof points)[number]) => number): number =>
      points.reduce((sum, p) => sum + of(p), 0) / points.length;
    const [a, b] = [mean((p) => p.modelC), mean((p) => p.measuredC)];
    const both = mean((p) => (p.modelC - a) * (p.measuredC - b));
    const spread = Math.sqrt(
      mean((p) => (p.modelC - a) ** 2) * mean((p) => (p.measuredC - b) ** 2),
    );
    expect(both / spread).toBeGreaterThan(0.95);
  });

  it('long wave from air and dew point within 20 W/m2, though air this dry and thin sends less than our clear sky', () => {
    const misfit = longwaveMisfitWm2(sets.alamosa, 'cloud from measured long wave');
    expect(Math.abs(misfit.meanWm2)).toBeLessThan(15);
    expect(misfit.rmseWm2).toBeLessThan(20);
  });
});

const months = fieldMonths();
const here = months.length > 0;

describe.skipIf(!here)(
  `the field over six months${here ? '' : ' (skipped: data set not here)'}`,
  () => {
    const points = here ? fieldPoints(months, 'measured') : [];

    it('all hours: at least 25 % closer than the air temperature, and closer than steady sol-air', () => {
      const model = errorOf(points, MODEL);
      expect(model.n).toBeGreaterThan(8000);
      expect(model.rmseK).toBeLessThan(0.75 * errorOf(points, AIR).rmseK);
      expect(model.rmseK).toBeLessThan(errorOf(points, SOL_AIR).rmseK);
      expect(model.rmseK).toBeLessThan(errorOf(points, SOL_AIR_SKY).rmseK);
    });

    it('nights: at least 20 % closer than the air temperature, and closer than steady sol-air', () => {
      const nights = points.filter(isNight);
      const model = errorOf(nights, MODEL);
      expect(model.rmseK).toBeLessThan(0.8 * errorOf(nights, AIR).rmseK);
      expect(model.rmseK).toBeLessThan(errorOf(nights, SOL_AIR_SKY).rmseK);
    });

    it('and so on months the two fitted numbers have not seen', () => {
      const { best, leftOut } = fitField(months);
      const rmseK = (fit: Fit): number =>
        errorOf(fieldPoints(months, 'measured', fit), MODEL).rmseK;
      // The textbook's two numbers are as good as the fitted ones.
      expect(rmseK(FIELD_FIT) - rmseK(best)).toBeLessThan(0.02);
      const all = leftOut.flatMap((month) => month.all);
      const nights = all.filter(isNight);
      expect(errorOf(all, MODEL).rmseK).toBeLessThan(0.75 * errorOf(all, AIR).rmseK);
      expect(errorOf(nights, MODEL).rmseK).toBeLessThan(0.8 * errorOf(nights, AIR).rmseK);
    });

    it('the accuracy page carries its tables as printed', () => {
      const tables = fieldMarkdown(months)
        .split('\n\n')
        .filter((part) => part.startsWith('|'));
      expect(tables.length).toBe(4);
      for (const table of tables) expect(page).toContain(table);
    });

    it('with cloud and sun only, as a forecast has them, it costs under 0.4 K', () => {
      const forecast = fieldPoints(months, 'cloud from global radiation');
      const costK = (some: (p: Point) => boolean): number =>
        errorOf(forecast.filter(some), MODEL).rmseK - errorOf(points.filter(some), MODEL).rmseK;
      expect(costK(() => true)).toBeLessThan(0.4);
      expect(costK(isNight)).toBeLessThan(0.4);
    });

    it('dew by night: Peirce skill over 0.55 and over the humidity rule, by nights drawn again', () => {
      const wet = wetPoints(months, 'cloud from measured long wave');
      const peirce = (some: readonly WetPoint[]): number => skillOf(some, says('liquid')).peirce;
      expect(peirce(wet)).toBeGreaterThan(0.55);
      const gain = bootstrap(wet, (some) => peirce(some) - skillOf(some, HUMID).peirce, 1998, 300);
      expect(gain.low).toBeGreaterThan(0);
      for (const sky of ['measured', 'cloud from global radiation'] as const)
        expect(peirce(wetPoints(months, sky))).toBeGreaterThan(0.55);
    });
  },
);
