import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type PracticeAnswer,
  practiceAnswerSchema,
  takeoffAnswerSchema,
} from '../../src/contract/index.ts';
import { DEMO_JOB, dataOf, errorOf, realJob, type TestServer, testServer } from './desk.ts';

/* What the routes promise stands in docs/http-api.md; there is no outside source for it. */

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

const now = async () => dataOf(await server.get('/api/firm/practice')) as PracticeAnswer;
const put = (version: number | null, practice: unknown, requestId: string = randomUUID()) =>
  server.send('PUT', '/api/firm/practice', { requestId, version, practice });
const stripOf = async (path: string) => {
  const { stages } = takeoffAnswerSchema.parse(dataOf(await server.get(path)));
  return stages.find(({ number }) => number === 3)!;
};

describe('how the firm works', () => {
  it('is empty until something is set, then versioned like all else', async () => {
    expect(await now()).toEqual({ version: null, practice: { rates: {}, layout: {} } });
    const requestId = randomUUID();
    const made = await put(null, { rates: { strip: 3 } }, requestId);
    expect(made.status).toBe(201);
    expect(practiceAnswerSchema.parse(dataOf(made))).toMatchObject({ version: 1 });
    expect((await put(null, { rates: { strip: 3 } }, requestId)).body).toEqual(made.body);
    expect((await put(null, { rates: { strip: 4 } })).status).toBe(409);
    expect(await now()).toMatchObject({ version: 1, practice: { rates: { strip: 3 } } });
  });

  it('holds for the firm’s jobs where they say nothing, and not for the demo', async () => {
    const job = { ...realJob(), id: randomUUID() } as Record<string, unknown>;
    const buildUp = { ...(job['buildUp'] as object), strip: true, deck: 'osb' };
    const made = await server.send('POST', '/api/jobs', {
      requestId: randomUUID(),
      job: { ...job, buildUp },
    });
    expect(made.status, JSON.stringify(made.body)).toBe(201);
    const own = await stripOf(`/api/jobs/${String(job['id'])}/takeoff`);
    expect(own.from[0]).toMatchObject({ rate: 'strip', typical: 3, source: 'user' });
    // 3 m2 per worker-hour: 20 worker-minutes a square metre.
    expect(own.workerMin).toBeCloseTo(own.quantity!.value * 20, 6);
    const demo = await stripOf('/api/jobs/6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c02/takeoff');
    expect(demo.from[0]?.source ?? 'common practice').toBe('common practice');
    expect(DEMO_JOB).not.toBe(job['id']);
  });

  it.each([
    [{ rates: { striping: 3 } }, 'striping'],
    [{ rates: { strip: 0 } }, '0.01'],
    [{ layout: { lapM: 3 } }, '0.3'],
    [{ layout: { choices: {} } }, 'choices'],
    ['often', 'practice'],
  ])('is refused with a sentence, and nothing is kept: %j', async (practice, words) => {
    const before = await now();
    const reply = await put(before.version, practice);
    expect(reply.status).toBe(400);
    expect(errorOf(reply).message).toContain(words);
    expect(await now()).toEqual(before);
  });
});
