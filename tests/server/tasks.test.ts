import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { taskSchema } from '../../src/contract/index.ts';
import { DEMO_JOB, dataOf, errorOf, type TestServer, testServer } from './desk.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
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

  it('can be stopped, and its question is then refused, not half answered', async () => {
    const requestId = randomUUID();
    const started = await server.send('POST', '/api/tasks', { requestId, kind: 'days', jobId });
    expect(started.status).toBe(202);
    expect(taskSchema.parse(dataOf(started))).toMatchObject({ id: requestId, state: 'running' });
    const waiting = server.get(`/api/jobs/${jobId}/days`);
    await new Promise((resolve) => setTimeout(resolve, 5));
    const stopped = await server.send('DELETE', `/api/tasks/${requestId}`);
    expect(taskSchema.parse(dataOf(stopped)).state).toBe('stopped');
    const reply = await waiting;
    expect([reply.status, errorOf(reply).code]).toEqual([409, 'stopped']);
    expect((await done(requestId)).state).toBe('stopped');
  });

  it('shows its progress, and the answer is then at hand', async () => {
    const requestId = randomUUID();
    const body = { requestId, kind: 'days', jobId };
    await server.send('POST', '/api/tasks', body);
    const seen = new Set<string>();
    for (;;) {
      const task = taskSchema.parse(dataOf(await server.get(`/api/tasks/${requestId}`)));
      seen.add(task.words);
      expect(task.progress).toBeGreaterThanOrEqual(0);
      expect(task.progress).toBeLessThanOrEqual(1);
      if (task.state === 'done') break;
      expect(task.state).toBe('running');
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    expect([...seen].some((words) => words.startsWith('looking at 2026-'))).toBe(true);
    const again = await server.send('POST', '/api/tasks', body);
    expect(taskSchema.parse(dataOf(again))).toMatchObject({
      id: requestId,
      state: 'done',
      progress: 1,
    });
  });

  it('asked for under another id while the answer is at hand, can be read under both', async () => {
    await server.get(`/api/jobs/${jobId}/days`);
    const requestId = randomUUID();
    await server.send('POST', '/api/tasks', { requestId, kind: 'days', jobId });
    expect((await done(requestId)).state).toBe('done');
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
      const replies = await Promise.all([1, 2, 3].map(() => server.get(`/api/jobs/${id}/days`)));
      expect(asked).toBe(1);
      expect(replies[1]?.body).toEqual(replies[0]?.body);
      const path = `/api/jobs/${id}/work?day=2026-05-14`;
      await Promise.all([server.get(path), server.get(path)]);
      expect(asked).toBe(2);
      await server.get('/api/jobs/6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c04/days');
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
    const path = `/api/jobs/${DEMO_JOB}/work?day=2026-05-15`;
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
