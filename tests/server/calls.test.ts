import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { callsIn } from '../../src/answers/index.ts';
import {
  type DaysAnswer,
  daysAnswerSchema,
  type Hindsight,
  hindsightSchema,
  jobRowSchema,
  toJob,
  workAnswerSchema,
} from '../../src/contract/index.ts';
import type { SiteEvent } from '../../src/planner/index.ts';
import { CallBook } from '../../src/server/call-book.ts';
import { OWN_CTX } from '../../src/server/own-firm.ts';
import { rainBetween, weatherOf } from '../fixtures/planner/weather.ts';
import { dayCall } from '../kill/samples.ts';
import { dataOf, errorOf, NOW_MS, realJob, type TestServer, testServer } from './desk.ts';

/** The day after the server's first: one day is enough to be called. */
const DAY = '2026-06-09';
const NOT_YET = 'not yet checked against outcomes here';
const MINUTE_MS = 60_000;

/** Ten forecasts of two and a half days; one of them rains on the day. */
const rain = rainBetween(32, 36);
const forecast = weatherOf({
  start: '2026-06-08T00:00:00Z',
  hours: 60,
  members: 10,
  rainMm: (hour, m) => (m === 0 ? rain(hour, m) : 0),
});
const source = {
  ...forecast.source,
  kind: 'live',
  invented: false,
  model: 'a model',
  issuedMs: NOW_MS - 3 * 3_600_000,
  fetchedMs: NOW_MS,
} as const;

let server: TestServer;
let id = '';
beforeAll(async () => {
  server = await testServer({ now: () => NOW_MS });
  server.desk.weather.forJob = () =>
    Promise.resolve({ ok: true, hourly: { ...forecast, source }, key: 'ten forecasts' });
  const job = { ...realJob(), earliest: DAY, latest: DAY };
  const made = await server.send('POST', '/api/jobs', { requestId: randomUUID(), job });
  id = jobRowSchema.parse(dataOf(made)).job.id;
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

const hindsight = async (): Promise<Hindsight> =>
  hindsightSchema.parse(dataOf(await server.get('/api/calls')));
const askDays = async (): Promise<DaysAnswer> =>
  daysAnswerSchema.parse(dataOf(await server.get(`/api/jobs/${id}/days`)));
const pause = () => new Promise((resolve) => setTimeout(resolve, 10));
const kept = async () => {
  await hindsight();
  const calls = await server.store.calls(OWN_CTX, id);
  if (!calls.ok) throw new Error(calls.message);
  return calls.value;
};
const chanceOn = async () => {
  const work = await server.get(`/api/jobs/${id}/work?day=${DAY}`);
  return workAnswerSchema.parse(dataOf(work)).day.chance!;
};
const ended = (more: Record<string, unknown> = {}) => ({
  id: randomUUID(),
  jobId: id,
  atMs: Date.parse(`${DAY}T15:00:00Z`),
  loggedMs: Date.parse(`${DAY}T15:05:00Z`),
  actorId: 'foreman',
  kind: 'day-ended',
  date: DAY,
  went: 'finished',
  because: null,
  ...more,
});
const log = (events: readonly object[], jobId = id) =>
  server.send('POST', `/api/jobs/${jobId}/events`, { requestId: randomUUID(), events });

describe('a call', () => {
  let answer: DaysAnswer;

  it('is what the whole answer says of a day, kept once for each forecast', async () => {
    answer = await askDays();
    const { chance, verdict, startMs } = answer.days.find(({ date }) => date === DAY)!;
    const calls = await kept();
    expect(calls).toHaveLength(1);
    expect(calls[0]).toMatchObject({
      jobId: id,
      date: DAY,
      saidMs: answer.nowMs,
      verdict,
      startMs,
      bay: 1,
      count: chance!.count,
      of: chance!.of,
      shown: chance!.adjusted,
      words: chance!.words,
      issuedMs: answer.weather!.issuedMs,
      model: answer.weather!.model,
      made: false,
    });
    // The crew begins at 07:30 in Dublin, 06:30 UTC; asked at 04:30 UTC the day before.
    expect(calls[0]!.leadDays).toBeCloseTo(1 + 2 / 24, 6);
    // Asked again later under the same forecast, of another process even, it says nothing new.
    const { job } = jobRowSchema.parse(dataOf(await server.get(`/api/jobs/${id}`)));
    const book = new CallBook(server.desk, (error) => expect(error).toBeNull());
    book.keep(toJob(job), Promise.resolve({ ...answer, nowMs: answer.nowMs + 6 * MINUTE_MS }));
    await pause();
    await book.jobs();
    expect(await kept()).toEqual(calls);
  });

  it('is not made by a first answer, one that was stopped, or one with figures tried', async () => {
    const { job } = jobRowSchema.parse(dataOf(await server.get(`/api/jobs/${id}`)));
    const made = (change: Partial<DaysAnswer>) =>
      callsIn({ ...answer, ...change }, toJob(job)).length;
    expect(made({})).toBe(1);
    expect(made({ search: { ...answer.search, depth: 'quick' } })).toBe(0);
    expect(made({ search: { ...answer.search, state: 'stopped' } })).toBe(0);
    expect(made({ tried: { standDown: 100 } })).toBe(0);
    expect(made({ weather: null, days: [] })).toBe(0);
    const days = answer.days.map((day) => ({ ...day, verdict: 'unknown' as const }));
    expect(made({ days })).toBe(0);
  });

  it('of a demo job is never kept; a failure to keep one is logged and troubles nobody', async () => {
    const { job } = jobRowSchema.parse(dataOf(await server.get(`/api/jobs/${id}`)));
    const faults: unknown[] = [];
    let asked = 0;
    const store = {
      ...server.store,
      saveCalls: () => {
        asked += 1;
        return Promise.reject(new Error('the disk is full'));
      },
    };
    const book = new CallBook({ ...server.desk, store }, (error) => faults.push(error));
    const said = Promise.resolve(answer);
    book.keep({ ...toJob(job), demo: true }, said);
    await book.jobs();
    expect([asked, faults]).toEqual([0, []]);
    book.keep(toJob(job), said);
    book.keep(toJob(job), Promise.reject(new Error('stopped')));
    await pause();
    await book.jobs();
    expect([asked, faults.map(String)]).toEqual([1, ['Error: the disk is full']]);
  });
});

describe('how a day went', () => {
  it.each([
    [{ went: 'sunny' }, /went is 'sunny'; it must be one of finished, shortened/],
    [{ went: 'shortened' }, /because is null; it must be weather, forecast or other where/],
    [{ because: 'weather' }, /because is 'weather'; it must be .* null where it was not/],
    [{ date: '2026-02-30' }, /date is '2026-02-30'; it must be a valid date/],
    [{ date: '2026-06-10' }, /events\.0\.date is 2026-06-10, which had not begun on site/],
    [
      { date: '2026-06-10', went: 'stood-down', because: 'weather' },
      /before it begins a day can only be called off/,
    ],
  ])('%j is refused', async (more, words) => {
    const reply = await log([ended(more)]);
    expect([reply.status, errorOf(reply).message]).toEqual([400, expect.stringMatching(words)]);
  });

  it('stands beside what was said of it, and is taken back like any entry', async () => {
    expect((await hindsight()).days).toEqual([]);
    const off = ended({ date: '2026-06-10', went: 'stood-down', because: 'forecast' });
    const good = ended();
    expect((await log([off, good])).status).toBe(201);
    const known = await hindsight();
    expect(known.days).toHaveLength(1);
    expect(known.days[0]).toMatchObject({
      jobId: id,
      date: DAY,
      went: 'finished',
      entryId: good.id,
      whyNot: null,
    });
    expect(known.days[0]!.calls).toMatchObject([{ lead: '1 day ahead' }]);
    expect(known.record).toMatchObject({ days: 1, needed: 100, weight: 0 });
    expect(known.called.map(({ words }) => words)).toEqual([
      `Of 1 day called ${known.days[0]!.calls[0]!.words}, 1 finished.`,
    ]);
    await log([ended({ kind: 'undo', undoes: good.id, ...gone })]);
    expect(await hindsight()).toMatchObject({ days: [], score: null, record: { days: 0 } });
  });
});
/** Takes the fields of a day's end out of an entry of another kind. */
const gone = { date: undefined, went: undefined, because: undefined };

describe('a firm with 120 days on record, called about 9 in 10 and finished every other time', () => {
  const past = randomUUID();
  const dates = Array.from({ length: 120 }, (_, n) =>
    new Date(Date.UTC(2026, 0, 5) + n * 86_400_000).toISOString().slice(0, 10),
  );
  const ends = dates.map((date, n): SiteEvent => {
    const atMs = Date.parse(`${date}T16:00:00Z`);
    const went = n % 2 === 0 ? 'finished' : 'caught-open';
    const base = { id: randomUUID(), jobId: past, atMs, loggedMs: atMs, actorId: 'foreman' };
    return { ...base, kind: 'day-ended', date, went, because: null };
  });
  let before: Awaited<ReturnType<typeof chanceOn>>;
  beforeAll(async () => {
    before = await chanceOn();
    const job = { ...realJob(), id: past };
    await server.send('POST', '/api/jobs', { requestId: randomUUID(), job });
    const said = { shrunk: 0.9, shown: 0.9, count: 48, words: 'about 9 in 10' };
    const calls = dates.map((date) => dayCall(past, date, said));
    await server.store.saveCalls(OWN_CTX, { requestId: randomUUID(), jobId: past, calls });
  });

  it('is told so, and sees the chances of days to come brought down', async () => {
    expect(before.checked).toBe(NOT_YET);
    expect((await log(ends, past)).status).toBe(201);
    const known = await hindsight();
    expect(known.checked).toBe('checked against 120 outcomes here');
    expect(known.record).toMatchObject({ days: 120, weight: 120 / 220 });
    expect(known.called).toEqual([
      {
        said: 'about 9 in 10',
        days: 120,
        finished: 60,
        words: 'Of 120 days called about 9 in 10, 60 finished.',
      },
    ]);
    // Brier 1950: the mean of 0.1² and 0.9²; always saying one half scores a quarter.
    expect(known.score!.brier).toBeCloseTo(0.41, 12);
    expect(known.score!.usual).toBeCloseTo(0.25, 12);
    expect(known.score!.skill).toBeCloseTo(1 - 0.41 / 0.25, 12);
    const after = await chanceOn();
    expect(after).toMatchObject({ count: before.count, of: before.of, shrunk: before.shrunk });
    expect(after.checked).toBe('checked against 120 outcomes here');
    expect(after.adjusted!).toBeLessThan(before.adjusted! - 0.05);
  });

  it('once 21 of them are taken back sees the chances as they were', async () => {
    const undos = ends.slice(0, 21).map(({ id: undoes }) => ({
      ...ended({ jobId: past, kind: 'undo', undoes, ...gone }),
    }));
    expect((await log(undos, past)).status).toBe(201);
    expect((await hindsight()).record).toMatchObject({ days: 99, weight: 0 });
    expect(await chanceOn()).toEqual(before);
  });
});

describe('the address', () => {
  it('takes no query and no other method', async () => {
    expect((await server.get('/api/calls?firm=own')).status).toBe(400);
    const posted = await server.send('POST', '/api/calls', {});
    expect([posted.status, posted.headers.get('allow')]).toEqual([405, 'GET']);
  });
});
