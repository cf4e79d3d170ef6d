import { describe, expect, it } from 'vitest';
import { daysAnswerSchema, workAnswerSchema } from '../../src/contract/index.ts';
import { DEMO_JOBS, DEMO_NOW_MS, demoJob, run } from '../fixtures/cli/run-cli.ts';

const DAY = '2026-05-14';
const WIDEST = 100;

describe.each(DEMO_JOBS)('the command line on the demo job %s', (name) => {
  it('ranks days as JSON in the shape of the contract, and nothing else on stdout', async () => {
    const { code, out, err } = await run(['days', demoJob(name), '--quick', '--json']);
    expect([code, err]).toEqual([0, '']);
    const answer = daysAnswerSchema.parse(JSON.parse(out));
    expect(answer.nowMs).toBe(DEMO_NOW_MS);
    expect(answer.weather).toMatchObject({ invented: true, count: 51 });
    expect(answer.noForecast).toBeNull();
    const ranks = answer.days.flatMap((day) => (day.rank === null ? [] : [day.rank]));
    expect(ranks.toSorted((a, b) => a - b)).toEqual(ranks.map((_, n) => n + 1));
    for (const day of answer.days) {
      const { finished, shortened, stoodDown, caughtOpen, unknown } = day.outcomes;
      const total = finished + shortened + stoodDown + caughtOpen + unknown;
      expect([0, 51], day.date).toContain(total);
      if (day.startMs !== null) expect(day.startMs, day.date).toBeGreaterThanOrEqual(DEMO_NOW_MS);
    }
  });

  it('prints the days for a person, 100 columns wide at most', async () => {
    const { code, out, err } = await run(['days', demoJob(name), '--quick']);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain(
      'invented demo weather, issued Tue 12 May 05:40, 0 min old; 51 forecasts.',
    );
    expect(out).toMatch(/about \d in 10/);
    expect(out).toContain('not yet checked against outcomes here');
    expect(out).toContain('This is advice from a forecast.');
    expect(tooWide(out)).toEqual([]);
    expect(out).not.toMatch(/undefined|NaN|null|\bmember\b|\bactivity\b|\bdose\b/);
  });

  it('gives the order of work as JSON in the shape of the contract', async () => {
    const { code, out, err } = await run(['work', demoJob(name), '--day', DAY, '--json']);
    expect([code, err]).toEqual([0, '']);
    const answer = workAnswerSchema.parse(JSON.parse(out));
    expect(answer.day.date).toBe(DAY);
    expect(answer.items.length).toBeGreaterThan(10);
    for (const [n, item] of answer.items.entries()) {
      expect(item.endMs, item.id).toBeGreaterThanOrEqual(item.startMs);
      expect(item.startMs, item.id).toBeGreaterThanOrEqual(answer.items[n - 1]?.startMs ?? 0);
      expect(new Set(item.cautions).size, item.id).toBe(item.cautions.length);
      expect(item.product?.amount ?? '', item.id).not.toMatch(/\b(kgs|ms|Ls)\b/);
    }
  });

  it('prints the order of work for a person: half sheets as one entry, every time kept', async () => {
    const json = await run(['work', demoJob(name), '--day', DAY, '--json']);
    const answer = workAnswerSchema.parse(JSON.parse(json.out));
    const { code, out, err } = await run(['work', demoJob(name), '--day', DAY]);
    expect([code, err]).toEqual([0, '']);
    expect(tooWide(out)).toEqual([]);
    // Sections one by one where there are few, else grouped into running fronts.
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /irst half: spread adhesive and roll in, \d+ (sections of [\d.]+ m²|running fronts)/,
    );
    expect(out.match(/POINT OF NO RETURN/g)).toHaveLength(1);
    const clock = new Intl.DateTimeFormat('en-GB', {
      timeZone: answer.job.timeZone,
      hour: '2-digit',
      minute: '2-digit',
    });
    const missing = answer.items.filter((item) => !out.includes(clock.format(item.startMs)));
    expect(missing.map((item) => item.title)).toEqual([]);
    const holdPoints = new Set(answer.items.flatMap((item) => item.holdPoints));
    const flat = out.replace(/\s+/g, ' ');
    expect([...holdPoints].filter((hold) => !flat.includes(hold))).toEqual([]);
    const cautions = new Set(answer.items.flatMap((item) => item.cautions));
    for (const caution of cautions) expect(flat.split(caution).length - 1, caution).toBe(1);
    expect(out).not.toMatch(/undefined|NaN|null|\bactivity\b/);
  });
});

function tooWide(text: string): string[] {
  return text.split('\n').filter((line) => [...line].length > WIDEST);
}

describe('help', () => {
  it.each([
    [['--help'], ['days', 'work', 'clock', 'Exit codes']],
    [
      ['days', '--help'],
      ['JOB.json', '--quick', '--cost <NAME=AMOUNT>', '--weather <FILE>', '--now <ISO>', '--json'],
    ],
    [
      ['work', '--help'],
      ['JOB.json', '--day <YYYY-MM-DD>', '--bay <M2>', '--weather <FILE>', '--json'],
    ],
    [
      ['clock', '--help'],
      ['PRODUCT', '--coated <ISO>', '--job <JOB.json>', '--air <C>', '--zone'],
    ],
    [
      ['help', 'days'],
      ['JOB.json', '--weather <FILE>'],
    ],
  ])('%j goes to stdout with exit code 0', async (args, words) => {
    const { code, out, err } = await run(args);
    expect([code, err]).toEqual([0, '']);
    for (const word of words) expect(out).toContain(word);
  });
});

describe('the time planned for', () => {
  it('can be set, with an offset or local to the site', async () => {
    const withOffset = await run([
      'days',
      demoJob('boat-store'),
      '--quick',
      '--json',
      '--now',
      '2026-05-13T05:00Z',
    ]);
    const local = await run([
      'days',
      demoJob('boat-store'),
      '--quick',
      '--json',
      '--now',
      '2026-05-13T06:00',
    ]);
    // Irish Standard Time is one hour ahead of UTC in May.
    expect(JSON.parse(withOffset.out)).toMatchObject({ nowMs: Date.parse('2026-05-13T05:00Z') });
    expect(local.out).toBe(withOffset.out);
    const days = daysAnswerSchema.parse(JSON.parse(local.out)).days;
    expect(days[0]?.date).toBe('2026-05-13');
  });

  it('past the end of the forecast gives no chance, and says so', async () => {
    const args = ['days', demoJob('boat-store'), '--now', '2026-07-01T06:00Z'];
    const { code, out } = await run(args);
    expect(code).toBe(0);
    expect(out).toContain('No current forecast');
    expect(out).not.toMatch(/in 10/);
    const { out: json } = await run([...args, '--json']);
    expect(daysAnswerSchema.parse(JSON.parse(json))).toMatchObject({ weather: null, days: [] });
  });

  it("between the forecast's first hour and its issue does not call it old", async () => {
    const { code, out } = await run([
      'days',
      demoJob('boat-store'),
      '--quick',
      '--now',
      '2026-05-11T06:00Z',
    ]);
    expect(code).toBe(0);
    expect(out).toContain('later than the time planned for');
  });

  it("before the forecast's first hour is refused: nothing is known of those days", async () => {
    const now = ['--now', '2026-05-08T06:00Z'];
    const days = await run(['days', demoJob('boat-store'), ...now]);
    const work = await run(['work', demoJob('boat-store'), '--day', '2026-05-08', ...now]);
    for (const { code, out, err } of [days, work]) {
      expect([code, out]).toEqual([2, '']);
      expect(err).toMatch(
        // Ireland is an hour ahead of UTC in May.
        /The forecast starts at 01:00 on Sunday 10 May, site time, later than the time planned for, 07:00 on Friday 8 May;.*--now 2026-05-10T00:00:00Z\.$/m,
      );
    }
  });
});
