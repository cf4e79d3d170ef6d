import { describe, expect, it } from 'vitest';
import {
  type DayPlan,
  type FirmLimits,
  optionFor,
  STARTER_LIMITS,
  simulateDay,
} from '../../src/planner/index.ts';
import {
  type JobChanges,
  planOn,
  preparedFor,
  type Setting,
  samePlan,
  samePlanOn,
} from '../fixtures/planner/job.ts';
import { jobFor, randomWeather } from '../fixtures/planner/random-weather.ts';
import { HOUR_MS } from '../fixtures/planner/weather.ts';

/**
 * One committed list and start under harder conditions.
 *
 * It is NOT a law of a dispatch rule that more rain or stricter limits never help: a crew held longer
 * in the morning may be lucky and not have opened when the rain comes that would have caught it. Such
 * cases exist (about 1 run in 1500 of random weather) and are let stand. What does hold is below; in
 * dry weather only these seeds say so, and one that turns red is to be read before it is believed.
 */

const SEEDS = 16;
const STARTS = [0, 2, 4, 6];
const DARK_FROM_HOUR = 13;

const finishedIn = (plan: DayPlan, startMs: number): boolean[] =>
  Array.from(
    { length: plan.prepared.grid.memberCount },
    (_, m) => simulateDay(plan, m, { startMs }).kind === 'finished',
  );
const count = (flags: readonly boolean[]): number => flags.filter(Boolean).length;

/** Counts finished before and after over seeds and starts; the second never exceeds the first. */
function neverRises(
  harder: (setting: Setting, plan: DayPlan) => DayPlan,
  wettest = 0.4,
): { before: number; after: number } {
  let before = 0;
  let after = 0;
  for (let seed = 1; seed <= SEEDS; seed += 1) {
    const weather = randomWeather(seed, { hours: 44, wettest });
    const setting: Setting = { job: jobFor(seed), weather };
    const plan = planOn(setting);
    const other = harder(setting, plan);
    for (const hours of STARTS) {
      const startMs = plan.shift.startMs + hours * HOUR_MS;
      const was = count(finishedIn(plan, startMs));
      const is = count(finishedIn(other, startMs));
      expect(is, `seed ${seed}, start ${hours} h in`).toBeLessThanOrEqual(was);
      before += was;
      after += is;
    }
  }
  return { before, after };
}

describe('a shorter day', () => {
  it('never lets more forecasts finish in dry weather, and does cost some', () => {
    const changes: JobChanges = { crew: { dayEnd: '14:30' } };
    const { before, after } = neverRises(
      (setting, plan) => samePlan(plan, { ...setting, changes }),
      0,
    );
    expect(after).toBeLessThan(before);
  });
});

describe('less daylight', () => {
  it('in the afternoon never lets more forecasts finish, and does cost some', () => {
    const { before, after } = neverRises((setting, plan) => {
      const prepared = preparedFor(setting);
      const { grid } = prepared;
      // Rules are read when the plan is made: until then the sun can be put out.
      grid.sunElevationDeg.fill(
        -10,
        (DARK_FROM_HOUR * HOUR_MS) / grid.stepMs,
        (24 * HOUR_MS) / grid.stepMs,
      );
      return samePlanOn(plan, prepared);
    });
    expect(after).toBeLessThan(before);
  });
});

describe('stricter limits in dry weather', () => {
  const strict: readonly [string, Partial<FirmLimits>][] = [
    ['wind for sheet', { sheetWindMps: 3, sheetGustMps: 5 }],
    ['wind on the roof', { roofWindMps: 3, roofGustMps: 5 }],
    ['margin over the dew point', { dewMarginMinK: 8 }],
    ['cold nights', { coldNightShare: 0 }],
  ];
  it.each(strict)('never let more forecasts finish: %s', (name, change) => {
    const limits = { ...STARTER_LIMITS, ...change };
    const { before, after } = neverRises(
      (setting, plan) => samePlan(plan, { ...setting, limits }),
      0,
    );
    if (name !== 'cold nights') expect(after).toBeLessThan(before);
  });
});

describe('rain put into the open interval of a day that finished', () => {
  it.each(['occupied-room', 'sealed-vapour-layer'] as const)(
    'ends it there, over a %s',
    (under) => {
      let tried = 0;
      for (let seed = 1; seed <= 2 * SEEDS; seed += 1) {
        const job = seed % 2 === 0 ? 'parish-room' : 'boat-store';
        const weather = randomWeather(seed, { hours: 44, wettest: 0, members: 1 });
        const setting: Setting = { job, weather, changes: { buildUp: { under } } };
        const plan = planOn(setting);
        const startMs = plan.shift.startMs;
        const was = simulateDay(plan, 0, { startMs });
        if (was.kind !== 'finished') continue;
        const { startMs: gridMs } = plan.prepared.grid;
        // The first whole hour after opening.
        const hour = Math.ceil((was.openedMs! - gridMs) / HOUR_MS);
        if (gridMs + hour * HOUR_MS >= was.rainSafeMs!) continue;
        const wet = samePlan(plan, {
          ...setting,
          weather: { ...weather, rainMm: (h) => (h === hour + 1 ? 1.2 : 0) },
        });
        const run = simulateDay(wet, 0, { startMs });
        expect(run.kind).toBe(under === 'occupied-room' ? 'caughtOpen' : 'shortened');
        expect(run).toMatchObject({ cause: 'rain', causeMs: gridMs + hour * HOUR_MS });
        tried += 1;
      }
      expect(tried).toBeGreaterThan(3);
    },
  );
});

describe('the same question', () => {
  const weather = randomWeather(11, { members: 7 });
  const setting: Setting = { job: 'seed-workshop', weather };

  it('has the same answer', () => {
    const [first, second] = [planOn(setting), planOn(setting)];
    for (let m = 0; m < weather.members; m += 1) {
      const startMs = first.shift.startMs;
      expect(simulateDay(second, m, { startMs })).toEqual(simulateDay(first, m, { startMs }));
    }
    const day = first.shift.day;
    const [one, other] = [optionFor(first.prepared, day), optionFor(second.prepared, day)];
    expect(other).toMatchObject({
      startMs: one!.startMs,
      outcomes: one!.outcomes,
      chance: one!.chance,
      expectedCost: one!.expectedCost,
    });
  });

  it('has the same outcomes whatever the order of the forecasts', () => {
    for (const seed of [2, 5, 8, 11]) {
      const was = randomWeather(seed, { members: 7 });
      const order = [3, 6, 0, 5, 1, 4, 2];
      const shuffled = Object.fromEntries(
        Object.entries(was).map(([key, value]) => [
          key,
          typeof value === 'function' ? (h: number, m: number) => value(h, order[m]!) : value,
        ]),
      ) as unknown as typeof was;
      const job = jobFor(seed);
      const [plan, mixed] = [planOn({ job, weather: was }), planOn({ job, weather: shuffled })];
      const startMs = plan.shift.startMs;
      expect(mixed.work.sectionM2).toBe(plan.work.sectionM2);
      const kindsOf = (of: DayPlan) =>
        Array.from({ length: 7 }, (_, m) => {
          const run = simulateDay(of, m, { startMs });
          return `${run.kind} ${run.cause} ${Math.round(run.endMs / 1000)}`;
        });
      const before = kindsOf(plan);
      expect(kindsOf(mixed)).toEqual(order.map((m) => before[m]));
    }
  });

  it('gives 51 equal forecasts one and the same outcome', () => {
    const alike = new Set<string>();
    for (const seed of [3, 4, 9, 12]) {
      const single = randomWeather(seed, { members: 1, wettest: 0.8 });
      const weather51 = Object.fromEntries(
        Object.entries(single).map(([key, value]) => [
          key,
          typeof value === 'function' ? (h: number) => value(h, 0) : value,
        ]),
      ) as unknown as typeof single;
      const prepared = preparedFor({ job: jobFor(seed), weather: { ...weather51, members: 51 } });
      const option = optionFor(prepared, planOn({ weather: { hours: 44 } }).shift.day)!;
      const counts = Object.entries(option.outcomes).filter(([, of]) => of > 0);
      expect(counts).toHaveLength(1);
      expect(counts[0]![1]).toBe(51);
      alike.add(counts[0]![0]);
    }
    expect(alike.size).toBeGreaterThan(1);
  });
});
