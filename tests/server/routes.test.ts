import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  clockAnswerSchema,
  daysAnswerSchema,
  firmSchema,
  jobRowSchema,
  taskSchema,
  workAnswerSchema,
} from '../../src/contract/index.ts';
import { type StandIn, startStandIn } from '../stand-in/server.ts';
import { DEMO_JOB, dataOf, errorOf, NOW_MS, realJob, type TestServer, testServer } from './desk.ts';

const DEMO_ISSUED_MS = Date.parse('2026-05-12T04:40:00Z');
let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

describe('what can be asked', () => {
  it('health', async () => {
    expect((await server.get('/api/health')).body).toEqual({ ok: true, data: { up: true } });
  });

  it('the firm, on the demo clock, with the banner', async () => {
    const firm = firmSchema.parse(dataOf(await server.get('/api/firm')));
    expect(firm).toMatchObject({
      demo: true,
      nowMs: DEMO_ISSUED_MS,
      banner: 'Demo: Tuesday 12 May, 05:40; invented weather',
    });
  });

  it('the jobs and one job', async () => {
    const { jobs } = z
      .object({ jobs: z.array(jobRowSchema) })
      .parse(dataOf(await server.get('/api/jobs')));
    expect(jobs.filter((row) => row.job.demo)).toHaveLength(4);
    const one = jobRowSchema.parse(dataOf(await server.get(`/api/jobs/${DEMO_JOB}`)));
    expect(one).toEqual(jobs.find((row) => row.job.id === DEMO_JOB));
  });

  it('the products', async () => {
    const { products } = dataOf(await server.get('/api/products')) as {
      products: { id: string }[];
    };
    expect(products.map((product) => product.id)).toContain('contact-solvent');
  });

  it('the laying days of a demo job', async () => {
    const reply = await server.get(`/api/jobs/${DEMO_JOB}/days?search=quick`);
    const answer = daysAnswerSchema.parse(dataOf(reply));
    expect(answer).toMatchObject({ nowMs: DEMO_ISSUED_MS, noForecast: null });
    expect(answer.weather).toMatchObject({ invented: true, count: 51 });
    expect(reply.headers.get('cache-control')).toBe('no-store');
  });

  it('the order of work of a day', async () => {
    const reply = await server.get(`/api/jobs/${DEMO_JOB}/work?day=2026-05-14`);
    expect(workAnswerSchema.parse(dataOf(reply)).items.length).toBeGreaterThan(10);
  });

  it("the clock, under numbers and under a job's forecast", async () => {
    const numbers = await server.get(
      '/api/clock?product=contact-solvent&coated=2026-05-14T09:00&zone=Europe/Dublin&air=15&rh=60&wind=1',
    );
    expect(clockAnswerSchema.parse(dataOf(numbers))).toMatchObject({
      coatedMs: Date.parse('2026-05-14T08:00Z'),
      weather: null,
    });
    const onJob = await server.get(
      `/api/clock?product=contact-solvent&coated=2026-05-14T09:00&job=${DEMO_JOB}`,
    );
    expect(clockAnswerSchema.parse(dataOf(onJob)).weather).toMatchObject({ invented: true });
  });
});

describe('questions that are wrong', () => {
  const job = `/api/jobs/${DEMO_JOB}`;
  it.each([
    ['/api/jobs/7', 400, /id is '7'; it must be a UUID/],
    ["/api/jobs/1'%20OR%20'1'='1", 400, /it must be a UUID/],
    [`/api/jobs/${randomUUID()}`, 404, /^Job .* is not here/],
    [`/api/jobs/${randomUUID()}/days`, 404, /is not here/],
    [`/api/jobs/${randomUUID()}/events`, 404, /is not here/],
    [`${job}/work`, 400, /day is missing; it must be a date such as/],
    [`${job}/work?day=`, 400, /day is ''; it must be a date/],
    [`${job}/work?day=2026-02-30`, 400, /day is '2026-02-30'; it must be a date/],
    [`${job}/work?day=14.5.2026`, 400, /day is '14\.5\.2026'; it must be a date/],
    [`${job}/work?day=2026-05-11`, 400, /must be today \(2026-05-12\) or later/],
    [`${job}/work?day=2026-07-14`, 400, /the forecast ends on 2026-05-26/],
    [`${job}/work?day=2026-05-16`, 400, /it is not a working day/],
    [`${job}/work?day=2026-05-14&day=2026-05-15`, 400, /day is given 2 times; give it once/],
    [`${job}/work?day=2026-05-14&colour=red`, 400, /colour is not a field/],
    [`${job}/days?from=2026-05-14`, 400, /from is not a field/],
    [`${job}/work?day=${'9'.repeat(20_000)}`, 400, /day is '9{59}…/],
    ['/api/clock', 400, /product is missing.*coated is missing/],
    [
      '/api/clock?product=glue&coated=2026-05-14T09:00',
      400,
      /product is 'glue'; known products are/,
    ],
    [
      '/api/clock?product=contact-solvent&coated=2026-05-14T09:00',
      400,
      /air is missing; give air, rh and wind together/,
    ],
    [
      '/api/clock?product=contact-solvent&coated=noon&air=1&rh=2&wind=3',
      400,
      /coated 'noon' is not a date and time/,
    ],
    [
      '/api/clock?product=contact-solvent&coated=2026-05-14T09:00&air=999&rh=0&wind=x',
      400,
      /air is '999'; it must be a number from -30 to 50\. rh is '0'.* wind is 'x'/,
    ],
    [
      '/api/clock?product=contact-solvent&coated=2026-05-14T09:00&air=1&rh=50&wind=1&zone=Mars/Base',
      400,
      /zone is 'Mars\/Base'; it must be an IANA/,
    ],
    [
      `/api/clock?product=contact-solvent&coated=2026-05-14T09:00&air=9&job=${DEMO_JOB}`,
      400,
      /air is given beside job/,
    ],
    [
      `/api/clock?product=contact-solvent&coated=2031-05-14T09:00&job=${DEMO_JOB}`,
      400,
      /lies outside the forecast/,
    ],
    [
      '/api/clock?product=contact-solvent&coated=2026-05-14T09:00&job=7',
      400,
      /job is '7'; it must be a UUID/,
    ],
    ['/api/tasks/nothing', 404, /Task nothing is not here/],
    ['/api/nothing', 404, /GET \/api\/nothing is not here/],
    ['/api', 404, /GET \/api is not here/],
    ['/api/jobs/', 404, /is not here/],
  ])('%s', async (path, status, words) => {
    const reply = await server.get(path);
    const { message, code } = errorOf(reply);
    expect([reply.status, message, code]).toEqual([
      status,
      expect.stringMatching(words),
      expect.any(String),
    ]);
  });

  it.each([
    ['DELETE', '/api/jobs', 'GET, POST'],
    ['PATCH', job, 'GET, PUT'],
    ['POST', `${job}/days`, 'GET'],
    ['PUT', '/api/health', 'GET'],
    ['DELETE', `${job}/events`, 'GET, POST'],
    ['GET', '/api/tasks', 'POST'],
  ])('%s %s is told which methods there are', async (method, path, allowed) => {
    const reply = await server.send(method, path);
    expect([reply.status, reply.headers.get('allow')]).toEqual([405, allowed]);
    expect(errorOf(reply).code).toBe('method');
  });
});

describe("a job of one's own", () => {
  it('without a forecast service: no current forecast, no day, no chance, no order of work', async () => {
    const made = await server.send('POST', '/api/jobs', {
      requestId: randomUUID(),
      job: realJob(),
    });
    const { job } = jobRowSchema.parse(dataOf(made));
    const days = daysAnswerSchema.parse(
      dataOf(await server.get(`/api/jobs/${job.id}/days?search=quick`)),
    );
    expect(days).toMatchObject({ weather: null, days: [], nowMs: NOW_MS });
    expect(days.noForecast).toMatch(/^No current forecast\./);
    for (const path of [
      `/api/jobs/${job.id}/work?day=2026-06-09`,
      `/api/clock?product=contact-solvent&coated=2026-06-09T10:00&job=${job.id}`,
    ]) {
      const reply = await server.get(path);
      expect([reply.status, errorOf(reply).code]).toEqual([409, 'no-forecast']);
    }
    const requestId = randomUUID();
    await server.send('POST', '/api/tasks', { requestId, kind: 'days', jobId: job.id });
    expect(taskSchema.parse(dataOf(await server.get(`/api/tasks/${requestId}`))).state).toBe(
      'done',
    );
  });
});

describe("a job of one's own with a forecast service", () => {
  let standIn: StandIn;
  let live: TestServer;
  let nowMs = NOW_MS;
  let id = '';
  beforeAll(async () => {
    standIn = await startStandIn(NOW_MS);
    live = await testServer({ feedUrl: standIn.url, now: () => nowMs });
    const made = await live.send('POST', '/api/jobs', { requestId: randomUUID(), job: realJob() });
    id = jobRowSchema.parse(dataOf(made)).job.id;
  });
  afterAll(async () => {
    await live.close();
    await standIn.close();
  });

  it('is planned on it, with the credit; asked once for several questions', async () => {
    const days = daysAnswerSchema.parse(
      dataOf(await live.get(`/api/jobs/${id}/days?search=quick`)),
    );
    expect(days.weather).toMatchObject({ kind: 'live', invented: false, count: 51 });
    expect(days.weather?.attribution).toContain('Open-Meteo.com');
    const work = await live.get(`/api/jobs/${id}/work?day=2026-06-09`);
    expect(workAnswerSchema.parse(dataOf(work)).weather.kind).toBe('live');
    expect(standIn.forecasts()).toHaveLength(1);
  });

  it('when the service fails later, the last good forecast says once that it is old', async () => {
    standIn.scenario = 'key-wrong';
    nowMs = NOW_MS + 2 * 3_600_000;
    const days = daysAnswerSchema.parse(
      dataOf(await live.get(`/api/jobs/${id}/days?search=quick`)),
    );
    const old = days.weather!.notes.filter((note) => note.startsWith('old forecast'));
    expect(old).toEqual(['old forecast: fetched 2 h ago, no newer one could be had']);
    expect(live.faults).toEqual([]);
  });
});
