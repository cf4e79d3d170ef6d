import { describe, expect, it } from 'vitest';
import {
  type DayOption,
  extraDaysCost,
  optionFor,
  type Prepared,
  searchDays,
  simulateDay,
} from '../../src/planner/index.ts';
import { preparedFor } from '../fixtures/planner/job.ts';
import { randomWeather } from '../fixtures/planner/random-weather.ts';

/** First answer and full search of the same question, and stopping in between. */

const prepared: Prepared = preparedFor({
  job: 'parish-room',
  weather: randomWeather(6, { members: 4, hours: 68, wettest: 0.5 }),
});
const steps = [...searchDays(prepared, 'full')];
const full = runThrough(searchDays(prepared, 'full'));
const quick = runThrough(searchDays(prepared, 'quick'));

function runThrough<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}

const told = (option: DayOption) => ({
  date: option.day.date,
  startMs: option.startMs,
  way: option.way,
  outcomes: option.outcomes,
  chance: option.chance,
  expectedCost: option.expectedCost,
  order: option.plan.work.activities.map(({ id }) => id),
});

describe('a first answer', () => {
  it('lays by the job’s own split, in the list’s own order, by the whole crew', () => {
    for (const { way, searched, plan } of quick.options) {
      expect(searched).toBe('quick');
      expect(way).toMatchObject({ order: 'as listed', people: 3, bays: quick.bay.of });
      expect(way.offMs).toBe(plan.shift.endMs);
    }
  });

  it('is what a search has for every day before it goes on', () => {
    const first = steps.find(({ words }) => words.endsWith('in full'))!;
    expect(first.found.options.map(told)).toEqual(quick.options.map(told));
  });
});

describe('a full search', () => {
  it('looks at more than one day, and none is dearer than at first sight', () => {
    expect(full.options.length).toBeGreaterThan(1);
    expect(full.options.map(({ day }) => day.date)).toEqual(
      quick.options.map(({ day }) => day.date),
    );
    full.options.forEach((option, n) => {
      expect(option.leastCost).toBeLessThanOrEqual(quick.options[n]!.leastCost + 1e-9);
    });
    expect(full.options.some(({ searched }) => searched === 'full')).toBe(true);
  });

  it('shows a plan that costs at most 3 % of a stood-down day more than the cheapest, unless that never finishes', () => {
    const { standDown } = prepared.job.costs;
    const laid = [...full.options, ...quick.options].filter(({ verdict }) => verdict !== 'no');
    expect(laid.length).toBeGreaterThan(1);
    for (const { expectedCost, leastCost } of laid)
      expect(expectedCost).toBeLessThanOrEqual(leastCost + 0.03 * standDown + 1e-6);
  });

  it('offers no start that never finishes where another does, and ranks days to leave last', () => {
    expect(full.options.some(({ verdict }) => verdict === 'no')).toBe(true);
    for (const { plan, startMs, outcomes, searched } of full.options) {
      if (startMs !== null) expect(outcomes.finished).toBeGreaterThan(0);
      else if (searched === 'full')
        for (let ms = plan.shift.startMs; ms < plan.shift.endMs; ms += 3_600_000)
          for (let m = 0; m < prepared.grid.memberCount; m += 1)
            expect(simulateDay(plan, m, { startMs: ms }).kind).not.toBe('finished');
    }
    const verdicts = full.ranked.map(({ verdict }) => verdict);
    const firstLeft = verdicts.indexOf('no');
    expect(verdicts.slice(firstLeft).every((verdict) => verdict === 'no')).toBe(true);
  });

  it('never loses what it had: each step has every day, and none dearer than the step before', () => {
    const seen = new Map<string, number>();
    for (const { found, share } of steps) {
      expect(share).toBeGreaterThanOrEqual(0);
      expect(share).toBeLessThan(1);
      for (const date of seen.keys())
        expect(found.options.map(({ day }) => day.date)).toContain(date);
      for (const { day, leastCost } of found.options) {
        expect(leastCost).toBeLessThanOrEqual((seen.get(day.date) ?? leastCost) + 1e-9);
        seen.set(day.date, leastCost);
      }
    }
  });

  it('comes to the same for a day whether it is asked alone or among the others', () => {
    for (const option of full.options)
      expect(told(optionFor(prepared, option.day, 'full')!)).toEqual(told(option));
  });

  it('says of each plan how it is laid, and keeps every task of the list', () => {
    for (const { way, plan } of full.options) {
      expect(way.people).toBe(plan.prepared.job.crew.people);
      expect(way.people).toBeLessThanOrEqual(3);
      expect(way.offMs).toBe(plan.shift.endMs);
      expect(way.bays).toBe(plan.work.bay.of);
      const ids = plan.work.activities.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      plan.steps.forEach((step, n) => {
        for (const before of step.after) expect(before).toBeLessThan(n);
      });
    }
  });
});

describe('one more laying day', () => {
  const costs = {
    currency: 'EUR',
    standDown: 750,
    shortened: 300,
    caughtOpen: 9500,
    waitPerDay: 110,
  };

  it('costs a crew’s day and a day waited, whatever comes: 750 + 110', () => {
    expect(extraDaysCost(0, costs)).toBe(0);
    expect(extraDaysCost(1, costs)).toBe(860);
    expect(extraDaysCost(3, costs)).toBe(2580);
    expect(() => extraDaysCost(-1, costs)).toThrow('extraDays (-1)');
  });

  it('is taken where a smaller bay is closed before the rain that finds the larger one open', () => {
    const risky = preparedFor({
      job: 'parish-room',
      changes: {
        site: { wall: null },
        crew: { dayEnd: '13:00', breaks: [] },
        costs: { standDown: 300, waitPerDay: 50 },
      },
      weather: {
        members: 4,
        hours: 44,
        airTempC: () => 16,
        dewPointC: () => 6,
        rainMm: (h) => (h > 10 ? 2 : 0),
      },
    });
    const { day } = quick.options[0]!;
    const [larger, smaller] = [optionFor(risky, day, 'quick')!, optionFor(risky, day, 'full')!];
    expect(larger.outcomes.finished).toBe(0);
    expect(smaller.outcomes.finished).toBe(4);
    expect(smaller.way.bays).toBe(larger.way.bays + 1);
    // A crew's day and a day waited more, and still the cheaper.
    expect(smaller.expectedCost).toBeGreaterThanOrEqual(300 + 50);
    expect(smaller.expectedCost).toBeLessThan(larger.expectedCost);
  });
});
