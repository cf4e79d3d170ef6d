import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { aheadAnswerSchema } from '../../src/contract/index.ts';
import { refused } from '../fixtures/cli/refused.ts';
import { DEMO_JOBS, DEMO_NOW_MS, demoJob, REAL_JOB, run } from '../fixtures/cli/run-cli.ts';

const AT = '2026-05-14T12:00';
const folder = mkdtempSync(join(tmpdir(), 'layfair-ahead-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function asked(args: readonly string[]) {
  const { code, out, err } = await run(['ahead', ...args, '--json']);
  expect([code, err]).toEqual([0, '']);
  return aheadAnswerSchema.parse(JSON.parse(out));
}

describe.each(DEMO_JOBS)('how far ahead to coat on the demo job %s', (name) => {
  it('as JSON: the field at that moment and at every half hour, sun and shade', async () => {
    const answer = await asked([demoJob(name), '--at', AT]);
    expect(answer.atMs).toBe(Date.parse('2026-05-14T11:00Z'));
    expect(answer.nowMs).toBe(DEMO_NOW_MS);
    expect(answer.works.map(({ kind }) => kind)).toEqual(['field']);
    const [field] = answer.works;
    expect(field!.hours.length).toBeGreaterThan(15);
    for (const [n, { open, shade }] of field!.hours.entries()) {
      expect(open.atMs - field!.hours[0]!.open.atMs).toBe(n * 1_800_000);
      for (const spot of shade === null ? [open] : [open, shade]) {
        expect(spot.most).toBeLessThanOrEqual(field!.largest);
        expect(spot.whyNone === null).toBe(spot.most > 0);
        if (spot.closeByMs !== null) expect(spot.closeByMs).toBeGreaterThan(spot.atMs);
      }
    }
  });

  it('for a person: 100 columns at most, the sentence first, with the usual cautions', async () => {
    const { code, out, err } = await run(['ahead', demoJob(name), '--at', AT]);
    expect([code, err]).toEqual([0, '']);
    expect(out.split('\n').filter((line) => [...line].length > 100)).toEqual([]);
    const flat = out.replace(/\s+/g, ' ');
    expect(flat).toMatch(/Coat no more than [\d.]+ m² at 12:00|Wait until about|Coat nothing/);
    expect(flat).toContain('In the shade');
    expect(flat).toContain('at most two thirds');
    expect(flat).toContain('This is advice from a forecast.');
    expect(out).not.toMatch(/undefined|NaN|null|\bmember\b|\bactivity\b|\bdose\b|\bsafe\b as/);
  });
});

describe('what is asked for', () => {
  it('edges come with the upstands, laps by the metre of primer', async () => {
    const edges = await asked([demoJob('parish-room'), '--at', AT, '--what', 'edges']);
    expect(edges.works.map(({ kind, unit }) => `${kind} ${unit}`)).toEqual([
      'edges m',
      'upstands m',
    ]);
    expect(edges.works[1]!.surfaces).toContain('upstand');
    const laps = await asked([demoJob('seed-workshop'), '--at', AT, '--what', 'laps']);
    expect(laps.works[0]).toMatchObject({
      kind: 'laps',
      unit: 'm',
      product: { id: 'tape-primer' },
    });
    expect(laps.works[0]!.sentence).toMatch(/^Prime no more than/);
  });

  it('a smaller crew coats less', async () => {
    const job = demoJob('seed-workshop');
    const all = await asked([job, '--at', AT]);
    const two = await asked([job, '--at', AT, '--people', '2']);
    expect([all.people > 2, two.people, two.works[0]!.people]).toEqual([true, 2, 2]);
    expect(two.works[0]!.now.open.most).toBeLessThan(all.works[0]!.now.open.most);
  });

  it('a time outside the working day is answered, and said to be outside it', async () => {
    const answer = await asked([demoJob('seed-workshop'), '--at', '2026-05-14T19:30']);
    expect(answer.notes.join(' ')).toMatch(/19:30 is outside the working day/);
    const saturday = await asked([demoJob('seed-workshop'), '--at', '2026-05-16T12:00']);
    expect(saturday.notes.join(' ')).toMatch(/2026-05-16 is not a working day for this crew/);
  });

  it('a reading of the deck counts from its moment on', async () => {
    const job = demoJob('seed-workshop');
    const cold = ['--reading', 'surface-temp=6@2026-05-14T11:55'];
    const read = await asked([job, '--at', AT, ...cold]);
    const plain = await asked([job, '--at', AT]);
    expect(read.works[0]!.now.open).not.toEqual(plain.works[0]!.now.open);
  });
});

describe('what is refused', () => {
  const job = demoJob('boat-store');
  it.each([
    [['--at', 'noon'], /--at 'noon' is not a date and time/],
    [['--at', '2031-05-14T12:00'], /--at is '2031-05-14T12:00'; it lies outside the forecast/],
    [['--at', AT, '--what', 'roof'], /--what is 'roof'; it must be one of field, edges, laps/],
    [['--at', AT, '--what', 'laps'], /--what is 'laps'; laying day 1 of 1 has none, only field/],
    [['--at', AT, '--people', '1'], /--people is '1'; it must be a whole number from 2 to 30/],
    [['--at', AT, '--people', '3.5'], /--people is '3.5'; it must be a whole number from 2 to 30/],
    [['--at', AT, '--people', ''], /--people is ''; it must be a whole number/],
    [[], /--at <ISO>/],
  ])('%j', async (options, words) => {
    expect(await refused(['ahead', job, ...options], folder)).toMatch(words);
  });

  it('all that is wrong at once', async () => {
    const bad = ['--at', 'noon', '--what', 'roof', '--people', 'many'];
    const told = await refused(['ahead', job, ...bad], folder);
    expect(told.trim().split('\n')).toHaveLength(3);
  });

  it('no forecast for a real job: exit code 1', async () => {
    const { code, out, err } = await run(['ahead', REAL_JOB, '--at', AT], { keepDir: folder });
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(/No current forecast/);
  });

  it('invented weather for a real job, and a local time that does not exist', async () => {
    const real = JSON.parse(readFileSync(REAL_JOB, 'utf8')) as object;
    const file = join(folder, 'job.json');
    writeFileSync(file, JSON.stringify(real));
    const weather = ['--weather', join(demoJob('x'), '..', '..', 'ensemble.json')];
    expect(await refused(['ahead', file, '--at', AT, ...weather], folder)).toMatch(/invented/);
    expect(await refused(['ahead', job, '--at', '2026-03-29T01:30'], folder)).toMatch(/--at /);
  });
});
