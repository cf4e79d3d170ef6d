import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAnswerSchema, errorBodySchema, workAnswerSchema } from '../../src/contract/index.ts';
import { REAL_JOB, run } from '../fixtures/cli/run-cli.ts';
import { forecastAnswer } from '../stand-in/answers.ts';
import { type StandIn, startStandIn } from '../stand-in/server.ts';

const NOW_MS = Date.parse('2026-06-08T04:30:00Z');
const MINUTE_MS = 60_000;
const CREDIT = 'Weather data by Open-Meteo.com (CC BY 4.0)';
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'layfair-real-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a real job where no forecast service is set up', () => {
  it('is told so, with no day and no chance, and exit code 0', async () => {
    const { code, out, err } = await run(['days', REAL_JOB, '--quick'], { nowMs: NOW_MS });
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('No current forecast.');
    expect(out).toContain('LAYFAIR_FEED_KEY');
    expect(out).toContain('commercial');
    expect(out).not.toMatch(/in 10|\bgo\b(?! )|Wed|chance of/i);
    const json = await run(['days', REAL_JOB, '--quick', '--json'], { nowMs: NOW_MS });
    const answer = daysAnswerSchema.parse(JSON.parse(json.out));
    expect(answer).toMatchObject({ weather: null, days: [], nowMs: NOW_MS });
    expect(answer.noForecast).toContain('No current forecast.');
  });

  it('gets no order of work and no clock: exit code 1, the same sentence', async () => {
    for (const args of [
      ['work', REAL_JOB, '--day', '2026-06-09'],
      ['clock', 'contact-solvent', '--coated', '2026-06-09T10:00', '--job', REAL_JOB],
    ]) {
      const plain = await run(args, { nowMs: NOW_MS });
      expect([plain.code, plain.out]).toEqual([1, '']);
      expect(plain.err).toContain('No current forecast. No forecast service is set up.');
      const { code, err } = await run([...args, '--json'], { nowMs: NOW_MS });
      expect(code).toBe(1);
      expect(errorBodySchema.parse(JSON.parse(err)).error.code).toBe('no-forecast');
    }
  });

  it('says what is wrong with a setting', async () => {
    const { code, out } = await run(['days', REAL_JOB, '--quick'], {
      env: { LAYFAIR_FEED: 'paid' },
    });
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('LAYFAIR_FEED is "paid"; accepted: free');
  });
});

describe('a real job with a forecast service', () => {
  let standIn: StandIn;
  beforeAll(async () => {
    standIn = await startStandIn(NOW_MS);
  });
  afterAll(() => standIn.close());

  const world = (keepDir: string, nowMs = NOW_MS) => ({
    env: { LAYFAIR_FEED_HOST: standIn.url },
    nowMs,
    keepDir: join(folder, keepDir),
  });

  it('is planned on it; credit, age and count are printed', async () => {
    const { code, out, err } = await run(['days', REAL_JOB, '--quick'], world('a'));
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(
      /Weather: live forecast \(ecmwf_ifs025_ensemble\), issued .* old; 51\s+forecasts\./,
    );
    expect(out).toContain(CREDIT);
    expect(out).toMatch(/(about|under|over) \d in 10/);
    expect(out).not.toMatch(/invented|demo/);
    const json = daysAnswerSchema.parse(
      JSON.parse((await run(['days', REAL_JOB, '--quick', '--json'], world('a'))).out),
    );
    expect(json.weather).toMatchObject({ kind: 'live', invented: false, count: 51 });
    const day = json.days.find((candidate) => candidate.rank !== null)?.date ?? '';
    const work = await run(['work', REAL_JOB, '--day', day], world('a'));
    expect(work.code).toBe(0);
    expect(work.out).toContain(CREDIT);
    const clock = await run(
      ['clock', 'contact-solvent', '--coated', `${day}T11:00`, '--job', REAL_JOB],
      world('a'),
    );
    expect(clock.code).toBe(0);
    expect(clock.out).toContain(CREDIT);
    expect(clock.out).toContain('(Europe/Dublin)');
    expect(clock.out).not.toContain('Reckoned on a bare');
  });

  it('keeps the forecast; when the service fails the old one is used and labelled, once', async () => {
    expect((await run(['days', REAL_JOB, '--quick'], world('b'))).code).toBe(0);
    expect(readdirSync(join(folder, 'b')).length).toBeGreaterThan(0);
    standIn.scenario = 'key-wrong';
    try {
      const later = NOW_MS + 200 * MINUTE_MS;
      const { code, out } = await run(['days', REAL_JOB, '--quick'], world('b', later));
      expect(code).toBe(0);
      expect(out).toMatch(/old forecast: fetched 3 h 20 min ago, no newer one could be had/);
      expect(out.match(/old forecast/g)).toHaveLength(1);
      expect(out).toMatch(/ h \d+ min old/);
      const work = await run(['work', REAL_JOB, '--day', '2026-06-09'], world('b', later));
      expect(work.out).toContain('old forecast: fetched 3 h 20 min ago');
      const json = await run(['days', REAL_JOB, '--quick', '--json'], world('b', later));
      const { notes } = daysAnswerSchema.parse(JSON.parse(json.out)).weather!;
      expect(notes.filter((note) => note.startsWith('old forecast'))).toHaveLength(1);
    } finally {
      standIn.scenario = 'well';
    }
  });

  it('with nothing kept and the service failing says why, and gives no chance', async () => {
    standIn.scenario = 'key-wrong';
    try {
      const { code, out } = await run(['days', REAL_JOB, '--quick'], world('c'));
      expect(code).toBe(0);
      expect(out).toMatch(/No current forecast\..*key/s);
      expect(out).not.toMatch(/in 10/);
    } finally {
      standIn.scenario = 'well';
    }
  });
});

describe('a saved forecast file', () => {
  const VARIABLES =
    'temperature_2m,dew_point_2m,wind_speed_10m,wind_gusts_10m,precipitation,cloud_cover,shortwave_radiation,cape';
  const clock = { nowMs: NOW_MS, runMs: NOW_MS - 3_600_000 };
  const place = { latitude: '52.05', longitude: '-8.35', hourly: VARIABLES, forecast_days: '7' };
  const saved = (name: string, endpoint: string, query: Record<string, string>): string => {
    const file = join(folder, name);
    const answer = forecastAnswer(new URLSearchParams({ ...place, ...query }), clock, endpoint);
    writeFileSync(file, JSON.stringify(answer));
    return file;
  };

  it('of a single forecast works, with forecasts made from it, and it says so', async () => {
    const file = saved('single.json', 'forecast', {
      timeformat: 'unixtime',
      wind_speed_unit: 'ms',
    });
    const { code, out } = await run(['days', REAL_JOB, '--quick', '--weather', file], {
      nowMs: NOW_MS,
    });
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('; 31 made from one forecast.');
    expect(out).toContain('saved forecast, issue time not stated in the file');
    expect(out).toContain(CREDIT);
    expect(out).not.toMatch(/\d+ of \d+ forecasts/);
    const json = await run(['days', REAL_JOB, '--quick', '--weather', file, '--json'], {
      nowMs: NOW_MS,
    });
    const answer = daysAnswerSchema.parse(JSON.parse(json.out));
    const chances = answer.days.flatMap((day) => (day.chance === null ? [] : [day.chance]));
    expect(chances.length).toBeGreaterThan(0);
    for (const chance of chances) {
      expect(chance).toMatchObject({ made: true });
      expect(chance.of).toBeLessThanOrEqual(31);
    }
    const day = answer.days.find((candidate) => candidate.startMs !== null);
    if (day !== undefined) {
      const work = await run(['work', REAL_JOB, '--weather', file, '--day', day.date, '--json'], {
        nowMs: NOW_MS,
      });
      expect(workAnswerSchema.parse(JSON.parse(work.out)).items.length).toBeGreaterThan(0);
    }
  });

  it('in local ISO 8601 times and km/h gives the same answer as in UTC and m/s', async () => {
    const same = { timezone: 'Europe/Berlin', forecast_days: '7' };
    const iso = saved('iso.json', 'ensemble', {
      ...same,
      timeformat: 'iso8601',
      wind_speed_unit: 'kmh',
    });
    const unix = saved('unix.json', 'ensemble', {
      ...same,
      timeformat: 'unixtime',
      wind_speed_unit: 'ms',
    });
    // The stand-in rounds each unit for itself; here the one is the other to the last digit.
    const kmh = JSON.parse(readFileSync(iso, 'utf8')) as { hourly: Record<string, number[]> };
    const mps = JSON.parse(readFileSync(unix, 'utf8')) as typeof kmh;
    for (const [name, values] of Object.entries(kmh.hourly)) {
      if (name.startsWith('wind')) mps.hourly[name] = values.map((v) => v / 3.6);
    }
    writeFileSync(unix, JSON.stringify(mps));
    const zipped = join(folder, 'iso.json.gz');
    writeFileSync(zipped, gzipSync(readFileSync(iso)));
    const ask = (file: string) =>
      run(['days', REAL_JOB, '--quick', '--weather', file, '--json'], { nowMs: NOW_MS });
    const read = async (file: string) => daysAnswerSchema.parse(JSON.parse((await ask(file)).out));
    const [a, b] = [await read(iso), await read(unix)];
    const plain = ({ days }: typeof a) =>
      days.map((day) => [day.date, day.verdict, day.startMs, day.outcomes]);
    expect(plain(a)).toEqual(plain(b));
    expect((await ask(zipped)).out).toBe((await ask(iso)).out);
  });
});
