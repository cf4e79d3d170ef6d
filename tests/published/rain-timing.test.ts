/**
 * Sources: KNMI hourly data of De Bilt (CC BY 4.0); Open-Meteo ensemble documentation (native steps of the
 * models); issue 506 of github.com/open-meteo/open-meteo (a 3-hour sum printed as three equal hours).
 */
import { describe, expect, it } from 'vitest';
import { coarseBlocks, splitCoarseRain } from '../../src/weather/index.ts';
import {
  anyRain,
  asWeather,
  DE_BILT,
  drawnHours,
  dryStartsPct,
  meanOf,
  readSummerExtract,
  spreadEvenly,
} from '../accuracy/rain-timing-rows.ts';

const HOUR_MS = 3_600_000;
const summer = readSummerExtract();
/** The feed's stamps begin at 00 UTC; the hour before it belongs to no whole block. */
const withModel = (model: string | null, leadH: number, columns: readonly Float64Array[]) => {
  const weather = asWeather(summer.startMs, columns);
  const issuedMs = summer.startMs - leadH * HOUR_MS;
  return { ...weather, source: { ...weather.source, model, issuedMs } };
};

describe('dry 4-hour starts over 60 summer days at De Bilt', () => {
  const real = dryStartsPct(summer.rainMm, anyRain);

  it('counts 1440 hours, of which 279 of 360 starts are dry', () => {
    expect(summer.rainMm).toHaveLength(1440);
    expect(real).toBeCloseTo(77.5, 10);
  });

  it.each([3, 6])('are within 3 points when drawn from sums of %i h', (step) => {
    const drawn = meanOf(drawnHours(summer, step).map((r) => dryStartsPct(r, anyRain)));
    expect(Math.abs(drawn - real)).toBeLessThan(3);
  });

  it.each([3, 6])('are more than 3 points too few when %i h are spread evenly', (step) => {
    expect(real - dryStartsPct(spreadEvenly(summer.rainMm, step), anyRain)).toBeGreaterThan(3);
  });
});

describe('the native step of a feed', () => {
  it('is hourly for measured hours, whatever the model says', () => {
    expect(coarseBlocks(withModel(null, 0, [summer.rainMm]))).toEqual([]);
    const weather = withModel('ukmo_uk_ensemble_2km', 0, [summer.rainMm]);
    expect(splitCoarseRain(weather, { seed: 1, guide: null, place: DE_BILT })).toBe(weather);
  });

  it('is 3 h for the printed example of three equal hours from a 3-hourly model', () => {
    const rainMm = new Float64Array(24);
    rainMm.set([0.2, 0.2, 0.2], 9);
    const weather = withModel('gem_global_ensemble', 0, [rainMm]);
    const wet = coarseBlocks(weather).filter((b) => rainMm[b.firstHour]! > 0);
    expect(wet).toEqual([{ firstHour: 9, hours: 3 }]);
    expect(coarseBlocks(withModel(null, 0, [rainMm]))).toEqual([]);
  });

  it('follows the printed steps of a model that is hourly, then 3-, 6- and 12-hourly', () => {
    const columns = Array.from({ length: 8 }, (_, m) => {
      const rainMm = summer.rainMm.slice(m * 168, m * 168 + 168);
      for (const [from, to, step] of [
        [48, 72, 3],
        [72, 120, 6],
        [120, 168, 12],
      ] as const) {
        rainMm.set(spreadEvenly(rainMm.subarray(from, to), step), from);
      }
      return rainMm;
    });
    const blocks = coarseBlocks(withModel('icon_global_eps', 0, columns));
    const wet = blocks.filter((b) => columns.some((c) => c[b.firstHour]! > 0));
    const stepAt = (lead: number) =>
      wet.find((b) => b.firstHour <= lead && lead < b.firstHour + b.hours)?.hours ?? 1;
    expect([20, 47, 50, 70, 75, 100, 119, 125, 150].map(stepAt)).toEqual([
      1, 1, 3, 3, 6, 6, 6, 12, 12,
    ]);
  });

  it('of a known model stands even where a later block is uneven', () => {
    const rainMm = spreadEvenly(summer.rainMm.subarray(0, 240), 3);
    rainMm[238]! += 0.1;
    const known = coarseBlocks(withModel('ecmwf_ifs025_ensemble', 0, [rainMm]));
    const wet = rainMm.filter((mm, h) => mm > 0 && h % 3 === 0).length;
    const found = known.filter((b) => rainMm[b.firstHour]! > 0);
    expect(wet).toBeGreaterThan(10);
    expect(found.length).toBeGreaterThanOrEqual(wet - 1);
    expect(coarseBlocks(withModel(null, 0, [rainMm]))).toEqual([]);
  });
});
