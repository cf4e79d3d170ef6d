/**
 * Against a year the model was not fitted on. Source: KNMI hourly data of De Bilt and Vlissingen 2020 (CC BY
 * 4.0), and London, King's College 2012. Published for De Bilt 2020: 77 % of the starts 07-12 UTC have four dry
 * hours ahead; spread evenly over 3 h / 6 h they read 72 % / 65 % if any rain counts, 79 % / 79 % at 0.1 mm/h.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  anyRain,
  DE_BILT,
  drawnHours,
  dryStartsPct,
  meanOf,
  RAIN_STATISTICS,
  rainTimingMarkdown,
  readDeBilt,
  readElsewhere,
  readYear2020,
  spreadEvenly,
  tenthOrMore,
} from '../accuracy/rain-timing-rows.ts';

const year = readYear2020();

describe('the year carried with the tests', () => {
  const full = readDeBilt(2020);
  const gone = full === null ? ' (skipped: data set not here)' : '';

  it.skipIf(full === null)(`is that of the full data${gone}`, () => {
    expect(year).toEqual(full);
  });

  it('has the wet hours and the sum that its source counts', () => {
    expect(year.rainMm.filter((mm) => mm >= 0.1)).toHaveLength(1064);
    expect(year.rainMm.reduce((a, b) => a + b, 0)).toBeCloseTo(855.9, 6);
  });
});

describe('dry 4-hour starts of De Bilt 2020', () => {
  it('are the published shares, real and spread evenly', () => {
    const shares = [anyRain, tenthOrMore].flatMap((isWet) =>
      [1, 3, 6].map((step) => Math.round(dryStartsPct(spreadEvenly(year.rainMm, step), isWet))),
    );
    expect(shares).toEqual([77, 72, 65, 77, 79, 79]);
  });

  it.each([3, 6])('are within 3 points when drawn from sums of %i h, for every seed', (step) => {
    for (const drawn of drawnHours(year, step)) {
      for (const isWet of [anyRain, tenthOrMore]) {
        const miss = dryStartsPct(drawn, isWet) - dryStartsPct(year.rainMm, isWet);
        expect(Math.abs(miss)).toBeLessThan(3);
      }
    }
  });

  it.each([3, 6])('are within 3 points from sums of %i h printed to 0.01 mm/h', (step) => {
    const printed = spreadEvenly(year.rainMm, step).map((mm) => Math.round(mm * 100) / 100);
    const drawn = drawnHours({ ...year, rainMm: printed }, step);
    const share = meanOf(drawn.map((r) => dryStartsPct(r, anyRain)));
    expect(Math.abs(share - dryStartsPct(year.rainMm, anyRain))).toBeLessThan(3);
  });
});

describe('wet spells of De Bilt 2020', () => {
  /** How far the mean of the seeds may lie from the real year, as a share of it. */
  const WITHIN: Readonly<Record<string, number>> = {
    'wet hours [%]': 0.03,
    'wet spells [a year]': 0.08,
    'wet spells of 1 h [%]': 0.1,
    'wet spells of 6 h and more [%]': 0.2,
    'wet after a wet hour [%]': 0.05,
    'correlation with the hour before [-]': 0.15,
    'median of wet hours [mm]': 0.05,
    '99 % of wet hours below [mm]': 0.1,
  };

  it.each([3, 6])('have the real lengths and amounts when drawn from sums of %i h', (step) => {
    const drawn = drawnHours(year, step);
    const held = RAIN_STATISTICS.filter(([name]) => WITHIN[name] !== undefined);
    expect(held).toHaveLength(Object.keys(WITHIN).length);
    for (const [name, of] of held) {
      const miss = meanOf(drawn.map(of)) / of(year.rainMm) - 1;
      expect(Math.abs(miss), name).toBeLessThan(WITHIN[name]!);
    }
  });

  it('are those of the table in docs/accuracy.md', () => {
    const docs = readFileSync(new URL('../../docs/accuracy.md', import.meta.url), 'utf8');
    expect(docs).toContain(rainTimingMarkdown(year));
  });
});

describe.each([
  ['knmi_vlissingen_2020', { latitudeDeg: 51.44, longitudeDeg: 3.6 }],
  ['london_kcl_2012', { latitudeDeg: 51.51, longitudeDeg: -0.12 }],
] as const)('dry 4-hour starts of %s', (name, place) => {
  const rain = readElsewhere(name);
  const gone = rain === null ? ' (skipped: data set not here)' : '';

  it.skipIf(rain === null)(`are within 3 points though fitted at De Bilt${gone}`, () => {
    const real = dryStartsPct(rain!.rainMm, anyRain);
    expect(place).not.toEqual(DE_BILT);
    for (const step of [3, 6]) {
      const drawn = drawnHours(rain!, step, place).map((r) => dryStartsPct(r, anyRain));
      expect(Math.abs(meanOf(drawn) - real), `${step} h`).toBeLessThan(3);
    }
  });
});
