import { describe, expect, it } from 'vitest';
import { runThrough } from '../../src/answers/index.ts';
import { optionFor, searchDays, shiftOn, simulateDay } from '../../src/planner/index.ts';
import { clockText, isoUtc, localDayOn } from '../../src/time/index.ts';
import { type JobChanges, planOn, preparedFor } from '../fixtures/planner/job.ts';
import { HOUR_MS, MINUTE_MS, type WeatherOptions } from '../fixtures/planner/weather.ts';

/** Laying days where the clock or the sun does something unusual. */

const ANY_DAY: JobChanges = {
  earliest: null,
  latest: null,
  crew: { workDays: [1, 2, 3, 4, 5, 6, 7] },
};
/** Weather that is the same at every hour, so that only clock and sun matter. */
const EVEN: WeatherOptions = { airTempC: () => 15, solarWm2: () => 60, members: 2 };

describe('a laying day on a Sunday when the clocks change', () => {
  it.each([
    ['Europe/Dublin', -8.35, '2026-03-29', '2026-03-29T06:30:00Z'],
    ['Europe/Dublin', -8.35, '2026-10-25', '2026-10-25T07:30:00Z'],
    ['America/Chicago', -87.6, '2026-03-08', '2026-03-08T12:30:00Z'],
    ['America/Chicago', -87.6, '2026-11-01', '2026-11-01T13:30:00Z'],
  ])('%s (%d° east) on %s begins at 07:30 on the wall', (timeZone, longitudeDeg, date, utc) => {
    const setting = {
      changes: { ...ANY_DAY, site: { timeZone, longitudeDeg, latitudeDeg: 42 } },
      weather: { ...EVEN, start: `${date}T00:00:00Z`, hours: 60 },
      date,
    };
    const plan = planOn(setting);
    expect(isoUtc(plan.shift.startMs)).toBe(utc);
    const hours = shiftOn(plan.prepared.job.crew, plan.shift.day, timeZone);
    expect(hours.endMs - hours.startMs).toBe(9.5 * HOUR_MS);
    // On the first of November the sun sets before the crew's day is over.
    expect(plan.shift.endMs).toBeLessThanOrEqual(hours.endMs);
    expect(plan.shift.breaks.map((rest) => clockText(rest.fromMs, timeZone))).toEqual([
      '10:30',
      '13:00',
    ]);
    const option = optionFor(plan.prepared, localDayOn(date, timeZone))!;
    expect(option.outcomes.finished).toBe(2);
    expect((option.startMs! - plan.shift.startMs) % (15 * MINUTE_MS)).toBe(0);
    expect(clockText(option.startMs!, timeZone) >= '07:30').toBe(true);
    expect(clockText(option.finishMs!, timeZone) <= '17:00').toBe(true);
  });
});

describe('a roof at 68 degrees north', () => {
  const far = (date: string, crew: JobChanges['crew']) => {
    const setting = {
      changes: {
        ...ANY_DAY,
        site: { timeZone: 'Europe/Oslo', latitudeDeg: 68, longitudeDeg: 15 },
        crew: { ...ANY_DAY.crew, ...crew },
      },
      weather: { ...EVEN, start: `${date.slice(0, 8)}20T00:00:00Z`, hours: 84 },
      date,
    };
    return planOn(setting);
  };

  it('has every day stood down by darkness at the turn of the year: the sun does not rise', () => {
    const plan = far('2026-12-21', {});
    const option = optionFor(plan.prepared, plan.shift.day)!;
    expect(option).toMatchObject({ verdict: 'no', startMs: null });
    expect(option.outcomes.stoodDown).toBe(2);
    expect(option.reasons).toMatchObject([{ cause: 'daylight', whose: 'safety', count: 2 }]);
  });

  it('has no darkness at midsummer: a crew may begin at half past midnight and finish', () => {
    const plan = far('2026-06-21', { dayStart: '00:30', dayEnd: '10:00', breaks: [] });
    const run = simulateDay(plan, 0, { startMs: plan.shift.startMs });
    expect(clockText(plan.shift.startMs, 'Europe/Oslo')).toBe('00:30');
    expect(run.startMs[0]).toBe(plan.shift.startMs);
    expect(run.kind).toBe('finished');
  });

  it('has such a night shift wait for sunrise further south', () => {
    const setting = {
      changes: {
        ...ANY_DAY,
        crew: { ...ANY_DAY.crew, dayStart: '00:30', dayEnd: '10:00', breaks: [] },
      },
      weather: { ...EVEN, start: '2026-06-20T00:00:00Z', hours: 84 },
      date: '2026-06-21',
    };
    const plan = planOn(setting);
    const run = simulateDay(plan, 0, { startMs: plan.shift.startMs });
    // Sunrise at 52.05 N, 8.35 W: about 05:12 Irish time (almanac, from memory).
    const firstMs = Math.min(...run.startMs);
    expect(Math.abs(firstMs - Date.UTC(2026, 5, 21, 4, 12))).toBeLessThan(10 * MINUTE_MS);
  });
});

describe('a roof where the day is fourteen hours ahead of Greenwich', () => {
  const timeZone = 'Pacific/Kiritimati';
  const setting = {
    changes: { ...ANY_DAY, site: { timeZone, latitudeDeg: 1.9, longitudeDeg: -157.4 } },
    weather: { ...EVEN, start: '2026-05-13T00:00:00Z', hours: 72 },
    date: '2026-05-14',
  };

  it('has its days named as they are called there', () => {
    const found = runThrough(searchDays(preparedFor(setting)));
    expect(found.options.map((o) => o.day.date)).toEqual([
      // Four in the morning of the 13th by Greenwich is six in the evening here: too late today.
      '2026-05-14',
      '2026-05-15',
      '2026-05-16',
    ]);
    expect(found.skipped.map((s) => [s.day.date, s.why])).toEqual([['2026-05-13', 'too short']]);
  });

  it('begins at 07:30 on the wall, which is the evening before by Greenwich', () => {
    const plan = planOn(setting);
    expect(isoUtc(plan.shift.startMs)).toBe('2026-05-13T17:30:00Z');
    const option = optionFor(plan.prepared, plan.shift.day)!;
    expect(option.outcomes.finished).toBe(2);
  });
});

describe('a day that begins before its forecast does', () => {
  it('is unknown: nothing is taken for dry because no number is there', () => {
    const plan = planOn({
      changes: ANY_DAY,
      weather: { ...EVEN, start: '2026-05-13T08:00:00Z', hours: 60 },
      nowMs: Date.UTC(2026, 4, 13, 4),
      date: '2026-05-13',
    });
    for (const m of [0, 1]) {
      const run = simulateDay(plan, m, { startMs: plan.shift.startMs });
      expect(run.kind).toBe('unknown');
      expect([...run.startMs].every(Number.isNaN)).toBe(true);
      const laterMs = plan.prepared.grid.startMs;
      expect(simulateDay(plan, m, { startMs: laterMs }).kind).toBe('finished');
    }
  });
});
