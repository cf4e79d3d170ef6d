import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import {
  clockAnswerSchema,
  jobRowSchema,
  type LearnedAnswer,
  learnedAnswerSchema,
  workAnswerSchema,
} from '../../src/contract/index.ts';
import { type StandIn, startStandIn } from '../stand-in/server.ts';
import { dataOf, errorOf, NOW_MS, realJob, type TestServer, testServer } from './desk.ts';

/** The demo job that is bonded with contact adhesive. */
const JOB = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c03';
const GLUE = 'contact-solvent';
const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

const reading = async (server: TestServer, firm: 'own' | 'demo'): Promise<LearnedAnswer> =>
  learnedAnswerSchema.parse(dataOf(await server.get(`/api/products/${GLUE}/learned?firm=${firm}`)));

async function log(
  server: TestServer,
  jobId: string,
  events: readonly Record<string, unknown>[],
): Promise<void> {
  const reply = await server.send('POST', `/api/jobs/${jobId}/events`, {
    requestId: randomUUID(),
    events: events.map((event) => ({
      jobId,
      loggedMs: event['atMs'],
      actorId: 'foreman',
      ...event,
    })),
  });
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
}

/** Coats a part and finds it dry so many minutes later; the ids of both entries. */
async function film(
  server: TestServer,
  jobId: string,
  coatedMs: number,
  tookMin: number,
): Promise<{ coated: string; dry: string }> {
  const ids = { coated: randomUUID(), dry: randomUUID() };
  const activityId = `part-${ids.coated.slice(0, 8)}`;
  await log(server, jobId, [
    { id: ids.coated, atMs: coatedMs, kind: 'coated', activityId, productId: GLUE, areaM2: 6 },
    {
      id: ids.dry,
      atMs: coatedMs + Math.round(tookMin * MINUTE_MS),
      kind: 'touch-dry',
      activityId,
    },
  ]);
  return ids;
}

const takeBack = (server: TestServer, jobId: string, undoes: string, atMs: number) =>
  log(server, jobId, [{ id: randomUUID(), atMs, kind: 'undo', undoes }]);

describe('a touch-dry entry in the demo firm’s log', () => {
  let server: TestServer;
  let nowMs = NOW_MS;
  /** Two days on in the demo, in the middle of a dry day. */
  const coatedMs = Date.parse('2026-05-13T11:00:00Z');
  beforeAll(async () => {
    server = await testServer({ now: () => nowMs });
    nowMs += 2 * DAY_MS;
  });
  afterAll(async () => {
    expect(server.faults).toEqual([]);
    await server.close();
  });

  const clock = async () =>
    clockAnswerSchema.parse(
      dataOf(await server.get(`/api/clock?product=${GLUE}&coated=2026-05-14T12:00&job=${JOB}`)),
    );
  const steady = async () =>
    dataOf(
      await server.get(`/api/clock?product=${GLUE}&coated=2026-05-14T09:00&air=15&rh=60&wind=1`),
    );
  const work = async () => dataOf(await server.get(`/api/jobs/${JOB}/work?day=2026-05-15`));
  /** As the sheet expects them in that weather. */
  let expectedMin = 0;

  it('is judged by the weather of its time', async () => {
    const before = await reading(server, 'demo');
    expect(before.used).toEqual([]);
    expect(before.sees).toEqual(before.sheet);
    expect(before.speed).toMatchObject({ factor: 1, films: 0 });
    const ids = await film(server, JOB, coatedMs, 20);
    const [used] = (await reading(server, 'demo')).used;
    expect(used).toMatchObject({ eventId: ids.dry, jobId: JOB, tookMin: 20, confirmed: false });
    expectedMin = used!.expectedMin;
    expect(expectedMin).toBeGreaterThan(3);
    expect(expectedMin).toBeLessThan(60);
    await takeBack(server, JOB, ids.dry, coatedMs + 21 * MINUTE_MS);
    expect({ ...(await reading(server, 'demo')), nowMs: 0 }).toEqual({ ...before, nowMs: 0 });
  });

  it('moves clock and plan of its firm, and undoing it puts both back as they were', async () => {
    const before = { clock: await clock(), work: await work(), steady: await steady() };
    const slow = [0, 1, 2].map((n) =>
      film(server, JOB, coatedMs + n * 3_600_000, expectedMin * 1.5),
    );
    const ids = await Promise.all(slow);
    const learned = await reading(server, 'demo');
    expect(learned.asked).toEqual([]);
    expect(learned.used).toHaveLength(3);
    expect(learned.speed!.films).toBe(3);
    expect(learned.speed!.days).toBe(1);
    expect(learned.speed!.factor).toBeLessThan(0.95);
    expect(learned.speed!.lowFactor).toBeLessThan(learned.speed!.factor);
    expect(learned.sees!.typicalMin).toBeGreaterThan(learned.sheet!.typicalMin);
    expect(learned.sentence).toMatch(/site log \(3 films on 1 day\).*0\.\d\d times the speed/);

    const later = await clock();
    expect(later.touchDry!.midMs!).toBeGreaterThan(before.clock.touchDry!.midMs!);
    expect(later.cautions[0]).toBe(learned.sentence);
    const plan = workAnswerSchema.parse(await work());
    expect(plan.cautions.join(' ')).toContain(learned.sentence);
    // The other firm sees nothing of it.
    expect(await steady()).toEqual(before.steady);
    expect((await reading(server, 'own')).used).toEqual([]);

    for (const { dry } of ids) await takeBack(server, JOB, dry, coatedMs + 5 * 3_600_000);
    expect(await clock()).toEqual(before.clock);
    expect(await work()).toEqual(before.work);
  });

  it('that is wild is asked about, changes nothing, and counts once confirmed', async () => {
    const before = await clock();
    const wild = await film(server, JOB, coatedMs, 1);
    const { asked, used } = await reading(server, 'demo');
    expect(used).toEqual([]);
    expect(asked[0]).toMatchObject({ eventId: wild.dry, canBeConfirmed: true });
    expect(asked[0]!.question).toMatch(
      /^Logged after 1 min; \d+(\.\d)? to \d+(\.\d)? min expected/,
    );
    expect(await clock()).toEqual(before);
    const confirm = randomUUID();
    const atMs = coatedMs + 3_600_000;
    await log(server, JOB, [{ id: confirm, atMs, kind: 'confirm', confirms: wild.dry }]);
    expect((await reading(server, 'demo')).used[0]).toMatchObject({ confirmed: true });
    expect((await clock()).touchDry!.midMs!).toBeLessThan(before.touchDry!.midMs!);
    await takeBack(server, JOB, confirm, atMs + 1);
    expect(await clock()).toEqual(before);
    await takeBack(server, JOB, wild.dry, atMs + 2);
  });

  it('can be confirmed only where it is a touch-dry entry of this job', async () => {
    const ids = await film(server, JOB, coatedMs, 20);
    const confirm = (confirms: string) =>
      server.send('POST', `/api/jobs/${JOB}/events`, {
        requestId: randomUUID(),
        events: [
          {
            id: randomUUID(),
            jobId: JOB,
            atMs: coatedMs,
            loggedMs: coatedMs,
            actorId: 'foreman',
            kind: 'confirm',
            confirms,
          },
        ],
      });
    const wrongKind = await confirm(ids.coated);
    expect(wrongKind.status).toBe(400);
    expect(errorOf(wrongKind).message).toMatch(/only a 'touch-dry' entry can be confirmed/);
    const unknown = await confirm(randomUUID());
    expect(unknown.status).toBe(400);
    expect(errorOf(unknown).message).toMatch(/not an event of this job/);
    await takeBack(server, JOB, ids.dry, coatedMs + 3_600_000);
  });
});

describe('the address', () => {
  let server: TestServer;
  beforeAll(async () => {
    server = await testServer();
  });
  afterAll(() => server.close());

  it('answers for every product, also where there is nothing to learn', async () => {
    const wetLay = learnedAnswerSchema.parse(
      dataOf(await server.get('/api/products/deck-adhesive-wet-lay/learned')),
    );
    expect(wetLay).toMatchObject({ firm: 'own', sheet: null, sees: null, speed: null });
    expect(wetLay.sentence).toMatch(/nothing to learn/);
  });

  it('refuses another product, another firm and another query name with a sentence', async () => {
    expect((await server.get('/api/products/no-such/learned')).status).toBe(404);
    const firm = await server.get(`/api/products/${GLUE}/learned?firm=theirs`);
    expect(firm.status).toBe(400);
    expect(errorOf(firm).message).toMatch(/firm/);
    expect((await server.get(`/api/products/${GLUE}/learned?since=1`)).status).toBe(400);
  });
});

describe('one’s own firm, on live weather', () => {
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
  beforeEach(() => {
    nowMs = NOW_MS + 8 * 3_600_000;
    standIn.nowMs = nowMs;
  });
  afterAll(async () => {
    expect(live.faults).toEqual([]);
    await live.close();
    await standIn.close();
  });

  it('keeps the weather a film was judged by: what was learned outlives the forecast', async () => {
    await film(live, id, nowMs - 90 * MINUTE_MS, 25);
    const first = await reading(live, 'own');
    const judged = [...first.used, ...first.setAside, ...first.asked];
    expect(judged).toHaveLength(1);
    expect(first.setAside.map(({ why }) => why).join()).not.toMatch(/not known/);
    // A week later the service no longer reaches back, and gives other values besides.
    nowMs += 7 * DAY_MS;
    standIn.nowMs = nowMs;
    const later = await reading(live, 'own');
    expect(later.used).toEqual(first.used);
    expect(later.setAside).toEqual(first.setAside);
    expect(later.asked).toEqual(first.asked);
  });

  it('sets a film aside whose weather nobody kept', async () => {
    await film(live, id, nowMs - 9 * DAY_MS, 20);
    const { setAside } = await reading(live, 'own');
    expect(setAside.some(({ why }) => /weather while it dried is not known/.test(why))).toBe(true);
  });
});
