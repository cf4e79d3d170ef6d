import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAnswerSchema, firmSchema } from '../../src/contract/index.ts';
import { type RunningServer, startServer } from '../browser/start-server.ts';
import { REAL_JOB, readJson, root } from '../fixtures/cli/run-cli.ts';
import { type StandIn, startStandIn } from '../stand-in/server.ts';

const program = join(root, 'dist', 'server', 'server', 'main.js');
const DEMO_JOBS = [1, 2, 3, 4].map((n) => `6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c0${n}`);
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'layfair-start-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const data = async (url: string): Promise<unknown> => {
  const response = await fetch(url);
  const body = (await response.json()) as { data: unknown };
  expect(response.status).toBe(200);
  return body.data;
};

/** Starts it where it is expected to end at once. */
function refusedStart(env: Record<string, string>, args: readonly string[] = []) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    encoding: 'utf8',
    timeout: 15_000,
    env: { ...process.env, PORT: '0', LAYFAIR_DATA: join(folder, 'refused'), ...env },
  });
  expect(stderr).not.toMatch(/\n\s+at /);
  return { status, stdout, stderr };
}

describe('a start that cannot go on says why and ends with 1', () => {
  it('a port that is taken', async () => {
    const other = createServer();
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
    const { port } = other.address() as AddressInfo;
    // Not spawnSync: the other server lives in this process and only has to hold the port.
    const { status, stderr } = refusedStart({ PORT: String(port) });
    other.close();
    expect(status).toBe(1);
    expect(stderr).toContain(`Port ${port} is already in use.`);
    expect(stderr).toContain(`PORT=${port + 1} npm start`);
  });

  it.each([
    ['abc', /PORT is 'abc'; it must be a whole number from 0 to 65535/],
    ['70000', /PORT is '70000'/],
    ['80.5', /PORT is '80\.5'/],
    ['-1', /PORT is '-1'/],
  ])('PORT=%s', (port, words) => {
    const { status, stderr } = refusedStart({ PORT: port });
    expect([status, stderr]).toEqual([1, expect.stringMatching(words)]);
  });

  it.each([
    [['--now', 'tomorrow'], /--now 'tomorrow' is not a date and time/],
    [['--now', '2026-06-08T04:30'], /has no zone; write it with Z or an offset/],
    [['--colour'], /Unknown option '--colour'/],
    [['extra'], /Unexpected argument 'extra'/],
  ])('%j', (args, words) => {
    const { status, stderr } = refusedStart({}, args);
    expect([status, stderr]).toEqual([1, expect.stringMatching(words)]);
  });

  it('a data folder that is a file', () => {
    const file = join(folder, 'not-a-folder');
    writeFileSync(file, 'x');
    const { status, stderr } = refusedStart({ LAYFAIR_DATA: file });
    expect([status, stderr]).toEqual([
      1,
      expect.stringMatching(/LAYFAIR_DATA is '.*not-a-folder', and that folder cannot be made/),
    ]);
  });
});

describe('the running server', () => {
  it('has no network to ask and needs none: demo planned, own jobs told so; --now sets its clock', async () => {
    const server = await startServer({ args: ['--now', '2026-06-08T04:30Z'] });
    try {
      const firm = firmSchema.parse(await data(`${server.url}/api/firm`));
      expect(firm.banner).toBe('Demo: Tuesday 12 May, 05:40; invented weather');
      const job = readJson(REAL_JOB) as { id: string };
      const made = await fetch(`${server.url}/api/jobs`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ requestId: crypto.randomUUID(), job }),
      });
      expect(made.status).toBe(201);
      const days = daysAnswerSchema.parse(
        await data(`${server.url}/api/jobs/${job.id}/days?search=quick`),
      );
      expect(days).toMatchObject({ weather: null, days: [] });
      expect(server.output()).toContain('No forecast service is set up.');
      expect(days.nowMs - Date.parse('2026-06-08T04:30Z')).toBeLessThan(60_000);
    } finally {
      expect(await server.stop()).toBe(0);
    }
  });

  it('keeps jobs over a restart, and ends with 0 when told to', async () => {
    const dataFolder = join(folder, 'kept');
    const first = await startServer({ dataFolder });
    const job = readJson(REAL_JOB) as { id: string };
    await fetch(`${first.url}/api/jobs`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ requestId: crypto.randomUUID(), job }),
    });
    expect(await first.stop()).toBe(0);
    const second = await startServer({ dataFolder });
    try {
      expect(await data(`${second.url}/api/jobs/${job.id}`)).toMatchObject({ version: 1 });
      const { jobs } = (await data(`${second.url}/api/jobs`)) as { jobs: unknown[] };
      expect(jobs).toHaveLength(5);
    } finally {
      expect(await second.stop()).toBe(0);
    }
  });

  it('started twice on one data folder, both answer and see the same jobs', async () => {
    const dataFolder = join(folder, 'twice');
    const servers: RunningServer[] = [];
    try {
      servers.push(await startServer({ dataFolder }));
      servers.push(await startServer({ dataFolder }));
      const job = { ...(readJson(REAL_JOB) as object), id: crypto.randomUUID() };
      const made = await fetch(`${servers[0]!.url}/api/jobs`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ requestId: crypto.randomUUID(), job }),
      });
      expect(made.status).toBe(201);
      await data(`${servers[1]!.url}/api/jobs/${job.id}`);
    } finally {
      for (const server of servers) expect(await server.stop()).toBe(0);
    }
  });

  it('ends soon when told to in the middle of a search', async () => {
    const server = await startServer();
    const asked = fetch(`${server.url}/api/jobs/${DEMO_JOBS[1]}/days`).catch(() => null);
    await new Promise((resolve) => setTimeout(resolve, 150));
    const before = performance.now();
    expect(await server.stop()).toBe(0);
    expect(performance.now() - before).toBeLessThan(4500);
    await asked;
  });
});

describe('while days and orders of work are worked out', () => {
  let server: RunningServer;
  let standIn: StandIn;
  beforeAll(async () => {
    standIn = await startStandIn(Date.parse('2026-06-08T04:30:00Z'));
    server = await startServer({
      args: ['--now', '2026-06-08T04:30Z'],
      env: { LAYFAIR_FEED_HOST: standIn.url },
    });
  });
  afterAll(async () => {
    await server.stop();
    await standIn.close();
  });

  it('health is answered without waiting for them', async () => {
    let busy = true;
    const asked = Promise.all(
      DEMO_JOBS.map(async (id) => {
        await data(`${server.url}/api/jobs/${id}/days?search=quick`);
        await data(`${server.url}/api/jobs/${id}/work?day=2026-05-14`);
      }),
    ).finally(() => {
      busy = false;
    });
    const waits: number[] = [];
    const started = performance.now();
    while (busy) {
      const before = performance.now();
      await data(`${server.url}/api/health`);
      waits.push(performance.now() - before);
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
    await asked;
    const lasted = performance.now() - started;
    waits.sort((a, b) => a - b);
    const at = (share: number) => waits[Math.floor(share * (waits.length - 1))]!.toFixed(0);
    console.log(
      `health: ${waits.length} answers in ${lasted.toFixed(0)} ms; median ${at(0.5)} ms, 99 in 100 within ${at(0.99)} ms, slowest ${at(1)} ms`,
    );
    // The work itself takes seconds; a server that did it on its own thread would answer rarely.
    expect(lasted).toBeGreaterThan(500);
    expect(Number(at(0.99))).toBeLessThan(300);
  });
});
