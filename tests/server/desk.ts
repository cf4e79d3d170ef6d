import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Hono } from 'hono';
import { inject } from 'vitest';
import { parseJob } from '../../src/answers/index.ts';
import { errorBodySchema, type Issue } from '../../src/contract/index.ts';
import { createFeedClient, readWeatherFile } from '../../src/feed/index.ts';
import { parseProduct } from '../../src/products/index.ts';
import { createApp } from '../../src/server/app.ts';
import type { Desk } from '../../src/server/desk.ts';
import { firmClocks } from '../../src/server/firm-clocks.ts';
import { OWN_CTX, OWN_FIRM } from '../../src/server/own-firm.ts';
import { planningDesk } from '../../src/server/planning/planning-desk.ts';
import { Tasks } from '../../src/server/tasks.ts';
import { weatherDesk } from '../../src/server/weather-desk.ts';
import { loadDemo, loadShelf, openStore, type Store, seedDemo } from '../../src/store/index.ts';
import { DEMO_WEATHER, dataDir, REAL_JOB, readJson, root } from '../fixtures/cli/run-cli.ts';

export const NOW_MS = Date.parse('2026-06-08T04:30:00Z');
export const DEMO_JOB = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c01';
export const realJob = () => readJson(REAL_JOB) as Record<string, unknown>;

export interface TestServer {
  readonly app: Hono;
  readonly desk: Desk;
  readonly store: Store;
  /** What was our fault, in order; a good server has none. */
  readonly faults: unknown[];
  get(path: string, headers?: Record<string, string>): Promise<Reply>;
  send(
    method: string,
    path: string,
    body?: unknown,
    headers?: Record<string, string>,
  ): Promise<Reply>;
  close(): Promise<void>;
}

export interface Reply {
  readonly status: number;
  readonly headers: Headers;
  readonly body: unknown;
}

export interface TestServerOptions {
  /** Address of a stand-in for the forecast service; without it none is set up. */
  readonly feedUrl?: string;
  readonly webDir?: string;
  readonly now?: () => number;
}

/** The server's own parts on a fresh folder, the planning thread as built. */
export async function testServer(options: TestServerOptions = {}): Promise<TestServer> {
  const problem = inject('buildProblems').server;
  if (problem !== null) throw new Error(`There is no planning thread to test with: ${problem}`);
  const folder = mkdtempSync(join(tmpdir(), 'layfair-server-'));
  const now = options.now ?? (() => NOW_MS);
  const store = await openStore({ file: join(folder, 'layfair.sqlite'), now });
  const demo = loadDemo(dataDir, parseJob);
  await seedDemo(store, demo);
  await store.ensureFirm(OWN_FIRM);
  const read = readWeatherFile(readFileSync(DEMO_WEATHER));
  if (!read.ok) throw new Error('the bundled forecast cannot be read');
  const { feedUrl } = options;
  const feed =
    feedUrl === undefined
      ? { why: 'No forecast service is set up.' }
      : createFeedClient({
          baseUrls: { ensemble: feedUrl, forecast: feedUrl },
          plan: 'own',
          apiKey: null,
          now,
          sleep: () => Promise.resolve(),
          random: () => 0.5,
          cacheDir: join(folder, 'forecasts'),
        });
  const weather = weatherDesk(read.weather, feed);
  const planning = planningDesk(
    pathToFileURL(join(root, 'dist', 'server', 'server', 'planning', 'thread.js')),
  );
  const tasks = new Tasks();
  const faults: unknown[] = [];
  const desk: Desk = {
    store,
    shelf: loadShelf(dataDir, parseProduct),
    clocks: firmClocks(now, read.weather.source.issuedMs ?? 0),
    weather,
    planning,
    tasks,
    demo: { firmId: demo.firm.id, actorId: OWN_CTX.actorId },
    own: OWN_CTX,
  };
  const app = createApp(desk, {
    webDir: options.webDir ?? null,
    logError: (error) => faults.push(error),
  });

  const ask = async (path: string, init: RequestInit): Promise<Reply> => {
    const headers = { host: '127.0.0.1', ...(init.headers as Record<string, string>) };
    const response = await app.request(`http://127.0.0.1${path}`, { ...init, headers });
    const text = await response.text();
    const json = response.headers.get('content-type')?.includes('json') === true;
    return {
      status: response.status,
      headers: response.headers,
      body: json ? JSON.parse(text) : text,
    };
  };
  return {
    app,
    desk,
    store,
    faults,
    get: (path, headers = {}) => ask(path, { headers }),
    send: (method, path, body, headers = {}) =>
      ask(path, {
        method,
        headers: { 'content-type': 'application/json', ...headers },
        ...(body === undefined
          ? {}
          : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
      }),
    async close() {
      await Promise.all([planning.close(), weather.close(), store.close()]);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** The `data` of an answer that went well. */
export function dataOf(reply: Reply): unknown {
  const body = reply.body as { ok?: unknown; data?: unknown };
  if (body.ok !== true) throw new Error(`${reply.status}: ${JSON.stringify(reply.body)}`);
  return body.data;
}

/** The error of an answer that went otherwise; its shape is checked. */
export function errorOf(reply: Reply): {
  code: string;
  message: string;
  issues: Issue[];
  current?: unknown;
} {
  if (typeof reply.body === 'string') throw new Error(`not JSON: ${reply.body.slice(0, 200)}`);
  const parsed = errorBodySchema.parse(reply.body);
  const text = JSON.stringify(parsed);
  if (/\.(ts|js|mjs):\d+|node_modules|\n\s+at /.test(text)) throw new Error(`leaks: ${text}`);
  return parsed.error;
}
