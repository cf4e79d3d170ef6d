import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { createFeedClient } from '../../src/feed/index.ts';
import { weatherDesk } from '../../src/server/weather-desk.ts';
import { jobOf } from '../fixtures/planner/job.ts';
import { weatherOf } from '../fixtures/planner/weather.ts';
import { startStandIn } from '../stand-in/server.ts';

const START_MS = Date.parse('2026-05-12T04:40:00Z');

it('answers kept for a forecast are not given for the same hours with other quarter hours', async () => {
  const standIn = await startStandIn(START_MS);
  let nowMs = START_MS;
  const cacheDir = mkdtempSync(join(tmpdir(), 'layfair-desk-'));
  const site = { latitudeDeg: 52.5, longitudeDeg: 13.4, timeZone: 'Europe/Berlin' };
  const { job } = jobOf('boat-store', { site });
  const feed = createFeedClient({
    baseUrls: { ensemble: standIn.url, forecast: standIn.url },
    plan: 'own',
    model: 'gem_global_ensemble',
    now: () => nowMs,
    sleep: () => Promise.resolve(),
    random: () => 0.5,
    cacheDir,
  });
  const desk = weatherDesk(weatherOf(), feed);
  const keyOf = async (): Promise<string> => {
    const found = await desk.forJob({ ...job, demo: false });
    if (!found.ok) throw new Error(found.why);
    expect(found.hourly.quarterRain).toBeDefined();
    return found.key;
  };
  try {
    const first = await keyOf();
    expect(await keyOf()).toBe(first);
    // The hours are kept for longer than the quarters, of which a new run comes in between.
    nowMs += 31 * 60_000;
    standIn.runAvailableMs = START_MS;
    const second = await keyOf();
    expect(second.split('+')[0]).toBe(first.split('+')[0]);
    expect(second).not.toBe(first);
  } finally {
    await desk.close();
    await standIn.close();
    rmSync(cacheDir, { recursive: true });
  }
});
