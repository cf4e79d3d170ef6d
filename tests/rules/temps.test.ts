import { describe, expect, it } from 'vitest';
import { STARTER_LIMITS } from '../../src/planner/index.ts';
import { airTemp, type Rule, surfaceTemp } from '../../src/planner/rules/index.ts';
import { breaks, momentView, practice, productWith, sheet } from '../fixtures/planner/rule-view.ts';
import { runLacking } from '../fixtures/planner/unknown.ts';

type Limits = Parameters<typeof productWith>[0];
const must = (made: Rule | null): Rule => {
  if (made === null) throw new Error('no rule was made');
  return made;
};
const air = (limits: Limits) => airTemp(productWith(limits), STARTER_LIMITS);
const surface = (limits: Limits) => surfaceTemp(productWith(limits), STARTER_LIMITS);

describe('air temperature', () => {
  const rule = must(air({ airMinC: sheet(5), airMaxC: sheet(35) }));
  const broken = (airTempC: number) => breaks(rule, momentView({ airTempC, surfaceTempC: 60 }));

  it('is met inside 5 to 35 °C whatever the surface does', () => {
    expect(broken(5.1)).toBe(false);
    expect(broken(34.9)).toBe(false);
  });

  it('is broken at 4.9 and at 35.1 °C', () => {
    expect(broken(4.9)).toBe(true);
    expect(broken(35.1)).toBe(true);
  });

  it('is met exactly on either limit', () => {
    expect(broken(5)).toBe(false);
    expect(broken(35)).toBe(false);
  });

  it('is met exactly on a limit converted from °F: 45 °F is 7.2 °C on the sheet', () => {
    const metric = must(air({ airMinC: sheet(7.2) }));
    expect(breaks(metric, momentView({ airTempC: 7.2 }))).toBe(false);
    expect(breaks(metric, momentView({ airTempC: 7.1 }))).toBe(true);
  });

  it('leaves the side open that the sheet does not print', () => {
    const warmEnough = must(air({ airMinC: sheet(5) }));
    expect(breaks(warmEnough, momentView({ airTempC: 50 }))).toBe(false);
    expect(warmEnough.words).toContain('at least 5 °C');
    const coolEnough = must(air({ airMaxC: sheet(35) }));
    expect(breaks(coolEnough, momentView({ airTempC: -20 }))).toBe(false);
    expect(coolEnough.words).toContain('at most 35 °C');
  });

  it('is no rule for a product that asks for nothing', () => {
    expect(air({})).toBeNull();
  });

  it('says whose it is', () => {
    expect(rule.whose).toBe('data sheet');
    expect(must(air({ airMinC: practice(5) })).whose).toBe('firm');
  });

  it('leaves a day unknown when air temperature is missing from nine on', () => {
    expect(runLacking('airTempC')).toMatchObject({ kind: 'unknown', cause: 'forecast-ends' });
  });
});

describe('surface temperature', () => {
  const rule = must(surface({ surfaceMinC: sheet(5), surfaceMaxC: sheet(50) }));
  const broken = (surfaceTempC: number) =>
    breaks(rule, momentView({ surfaceTempC, airTempC: -10 }));

  it('is met inside 5 to 50 °C whatever the air does', () => {
    expect(broken(5.1)).toBe(false);
    expect(broken(49.9)).toBe(false);
  });

  it('is broken at 4.9 and at 50.1 °C', () => {
    expect(broken(4.9)).toBe(true);
    expect(broken(50.1)).toBe(true);
  });

  it('is met exactly on either limit', () => {
    expect(broken(5)).toBe(false);
    expect(broken(50)).toBe(false);
  });

  it('is no rule for a product that asks for nothing', () => {
    expect(surface({})).toBeNull();
  });
});
