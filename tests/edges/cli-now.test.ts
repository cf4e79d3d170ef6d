import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { NOW_WAYS, nowAnswerSchema } from '../../src/contract/index.ts';
import { WAYS } from '../../src/planner/index.ts';
import { refused } from '../fixtures/cli/refused.ts';
import { DEMO_JOBS, demoJob, REAL_JOB, run } from '../fixtures/cli/run-cli.ts';

const folder = mkdtempSync(join(tmpdir(), 'layfair-now-'));
afterAll(() => rmSync(folder, { recursive: true }));

const JOB = demoJob('seed-workshop');
const AT = ['--at', '2026-05-14T10:30'];
const ON_ROOF = [
  ...['--done', '..fold-2', '--coated', 'field-2-1@10:15..10:21'],
  ...['--coated', 'field-2-2@10:22'],
];

async function asked(args: readonly string[]) {
  const { code, out, err } = await run(['now', ...args, '--json']);
  expect([code, err]).toEqual([0, '']);
  return nowAnswerSchema.parse(JSON.parse(out));
}

describe('what now, in the middle of the day', () => {
  it('as JSON: the line to read, what comes next, what lies open, how to close up, the ways', async () => {
    const answer = await asked([JOB, ...AT, ...ON_ROOF]);
    expect(answer.atMs).toBe(Date.parse('2026-05-14T09:30Z'));
    expect(answer.call).toBe('go-on');
    expect(answer.sentence).toMatch(/^Go on: next .*; stop opening at \d\d:\d\d\.$/);
    expect(answer.next.length).toBeLessThanOrEqual(5);
    expect(answer.next.every(({ startMs }) => startMs >= answer.atMs)).toBe(true);
    expect(answer.films.map(({ id }) => id)).toEqual(['field-2-1-coat', 'field-2-2-coat']);
    const sum = answer.closeUp.actions.reduce((minutes, action) => minutes + action.minutes, 0);
    expect(sum).toBeCloseTo(answer.closeUp.minutes, 6);
    expect(answer.ways.map(({ id }) => id)).toEqual([...NOW_WAYS]);
    expect(answer.ways.filter(({ chosen }) => chosen)).toHaveLength(1);
    for (const { outcomes } of answer.ways)
      expect(Object.values(outcomes).reduce((a, b) => a + b, 0)).toBe(answer.weather.count);
    expect([...NOW_WAYS]).toEqual([...WAYS]);
  });

  it('a time said with the day or without means the same', async () => {
    const plain = await asked([JOB, ...AT, ...ON_ROOF, '--thunder-at', '10:10']);
    const full = await asked([JOB, ...AT, ...ON_ROOF, '--thunder-at', '2026-05-14T09:10Z']);
    expect(full).toEqual(plain);
    expect(plain.offRoof).toMatchObject({
      why: 'thunder',
      untilMs: Date.parse('2026-05-14T09:40Z'),
    });
  });

  it('the section sizes are those of the list the names come from', async () => {
    const one = await asked([JOB, ...AT, '--done', '..field-1-1']);
    const three = await asked([JOB, ...AT, '--done', '..fold-1,field-1-1,field-1-2,field-1-3']);
    expect(three.sectionM2).toBeLessThan(one.sectionM2);
  });

  it.each(DEMO_JOBS)('for a person, on %s: 100 columns at most, the line first', async (name) => {
    for (const more of [
      [],
      ['--rain-in', '40m'],
      ['--thunder-at', '10:20'],
      ['--done', '..fold-1'],
    ]) {
      const { code, out, err } = await run(['now', demoJob(name), ...AT, ...more]);
      expect([code, err]).toEqual([0, '']);
      expect(out.split('\n').filter((line) => [...line].length > 100)).toEqual([]);
      expect(out).toMatch(/^(Go on|Close|Open nothing|Wait|Do not open up|Off the roof)/);
      expect(out.replace(/\s+/g, ' ')).toContain('This is advice from a forecast.');
      expect(out).not.toMatch(
        /undefined|NaN|null|\bmember\b|\bactivity\b|\bdose\b|\bmate\b|\bblock\b/,
      );
    }
  });

  it('before the crew comes, the day is planned from when it does; after everything, finished', async () => {
    const early = await asked([JOB, '--at', '2026-05-14T06:00']);
    expect(early.next[0]!.startMs).toBe(Date.parse('2026-05-14T06:30Z'));
    expect(early.notes.join(' ')).toMatch(/06:00 is outside the working day/);
    const all = await asked([JOB, '--at', '2026-05-14T15:00', '--done', '..check']);
    expect([all.call, all.ways, all.next]).toEqual(['finished', [], []]);
  });
});

describe('what cannot be is refused, a sentence each', () => {
  it.each([
    [['--at', 'noon'], /--at 'noon' is not a date and time/],
    [['--at', '2031-05-14T12:00'], /--at is '2031-05-14T12:00'; it lies outside the forecast/],
    [[], /--at <ISO>/],
    [[...AT, '--done', 'fish'], /--done names 'fish', which is not on this day's list/],
    [[...AT, '--done', 'relax@'], /--done is 'relax@'; it must be like/],
    [[...AT, '--done', 'relax@25:00'], /--done has the time '25:00'; it must be like 10:40/],
    [[...AT, '--done', ''], /--done is ''; it must be like/],
    [
      [...AT, '--done', '..relax@10:40'],
      /--done says \.\.relax is done at 10:40, later than the moment/,
    ],
    [[...AT, '--done', 'unroll'], /--done has unroll, which waits for sweep, and that is not done/],
    [
      [...AT, '--done', '..field-1-1-coat'],
      /names field-1-1-coat, which lies open; say when it was coated/,
    ],
    [
      [...AT, '--done', '..field-1-1@10:00', '--coated', 'field-1-1@10:05..10:10'],
      /field-1-1-close closed at 10:00, before it is coated/,
    ],
    [[...AT, '--coated', 'field-1-1'], /--coated is 'field-1-1'; it must be like/],
    [
      [...AT, '--coated', 'unroll@10:00'],
      /--coated names 'unroll', which is no film on this day's list/,
    ],
    [
      [...AT, '--coated', 'field-1@10:00', '--done', '..field-1-2-coat'],
      /names 'field-1', which stands for \d+ films/,
    ],
    [
      [...AT, '--coated', 'field-1-1@11:00'],
      /coated at 11:00, later than the moment asked about, 10:30/,
    ],
    [
      [...AT, '--coated', 'field-1-1@10:20..10:10'],
      /the last of field-1-1-coat at 10:10, before its first/,
    ],
    [[...AT, '--coated', 'field-1-1@2026-05-13T10:00'], /before the day or the forecast begins/],
    [[...AT, ...ON_ROOF, '--coated', 'field-2-1@10:20'], /--coated names field-2-1-coat twice/],
    [[...AT, '--dry', 'field-1-1@10:20'], /--dry names 'field-1-1', which no --coated names/],
    [[...AT, '--in-hand', 'unroll'], /--in-hand is 'unroll'; it must be like/],
    [[...AT, '--in-hand', 'unroll@10:20'], /--in-hand has unroll, which waits for sweep/],
    [[...AT, '--rain-in', 'soon'], /--rain-in is 'soon'; it must be like 40m, 1h or 1h20m/],
    [[...AT, '--rain-in', '-5'], /--rain-in is '-5'; it must be like/],
    [[...AT, '--rain-in', '13h'], /--rain-in is 780 min; it must be from 0 to 720/],
    [
      [...AT, '--thunder-at', '10:45'],
      /thunder is heard at 10:45, later than the moment asked about/,
    ],
    [[...AT, '--thunder-at', '2026-05-13T10:00'], /--thunder-at is 10:00, which is not this day/],
  ])('%j', async (options, words) => {
    // As JSON the same refusals come out of the same door; once is enough, below.
    const { code, out, err } = await run(['now', JOB, ...options], { keepDir: folder });
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(words);
    expect(err).not.toMatch(/undefined|\n\s+at /);
  });

  it('all that is wrong at once', async () => {
    const bad = ['--done', 'x@25:00', '--coated', 'field', '--rain-in', 'soon', '--in-hand', '?'];
    const told = await refused(['now', JOB, ...AT, ...bad], folder);
    expect(told.trim().split('\n')).toHaveLength(4);
  });

  it('no forecast for a real job: exit code 1', async () => {
    const { code, out, err } = await run(['now', REAL_JOB, ...AT], { keepDir: folder });
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(/No current forecast/);
  });
});
