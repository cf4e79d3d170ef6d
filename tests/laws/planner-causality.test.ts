import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DayPlan, type DayRun, simulateDay } from '../../src/planner/index.ts';
import { planOn, samePlan } from '../fixtures/planner/job.ts';
import { jobFor, randomWeather } from '../fixtures/planner/random-weather.ts';
import { HOUR_MS, type HourlyFn } from '../fixtures/planner/weather.ts';

/**
 * No forecast's crew sees its own future. Stamps after hour t of one member are changed; every start
 * that this member's crew decided on before t must stay as it was.
 *
 * A start is a decision. What comes of it is not: a film that is down at t may be closed in one
 * future and go off in the other, where it is scraped off and both are begun anew; so a film that is
 * not closed by t is left out with its closing. The list itself is held: it is sized once, from all
 * forecasts together.
 */

const M = 1;
const MEMBERS = 4;

const afterStamp =
  (t: number, old: HourlyFn, changed: HourlyFn): HourlyFn =>
  (h, m) =>
    m === M && h > t ? changed(h, m) : old(h, m);

/** What was begun before t, by name. */
function begunBefore(plan: DayPlan, run: DayRun, tMs: number): Map<string, number> {
  return new Map(
    plan.steps.flatMap((step, n) =>
      run.startMs[n]! < tMs ? [[step.activity.id, run.startMs[n]!] as const] : [],
    ),
  );
}

/** Films down but not closed at t, with what closes them. */
function openAt(plan: DayPlan, run: DayRun, tMs: number): Set<string> {
  const open = new Set<string>();
  plan.steps.forEach((step, n) => {
    if (step.closes === null || run.doneMs[n]! <= tMs) return;
    open.add(step.activity.id).add(plan.steps[step.closes]!.activity.id);
  });
  return open;
}

const apart = (a: DayRun, b: DayRun): boolean => a.endMs !== b.endMs || a.kind !== b.kind;

describe('a crew in one forecast', () => {
  it('decides the same up to any hour, whatever its own weather does after it', () => {
    let differed = 0;
    let compared = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 7, max: 18 }),
        fc.integer({ min: 0, max: 4 }),
        (seed, otherSeed, t, lateHours) => {
          const job = jobFor(seed);
          const was = randomWeather(seed, { members: MEMBERS });
          const other = randomWeather(otherSeed, { members: MEMBERS, wettest: 1 });
          const weather = {
            ...was,
            airTempC: afterStamp(t, was.airTempC, other.airTempC),
            dewPointC: afterStamp(t, was.dewPointC, other.dewPointC),
            windMps: afterStamp(t, was.windMps, other.windMps),
            gustMps: afterStamp(t, was.gustMps, other.gustMps),
            rainMm: afterStamp(t, was.rainMm, other.rainMm),
            solarWm2: afterStamp(t, was.solarWm2, other.solarWm2),
          };
          const plan = planOn({ job, weather: was });
          const then = samePlan(plan, { job, weather });
          const startMs = plan.shift.startMs + lateHours * HOUR_MS;
          const tMs = plan.prepared.grid.startMs + t * HOUR_MS;
          const first = simulateDay(plan, M, { startMs });
          const second = simulateDay(then, M, { startMs });
          const before = begunBefore(plan, first, tMs);
          const after = begunBefore(then, second, tMs);
          for (const id of [...openAt(plan, first, tMs), ...openAt(then, second, tMs)]) {
            before.delete(id);
            after.delete(id);
          }
          expect(Object.fromEntries(after)).toEqual(Object.fromEntries(before));
          compared += before.size;
          if (apart(first, second)) differed += 1;
        },
      ),
      { numRuns: 120, seed: 20260513 },
    );
    // The law is empty where nothing was decided before t, or where the change made no difference.
    expect(compared).toBeGreaterThan(500);
    expect(differed).toBeGreaterThan(20);
  });
});
