import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { refused as refusedIn } from '../fixtures/cli/refused.ts';
import { DEMO_WEATHER, demoJob } from '../fixtures/cli/run-cli.ts';

const BOAT = demoJob('boat-store');
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'layfair-options-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const refused = (args: readonly string[]) => refusedIn(args, folder);

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
      /Missing required argument 'JOB.json'; 'layfair days' takes <JOB.json>, --quick, --cost <NAME=AMOUNT>, --weather <FILE>/,
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
