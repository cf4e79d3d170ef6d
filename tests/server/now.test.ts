import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jobRowSchema, nowAnswerSchema, workAnswerSchema } from '../../src/contract/index.ts';
import { DEMO_NOW_MS } from '../fixtures/cli/run-cli.ts';
import { DEMO_JOB, dataOf, errorOf, realJob, type TestServer, testServer } from './desk.ts';

const MINUTE = 60_000;
const now = `/api/jobs/${DEMO_JOB}/now`;
let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

const logged = (kind: string, atMs: number, more: object = {}) => ({
  id: randomUUID(),
  jobId: DEMO_JOB,
  atMs,
  loggedMs: atMs,
  actorId: 'foreman',
  kind,
  ...more,
});
const log = async (...events: readonly object[]) =>
  dataOf(
    await server.send('POST', `/api/jobs/${DEMO_JOB}/events`, { requestId: randomUUID(), events }),
  );
const ask = async (query: string) =>
  nowAnswerSchema.parse(dataOf(await server.get(`${now}${query}`)));

describe('GET /api/jobs/:id/now', () => {
  it('without a time answers for this minute on the demo clock, nothing being logged', async () => {
    const answer = await ask('');
    expect(answer).toMatchObject({ nowMs: DEMO_NOW_MS, atMs: DEMO_NOW_MS, films: [] });
    expect(answer.weather.invented).toBe(true);
    expect([answer.opened, answer.closeUp.minutes]).toEqual([false, 0]);
  });

  it('reads the site log: what was coated lies open until it is logged as closed', async () => {
    const day = workAnswerSchema.parse(
      dataOf(await server.get(`/api/jobs/${DEMO_JOB}/work?day=2026-05-14`)),
    );
    const coat = day.items.find(({ coats, stage }) => coats !== null && stage === 'field')!;
    const spreadMs = coat.endMs - coat.startMs;
    const lastMs = Date.parse('2026-05-14T10:20+01:00');
    await log(
      logged('coated', lastMs, {
        activityId: coat.id,
        productId: coat.coats!.productId,
        areaM2: null,
      }),
    );
    const open = await ask('?at=2026-05-14T10:24');
    expect(open.films).toHaveLength(1);
    expect(open.films[0]).toMatchObject({ id: coat.id, lastMs });
    expect(open.films[0]!.firstMs).toBeCloseTo(lastMs - spreadMs, -1);
    expect(open.closeUp.minutes).toBeGreaterThan(5);
    const rain = await ask(`?at=2026-05-14T10:24&rainIn=${Math.ceil(open.closeUp.minutes) + 5}`);
    expect(rain.call).toBe('close-up');
    expect(rain.sentence).toMatch(/^Close up now: \d+ min; rain in about \d+ min\.$/);

    const closedMs = lastMs + 25 * MINUTE;
    await log(logged('closed', closedMs, { activityId: coat.id }));
    const shut = await ask('?at=2026-05-14T10:50');
    expect([shut.films, shut.opened]).toEqual([[], true]);
    // What is logged later says nothing of the minute asked about.
    expect((await ask('?at=2026-05-14T10:24')).films).toHaveLength(1);
  });

  it('thunder from the query or from the log, the later of the two', async () => {
    const told = await ask('?at=2026-05-14T11:20&thunderAt=2026-05-14T11:10');
    expect(told.call).toBe('off-roof');
    expect(told.offRoof?.untilMs).toBe(Date.parse('2026-05-14T11:40+01:00'));
    await log(logged('thunder-heard', Date.parse('2026-05-14T11:15+01:00')));
    const both = await ask('?at=2026-05-14T11:20&thunderAt=2026-05-14T11:10');
    expect(both.offRoof?.untilMs).toBe(Date.parse('2026-05-14T11:45+01:00'));
  });

  it.each([
    ['?at=noon', /at 'noon' is not a date and time/],
    ['?at=2031-05-14T12:00', /at lies outside the forecast/],
    ['?rainIn=soon', /rainIn is 'soon'; it must be whole minutes from 0 to 720/],
    ['?rainIn=721', /rainIn is '721'/],
    ['?thunderAt=11:10', /thunderAt '11:10' is not a date and time/],
    ['?at=2026-05-14T10:00&thunderAt=2026-05-14T11:00', /thunderAt says thunder is heard at 11:00/],
    ['?at=2026-05-14T10:00&at=2026-05-14T11:00', /at is given 2 times/],
    ['?done=strip', /done is not a field/],
  ])('%s is refused', async (query, words) => {
    const reply = await server.get(`${now}${query}`);
    expect([reply.status, errorOf(reply).code]).toEqual([400, 'bad-input']);
    expect(errorOf(reply).message).toMatch(words);
  });

  it('a log that cannot be is said to be so, with what is wrong with it', async () => {
    const day = '2026-05-15T';
    await log(
      logged('closed', Date.parse(`${day}10:00+01:00`), { activityId: 'field-1-1-coat' }),
      logged('finished', Date.parse(`${day}11:00+01:00`), { activityId: 'fold-1' }),
    );
    const reply = await server.get(`${now}?at=${day}12:00`);
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'site-log']);
    expect(errorOf(reply).message).toMatch(/^The site log cannot be as it stands: /);
    expect(errorOf(reply).issues.length).toBeGreaterThan(0);
  });

  it('an unknown job is not here; another method is told which there is; no forecast is 409', async () => {
    expect((await server.get(`/api/jobs/${randomUUID()}/now`)).status).toBe(404);
    const posted = await server.send('POST', now);
    expect([posted.status, posted.headers.get('allow')]).toEqual([405, 'GET']);
    const made = await server.send('POST', '/api/jobs', {
      requestId: randomUUID(),
      job: realJob(),
    });
    const { job } = jobRowSchema.parse(dataOf(made));
    const reply = await server.get(`/api/jobs/${job.id}/now`);
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'no-forecast']);
  });
});
