import { getTimes } from 'suncalc';
import { describe, expect, it } from 'vitest';
import { type DayPlan, type DayRun, planFor, simulateDay } from '../../src/planner/index.ts';
import { DayBounds } from '../../src/planner/search/bounds.ts';
import { until } from '../../src/planner/search/light.ts';
import { Line } from '../../src/planner/search/line.ts';
import { localDayOn } from '../../src/time/index.ts';
import { type JobName, planOn, preparedFor } from '../fixtures/planner/job.ts';
import { jobFor, randomWeather } from '../fixtures/planner/random-weather.ts';
import { HOUR_MS, MINUTE_MS } from '../fixtures/planner/weather.ts';

/**
 * What the search leaves out unrun must not have been better: what it takes as the least a run can cost
 * is never more than the run costs, and a run it takes over from a longer day is the run of the shorter
 * one. Costs are added up here anew.
 */

const SEEDS = 24;

function costOf({ prepared, shift }: DayPlan, run: DayRun): number {
  const { standDown, shortened, caughtOpen } = prepared.job.costs;
  const idle = standDown * Math.min(1, run.idleMs / (shift.endMs - shift.startMs));
  switch (run.kind) {
    case 'finished':
      return idle;
    case 'caughtOpen':
      return idle + caughtOpen;
    case 'shortened':
      return idle + shortened + (run.laid ? 0 : standDown);
    default:
      return idle + standDown;
  }
}

const planFrom = (seed: number, job: JobName = jobFor(seed)): DayPlan =>
  planOn({ job, weather: randomWeather(seed, { members: 3, hours: 44, wettest: 0.8 }) });

describe('the least a run can cost', () => {
  it('is never more than it costs, and is often more than nothing', () => {
    let said = 0;
    let runs = 0;
    for (let seed = 1; seed <= SEEDS; seed += 1) {
      const plan = planFrom(seed);
      const bounds = new DayBounds(plan);
      for (let k = 0; k < 9; k += 1) {
        const startMs = plan.shift.startMs + k * HOUR_MS;
        for (let m = 0; m < 3; m += 1) {
          const least = bounds.least(startMs, m);
          const cost = costOf(plan, simulateDay(plan, m, { startMs }));
          expect(least, `seed ${seed}, ${k} h in, forecast ${m}`).toBeLessThanOrEqual(cost + 1e-6);
          runs += 1;
          if (least > 0) said += 1;
        }
      }
    }
    expect(said).toBeGreaterThan(0.2 * runs);
  });

  it('is that of standing down where the roof can nowhere be opened', () => {
    const plan = planOn({ weather: { members: 2, rainMm: () => 1 } });
    const bounds = new DayBounds(plan);
    const { startMs } = plan.shift;
    expect(bounds.opens(startMs, 0)).toBe(false);
    expect(bounds.least(startMs, 0)).toBeGreaterThanOrEqual(plan.prepared.job.costs.standDown);
  });
});

describe('a run that was over in time', () => {
  it('goes just the same when the gang is to knock off sooner', () => {
    let taken = 0;
    for (let seed = 1; seed <= SEEDS; seed += 1) {
      const longer = new Line(planFrom(seed), 0);
      const { plan } = longer;
      for (const startMs of longer.starts.filter((_, n) => n % 6 === 0)) {
        const candidate = longer.at(startMs);
        for (let m = 0; m < 3; m += 1) longer.run(candidate, m);
      }
      for (let hours = 1; hours <= 5; hours += 1) {
        const shift = until(plan.shift, plan.shift.endMs - hours * HOUR_MS);
        const sooner = new Line({ ...plan, shift }, 0, 'as listed', longer);
        for (const startMs of sooner.starts.filter((_, n) => n % 6 === 0)) {
          const { costs, kinds } = sooner.at(startMs);
          for (let m = 0; m < 3; m += 1) {
            if (kinds[m] === null) continue;
            const run = simulateDay(sooner.plan, m, { startMs });
            expect(run.kind).toBe(kinds[m]);
            expect(costOf(sooner.plan, run)).toBeCloseTo(costs[m]!, 6);
            taken += 1;
          }
        }
      }
    }
    expect(taken).toBeGreaterThan(50);
  });
});

describe('the light', () => {
  it('ends a plan’s hours where it ends before the crew’s', () => {
    const winter = preparedFor({
      weather: { start: '2026-12-09T00:00:00Z', hours: 48, members: 1 },
    });
    const { shift } = planFor(winter, localDayOn('2026-12-09', 'Europe/Dublin'));
    const { latitudeDeg, longitudeDeg } = winter.job.site;
    const { sunset } = getTimes(new Date('2026-12-09T12:00:00Z'), latitudeDeg, longitudeDeg);
    // Source: the library suncalc; light is read every five minutes.
    expect(Math.abs(shift.endMs - Number(sunset))).toBeLessThanOrEqual(5 * MINUTE_MS);
  });
});
