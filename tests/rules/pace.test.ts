import { describe, expect, it } from 'vitest';
import { paceFor, tasksAhead } from '../../src/planner/index.ts';
import { planOn } from '../fixtures/planner/job.ts';

/** Cold under 5 °C and gusts cut output by 20-50 % (common practice). */

describe('the pace of a day', () => {
  it('is the usual one in fair weather, and says nothing', () => {
    expect(paceFor(15, 5)).toEqual({ slower: 1, words: '' });
  });

  it('loses a fifth at 5 °C and a half in hard frost', () => {
    expect(1 / paceFor(5, 0).slower).toBeCloseTo(0.8, 9);
    expect(1 / paceFor(-20, 0).slower).toBeCloseTo(0.5, 9);
    expect(paceFor(5, 0).words).toMatch(/25 % slower.*cold, 5 °C/);
  });

  it('loses a fifth in gusts of 10 m/s, and in heat of 32 °C', () => {
    expect(1 / paceFor(15, 10).slower).toBeCloseTo(0.8, 9);
    expect(1 / paceFor(32, 5).slower).toBeCloseTo(0.8, 9);
  });

  it('takes the worst of them, not all at once', () => {
    expect(paceFor(0, 10).slower).toBe(paceFor(0, 0).slower);
  });

  it('never gets better with more cold, more wind or more heat', () => {
    for (let airC = 20; airC > -25; airC -= 0.5)
      expect(paceFor(airC - 0.5, 5).slower).toBeGreaterThanOrEqual(paceFor(airC, 5).slower);
    for (let gustMps = 0; gustMps < 25; gustMps += 0.5)
      expect(paceFor(15, gustMps + 0.5).slower).toBeGreaterThanOrEqual(paceFor(15, gustMps).slower);
    for (let airC = 20; airC < 45; airC += 0.5)
      expect(paceFor(airC + 0.5, 5).slower).toBeGreaterThanOrEqual(paceFor(airC, 5).slower);
  });

  it('stretches the whole list of a gusty day, and cuts its sections', () => {
    const day = (gustMps: number) => planOn({ weather: { gustMps: () => gustMps } });
    const [fair, gusty] = [day(5), day(10)];
    const strip = (plan: typeof fair) =>
      plan.steps.find(({ activity }) => activity.id === 'sweep')!.durationMs;
    expect(strip(gusty) / strip(fair)).toBeCloseTo(1.25, 9);
    expect(gusty.work.sectionM2).toBeLessThan(fair.work.sectionM2);
  });

  it('slows coating ahead alike', () => {
    const { prepared, shift } = planOn({ weather: { gustMps: () => 10 } });
    const minutes = (day: typeof shift | null): number => {
      const found = tasksAhead(prepared, 3, day);
      if (!found.ok) throw new Error('refused');
      return found.tasks[0]!.coatMinPer;
    };
    expect(minutes(shift) / minutes(null)).toBeCloseTo(1.25, 9);
  });
});
