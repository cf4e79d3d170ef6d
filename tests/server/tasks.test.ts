import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAnswerSchema, taskSchema } from '../../src/contract/index.ts';
import { DEMO_JOB, dataOf, errorOf, NOW_MS, type TestServer, testServer } from './desk.ts';

/** So late in the demo's forecast that one working day is left to search: a full search is soon through. */
const LATE_MS = 11.5 * 24 * 3_600_000;

let server: TestServer;
let nowMs = NOW_MS;
beforeAll(async () => {
  server = await testServer({ now: () => nowMs });
  nowMs += LATE_MS;
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

describe('long work as a task', () => {
  const done = async (id: string) => {
    for (;;) {
      const task = taskSchema.parse(dataOf(await server.get(`/api/tasks/${id}`)));
      if (task.state !== 'running') return task;
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  };
  // The parish room job, asked nowhere else here, so that nothing is kept of it yet.
  const jobId = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c02';

  it('stopped before it has found anything, its question is refused, not half answered', async () => {
    const requestId = randomUUID();
    const started = await server.send('POST', '/api/tasks', { requestId, kind: 'days', jobId });
    expect(started.status).toBe(202);
    expect(taskSchema.parse(dataOf(started))).toMatchObject({ id: requestId, state: 'running' });
    const waiting = server.get(`/api/jobs/${jobId}/days`);
    await new Promise((resolve) => setTimeout(resolve, 5));
    const stopped = await server.send('DELETE', `/api/tasks/${requestId}`);
    expect(taskSchema.parse(dataOf(stopped))).toMatchObject({ state: 'stopped', soFar: null });
    const reply = await waiting;
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'stopped']);
    expect((await done(requestId)).state).toBe('stopped');
  });

  it('shows its progress and the best so far; stopped, it keeps that and says so', async () => {
    const requestId = randomUUID();
    await server.send('POST', '/api/tasks', { requestId, kind: 'days', jobId });
    const waiting = server.get(`/api/jobs/${jobId}/days`);
    const seen = new Set<string>();
    let soFar = null;
    while (soFar === null) {
      const task = taskSchema.parse(dataOf(await server.get(`/api/tasks/${requestId}`)));
      seen.add(task.words);
      expect([task.state, task.error]).toEqual(['running', null]);
      expect(task.progress).toBeGreaterThanOrEqual(0);
      expect(task.progress).toBeLessThanOrEqual(1);
      soFar = task.soFar;
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    expect([...seen].some((words) => words.startsWith('looking at 2026-'))).toBe(true);
    expect(soFar.search).toMatchObject({ depth: 'full', state: 'running' });
    // What is at hand is given to who wants the first answer.
    const quick = await server.get(`/api/jobs/${jobId}/days?search=quick`);
    expect(daysAnswerSchema.parse(dataOf(quick)).search.state).toBe('running');

    const stopped = await server.send('DELETE', `/api/tasks/${requestId}`);
    const kept = taskSchema.parse(dataOf(stopped));
    expect([kept.state, kept.soFar?.search.state]).toEqual(['stopped', 'stopped']);
    expect(kept.soFar?.search.words).toMatch(/^Stopped early: /);
    const reply = daysAnswerSchema.parse(dataOf(await waiting));
    expect(reply).toEqual(kept.soFar);
    expect(reply.days.some(({ chance }) => chance !== null)).toBe(true);
  });

  it('a search that was stopped is not taken for the answer: asked again, it goes on', async () => {
    const again = randomUUID();
    const body = { requestId: again, kind: 'days', jobId };
    const started = await server.send('POST', '/api/tasks', body);
    expect(taskSchema.parse(dataOf(started)).state).toBe('running');
    const { state, progress, soFar } = await done(again);
    expect([state, progress, soFar?.search.state]).toEqual(['done', 1, 'done']);
    expect(soFar).toEqual(dataOf(await server.get(`/api/jobs/${jobId}/days`)));
    const repeat = await server.send('POST', '/api/tasks', body);
    expect(taskSchema.parse(dataOf(repeat))).toMatchObject({ id: again, state: 'done' });
  });

  it('asked for under another id while the answer is at hand, can be read under both', async () => {
    await server.get(`/api/jobs/${jobId}/days`);
    const requestId = randomUUID();
    await server.send('POST', '/api/tasks', { requestId, kind: 'days', jobId });
    expect((await done(requestId)).state).toBe('done');
    const other = { requestId, kind: 'days', jobId, tried: { standDown: 1 } };
    const reply = await server.send('POST', '/api/tasks', other);
    expect([reply.status, errorOf(reply).message]).toEqual([
      409,
      expect.stringContaining('with other figures tried'),
    ]);
  });

  it('an id used for one job is refused for another', async () => {
    const requestId = randomUUID();
    await server.send('POST', '/api/tasks', { requestId, kind: 'days', jobId });
    const reply = await server.send('POST', '/api/tasks', {
      requestId,
      kind: 'days',
      jobId: DEMO_JOB,
    });
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'request-reused']);
  });

  it('two questions at once are worked out once', async () => {
    const id = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c03';
    let asked = 0;
    const { planning } = server.desk;
    const ask = planning.ask;
    planning.ask = (...args: Parameters<typeof ask>) => {
      asked += 1;
      return ask(...args) as never;
    };
    try {
      const replies = await Promise.all(
        [1, 2, 3].map(() => server.get(`/api/jobs/${id}/days?search=quick`)),
      );
      expect(asked).toBe(1);
      expect(replies[1]?.body).toEqual(replies[0]?.body);
      const path = `/api/jobs/${id}/work?day=2026-05-25`;
      await Promise.all([server.get(path), server.get(path)]);
      expect(asked).toBe(2);
      await server.get('/api/jobs/6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c04/days?search=quick');
      expect(asked).toBe(3);
    } finally {
      planning.ask = ask;
    }
  });

  it.each([
    [{}, /requestId is missing.*kind is missing.*jobId is missing/],
    [
      { requestId: 'x', kind: 'weeks', jobId: 'y' },
      /requestId is 'x'; it must be a UUID.*kind is 'weeks'; it must be days/,
    ],
    [
      { requestId: randomUUID(), kind: 'days', jobId, tried: { caughtOpen: -1, bay: 'x' } },
      /tried.caughtOpen is -1; it must be a number from 0 to 10000000.*tried.bay is 'x'; it must be a number from 4 to 20000/,
    ],
    [
      { requestId: randomUUID(), kind: 'days', jobId, tried: { bay: 5000 } },
      /tried.bay is 5000; it must be from 4 to the whole roof/,
    ],
  ])('%j is refused', async (body, words) => {
    const reply = await server.send('POST', '/api/tasks', body);
    expect([reply.status, errorOf(reply).message]).toEqual([400, expect.stringMatching(words)]);
  });
});

describe('a planner that fails', () => {
  it('is a fault of ours: told without details, and the next question is answered', async () => {
    const { planning } = server.desk;
    const ask = planning.ask;
    planning.ask = () => Promise.reject(new Error('secret: plan.ts:12'));
    const path = `/api/jobs/${DEMO_JOB}/work?day=2026-05-25`;
    try {
      const reply = await server.get(path);
      expect([reply.status, errorOf(reply).message]).toEqual([
        500,
        'Layfair failed on this request.',
      ]);
      expect(server.faults.splice(0)).toHaveLength(1);
    } finally {
      planning.ask = ask;
    }
    expect((await server.get(path)).status).toBe(200);
  });
});
