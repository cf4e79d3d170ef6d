import { describe, expect, it } from 'vitest';
import { runThrough } from '../../src/answers/index.ts';
import { bestStart, type DaysFound, optionFor, searchDays } from '../../src/planner/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import { earlyOn, planOn, preparedFor, type Setting } from '../fixtures/planner/job.ts';
import { HOUR_MS, MINUTE_MS, rainBetween, weatherOf } from '../fixtures/planner/weather.ts';

const ZONE = 'Europe/Dublin';
const WEDNESDAY = localDayOn('2026-05-13', ZONE);
const search = (setting: Setting): DaysFound => runThrough(searchDays(preparedFor(setting)));
const wednesday = (setting: Setting) => optionFor(preparedFor(setting), WEDNESDAY);

describe('the days looked at', () => {
  const fortnight = { members: 1, hours: 24 * 9 };

  it('are working days between the earliest and the latest date; the others say why not', () => {
    const changes = {
      earliest: '2026-05-14',
      latest: '2026-05-19',
      crew: { workDays: [1, 3, 4, 6] },
    };
    const found = search({ weather: fortnight, changes });
    expect(found.options.map((o) => o.day.date)).toEqual([
      '2026-05-14',
      '2026-05-16',
      '2026-05-18',
    ]);
    const why = Object.fromEntries(found.skipped.map((s) => [s.day.date, s.why]));
    expect(why).toEqual({
      '2026-05-13': 'too early',
      '2026-05-15': 'not a working day',
      '2026-05-17': 'not a working day',
      '2026-05-19': 'not a working day',
      '2026-05-20': 'too late',
      '2026-05-21': 'too late',
      '2026-05-22': 'not a working day',
    });
  });

  it('leave out today once too little of it is left', () => {
    const nowMs = WEDNESDAY.startMs + 15 * HOUR_MS;
    const found = search({ weather: fortnight, nowMs });
    expect(found.skipped).toContainEqual({ day: WEDNESDAY, why: 'too short' });
  });

  it('are ranked by expected cost and the cost of waiting, dearest last', () => {
    // Dry on Wednesday in half of the forecasts, on Thursday in all, on Friday in a quarter.
    const rainMm = (h: number, m: number) => {
      const day = Math.floor((h - 1) / 24);
      const wet = [m % 2 === 0, false, m % 4 !== 0][day] ?? true;
      return wet ? 1 : 0;
    };
    const found = search({ weather: { members: 8, hours: 96, rainMm } });
    const cost = (o: DaysFound['options'][number]) =>
      o.expectedCost + o.plan.prepared.job.costs.waitPerDay * o.leadDays;
    const costs = found.ranked.map(cost);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    expect(found.ranked[0]?.day.date).toBe('2026-05-14');
    expect(found.ranked.map((o) => o.day.date)).not.toContain('2026-05-16');
  });

  it('let waiting cost: a dearer wait puts a likely Wednesday before a sure Thursday', () => {
    const best = (waitPerDay: number) =>
      search({
        changes: { costs: { waitPerDay } },
        weather: { members: 8, hours: 66, rainMm: (h, m) => (h < 24 && m < 2 ? 1 : 0) },
      }).ranked[0]?.day.date;
    expect(best(0)).toBe('2026-05-14');
    expect(best(5000)).toBe('2026-05-13');
  });
});

describe('the start', () => {
  it('lies on quarter hours of the crew’s day, never before it and never before now', () => {
    for (const [nowHour, fromHour] of [
      [5, 7.5],
      [10.2, 10.2],
    ] as const) {
      const nowMs = WEDNESDAY.startMs + nowHour * HOUR_MS;
      const option = wednesday({ weather: { members: 2, airTempC: () => 15 }, nowMs });
      const startMs = option!.startMs!;
      expect(startMs).toBeGreaterThanOrEqual(WEDNESDAY.startMs + fromHour * HOUR_MS);
      expect((startMs - option!.plan.shift.startMs) % (15 * MINUTE_MS)).toBe(0);
    }
  });

  it('waits for a shower to pass that every forecast shows', () => {
    const rainMm = rainBetween(7, 9);
    const option = wednesday({
      job: 'parish-room',
      changes: { site: { wall: null } },
      weather: { members: 3, rainMm },
    });
    // Over by ten on the clock; the earlier starts are caught open or stand about.
    expect(option!.outcomes.caughtOpen).toBe(0);
  });

  it('is none where no forecast lets the work finish', () => {
    expect(wednesday({ weather: { members: 3, rainMm: () => 1 } })?.startMs).toBeNull();
  });
});

describe('what is not known', () => {
  it('is no chance with a single forecast', () => {
    const chance = wednesday({ weather: { members: 1 } })!.chance;
    expect(chance).toMatchObject({ count: 1, of: 1, adjusted: null, tenths: null });
    expect(chance.words).toMatch(/one forecast only/);
  });

  it('is not taken for dry: a day in whose middle the forecast ends is unknown and unranked', () => {
    const found = search({ job: 'seed-workshop', weather: { members: 3, hours: 24 + 11 } });
    const thursday = found.options.find((o) => o.day.date === '2026-05-14')!;
    expect(thursday.verdict).toBe('unknown');
    expect(thursday.outcomes.finished).toBe(0);
    expect(thursday.outcomes.unknown).toBe(3);
    expect(found.ranked.map((o) => o.day.date)).toEqual(['2026-05-13']);
  });

  it('leaves a forecast without any numbers out of the count, and the others as they were', () => {
    const gap = (h: number, m: number) => (m === 5 ? Number.NaN : 15 + (h % 3) * 0.1);
    const weather = { airTempC: gap, rainMm: (h: number, m: number) => (m === 1 && h > 9 ? 1 : 0) };
    const job = 'seed-workshop';
    const six = wednesday({ job, weather: { ...weather, members: 6 } })!;
    const five = wednesday({ job, weather: { ...weather, members: 5 } })!;
    expect(six.outcomes).toEqual({ ...five.outcomes, unknown: 1 });
    expect(six.chance.of).toBe(5);
    expect(six.startMs).toBe(five.startMs);
    expect(six.verdict).toBe(five.verdict);
  });

  it('makes the day unknown when more than a fifth of the forecasts end too early', () => {
    const ending = (count: number) => (h: number, m: number) =>
      m < count && h > 10 ? Number.NaN : 15;
    const verdict = (count: number) =>
      wednesday({
        job: 'seed-workshop',
        weather: { members: 10, airTempC: ending(count) },
      })!.verdict;
    expect(verdict(2)).not.toBe('unknown');
    expect(verdict(3)).toBe('unknown');
  });
});

describe('the verdict', () => {
  /** A stripped roof begun at the crew's usual hour: so many of twenty forecasts rain from ten on. */
  const caughtIn = (count: number) => {
    const plan = planOn({
      job: 'parish-room',
      changes: { costs: { standDown: 600, caughtOpen: 6000 } },
      weather: { members: 20, rainMm: (h, m) => (m < count && h > 9 ? 1 : 0) },
    });
    return bestStart(plan, [plan.shift.startMs]);
  };

  it('is no once more are caught open than the cost-loss rule bears, however good the chance', () => {
    // 600 / 6,000 = 0.1; of twenty, one is reckoned as (1 + 1) / 22 = 0.09 and two as 3 / 22 = 0.14.
    const one = caughtIn(1);
    const two = caughtIn(2);
    expect([one.outcomes.caughtOpen, two.outcomes.caughtOpen]).toEqual([1, 2]);
    expect(one.value.caughtChance).toBeCloseTo(2 / 22, 12);
    expect(two.value.caughtChance).toBeCloseTo(3 / 22, 12);
    expect(one.verdict).toBe('go');
    expect(two.verdict).toBe('no');
    expect(two.outcomes.finished).toBe(18);
  });

  it('is never doubtful where no forecast finishes, however few there are and however far off', () => {
    const hourly = weatherOf({ hours: 24 * 12, members: 2 });
    const found = search({
      weather: { hours: 24 * 12, members: 2, rainMm: () => 1 },
      nowMs: earlyOn(hourly),
    });
    expect(found.options.length).toBeGreaterThan(5);
    for (const option of found.options) expect(['no', 'unknown']).toContain(option.verdict);
  });
});
