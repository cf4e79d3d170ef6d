import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { errorBodySchema } from '../../src/contract/index.ts';
import { DEMO_WEATHER, demoJob, REAL_JOB, readJson, run } from '../fixtures/cli/run-cli.ts';

const BOAT = demoJob('boat-store');
/** Parsed JSON of which the test knows what is in it. */
type Json = Record<string, Record<string, unknown>>;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'layfair-cli-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

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

/** Refused: exit code 2, nothing on stdout, and with --json the same as JSON on stderr. */
async function refused(args: readonly string[]): Promise<string> {
  const before = readdirSync(folder).length;
  const plain = await run(args, { keepDir: join(folder, 'kept') });
  expect(plain.out).toBe('');
  expect(plain.code, plain.err).toBe(2);
  const [command, ...rest] = args;
  if (command === undefined) return plain.err;
  const json = await run([command, '--json', ...rest], { keepDir: join(folder, 'kept') });
  expect([json.code, json.out]).toEqual([2, '']);
  const body = errorBodySchema.parse(JSON.parse(json.err));
  expect(body.error.code).toBe('bad-input');
  expect(body.error.issues.length).toBeGreaterThan(0);
  expect(body.error.issues.map((issue) => issue.message).join('\n')).toBe(plain.err.trimEnd());
  expect(readdirSync(folder).length, 'nothing is written').toBe(before);
  expect(plain.err).not.toMatch(/undefined|\n\s+at |commander/);
  return plain.err;
}

describe('a job file that is wrong', () => {
  it.each([
    ['roof.lenghtM', 6, /roof\.lenghtM is not a field Layfair knows/],
    ['roof.lengthM', -6, /roof\.lengthM is -6; it must be at least 0\.5/],
    ['roof.lengthM', '6', /roof\.lengthM is '6'; it must be a number/],
    ['roof.lengthM', null, /roof\.lengthM is null; it must be a number/],
    ['site.latitudeDeg', 123, /site\.latitudeDeg is 123; it must be at most 90/],
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
    ['crew.workDays', [8], /crew\.workDays\.0 is 8; it must be at most 7/],
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
    const { code, out } = await run([...days(path), '--json']);
    expect(code).toBe(0);
    expect(out).toBe((await run(['days', BOAT, '--json'])).out);
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

describe('options that are wrong', () => {
  it.each([
    [['days', BOAT, '--now', 'tomorrow'], /--now 'tomorrow' is not a date and time such as/],
    [
      ['days', BOAT, '--now', '2026-02-30T06:00Z'],
      /--now '2026-02-30T06:00Z' is not a date and time that exists/,
    ],
    // Summer time began in Ireland on 29 March 2026 at 01:00 UTC (Directive 2000/84/EC).
    [
      ['days', BOAT, '--now', '2026-03-29T01:30'],
      /does not exist in Europe\/Dublin: the clocks go forward/,
    ],
    [['days', BOAT, '--now', ''], /--now '' is not a date and time/],
    [['work', BOAT, '--day', '2026-02-30'], /--day is '2026-02-30'; it must be a date that exists/],
    [['work', BOAT, '--day', '14 May'], /--day is '14 May'; it must be a date/],
    [['work', BOAT, '--day', '2026-5-14'], /--day is '2026-5-14'/],
    [
      ['work', BOAT, '--day', '2026-05-11'],
      /--day is 2026-05-11; it must be today \(2026-05-12\) or later/,
    ],
    [['work', BOAT, '--day', '2026-06-20'], /--day is 2026-06-20; the forecast ends on 2026-05-26/],
    [
      ['work', BOAT, '--day', '2026-05-16'],
      /--day is 2026-05-16; for this job and crew it is not a working day/,
    ],
    [['work', BOAT, '--day', '0000-00-00'], /--day is '0000-00-00'/],
    [['work', BOAT], /Required option '--day <YYYY-MM-DD>' not specified; 'layfair work' takes/],
    [
      ['days'],
      /Missing required argument 'JOB.json'; 'layfair days' takes <JOB.json>, --weather <FILE>/,
    ],
    [['days', BOAT, BOAT], /Too many arguments/],
    [
      ['days', BOAT, '--wether', 'x'],
      /Unknown option '--wether'; 'layfair days' takes .*--weather <FILE>/,
    ],
    [['days', BOAT, '--weather'], /Option '--weather <FILE>' argument missing/],
    [['nights', BOAT], /Unknown command 'nights'; commands are days, work, clock/],
    [[], /No command is given; commands are days, work, clock/],
    [['--colour'], /Unknown option '--colour'; commands are days, work, clock/],
  ])('%j', async (args, words) => {
    expect(await refused(args)).toMatch(words);
  });
});

describe('a clock asked wrongly', () => {
  const ask = (...more: readonly string[]) => [
    'clock',
    'contact-solvent',
    '--coated',
    '2026-05-14T10:00',
    ...more,
  ];
  const fair = ['--air', '15', '--rh', '60', '--wind', '1'];

  it.each([
    [
      ['clock', 'wonder-glue', '--coated', '2026-05-14T10:00', ...fair],
      /product is 'wonder-glue'; known products are .*contact-solvent/,
    ],
    [['clock', 'contact-solvent', ...fair], /Required option '--coated <ISO>' not specified/],
    [ask(), /Give either --air, --rh and --wind/],
    [
      ask('--air', '999', '--rh', '60', '--wind', '1'),
      /--air is '999'; it must be a number from -30 to 50/,
    ],
    [ask('--air', 'warm', '--rh', '60', '--wind', '1'), /--air is 'warm'/],
    [
      ask('--air', '15', '--rh', '0', '--wind', '1'),
      /--rh is '0'; it must be a number from 1 to 100/,
    ],
    [
      ask('--air', '15', '--rh', '60', '--wind', '-1'),
      /--wind is '-1'; it must be a number from 0 to 40/,
    ],
    [ask('--air', '15', '--rh', '60', '--wind', ''), /--wind is ''/],
    [ask('--air', '15', '--rh', '60', '--wind', 'Infinity'), /--wind is 'Infinity'/],
    [ask(...fair, '--surface', '200'), /--surface is '200'; it must be a number from -30 to 90/],
    [ask('--air', '15'), /--rh is missing.*\n--wind is missing/],
    [ask('--surface', '15'), /--air is missing/],
    [
      ask(...fair, '--weather', DEMO_WEATHER),
      /not both: here --air, --rh, --wind stands beside a forecast/,
    ],
    [ask(...fair, '--job', BOAT), /not both/],
    [ask(...fair, '--zone', 'Mars/Base'), /--zone is 'Mars\/Base'; it must be an IANA time zone/],
    [ask('--job', BOAT, '--zone', 'Europe/Dublin'), /--zone is 'Europe\/Dublin' beside --job/],
    [ask(...fair, '--now', '2026-05-14T10:00Z'), /--now goes with a forecast/],
    [
      ['clock', 'contact-solvent', '--coated', 'noon', ...fair],
      /--coated 'noon' is not a date and time/,
    ],
    [
      ['clock', 'contact-solvent', '--coated', '2026-02-30T10:00', ...fair],
      /--coated '2026-02-30T10:00' is not a date and time that exists/,
    ],
    [
      [
        'clock',
        'contact-solvent',
        '--coated',
        '2026-03-29T02:30',
        '--zone',
        'Europe/Berlin',
        ...fair,
      ],
      /does not exist in Europe\/Berlin/,
    ],
    [
      ['clock', 'contact-solvent', '--coated', '2027-05-14T10:00', '--job', BOAT],
      /--coated is '2027-05-14T10:00'; it lies outside the forecast/,
    ],
  ])('%j', async (args, words) => {
    expect(await refused(args)).toMatch(words);
  });

  it('tells every wrong number at once', async () => {
    const err = await refused(ask('--air', '999', '--rh', '0', '--wind', 'x'));
    expect(err.trim().split('\n')).toHaveLength(3);
  });
});

it('a folder that cannot be written is no hindrance: answers from files write nothing', async () => {
  const keepDir = join(folder, 'untouched');
  mkdirSync(keepDir);
  expect((await run(['days', BOAT], { keepDir })).code).toBe(0);
  expect(readdirSync(keepDir)).toEqual([]);
});
