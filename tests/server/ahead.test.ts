import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answerAhead } from '../../src/answers/index.ts';
import { aheadAnswerSchema, jobRowSchema } from '../../src/contract/index.ts';
import { DEMO_NOW_MS } from '../fixtures/cli/run-cli.ts';
import { jobOf } from '../fixtures/planner/job.ts';
import { weatherOf } from '../fixtures/planner/weather.ts';
import { type StandIn, startStandIn } from '../stand-in/server.ts';
import { DEMO_JOB, dataOf, errorOf, realJob, type TestServer, testServer } from './desk.ts';

const ahead = `/api/jobs/${DEMO_JOB}/ahead`;
let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

describe('GET /api/jobs/:id/ahead', () => {
  it('answers on the demo clock, in the site time where no offset is given', async () => {
    const local = await server.get(`${ahead}?at=2026-05-14T12:00`);
    const utc = await server.get(`${ahead}?at=2026-05-14T11:00Z`);
    const answer = aheadAnswerSchema.parse(dataOf(local));
    expect(answer).toMatchObject({ nowMs: DEMO_NOW_MS, people: 3 });
    expect(answer.weather.invented).toBe(true);
    expect(dataOf(utc)).toEqual(dataOf(local));
  });

  it('for another crew and other work', async () => {
    const reply = await server.get(`${ahead}?at=2026-05-14T12:00&what=edges&people=2`);
    const answer = aheadAnswerSchema.parse(dataOf(reply));
    expect(answer.people).toBe(2);
    expect(answer.works.every(({ kind }) => kind === 'edges' || kind === 'upstands')).toBe(true);
  });

  it.each([
    ['', /at is missing/],
    ['?at=', /at is ''/],
    ['?at=noon', /at 'noon' is not a date and time/],
    ['?at=2031-05-14T12:00', /at lies outside the forecast/],
    ['?at=2026-05-14T12:00&what=roof', /what is 'roof'; it must be one of field, edges, laps/],
    ['?at=2026-05-14T12:00&what=laps', /what is 'laps'; laying day 1 of 1 has none/],
    ['?at=2026-05-14T12:00&people=0', /people is '0'; it must be a whole number from 2 to 30/],
    ['?at=2026-05-14T12:00&people=2e1', /people is '2e1'; it must be a whole number/],
    ['?at=2026-05-14T12:00&at=2026-05-14T13:00', /at is given 2 times/],
    ['?at=2026-05-14T12:00&colour=red', /colour is not a field/],
  ])('%s is refused', async (query, words) => {
    const reply = await server.get(`${ahead}${query}`);
    expect([reply.status, errorOf(reply).code]).toEqual([400, 'bad-input']);
    expect(errorOf(reply).message).toMatch(words);
  });

  it('an unknown job is not here; another method is told which there is', async () => {
    const gone = await server.get(`/api/jobs/${randomUUID()}/ahead?at=2026-05-14T12:00`);
    expect(gone.status).toBe(404);
    const posted = await server.send('POST', ahead);
    expect([posted.status, posted.headers.get('allow')]).toEqual([405, 'GET']);
  });

  it("a job of one's own without a forecast: 409", async () => {
    const made = await server.send('POST', '/api/jobs', {
      requestId: randomUUID(),
      job: realJob(),
    });
    const { job } = jobRowSchema.parse(dataOf(made));
    const reply = await server.get(`/api/jobs/${job.id}/ahead?at=2026-06-09T10:00`);
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'no-forecast']);
  });
});

describe("a job of one's own round the night the clocks go back", () => {
  // Ireland, 25 October 2026: 02:00 becomes 01:00, so that 01:30 comes twice and the day has 25 hours.
  const FRIDAY_MS = Date.parse('2026-10-23T05:00:00Z');
  let standIn: StandIn;
  let live: TestServer;
  let id = '';
  beforeAll(async () => {
    standIn = await startStandIn(FRIDAY_MS);
    live = await testServer({ feedUrl: standIn.url, now: () => FRIDAY_MS });
    const made = await live.send('POST', '/api/jobs', { requestId: randomUUID(), job: realJob() });
    id = jobRowSchema.parse(dataOf(made)).job.id;
  });
  afterAll(async () => {
    expect(live.faults).toEqual([]);
    await live.close();
    await standIn.close();
  });
  const at = async (time: string) =>
    aheadAnswerSchema.parse(dataOf(await live.get(`/api/jobs/${id}/ahead?at=${time}`)));

  it('the shift keeps its wall-clock times: 07:30 is 06:30 UTC before and 07:30 UTC after', async () => {
    const firsts = await Promise.all(
      ['2026-10-24T10:00', '2026-10-25T10:00', '2026-10-26T10:00'].map(at),
    );
    expect(
      firsts.map(({ works }) => new Date(works[0]!.hours[0]!.open.atMs).toISOString()),
    ).toEqual(['2026-10-24T06:30:00.000Z', '2026-10-25T07:30:00.000Z', '2026-10-26T07:30:00.000Z']);
  });

  it('a time that comes twice means the first', async () => {
    const answer = await at('2026-10-25T01:30');
    expect(new Date(answer.atMs).toISOString()).toBe('2026-10-25T00:30:00.000Z');
    expect(answer.works[0]!.now.open.most).toBe(0);
  });
});

describe('far north and at the end of what is known', () => {
  const asked = (latitudeDeg: number, start: string, time: string, hours = 48) => {
    const site = {
      latitudeDeg,
      longitudeDeg: 18,
      timeZone: 'Europe/Oslo',
      wall: null,
      skyline: [],
    };
    const result = answerAhead({
      ready: jobOf('boat-store', { site }),
      hourly: weatherOf({ start, hours, latitudeDeg, longitudeDeg: 18 }),
      nowMs: Date.parse(start),
      atMs: Date.parse(time),
      what: 'field',
      people: null,
    });
    if (!result.ok) throw new Error(result.issues[0]?.message);
    return result.answer.works[0]!;
  };

  // 69.6 N: no sunrise from late November to mid January (polar night), no sunset in June.
  it('in the polar night nothing is coated: darkness, all day', () => {
    const work = asked(69.6, '2026-12-15T00:00:00Z', '2026-12-15T10:00:00Z');
    expect(work.now.open).toMatchObject({ most: 0, limit: 'held', held: { rule: 'daylight' } });
    expect(work.now.shade).toBeNull();
    expect(work.hours.every(({ open, shade }) => open.most === 0 && shade === null)).toBe(true);
    expect(work.sentence).toMatch(/^Coat nothing now|^Coat nothing at 11:00/);
    expect(work.sentence).toMatch(/darkness/);
  });

  it('under the midnight sun the dark sets no end', () => {
    const work = asked(69.6, '2026-06-15T00:00:00Z', '2026-06-15T10:00:00Z');
    expect(work.now.open.most).toBeGreaterThan(0);
    expect(work.hours.some(({ open }) => open.limit === 'darkness')).toBe(false);
  });

  it('where the forecasts end, that is what is said', () => {
    const work = asked(52, '2026-05-13T00:00:00Z', '2026-05-13T08:00:00Z', 12);
    const last = work.hours[work.hours.length - 1]!;
    expect(last.open).toMatchObject({ most: 0, limit: 'forecast-ends' });
    expect(last.open.whyNone).toMatch(/forecasts end before then/);
  });
});
