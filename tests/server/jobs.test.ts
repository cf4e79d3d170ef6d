import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { jobRowSchema } from '../../src/contract/index.ts';
import { DEMO_JOB, dataOf, errorOf, realJob, type TestServer, testServer } from './desk.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

const ownJob = (change: Record<string, unknown> = {}) => ({
  ...realJob(),
  id: randomUUID(),
  ...change,
});
const create = (job: unknown, requestId: string = randomUUID()) =>
  server.send('POST', '/api/jobs', { requestId, job });
const listed = async () =>
  z.object({ jobs: z.array(jobRowSchema) }).parse(dataOf(await server.get('/api/jobs'))).jobs;

describe("a job of one's own", () => {
  it('is created once; the repeat of a request changes nothing and gives the same answer', async () => {
    const job = ownJob();
    const requestId = randomUUID();
    const made = await create(job, requestId);
    expect(made.status).toBe(201);
    expect(jobRowSchema.parse(dataOf(made))).toMatchObject({ version: 1, job: { id: job.id } });
    const before = await listed();
    const again = await create(job, requestId);
    expect(again.body).toEqual(made.body);
    expect(await listed()).toEqual(before);
    expect(dataOf(await server.get(`/api/jobs/${job.id}`))).toEqual(dataOf(made));
  });

  it('under a taken id is refused, and the job that is there comes with the answer', async () => {
    const job = ownJob();
    await create(job);
    const reply = await create({ ...job, name: 'Another roof' });
    const error = errorOf(reply);
    expect([reply.status, error.code]).toEqual([409, 'id-taken']);
    expect(error.current).toMatchObject({
      version: 1,
      job: { id: job.id, name: 'Sail loft roof' },
    });
  });

  it('under a request id used for something else is refused', async () => {
    const requestId = randomUUID();
    await create(ownJob(), requestId);
    const reply = await create(ownJob(), requestId);
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'request-reused']);
  });

  it('is changed from the version that was seen; another version is told, with the row as it is', async () => {
    const job = ownJob();
    await create(job);
    const put = (version: number, name: string, requestId = randomUUID()) =>
      server.send('PUT', `/api/jobs/${job.id}`, { requestId, version, job: { ...job, name } });
    const requestId = randomUUID();
    const changed = await put(1, 'Sail loft, north', requestId);
    expect(jobRowSchema.parse(dataOf(changed))).toMatchObject({
      version: 2,
      job: { name: 'Sail loft, north' },
    });
    expect((await put(1, 'Sail loft, north', requestId)).body).toEqual(changed.body);
    const late = await put(1, 'Sail loft, south');
    const error = errorOf(late);
    expect([late.status, error.code]).toEqual([409, 'version-conflict']);
    expect(error.message).toMatch(/you saw version 1, it is now version 2/);
    expect(error.current).toMatchObject({ version: 2, job: { name: 'Sail loft, north' } });
    expect(jobRowSchema.parse(dataOf(await server.get(`/api/jobs/${job.id}`))).version).toBe(2);
    const unknown = randomUUID();
    const nowhere = await server.send('PUT', `/api/jobs/${unknown}`, {
      requestId: randomUUID(),
      version: 1,
      job: { ...job, id: unknown },
    });
    expect(nowhere.status).toBe(404);
  });

  it.each([
    [{ demo: true }, /job\.demo is true; only the jobs that come with the program are demo jobs/],
    [{ colour: 'red' }, /job\.colour is not a field/],
    [
      { roof: { ...(realJob()['roof'] as object), lengthM: -6 } },
      /job\.roof\.lengthM is -6; it must be a number from 0\.5 to 200/,
    ],
    [
      { site: { ...(realJob()['site'] as object), latitudeDeg: 123 } },
      /job\.site\.latitudeDeg is 123; it must be a number from -90 to 90/,
    ],
    [
      { earliest: '2026-06-02', latest: '2026-06-01' },
      /job\.latest is 2026-06-01; it must not be before/,
    ],
    [{ name: 7 }, /job\.name is 7; it must be text/],
  ])('%j is refused and nothing is kept', async (change, words) => {
    const before = await listed();
    const reply = await create(ownJob(change));
    expect([reply.status, errorOf(reply).message]).toEqual([400, expect.stringMatching(words)]);
    expect(await listed()).toEqual(before);
  });

  it('with an unknown product is refused', async () => {
    const job = realJob();
    const buildUp = job['buildUp'] as { products: object };
    const products = { ...buildUp.products, field: 'wonder-glue' };
    const reply = await create(ownJob({ buildUp: { ...buildUp, products } }));
    expect([reply.status, errorOf(reply).issues[0]?.path]).toEqual([
      400,
      'job.buildUp.products.field',
    ]);
  });

  it('under another id than the address is refused', async () => {
    const job = ownJob();
    await create(job);
    const reply = await server.send('PUT', `/api/jobs/${job.id}`, {
      requestId: randomUUID(),
      version: 1,
      job: ownJob(),
    });
    expect([reply.status, errorOf(reply).message]).toEqual([
      400,
      expect.stringMatching(/must be the id in the address/),
    ]);
  });

  it('cannot be a demo job in disguise: those cannot be changed', async () => {
    const { version, job } = jobRowSchema.parse(dataOf(await server.get(`/api/jobs/${DEMO_JOB}`)));
    for (const demo of [true, false]) {
      const reply = await server.send('PUT', `/api/jobs/${DEMO_JOB}`, {
        requestId: randomUUID(),
        version,
        job: { ...job, demo, name: 'Mine now' },
      });
      expect([reply.status, errorOf(reply).code]).toEqual([403, 'demo']);
    }
    const still = jobRowSchema.parse(dataOf(await server.get(`/api/jobs/${DEMO_JOB}`)));
    expect(still).toEqual({ version, job });
  });

  it('cannot take the id of a demo job', async () => {
    const reply = await create(ownJob({ id: DEMO_JOB }));
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'id-taken']);
    const found = jobRowSchema.parse(dataOf(await server.get(`/api/jobs/${DEMO_JOB}`)));
    expect(found.job.demo).toBe(true);
  });
});

describe('the site log', () => {
  let jobId = '';
  beforeAll(async () => {
    const job = ownJob();
    jobId = job.id;
    await create(job);
  });
  const event = (atMs: number, more: Record<string, unknown> = { kind: 'thunder-heard' }) => ({
    id: randomUUID(),
    jobId,
    atMs,
    loggedMs: atMs + 1000,
    actorId: 'foreman',
    ...more,
  });
  const append = (events: unknown[], requestId: string = randomUUID()) =>
    server.send('POST', `/api/jobs/${jobId}/events`, { requestId, events });
  const log = async () =>
    (dataOf(await server.get(`/api/jobs/${jobId}/events`)) as { events: { id: string }[] }).events;

  it('is appended to; a repeat adds nothing; it is listed in the order things happened', async () => {
    const late = event(3000);
    const early = event(1000, { kind: 'reading', what: 'surface-temp', value: 14.5 });
    const requestId = randomUUID();
    const added = await append([late, early], requestId);
    expect([added.status, dataOf(added)]).toEqual([201, { added: 2, alreadyThere: 0 }]);
    expect(dataOf(await append([late, early], requestId))).toEqual({ added: 2, alreadyThere: 0 });
    expect(dataOf(await append([late, early]))).toEqual({ added: 0, alreadyThere: 2 });
    expect(await log()).toEqual([early, late]);
  });

  it('an undo takes back an event of this job logged before, and is itself not undone', async () => {
    const first = event(5000);
    await append([first]);
    const undo = event(6000, { kind: 'undo', undoes: first.id });
    expect((await append([undo])).status).toBe(201);
    const ofUndo = await append([event(7000, { kind: 'undo', undoes: undo.id })]);
    expect([ofUndo.status, errorOf(ofUndo).message]).toEqual([
      400,
      expect.stringMatching(/itself an undo/),
    ]);
    const ofNothing = await append([event(7000, { kind: 'undo', undoes: randomUUID() })]);
    expect(ofNothing.status).toBe(400);
  });

  it('takes all of a request or nothing', async () => {
    const before = await log();
    const good = event(8000);
    const reply = await append([good, event(9000, { kind: 'undo', undoes: randomUUID() })]);
    expect([reply.status, errorOf(reply).issues[0]?.path]).toEqual([400, 'events.1.undoes']);
    expect(await log()).toEqual(before);
  });

  it.each([
    [{ kind: 'party' }, /events\.0\.kind is 'party'; it must be one of opened, touch-dry, /],
    [{ kind: 'note' }, /events\.0\.text is missing; it must be text/],
    [
      { kind: 'reading', what: 'mood', value: 1 },
      /events\.0\.what is 'mood'; it must be one of surface-temp/,
    ],
    [
      { kind: 'reading', what: 'wind', value: 1e9 },
      /events\.0\.value is 1000000000; it must be at most 120/,
    ],
    [{ kind: 'rain-safe', atMs: 1.5 }, /events\.0\.atMs is 1\.5; it must be a whole number/],
    [{ kind: 'rain-safe', extra: 1 }, /events\.0\.extra is not a field/],
    [{ kind: 'rain-safe', jobId: randomUUID() }, /must be the job the events are sent for/],
  ])('%j is refused', async (more, words) => {
    const before = await log();
    const reply = await append([event(1, more)]);
    expect([reply.status, errorOf(reply).message]).toEqual([400, expect.stringMatching(words)]);
    expect(await log()).toEqual(before);
  });

  it('the same event id with other content is refused', async () => {
    const one = event(10_000);
    await append([one]);
    const reply = await append([{ ...one, atMs: 10_001 }]);
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'id-taken']);
  });

  it('a job that is not there has no log', async () => {
    const reply = await server.send('POST', `/api/jobs/${randomUUID()}/events`, {
      requestId: randomUUID(),
      events: [event(1)],
    });
    expect(reply.status).toBe(404);
  });

  it('demo jobs have a log too', async () => {
    const own = { ...event(1), jobId: DEMO_JOB };
    const reply = await server.send('POST', `/api/jobs/${DEMO_JOB}/events`, {
      requestId: randomUUID(),
      events: [own],
    });
    expect(reply.status).toBe(201);
  });
});
