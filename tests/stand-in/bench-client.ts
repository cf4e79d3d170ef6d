import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Agent } from 'undici';
import { createFeedClient, type FeedClient, type FeedClientOptions } from '../../src/feed/index.ts';
import { type StandIn, startStandIn } from './server.ts';

/** 12 May 2026 04:40 UTC: the stand-in's and the client's common clock at the start. */
export const START_MS = Date.parse('2026-05-12T04:40:00Z');
export const SITE = { latitudeDeg: 52.52, longitudeDeg: 13.41, elevationM: 40, days: 7 };

export interface FeedBench {
  readonly standIn: StandIn;
  /** Waits the client asked for [ms]; they pass at once on the bench's clock. */
  readonly waits: number[];
  readonly cacheDir: string;
  nowMs: number;
  client(options?: Partial<FeedClientOptions>): FeedClient;
  close(): Promise<void>;
}

/** The real client against the stand-in, on a clock that only moves when told to. */
export async function feedBench(): Promise<FeedBench> {
  const standIn = await startStandIn(START_MS);
  const cacheDir = await mkdtemp(join(tmpdir(), 'layfair-feed-'));
  const dispatcher = new Agent();
  const bench: FeedBench = {
    standIn,
    waits: [],
    cacheDir,
    nowMs: START_MS,
    client: (options = {}) =>
      createFeedClient({
        baseUrls: { ensemble: standIn.url, forecast: standIn.url },
        plan: 'own',
        dispatcher,
        now: () => bench.nowMs,
        sleep: async (ms) => {
          bench.waits.push(ms);
          bench.nowMs += ms;
        },
        random: () => 0.5,
        cacheDir,
        timeouts: { headersMs: 400, bodyMs: 400, totalMs: 800 },
        ...options,
      }),
    close: async () => {
      await dispatcher.destroy();
      await standIn.close();
      await rm(cacheDir, { recursive: true, force: true });
    },
  };
  return bench;
}
