import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { FeedAnswer, Wish } from '../../src/feed/index.ts';
import { type FeedBench, feedBench, SITE, START_MS } from '../stand-in/bench-client.ts';

/** Forecasts kept on disk: served for an hour, labelled when old, never passed off as new. */

const HOUR_MS = 3_600_000;
let bench: FeedBench;
beforeEach(async () => {
  bench = await feedBench();
});
afterEach(() => bench.close());

const got = (answer: FeedAnswer) => {
  if (!answer.ok) throw new Error(answer.message);
  return answer;
};
const failed = (answer: FeedAnswer) => {
  if (answer.ok) throw new Error('expected a failure');
  return answer;
};
const asked = () => bench.standIn.forecasts().length;
const theFile = async () => join(bench.cacheDir, (await readdir(bench.cacheDir))[0] ?? '');

describe('kept forecasts', () => {
  it('serve every site within 0.01 degrees for an hour, with their own age', async () => {
    const first = got(await bench.client().ensemble(SITE));
    bench.nowMs += HOUR_MS - 1;
    const second = got(
      await bench.client().ensemble({ ...SITE, latitudeDeg: 52.5151, elevationM: 60, days: 5 }),
    );
    expect(asked()).toBe(1);
    expect([second.from, second.ageMs]).toEqual(['kept', HOUR_MS - 1]);
    expect(second.weather.source.fetchedMs).toBe(START_MS);
    expect(second.weather).toEqual(first.weather);
  });
  const misses: [string, { ms?: number } & Partial<Wish>][] = [
    ['an hour has passed', { ms: HOUR_MS }],
    ['the clock was set back', { ms: -60_000 }],
    ['more days are asked', { days: 8 }],
    ['more past days are asked', { pastDays: 3 }],
    ['the site is 50 m higher', { elevationM: 90 }],
    ['the height is not known', { elevationM: null }],
    ['the site is elsewhere', { latitudeDeg: 52.54 }],
  ];
  it.each(misses)('are not served when %s', async (_when, { ms = 0, ...wish }) => {
    got(await bench.client().ensemble(SITE));
    bench.nowMs += ms;
    got(await bench.client().ensemble({ ...SITE, ...wish }));
    expect(asked()).toBe(2);
  });
  it('are not served for a site of unknown height, however low the kept one', async () => {
    got(await bench.client().ensemble({ ...SITE, elevationM: 2 }));
    got(await bench.client().ensemble({ ...SITE, elevationM: null }));
    expect(asked()).toBe(2);
  });
  it('of an ensemble are not served as the hourly run, nor for another model', async () => {
    got(await bench.client().ensemble(SITE));
    expect(got(await bench.client().forecast(SITE)).weather.members).toHaveLength(1);
    expect(
      got(await bench.client({ model: 'icon_eu_eps' }).ensemble(SITE)).weather.members,
    ).toHaveLength(40);
  });
  it('come with the failure and a label when the service is down', async () => {
    got(await bench.client().ensemble(SITE));
    bench.nowMs += 14 * HOUR_MS + 20 * 60_000;
    bench.standIn.scenario = 'html-502';
    const answer = failed(await bench.client().ensemble(SITE));
    expect(answer.code).toBe('gateway');
    const label = 'old forecast: fetched 14 h 20 min ago, no newer one could be had';
    expect(answer.lastGood?.label).toBe(label);
    expect(answer.lastGood?.weather.source).toMatchObject({ fetchedMs: START_MS, kind: 'live' });
    expect(answer.lastGood?.weather.source.notes[0]).toBe(label);
    expect(answer.lastGood?.weather.source.issuedMs).toBe(START_MS - HOUR_MS);
  });
  it('can be had without asking the service', async () => {
    const client = bench.client();
    expect(await client.lastGood(SITE)).toBeNull();
    got(await client.ensemble(SITE));
    const before = bench.standIn.seen.length;
    expect((await client.lastGood(SITE))?.weather.members).toHaveLength(51);
    expect(bench.standIn.seen).toHaveLength(before);
  });
  it.each(['odd-unit', 'stream-error', 'wild-value', 'far-away'] as const)(
    'are not replaced by a bad answer (%s)',
    async (scenario) => {
      got(await bench.client().ensemble(SITE));
      const kept = await readFile(await theFile(), 'utf8');
      bench.nowMs += 2 * HOUR_MS;
      bench.standIn.scenario = scenario;
      expect(failed(await bench.client().ensemble(SITE)).lastGood?.ageMs).toBeGreaterThanOrEqual(
        2 * HOUR_MS,
      );
      expect(await readFile(await theFile(), 'utf8')).toBe(kept);
    },
  );
  it('keep the answer as it came, with fetch and issue time, and leave no half file', async () => {
    got(await bench.client().ensemble(SITE));
    expect(await readdir(bench.cacheDir)).toEqual([
      'ensemble_ecmwf_ifs025_ensemble_52.52_13.41.json',
    ]);
    const entry = JSON.parse(await readFile(await theFile(), 'utf8')) as Record<string, unknown>;
    expect(entry).toMatchObject({ fetchedMs: START_MS, issuedMs: START_MS - HOUR_MS, days: 7 });
    expect(JSON.parse(entry['body'] as string)).toHaveProperty('hourly.temperature_2m_member50');
  });
  it.each([
    ['cut', (text: string) => text.slice(0, 500)],
    ['empty', () => ''],
    ['of another form', () => '{"format":2}'],
    [
      'with a spoilt body',
      (text: string) =>
        text.replace('temperature_2m_member01', 'temperature_2m_memberXX').replace('m/s', 'ms'),
    ],
  ])('that are %s count as never fetched', async (_what, spoil) => {
    got(await bench.client().ensemble(SITE));
    await writeFile(await theFile(), spoil(await readFile(await theFile(), 'utf8')));
    bench.standIn.scenario = 'html-502';
    expect(failed(await bench.client().ensemble(SITE)).lastGood).toBeNull();
    bench.standIn.scenario = 'well';
    expect(got(await bench.client().ensemble(SITE)).from).toBe('fetched');
  });
  it('keep the notes of the run they came from', async () => {
    bench.standIn.runAvailableMs = START_MS - 5 * 60_000;
    const first = got(await bench.client().ensemble(SITE));
    const second = got(await bench.client().ensemble(SITE));
    expect(second.from).toBe('kept');
    expect(second.weather.source.notes).toEqual(first.weather.source.notes);
  });
  it('that cannot be written cost a note, not the forecast', async () => {
    const blocked = join(bench.cacheDir, 'file');
    await writeFile(blocked, 'in the way');
    const answer = got(await bench.client({ cacheDir: blocked }).ensemble(SITE));
    expect(answer.weather.source.notes.join()).toMatch(
      /could not be kept on disk \((ENOTDIR|EEXIST)\)/,
    );
  });
});
