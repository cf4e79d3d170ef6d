import { describe, expect, it } from 'vitest';
import { extraDaysCost, nextBay, optionFor, type Prepared } from '../../src/planner/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import { type JobName, preparedFor, type Setting } from '../fixtures/planner/job.ts';
import { jobFor, randomWeather } from '../fixtures/planner/random-weather.ts';
import { HOUR_MS } from '../fixtures/planner/weather.ts';

/**
 * More people, a longer day or more light never make a searched day worse, because all that could be
 * done without them can still be done: a smaller gang of the same crew, knocking off sooner. What is
 * compared is what the whole job costs: the day's cheapest plan or, where that is dearer, standing down,
 * and a crew's day for each laying day. The plan shown may cost a little more, see `leastCost`.
 */

const DAY = localDayOn('2026-05-13', 'Europe/Dublin');
/**
 * Weathers in which the dispatch rule by itself does worse with more: without smaller gangs and shorter
 * days among what is tried, one at least of each of these turns red.
 */
const SEEDS = { people: [3, 4, 8], hours: [7, 9, 31, 41], light: [31, 39, 41, 57] };

function costOf(prepared: Prepared): number {
  const { job, products } = prepared;
  const leastCost = optionFor(prepared, DAY, 'full')?.leastCost ?? Number.POSITIVE_INFINITY;
  const ownDays = nextBay(job, products).of;
  return Math.min(leastCost, job.costs.standDown) + extraDaysCost(ownDays, job.costs);
}

/** How often the second of two settings was cheaper; it is never dearer. */
function neverDearer(
  seeds: readonly number[],
  of: (seed: number) => readonly [Prepared, Prepared],
): number {
  let cheaper = 0;
  for (const seed of seeds) {
    const [before, after] = of(seed).map(costOf);
    expect(after!, `seed ${seed}`).toBeLessThanOrEqual(before! + 1e-6);
    if (after! < before! - 1) cheaper += 1;
  }
  return cheaper;
}

const settingFor = (seed: number, job: JobName = jobFor(seed)): Setting => ({
  job,
  weather: randomWeather(seed, { members: 2, hours: 40 }),
});

describe('a full search', () => {
  it('never finds less for one more person', () => {
    const cheaper = neverDearer(SEEDS.people, (seed) => {
      const few = preparedFor(settingFor(seed));
      const people = few.job.crew.people + 1;
      return [few, few.variant({ people })];
    });
    expect(cheaper).toBeGreaterThan(0);
  });

  it('never finds less for one more hour of the working day', () => {
    const cheaper = neverDearer(SEEDS.hours, (seed) => {
      const setting = settingFor(seed);
      const ending = (dayEnd: string) => preparedFor({ ...setting, changes: { crew: { dayEnd } } });
      return [ending('15:30'), ending('16:30')];
    });
    expect(cheaper).toBeGreaterThan(0);
  });

  it('never finds less for one more hour of light', () => {
    const cheaper = neverDearer(SEEDS.light, (seed) => {
      const darkFrom = (hour: number): Prepared => {
        const prepared = preparedFor(settingFor(seed));
        const { grid } = prepared;
        // Rules are read when the plan is made: until then the sun can be put out.
        grid.sunElevationDeg.fill(
          -10,
          (hour * HOUR_MS) / grid.stepMs,
          (24 * HOUR_MS) / grid.stepMs,
        );
        return prepared;
      };
      return [darkFrom(13), darkFrom(14)];
    });
    expect(cheaper).toBeGreaterThan(0);
  });
});
