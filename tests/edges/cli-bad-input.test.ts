import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { refused as refusedIn } from '../fixtures/cli/refused.ts';
import { DEMO_WEATHER, demoJob, REAL_JOB, readJson, run } from '../fixtures/cli/run-cli.ts';

const BOAT = demoJob('boat-store');
/** Parsed JSON of which the test knows what is in it. */
type Json = Record<string, Record<string, unknown>>;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'layfair-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const refused = (args: readonly string[]) => refusedIn(args, folder);

let made = 0;
function file(content: string | Uint8Array, ending = 'json'): string {
  made += 1;
  const path = join(folder, `made-${made}.${ending}`);
  writeFileSync(path, content);
  return path;
}

/** The demo job with one thing changed, by path such as 'roof.lengthM'. */
function jobWith(path: string, value: unknown): string {
  const job = readJson(BOAT) as Record<string, unknown>;
  const parts = path.split('.');
  let at = job;
  for (const part of parts.slice(0, -1)) at = at[part] as Record<string, unknown>;
  at[parts.at(-1)!] = value;
  return file(JSON.stringify(job));
}

function weatherWith(change: (weather: Json) => void): string {
  const weather = readJson(DEMO_WEATHER) as Json;
  change(weather);
  return file(JSON.stringify(weather));
}

describe('a job file that is wrong', () => {
  it.each([
    ['roof.lenghtM', 6, /roof\.lenghtM is not a field Layfair knows/],
    ['roof.lengthM', -6, /roof\.lengthM is -6; it must be a number from 0\.5 to 200/],
    ['roof.lengthM', '6', /roof\.lengthM is '6'; it must be a number/],
    ['roof.lengthM', null, /roof\.lengthM is null; it must be a number/],
    ['site.latitudeDeg', 123, /site\.latitudeDeg is 123; it must be a number from -90 to 90/],
    [
      'site.timeZone',
      'Europe/Atlantis',
      /site\.timeZone is 'Europe\/Atlantis'; it must be an IANA time zone/,
    ],
    ['roof.edges.low', 'gutter', /roof\.edges\.low is 'gutter'; it must be one of eaves, /],
    ['roof.outlets', 1.5, /roof\.outlets is 1\.5; it must be a whole number/],
    ['buildUp.strip', 'yes', /buildUp\.strip is 'yes'; it must be true or false/],
    [
      'buildUp.products.field',
      'wonder-glue',
      /buildUp\.products\.field is 'wonder-glue'; known products are /,
    ],
    ['crew.dayStart', '25:00', /crew\.dayStart is '25:00'; it must be a 24-hour time/],
    ['crew.dayEnd', '06:00', /crew\.dayEnd is 06:00; it must be later than crew\.dayStart, 07:30/],
    ['crew.workDays', [], /crew\.workDays is a list; it needs at least 1 /],
    ['crew.workDays', [8], /crew\.workDays\.0 is 8; it must be a whole number from 1 to 7/],
    ['earliest', '2026-02-30', /earliest is '2026-02-30'; it must be a date/],
    ['latest', '2026-01-01', /latest is 2026-01-01; it must not be before earliest, 2026-05-12/],
    ['id', 'boat', /id is 'boat'; it must be a UUID/],
    ['format', 'layfair-job-9', /format is 'layfair-job-9'; it must be layfair-job-1/],
    ['name', '', /name is ''; it needs at least 1 character/],
    ['name', 'x'.repeat(5000), /name is 'x{20,60}…; it may have at most 120 characters/],
    [
      'costs.currency',
      'euro',
      /costs\.currency is 'euro'; it must be a three-letter currency code/,
    ],
    ['site', [], /site is a list; it must be an object/],
  ])('%s = %j', async (path, value, words) => {
    expect(await refused(['days', jobWith(path, value)])).toMatch(words);
  });

  it('a missing field is named', async () => {
    expect(await refused(['days', jobWith('roof', undefined)])).toMatch(
      /roof is missing; it must be an object/,
    );
  });

  it('all problems are told at once', async () => {
    const job = readJson(BOAT) as Json;
    Object.assign(job['roof'] ?? {}, { lengthM: -1 });
    Object.assign(job['site'] ?? {}, { latitudeDeg: 123 });
    job['colour'] = {};
    const err = await refused(['days', file(JSON.stringify(job))]);
    expect(err.trim().split('\n')).toHaveLength(3);
  });

  it.each([
    [
      'not there',
      () => join(folder, 'nowhere.json'),
      /The job file '.*nowhere\.json' does not exist; give the path of a file/,
    ],
    ['a folder', () => folder, /is a folder/],
    ['empty', () => file(''), /is empty/],
    ['cut off', () => file(readFileSync(BOAT, 'utf8').slice(0, 300)), /is not valid JSON/],
    [
      'not text',
      () => file(Uint8Array.of(0xff, 0xfe, 0x00, 0x7b)),
      /is not text; it must be JSON in UTF-8/,
    ],
    ['a list', () => file('[]'), /The input is a list; it must be an object/],
    ['a number', () => file('7'), /The input is 7; it must be an object/],
    ['deep', () => file('['.repeat(200_000)), /is not valid JSON/],
    ['a prototype', () => jobWith('__proto__x', 1), /__proto__x is not a field/],
  ])('%s', async (_name, path, words) => {
    expect(await refused(['days', path()])).toMatch(words);
    expect(await refused(['work', path(), '--day', '2026-05-14'])).toMatch(words);
  });

  it('a __proto__ key in the file is a field nobody knows', async () => {
    const text = readFileSync(BOAT, 'utf8').replace('{', '{"__proto__": {"demo": true},');
    expect(await refused(['days', file(text)])).toMatch(/__proto__ is not a field/);
  });
});

describe('a weather file that is wrong', () => {
  const days = (path: string) => ['days', BOAT, '--weather', path];

  it.each([
    [
      'not there',
      () => join(folder, 'nowhere.json'),
      /The weather file '.*nowhere\.json' does not exist/,
    ],
    ['empty', () => file(''), /The weather file is empty/],
    [
      'cut off',
      () => file(readFileSync(DEMO_WEATHER).subarray(0, 5000)),
      /The weather file is damaged/,
    ],
    [
      'gzipped and damaged',
      () => {
        const bytes = gzipSync(readFileSync(DEMO_WEATHER));
        bytes.fill(0, 4000, 4400);
        return file(bytes, 'json.gz');
      },
      /gzipped but cannot be unpacked/,
    ],
    [
      'gzipped and cut',
      () => file(gzipSync(readFileSync(DEMO_WEATHER)).subarray(0, 9000), 'json.gz'),
      /gzipped but cannot be unpacked/,
    ],
    [
      'a web page',
      () => file('<!doctype html><title>502</title>'),
      /is a web page, not a forecast/,
    ],
    [
      'without sunshine',
      () =>
        weatherWith((w) => {
          const hourly = w['hourly'] ?? {};
          for (const key of Object.keys(hourly)) {
            if (key.startsWith('shortwave_radiation')) delete hourly[key];
          }
        }),
      /hourly\.shortwave_radiation is missing; Layfair needs temperature_2m/,
    ],
    [
      'for another place',
      () =>
        weatherWith((w) => {
          Object.assign(w, { latitude: 45 });
        }),
      /This forecast is for latitude 45\.00, .* km from the site at latitude 52\.05/,
    ],
    [
      'at no place',
      () =>
        weatherWith((w) => {
          Object.assign(w, { latitude: 123 });
        }),
      /latitude is 123; it must be a number from -90 to 90/,
    ],
  ])('%s', async (_name, path, words) => {
    expect(await refused(days(path()))).toMatch(words);
  });

  it('the same file gzipped and whole is read', async () => {
    const path = file(gzipSync(readFileSync(DEMO_WEATHER)), 'json.gz');
    const { code, out } = await run([...days(path), '--quick', '--json']);
    expect(code).toBe(0);
    expect(out).toBe((await run(['days', BOAT, '--quick', '--json'])).out);
  });

  it('invented weather is refused for a real job', async () => {
    for (const args of [
      ['days', REAL_JOB],
      ['work', REAL_JOB, '--day', '2026-05-14'],
      ['clock', 'contact-solvent', '--coated', '2026-05-14T10:00', '--job', REAL_JOB],
    ]) {
      expect(await refused([...args, '--weather', DEMO_WEATHER])).toMatch(
        /invented for the demo; it is never used for a real job such as 'Sail loft roof'/,
      );
    }
  });
});

it('a folder that cannot be written is no hindrance: answers from files write nothing', async () => {
  const keepDir = join(folder, 'untouched');
  mkdirSync(keepDir);
  expect((await run(['days', BOAT, '--quick'], { keepDir })).code).toBe(0);
  expect(readdirSync(keepDir)).toEqual([]);
});
