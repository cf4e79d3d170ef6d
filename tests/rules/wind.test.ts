import { describe, expect, it } from 'vitest';
import { STARTER_LIMITS } from '../../src/planner/index.ts';
import { roofWind, sheetWind } from '../../src/planner/rules/index.ts';
import { mphToMps } from '../../src/units/index.ts';
import { breaks, type Moment, momentView } from '../fixtures/planner/rule-view.ts';
import { runLacking } from '../fixtures/planner/unknown.ts';

const sheetStops = (now: Moment) => breaks(sheetWind, momentView(now));
const roofStops = (now: Moment) => breaks(roofWind, momentView(now));

describe('the wind at which sheet is not handled', () => {
  it('is 17 mph mean and 26 mph in gusts, as trade guidance says (second-hand)', () => {
    expect(STARTER_LIMITS.sheetWindMps).toBeCloseTo(mphToMps(17), 1);
    expect(STARTER_LIMITS.sheetGustMps).toBeCloseTo(mphToMps(26), 1);
  });

  it('is met at 7.5 m/s with gusts of 11.5', () => {
    expect(sheetStops({ windMps: 7.5, gustMps: 11.5 })).toBe(false);
  });

  it('is broken by the mean alone at 7.7 m/s and by the gust alone at 11.7', () => {
    expect(sheetStops({ windMps: 7.7, gustMps: 8 })).toBe(true);
    expect(sheetStops({ windMps: 4, gustMps: 11.7 })).toBe(true);
  });

  it('is broken exactly on either limit', () => {
    expect(sheetStops({ windMps: 7.6, gustMps: 8 })).toBe(true);
    expect(sheetStops({ windMps: 4, gustMps: 11.6 })).toBe(true);
  });
});

describe('the wind at which roof work stops', () => {
  it('is 23 mph mean and 35 mph in gusts, as trade guidance says (second-hand)', () => {
    expect(STARTER_LIMITS.roofWindMps).toBeCloseTo(mphToMps(23), 1);
    expect(STARTER_LIMITS.roofGustMps).toBeCloseTo(mphToMps(35), 1);
  });

  it('is met at 10.2 m/s with gusts of 15.5', () => {
    expect(roofStops({ windMps: 10.2, gustMps: 15.5 })).toBe(false);
  });

  it('is broken by the mean alone at 10.4 m/s and by the gust alone at 15.7', () => {
    expect(roofStops({ windMps: 10.4, gustMps: 11 })).toBe(true);
    expect(roofStops({ windMps: 6, gustMps: 15.7 })).toBe(true);
  });

  it('is broken exactly on either limit', () => {
    expect(roofStops({ windMps: 10.3, gustMps: 11 })).toBe(true);
    expect(roofStops({ windMps: 6, gustMps: 15.6 })).toBe(true);
  });
});

describe('both wind rules', () => {
  it('are safety rules', () => {
    expect([sheetWind.whose, roofWind.whose]).toEqual(['safety', 'safety']);
  });

  it('leave a day unknown when wind is missing from nine on', () => {
    expect(runLacking('windMps')).toMatchObject({ kind: 'unknown', cause: 'forecast-ends' });
  });
});
