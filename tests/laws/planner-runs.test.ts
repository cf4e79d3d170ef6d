import { describe, expect, it } from 'vitest';
import { type DayRun, simulateDay } from '../../src/planner/index.ts';
import { faultsOf } from '../fixtures/planner/check-run.ts';
import { planOn } from '../fixtures/planner/job.ts';
import { jobFor, randomWeather } from '../fixtures/planner/random-weather.ts';
import { HOUR_MS, MINUTE_MS } from '../fixtures/planner/weather.ts';

/**
 * Every run of every job in every weather keeps the rules of the work: order, rests, one gang, films
 * closed inside their windows, nobody resting over a film that can be closed, no start in a gale, in
 * the dark or in rain, and outcomes that say what happened. The checker is independent of the planner.
 */

const SEEDS = 100;
const HALF_HOURS = 9;

describe('a day’s run', () => {
  const kinds = new Map<string, number>();
  let redone = 0;
  const check = (seeds: number, hoursOf: (seed: number) => number): string[] => {
    const faults: string[] = [];
    for (let seed = 1; seed <= seeds; seed += 1) {
      const weather = randomWeather(seed, { hours: hoursOf(seed) });
      const plan = planOn({ job: jobFor(seed), weather });
      for (let m = 0; m < weather.members; m += 1) {
        for (let k = 0; k < HALF_HOURS; k += 1) {
          const startMs = plan.shift.startMs + k * HOUR_MS;
          const run: DayRun = simulateDay(plan, m, { startMs });
          kinds.set(run.kind, (kinds.get(run.kind) ?? 0) + 1);
          redone += run.redone;
          for (const fault of faultsOf(plan, m, run))
            faults.push(`seed ${seed}, member ${m}, start ${k} h in: ${fault}`);
        }
      }
    }
    return faults;
  };

  it('keeps every rule of the work in forecasts that reach past the night', () => {
    expect(check(SEEDS, () => 44)).toEqual([]);
  });

  it('keeps them in forecasts that end in the middle of the day', () => {
    expect(check(SEEDS / 2, (seed) => 8 + (seed % 12))).toEqual([]);
  });

  it('was seen to end in each of the five ways, and to recoat films that went off', () => {
    for (const kind of ['finished', 'shortened', 'stoodDown', 'caughtOpen', 'unknown'])
      expect(kinds.get(kind) ?? 0, kind).toBeGreaterThan(20);
    expect(redone).toBeGreaterThan(4);
  });
});

describe('a forecast that ends in the middle of a task', () => {
  /** A start that has the named task under way at a whole hour, in weather that finishes. */
  function spanning(id: string): { startMs: number; hour: number } {
    const plan = planOn({ job: 'seed-workshop' });
    const n = plan.steps.findIndex((step) => step.activity.id === id);
    for (let minute = 0; minute < 60; minute += 1) {
      const startMs = plan.shift.startMs + minute * MINUTE_MS;
      const run = simulateDay(plan, 0, { startMs });
      const gridMs = plan.prepared.grid.startMs;
      const hour = Math.floor((run.doneMs[n]! - gridMs) / HOUR_MS);
      const spans = run.startMs[n]! < gridMs + hour * HOUR_MS - MINUTE_MS;
      if (run.kind === 'finished' && spans && run.doneMs[n]! > gridMs + hour * HOUR_MS + MINUTE_MS)
        return { startMs, hour };
    }
    throw new Error(`no start has ${id} under way at a whole hour`);
  }

  it.each(['check', 'bar-left'])('leaves the day unknown: %s', (id) => {
    const { startMs, hour } = spanning(id);
    const plan = planOn({ job: 'seed-workshop', weather: { hours: hour } });
    const run = simulateDay(plan, 0, { startMs });
    expect(run).toMatchObject({ kind: 'unknown', cause: 'forecast-ends' });
    // The bar is the last thing the roof needs to be rain-safe.
    expect(run.rainSafeMs === null).toBe(id === 'bar-left');
  });
});

describe('what lies under the work', () => {
  it.each(['sound-covering', 'sealed-vapour-layer'] as const)(
    'is never caught open over a %s, in weather that catches others',
    (under) => {
      let caught = 0;
      for (let seed = 1; seed <= 12; seed += 1) {
        const weather = randomWeather(seed, { wettest: 0.8 });
        const bare = planOn({ job: 'parish-room', weather });
        const tight = planOn({ job: 'parish-room', weather, changes: { buildUp: { under } } });
        for (let m = 0; m < weather.members; m += 1) {
          const startMs = bare.shift.startMs;
          if (simulateDay(bare, m, { startMs }).kind === 'caughtOpen') caught += 1;
          expect(simulateDay(tight, m, { startMs }).kind).not.toBe('caughtOpen');
        }
      }
      expect(caught).toBeGreaterThan(0);
    },
  );
});
