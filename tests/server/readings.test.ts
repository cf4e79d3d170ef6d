import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { workAnswerSchema } from '../../src/contract/index.ts';
import { DEMO_JOB, dataOf, type TestServer, testServer } from './desk.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

const DAY = '2026-05-13';
const dryFrom = async (): Promise<number> => {
  const work = workAnswerSchema.parse(
    dataOf(await server.get(`/api/jobs/${DEMO_JOB}/work?day=${DAY}`)),
  );
  return work.deckDry.known && work.deckDry.midMs !== null
    ? work.deckDry.midMs
    : Number.POSITIVE_INFINITY;
};
const log = async (event: Record<string, unknown>): Promise<void> => {
  const base = { jobId: DEMO_JOB, atMs: Date.parse(`${DAY}T06:30:00Z`), actorId: 'foreman' };
  const events = [{ ...base, loggedMs: base.atMs, ...event }];
  const reply = await server.send('POST', `/api/jobs/${DEMO_JOB}/events`, {
    requestId: randomUUID(),
    events,
  });
  expect(reply.status).toBe(201);
};

describe('a moisture reading in the site log', () => {
  it('steers the plan from its hour on, and undoing it undoes that', async () => {
    const before = await dryFrom();
    const id = randomUUID();
    await log({ id, kind: 'reading', what: 'moisture', value: 10 });
    expect(await dryFrom()).toBeLessThan(before);
    await log({ id: randomUUID(), kind: 'undo', undoes: id });
    expect(await dryFrom()).toBe(before);
  });
});
