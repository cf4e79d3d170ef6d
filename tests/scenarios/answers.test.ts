import { describe, expect, it } from 'vitest';
import {
  answerDays,
  answerWithoutForecast,
  answerWork,
  runThrough,
  weatherMisuse,
} from '../../src/answers/index.ts';
import { earlyOn, jobOf } from '../fixtures/planner/job.ts';
import { faultsIn } from '../fixtures/planner/order-of-work.ts';
import { HOUR_MS, weatherOf } from '../fixtures/planner/weather.ts';

/** The two main questions, asked as server and command line ask them. */

const ready = jobOf('seed-workshop');
const hourly = weatherOf({ members: 6, hours: 24 * 8, rainMm: (h, m) => (h > 62 + m ? 1 : 0) });
const nowMs = earlyOn(hourly);

describe('the days of a job', () => {
  const answer = runThrough(answerDays(ready, hourly, nowMs, { depth: 'quick' }));

  it('come in order of date, each once, from today to the forecast’s end', () => {
    expect(answer.days.map((day) => day.date)).toEqual([
      '2026-05-13',
      '2026-05-14',
      '2026-05-15',
      '2026-05-16',
      '2026-05-17',
      '2026-05-18',
      '2026-05-19',
      '2026-05-20',
      '2026-05-21',
    ]);
  });

  it('count every forecast once in each day that is looked at', () => {
    for (const day of answer.days.filter((d) => d.chance !== null)) {
      const all = Object.values(day.outcomes).reduce((sum, of) => sum + of, 0);
      expect(all).toBe(6);
    }
  });

  it('rank from one without a gap, and only days that can be judged', () => {
    const ranks = answer.days.flatMap((day) => day.rank ?? []).sort((a, b) => a - b);
    expect(ranks).toEqual(ranks.map((_, n) => n + 1));
    for (const day of answer.days) if (day.verdict === 'unknown') expect(day.rank).toBeNull();
  });

  it('say why for a day off: Saturday is no working day, and has no chance', () => {
    const saturday = answer.days.find((day) => day.date === '2026-05-16')!;
    expect(saturday).toMatchObject({ verdict: 'no', chance: null, startMs: null });
    expect(saturday.sentence).toBe('Not a working day for this crew.');
  });

  it('give each judged day a sentence with the day’s name and no empty place in it', () => {
    for (const day of answer.days.filter((d) => d.chance !== null)) {
      expect(day.sentence).toMatch(/(Mon|Tues|Wednes|Thurs|Fri)day \d+ May/);
      expect(day.sentence).not.toMatch(/ {2}|undefined|NaN|null/);
    }
  });

  it('give no chance once the forecast has ended', () => {
    const later = runThrough(
      answerDays(ready, hourly, nowMs + 30 * 24 * HOUR_MS, { depth: 'quick' }),
    );
    expect(later).toMatchObject({ weather: null, days: [] });
    expect(later.noForecast).toMatch(/No current forecast/);
  });

  it('say the reason where there is no forecast at all', () => {
    const none = answerWithoutForecast(ready, nowMs, 'No current forecast. The line is down.');
    expect(none).toMatchObject({ days: [], noForecast: 'No current forecast. The line is down.' });
  });
});

describe('the order of work', () => {
  const ask = (date: string, at = nowMs) => answerWork(ready, hourly, at, date);

  it('keeps the rules of the work as it is printed', () => {
    const work = ask('2026-05-13');
    if (!work.ok) throw new Error(JSON.stringify(work.issues));
    expect(work.answer.items.length).toBeGreaterThan(20);
    expect(faultsIn(work.answer)).toEqual([]);
  });

  it('is refused, with the sentence why, for days that cannot be planned', () => {
    const why = (date: string, at = nowMs) => {
      const work = ask(date, at);
      return work.ok ? 'planned' : work.issues[0]!.message;
    };
    expect(why('2026-05-12')).toMatch(/2026-05-12; it must be today \(2026-05-13\) or later/);
    expect(why('2026-05-16')).toMatch(/2026-05-16; for this job and crew it is not a working day/);
    expect(why('2026-06-08')).toMatch(/2026-06-08; the forecast ends on 2026-05-21/);
    expect(why('2026-05-13', nowMs + 12 * HOUR_MS)).toMatch(
      /not enough of the working day is left/,
    );
  });

  it('is empty of tasks on a day no forecast finishes, and still says the verdict', () => {
    const wet = weatherOf({ members: 3, rainMm: () => 1 });
    const work = answerWork(ready, wet, earlyOn(wet), '2026-05-13');
    if (!work.ok) throw new Error(JSON.stringify(work.issues));
    expect(work.answer.items).toEqual([]);
    expect(work.answer.day).toMatchObject({ verdict: 'no', startMs: null });
    expect(work.answer.rainSafeMs).toBeNull();
  });
});

describe('invented weather', () => {
  it('is refused for a real job and taken for the demo’s own', () => {
    const own = { ...ready.job, demo: false };
    expect(weatherMisuse(ready.job, hourly)).toBeNull();
    expect(weatherMisuse(own, hourly)).toMatch(/invented/);
    const real = { ...hourly, source: { ...hourly.source, invented: false } };
    expect(weatherMisuse(own, real)).toBeNull();
  });
});
