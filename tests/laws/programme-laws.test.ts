import fc from 'fast-check';
import highs from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { nothingChosen } from '../../src/programme/chosen.ts';
import {
  type Assigned,
  assign,
  type ProgrammeAsk,
  type SolveSmall,
  solveWithHighs,
} from '../../src/programme/index.ts';
import { boundAt } from '../../src/programme/lagrange.ts';
import { packingOf } from '../../src/programme/packing.ts';
import { fillExactly } from '../../src/programme/repair-exactly.ts';
import { datesFrom, randomAsk } from '../fixtures/programme/random-ask.ts';

/** Laws of the assignment: values compared are proven best, by HiGHS (https://highs.dev) as exact solver. */

const SIZE = { jobs: 8, crews: 2, days: 7, fillers: 2, longest: 3 };
const budget = { iterations: 40, boundSteps: 60 };
const seeds = Array.from({ length: 8 }, (_, n) => n + 1);

let solve: SolveSmall;
beforeAll(async () => {
  // The package's types say CommonJS, so the loader looks like a member of what is in fact the loader.
  const load = highs as unknown as typeof highs.default;
  solve = solveWithHighs(await load());
});

function best(ask: ProgrammeAsk): Assigned {
  const found = assign(ask, { seed: 1, solve, budget });
  expect(found.search.proven).toBe(true);
  return found;
}

/** By how much each change moves the best value; both signs of a law that can fail are counted. */
function changes(change: (ask: ProgrammeAsk, seed: number) => ProgrammeAsk): number[] {
  return seeds.map((seed) => {
    const ask = randomAsk(SIZE, seed);
    return best(change(ask, seed)).value - best(ask).value;
  });
}

const HAIR = 1e-6;

describe('the best value', () => {
  it('is never lower with one more crew, and mostly higher', () => {
    const moved = changes((ask) => ({
      ...ask,
      crews: [...ask.crews, { ...ask.crews[0]!, id: 'one-more' }],
    }));
    expect(Math.min(...moved)).toBeGreaterThan(-HAIR);
    expect(moved.filter((by) => by > 1).length).toBeGreaterThan(4);
  });

  it('is never lower with one more day, and sometimes higher', () => {
    const moved = changes((ask, seed) => {
      // The same question with its last day kept out of sight is the one without it.
      const longer = randomAsk({ ...SIZE, days: SIZE.days + 1 }, seed);
      const more = datesFrom(2027, 4, 5, SIZE.days + 1).slice(-1);
      return {
        ...ask,
        days: [...ask.days, ...more],
        jobs: ask.jobs.map((job, n) => ({
          ...job,
          work: job.work.map((work) => ({
            ...work,
            days: [...work.days, ...longer.jobs[n]!.work[0]!.days.slice(-1)],
          })),
        })),
      };
    });
    expect(Math.min(...moved)).toBeGreaterThan(-HAIR);
    expect(moved.some((by) => by > 1)).toBe(true);
  });

  it('is never higher with a promise more, and sometimes lower', () => {
    const moved = changes((ask) => ({
      ...ask,
      jobs: ask.jobs
        .map((job, n) =>
          n < 4 ? { ...job, promise: { date: ask.days[1]!, price: 200, perDayLate: 10 } } : job,
        )
        .map((job, n) => (ask.jobs[n]!.promise === null ? job : ask.jobs[n]!)),
    }));
    expect(Math.max(...moved)).toBeLessThan(HAIR);
    expect(moved.some((by) => by < -1)).toBe(true);
  });

  it('is never higher with a day off, a skill asked or a "no" more', () => {
    const moved = changes((ask, seed) => ({
      ...ask,
      crews: ask.crews.map((crew, n) =>
        n === seed % 2 ? { ...crew, daysOff: [...crew.daysOff, ask.days[1]!] } : crew,
      ),
      jobs: ask.jobs.map((job, n) =>
        n % 3 === 0
          ? { ...job, skills: [...job.skills, 'hot work'] }
          : {
              ...job,
              work: job.work.map((work) => ({
                ...work,
                days: work.days.map((day, d) =>
                  d === seed % 5 ? { ...day, verdict: 'no' as const } : day,
                ),
              })),
            },
      ),
      // Filler work is priced by how good a day is for laying: without it only the jobs are compared.
      fillers: [],
    })).map(
      (by, n) =>
        by +
        best(randomAsk(SIZE, seeds[n]!)).value -
        best({ ...randomAsk(SIZE, seeds[n]!), fillers: [] }).value,
    );
    expect(Math.max(...moved)).toBeLessThan(HAIR);
    expect(moved.filter((by) => by < -1).length).toBeGreaterThan(2);
  });
});

describe('the same question', () => {
  it('with the same seed has the same answer, and the order of jobs does not change the best value', () => {
    const ask = randomAsk({ ...SIZE, jobs: 30, crews: 4, days: 10 }, 3);
    const once = assign(ask, { seed: 7, budget: { iterations: 200 } });
    expect(assign(ask, { seed: 7, budget: { iterations: 200 } })).toEqual(once);
    const turned = { ...ask, jobs: [...ask.jobs].reverse() };
    expect(best(turned).value).toBeCloseTo(best(ask).value, 6);
  });

  it('stopped at once still has a plan and a true bound', () => {
    const ask = randomAsk(SIZE, 5);
    const found = assign(ask, { seed: 1, shouldStop: () => true });
    expect(found.search.iterations).toBe(0);
    expect(found.visits.length).toBeGreaterThan(0);
    expect(found.search.bound).toBeGreaterThan(best(ask).value - HAIR);
  });
});

describe('filling free slots exactly', () => {
  it('finds the best of all fillings of a small packing, or says that none beats what is asked', () => {
    const option = fc.record({
      value: fc.integer({ min: 1, max: 50 }),
      slots: fc.uniqueArray(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 3 }),
    });
    const tasks = fc.array(fc.array(option, { maxLength: 4 }), { minLength: 1, maxLength: 5 });
    const prices = fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(tasks, prices, fc.integer({ min: 0, max: 80 }), (own, slotPrices, toBeat) => {
        const packing = packingOf(own, 6);
        const bound = boundAt(packing, Float64Array.from(slotPrices));
        const chosen = nothingChosen(packing);
        const all = Array.from({ length: packing.optionCount }, (_, o) => o);
        const most = bestFilling(own);
        const found = fillExactly(packing, chosen, all, { ...bound, toBeat, nodes: 1e6 });
        expect(bound.value).toBeGreaterThan(most - HAIR);
        expect(found).toBe(most > toBeat);
        if (found) expect(chosen.value).toBe(most);
      }),
      { numRuns: 300 },
    );
  });

  function bestFilling(tasks: readonly (readonly { value: number; slots: number[] }[])[]): number {
    const [first, ...rest] = tasks;
    if (first === undefined) return 0;
    const ways = first.map(({ value, slots }) => {
      const left = rest.map((own) => own.filter((it) => !it.slots.some((s) => slots.includes(s))));
      return value + bestFilling(left);
    });
    return Math.max(bestFilling(rest), ...ways);
  }
});
