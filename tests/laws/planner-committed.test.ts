import { describe, expect, it } from 'vitest';
import { type DayPlan, STARTER_LIMITS } from '../../src/planner/index.ts';
import { committedTo, holdsIn } from '../fixtures/planner/committed.ts';
import {
  planOn,
  preparedFor,
  type Setting,
  samePlan,
  samePlanOn,
} from '../fixtures/planner/job.ts';
import { jobFor, randomWeather } from '../fixtures/planner/random-weather.ts';
import { HOUR_MS } from '../fixtures/planner/weather.ts';

/**
 * A committed plan, every task at its time: more rain, less daylight or stricter limits never raise the
 * share of forecasts in which it holds; not even one forecast that was against it comes round.
 */

const SEEDS = 9;
const MEMBERS = 4;
const STARTS_H = [0, 1.5, 3];

/** Forecasts in which plans held before, and of those after; none is gained. */
function neverGains(harder: (setting: Setting, plan: DayPlan, seed: number) => DayPlan) {
  const counts = { before: 0, after: 0 };
  for (let seed = 1; seed <= SEEDS; seed += 1) {
    const weather = randomWeather(seed, { members: MEMBERS, hours: 44, wettest: 0.3 });
    const setting: Setting = { job: jobFor(seed), weather };
    const plan = planOn(setting);
    const committed = STARTS_H.flatMap((hours) =>
      Array.from({ length: MEMBERS }, (_, m) => m).flatMap((m) => {
        const times = committedTo(plan, m, plan.shift.startMs + hours * HOUR_MS);
        return times === null ? [] : [{ m, times }];
      }),
    );
    if (committed.length === 0) continue;
    const other = harder(setting, plan, seed);
    for (const { m, times } of committed) {
      expect(holdsIn(plan, m, times), `seed ${seed}: its own forecast`).toBe(true);
      for (let n = 0; n < MEMBERS; n += 1) {
        const [was, is] = [holdsIn(plan, n, times), holdsIn(other, n, times)];
        expect(is && !was, `seed ${seed}, plan of ${m}, forecast ${n} comes round`).toBe(false);
        if (was) counts.before += 1;
        if (is) counts.after += 1;
      }
    }
  }
  return counts;
}

describe('the share of forecasts in which a committed plan holds', () => {
  it('never rises with more rain, and falls with some', () => {
    const { before, after } = neverGains((setting, plan, seed) => {
      const { rainMm } = setting.weather!;
      const more = (h: number, m: number): number =>
        rainMm!(h, m) + ((h * 7 + m * 3 + seed) % 11 === 0 ? 0.8 : 0);
      return samePlan(plan, { ...setting, weather: { ...setting.weather, rainMm: more } });
    });
    expect(after).toBeLessThan(before);
  });

  it('never rises with less daylight, and falls with some', () => {
    const { before, after } = neverGains((setting, plan) => {
      const prepared = preparedFor(setting);
      const { grid } = prepared;
      // Rules are read when the plan is made: until then the sun can be put out.
      grid.sunElevationDeg.fill(-10, (11 * HOUR_MS) / grid.stepMs, (24 * HOUR_MS) / grid.stepMs);
      return samePlanOn(plan, prepared);
    });
    expect(after).toBeLessThan(before);
  });

  it('never rises with stricter limits, and falls with some', () => {
    const limits = {
      ...STARTER_LIMITS,
      sheetWindMps: 3,
      sheetGustMps: 5,
      roofWindMps: 4,
      roofGustMps: 6,
      dewMarginMinK: 6,
      coldNightShare: 0,
    };
    const { before, after } = neverGains((setting, plan) => samePlan(plan, { ...setting, limits }));
    expect(after).toBeLessThan(before);
  });
});
