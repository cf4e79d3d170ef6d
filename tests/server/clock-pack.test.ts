import { randomUUID } from 'node:crypto';
import { deflateSync, gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answerClockPack } from '../../src/answers/index.ts';
import { decodePack, encodePack } from '../../src/products/index.ts';
import { roofLie } from '../../src/roof/index.ts';
import { jobOf, SHELF } from '../fixtures/planner/job.ts';
import { DEMO_JOB, dataOf, errorOf, type TestServer, testServer } from './desk.ts';

const DAY = '2026-05-13';
const path = (date = DAY, job = DEMO_JOB): string => `/api/jobs/${job}/days/${date}/clock-pack`;

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

describe('the clock pack of a job and day', () => {
  it('is one that reads, for that job and day, and says where its weather is from', async () => {
    const read = decodePack(dataOf(await server.get(path())));
    if (!read.ok) throw new Error(read.message);
    expect(read.pack).toMatchObject({ jobId: DEMO_JOB, date: DAY, timeZone: 'Europe/Dublin' });
    expect(read.pack.weather).toMatchObject({ kind: 'demo', invented: true, count: 51 });
    expect(read.pack.knownSteps).toBe(read.pack.steps);
  });

  it('travels compressed where the asker takes that, and plain where not', async () => {
    const url = `http://127.0.0.1${path()}`;
    const ask = (accepted: string) =>
      server.app.request(url, { headers: { host: '127.0.0.1', 'accept-encoding': accepted } });
    const zipped = await ask('br, gzip');
    expect(zipped.headers.get('content-encoding')).toBe('gzip');
    const bytes = new Uint8Array(await zipped.arrayBuffer());
    const plain = await ask('identity, gzip;q=0');
    expect(plain.headers.get('content-encoding')).toBeNull();
    expect(plain.headers.get('vary')).toMatch(/accept-encoding/i);
    expect(gunzipSync(bytes).toString()).toBe(await plain.text());
    expect(bytes.length).toBeLessThan(40_000);
  });

  it('is not sent again until a reading changes it', async () => {
    const first = await server.get(path());
    const tag = first.headers.get('etag')!;
    expect(tag).toMatch(/^"[0-9a-f]{32}"$/);
    expect((await server.get(path(), { 'if-none-match': `"x", W/${tag}` })).status).toBe(304);
    const atMs = Date.parse(`${DAY}T08:00:00Z`);
    const event = {
      id: randomUUID(),
      jobId: DEMO_JOB,
      atMs,
      loggedMs: atMs,
      actorId: 'foreman',
      kind: 'reading',
      what: 'surface-temp',
      value: 18.5,
    };
    const logged = await server.send('POST', `/api/jobs/${DEMO_JOB}/events`, {
      requestId: randomUUID(),
      events: [event],
    });
    expect(logged.status).toBe(201);
    const second = await server.get(path(), { 'if-none-match': tag });
    expect(second.status).toBe(200);
    expect(second.headers.get('etag')).not.toBe(tag);
    const read = decodePack(dataOf(second));
    expect(read.ok && read.pack.readings).toEqual([
      { surface: 'deck', atMs, what: 'surface-temp', value: 18.5 },
    ]);
  });

  it('is refused with a sentence for a day that is none or lies beyond the forecast', async () => {
    const none = errorOf(await server.get(path('2026-02-30')));
    expect(none).toMatchObject({ code: 'bad-input' });
    expect(none.message).toMatch(/2026-02-30/);
    const beyond = errorOf(await server.get(path('2026-07-01')));
    expect(beyond.message).toMatch(/day is 2026-07-01; the forecast runs from .* to /);
    const nobody = await server.get(path(DAY, randomUUID()));
    expect(nobody.status).toBe(404);
  });
});

describe('what a phone has to carry', () => {
  it('is under 40 kB for the largest demo job with every product there is', async () => {
    const jobs = (['boat-store', 'parish-room', 'seed-workshop', 'net-hall'] as const).map((name) =>
      jobOf(name),
    );
    const area = ({ job }: (typeof jobs)[number]): number => roofLie(job.roof).areaM2;
    const largest = jobs.reduce((a, b) => (area(b) > area(a) ? b : a));
    const found = await server.desk.weather.forJob(largest.job);
    if (!found.ok) throw new Error(found.why);
    const nowMs = found.hourly.source.issuedMs!;
    // A near day and one a week on, where the forecasts lie furthest apart.
    for (const date of [DAY, '2026-05-20']) {
      const made = answerClockPack(largest, found.hourly, nowMs, date, [...SHELF.values()]);
      if (!made.ok) throw new Error('no pack');
      expect(made.pack.clocks).toHaveLength(SHELF.size * made.pack.surfaces.size);
      const bytes = deflateSync(JSON.stringify(encodePack(made.pack))).length;
      expect(bytes).toBeGreaterThan(5_000);
      expect(bytes).toBeLessThan(40_000);
    }
  });
});
