import { randomUUID } from 'node:crypto';
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { serve } from '@hono/node-server';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject } from 'vitest';
import type { SiteLogEvent, WorkAnswer } from '../../src/contract/index.ts';
import { standingLog } from '../../src/products/index.ts';
import { launchBrowser } from '../browser/browser.ts';
import { NOW_MS, type TestServer, testServer } from '../server/desk.ts';
import { root } from '../walls/project-files.ts';
import { data } from './open-page.ts';

/** The demo job that is bonded with contact adhesive, on its best day. */
export const JOB = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c03';
export const DATE = '2026-05-13';
export const ZONE = 'Europe/Dublin';

/** Summer time in Dublin is an hour ahead of UTC (IANA time zone database). */
export const onSite = (time: string): number => Date.parse(`${DATE}T${time}:00+01:00`);

export interface DemoSite {
  readonly browser: Browser;
  readonly url: string;
  readonly work: WorkAnswer;
  /** Sets the clock on site; it does not run on by itself. */
  setTime(ms: number): void;
  events(): Promise<SiteLogEvent[]>;
  /** Kinds of the entries that were not taken back, in the order things happened. */
  standing(): Promise<string[]>;
  /** Takes back every entry that stands, so that tests do not see each other's. */
  takeAllBack(): Promise<void>;
}

/** The built pages on the server's own parts, with a demo clock that a test sets. */
export function demoSite(startMs: number): DemoSite {
  let server: TestServer;
  let http: Server;
  let browser: Browser;
  let work: WorkAnswer;
  let url = '';
  /** The demo starts at the issue time of its forecast: 05:40 on 12 May. */
  const demoStartMs = Date.parse('2026-05-12T04:40:00Z');
  let nowMs = NOW_MS;
  const setTime = (ms: number): void => {
    nowMs = NOW_MS + ms - demoStartMs;
  };
  beforeAll(async () => {
    const problem = inject('buildProblems').web;
    if (problem !== null) throw new Error(`There is no page to test: ${problem}`);
    server = await testServer({ now: () => nowMs, webDir: join(root, 'dist', 'web') });
    const { app } = server;
    http = await new Promise<Server>((resolve) => {
      const made = serve({ fetch: app.fetch, hostname: '127.0.0.1', port: 0 }, () =>
        resolve(made as Server),
      );
    });
    url = `http://127.0.0.1:${(http.address() as AddressInfo).port}`;
    browser = await launchBrowser();
    setTime(startMs);
    work = await data<WorkAnswer>(url, `/api/jobs/${JOB}/work?day=${DATE}`);
  });
  afterAll(async () => {
    await browser?.close();
    await new Promise((resolve) => http?.close(resolve));
    expect(server.faults).toEqual([]);
    await server?.close();
  });
  const events = async (): Promise<SiteLogEvent[]> =>
    (await data<{ events: SiteLogEvent[] }>(url, `/api/jobs/${JOB}/events`)).events;
  return {
    get browser() {
      return browser;
    },
    get url() {
      return url;
    },
    get work() {
      return work;
    },
    setTime,
    events,
    standing: async () => standingLog(await events()).map(({ kind }) => kind),
    async takeAllBack() {
      const undos = standingLog(await events()).map(({ id, atMs, loggedMs }) => {
        const undo = { jobId: JOB, atMs, loggedMs, actorId: 'foreman', kind: 'undo', undoes: id };
        return { ...undo, id: randomUUID() };
      });
      if (undos.length === 0) return;
      const body = { requestId: randomUUID(), events: undos };
      const reply = await server.send('POST', `/api/jobs/${JOB}/events`, body);
      expect(reply.status, JSON.stringify(reply.body)).toBe(201);
    },
  };
}
