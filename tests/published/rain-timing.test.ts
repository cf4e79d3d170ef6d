/**
 * Sources: KNMI hourly data of De Bilt (CC BY 4.0); Open-Meteo ensemble documentation (native steps of the
 * models); thread 506 of github.com/open-meteo/open-meteo (a 3-hour sum printed as three equal hours).
 */
import { describe, expect, it } from 'vitest';
import { coarseBlocks, splitCoarseRain } from '../../src/weather/index.ts';
import { asWeather, DE_BILT, readYear2020, spreadEvenly } from '../accuracy/rain-timing-rows.ts';

const HOUR_MS = 3_600_000;
const year = readYear2020();
const withModel = (model: string | null, leadH: number, columns: readonly Float64Array[]) => {
  const weather = asWeather(year.startMs, columns);
  const issuedMs = year.startMs - leadH * HOUR_MS;
  return { ...weather, source: { ...weather.source, model, issuedMs } };
};

/** From and to [h of lead], native step. */
const STRETCHES = [
  [48, 72, 3],
  [72, 120, 6],
  [120, 168, 12],
] as const;

describe('the native step of a feed', () => {
  it('is hourly for measured hours, whatever the model says', () => {
    expect(coarseBlocks(withModel(null, 0, [year.rainMm.subarray(0, 384)]))).toEqual([]);
    const weather = withModel('ukmo_uk_ensemble_2km', 0, [year.rainMm.subarray(0, 384)]);
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
      const rainMm = year.rainMm.slice(m * 1000, m * 1000 + 168);
      for (const [from, to, step] of STRETCHES) {
        rainMm.set(spreadEvenly(rainMm.subarray(from, to), step), from);
      }
      return rainMm;
    });
    const wet = (hour: number) => columns.some((c) => c[hour]! > 0);
    const found = coarseBlocks(withModel('icon_global_eps', 0, columns));
    const given = STRETCHES.flatMap(([from, to, hours]) =>
      Array.from({ length: (to - from) / hours }, (_, i) => ({
        firstHour: from + i * hours,
        hours,
      })),
    );
    expect(given.filter((b) => wet(b.firstHour)).length).toBeGreaterThan(15);
    expect(found.filter((b) => wet(b.firstHour))).toEqual(given.filter((b) => wet(b.firstHour)));
  });

  it('of a known model stands even where a later block is uneven', () => {
    const rainMm = spreadEvenly(year.rainMm.subarray(0, 240), 3);
    rainMm[238]! += 0.1;
    const known = coarseBlocks(withModel('ecmwf_ifs025_ensemble', 0, [rainMm]));
    const wet = rainMm.filter((mm, h) => mm > 0 && h % 3 === 0).length;
    const found = known.filter((b) => rainMm[b.firstHour]! > 0);
    expect(wet).toBeGreaterThan(10);
    expect(found.length).toBeGreaterThanOrEqual(wet - 1);
    expect(coarseBlocks(withModel(null, 0, [rainMm]))).toEqual([]);
  });
});
