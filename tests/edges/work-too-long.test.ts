import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readyJob } from '../../src/answers/index.ts';
import { changesThatFit } from '../../src/planner/fit/long-work.ts';
import type { Job } from '../../src/planner/index.ts';
import { DAY_SHARE } from '../../src/stages/bays-for.ts';
import { dataDir, demoJob, readJson, run } from '../fixtures/cli/run-cli.ts';
import { jobOf, SHELF } from '../fixtures/planner/job.ts';

/** Work that no working day holds: what is said, and that each change offered was true. */

const folder = mkdtempSync(join(tmpdir(), 'layfair-long-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

type Changes = Partial<Omit<Job, 'crew'>> & { readonly crew?: Partial<Job['crew']> };

function jobWith(name: 'parish-room' | 'boat-store', { crew, ...rest }: Changes): Job {
  const { job } = jobOf(name);
  return { ...job, ...rest, crew: { ...job.crew, ...crew } };
}

function messageOf(job: Job): string {
  const read = readyJob(job, SHELF);
  if (read.ok) return 'it fits';
  expect(read.issues).toHaveLength(1);
  return read.issues[0]!.message;
}

const fits = (job: Job): boolean => readyJob(job, SHELF).ok;
const changesOf = (job: Job) => {
  const set = Object.entries(job.buildUp.products).map(([role, id]) => [role, SHELF.get(id)!]);
  return changesThatFit({ job, products: Object.fromEntries(set) }, [...SHELF.values()]);
};
const minuteOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

/** Four square metres with a forest of pipes: one bay, and nothing to split. */
const forest = (people: number): Job => {
  const { job } = jobOf('boat-store');
  return {
    ...job,
    roof: {
      lengthM: 2,
      widthM: 2,
      fallDeg: 1.4,
      fallAzimuthDeg: 180,
      edges: { low: 'eaves', high: 'abutment', left: 'verge', right: 'verge' },
      upstandMm: 150,
      outlets: 2,
      pipes: 24,
      rooflights: 0,
    },
    crew: { ...job.crew, people },
  };
};

describe('a roof with too many details for any day', () => {
  const job = forest(2);
  const message = messageOf(job);

  it('is refused with the piece of work that takes longest and the minutes by which it misses', () => {
    const said =
      /takes (\d+) min to rain-safe, (\d+) min more than the (\d+) min that a (\d+)-minute day/.exec(
        message,
      )!;
    const [need, over, most, day] = said.slice(1).map(Number) as [number, number, number, number];
    const { dayStart, dayEnd, breaks } = job.crew;
    const rests = breaks.reduce((sum, { minutes }) => sum + minutes, 0);
    expect(day).toBe(minuteOf(dayEnd) - minuteOf(dayStart) - rests);
    // What is opened must be closed the same day: the share of it that bays are sized by (common practice).
    expect(most).toBe(Math.floor(DAY_SHARE * day));
    expect(Math.abs(need - most - over)).toBeLessThanOrEqual(1);
    // 24 pipes of 30 min and 2 outlets of 50 min by two people (the usual rates) are 410 min and no less.
    const details = Number(
      /Longest is corners, pipes, outlets and other details, (\d+) min/.exec(message)![1],
    );
    expect(details).toBeGreaterThanOrEqual(410);
    expect(details).toBeLessThan(need);
  });

  it('is told the nearest change first, and fits with each that is offered', () => {
    const changes = changesOf(job);
    expect(changes.length).toBeGreaterThan(0);
    expect(message).toContain(`Nearest change that makes it fit: ${changes[0]!.words}.`);
    for (const change of changes) {
      expect(message).toContain(change.words);
      expect(fits(change.job), change.words).toBe(true);
    }
    expect(changes.map(({ size }) => size)).toEqual(
      changes.map(({ size }) => size).sort((a, b) => a - b),
    );
  });

  it('does not fit with five minutes less of a longer day, nor with one person less', () => {
    for (const { job: changed } of changesOf(job)) {
      const { crew } = changed;
      if (crew.people > job.crew.people)
        expect(fits({ ...changed, crew: { ...crew, people: crew.people - 1 } })).toBe(false);
      else if (crew.dayEnd !== job.crew.dayEnd)
        expect(fits({ ...changed, crew: { ...crew, dayEnd: earlier(crew.dayEnd, 5) } })).toBe(
          false,
        );
    }
  });
});

function earlier(time: string, minutes: number): string {
  const at = minuteOf(time) - minutes;
  return `${String(Math.floor(at / 60)).padStart(2, '0')}:${String(at % 60).padStart(2, '0')}`;
}

describe('an answer in people', () => {
  // A contact adhesive that this firm spreads far slower than usual, on the longest day there is.
  const { buildUp } = jobOf('parish-room').job;
  const job = jobWith('parish-room', {
    rates: { fieldContact: 0.1 },
    buildUp: { ...buildUp, products: { ...buildUp.products, field: 'contact-solvent' } },
    crew: { dayStart: '08:00', dayEnd: '21:00', breaks: [], people: 3 },
  });

  it('is how many, and fits when tried; one fewer does not', () => {
    const people = changesOf(job).find((change) => change.job.crew.people > 3)!;
    const need = people.job.crew.people;
    // Two thirds of the 60 min window it is worked with, at 0.1 m2 a worker-hour: 0.5 m2 takes 7.5 people.
    expect(need).toBe(8);
    expect(messageOf(job)).toContain('5 more people, 8 in all');
    expect(fits({ ...job, crew: { ...job.crew, people: need } })).toBe(true);
    expect(fits({ ...job, crew: { ...job.crew, people: need - 1 } })).toBe(false);
  });

  it('stands beside the firm’s own figure, should that be a slip', () => {
    // The usual 6.5 m2 an hour is the middle of 5 to 8 (docs/stages.md).
    expect(messageOf(job)).toContain(
      'the usual 6.5 m²/worker-hour in place of your own 0.1 for rates.fieldContact',
    );
    expect(fits({ ...job, rates: {} })).toBe(true);
  });

  it('is no longer day for a crew that has no hour left: eleven hours of rest are due', () => {
    // Directive 2003/88/EC, article 3: thirteen hours from coming to leaving at most.
    for (const { job: changed } of changesOf(job)) {
      const { dayStart, dayEnd } = changed.crew;
      expect(minuteOf(dayEnd) - minuteOf(dayStart)).toBeLessThanOrEqual(13 * 60);
    }
  });
});

describe('an adhesive that goes off before a section is closed', () => {
  const job = jobWith('boat-store', { rates: { fieldWet: 0.8 } });

  it('is told apart from a day too short, with another adhesive that fits when tried', () => {
    const message = messageOf(job);
    expect(message).toMatch(/under 0\.5 m² it cannot be laid/);
    const [nearest] = changesOf(job);
    expect(nearest!.job.buildUp.products.field).not.toBe(job.buildUp.products.field);
    expect(message).toContain(nearest!.job.buildUp.products.field);
    expect(fits(nearest!.job)).toBe(true);
  });
});

describe('work that nothing helps', () => {
  const job: Job = {
    ...forest(2),
    roof: { ...forest(2).roof, rooflights: 50 } as Job['roof'],
  };

  it('says what was tried in vain', () => {
    expect(messageOf(job)).toMatch(
      /Nothing tried makes it fit: no day of up to 13 hours, no crew up to 30 people, no other adhesive\./,
    );
    expect(fits({ ...job, crew: { ...job.crew, people: 30 } })).toBe(false);
  });
});

describe('the command line', () => {
  it('refuses such a job with exit code 2 and the whole sentence', async () => {
    const file = join(folder, 'job.json');
    const written = readJson(demoJob('parish-room')) as Record<string, unknown>;
    writeFileSync(file, JSON.stringify({ ...written, rates: { strip: 0.2 } }));
    const ran = await run(['days', file, '--weather', join(dataDir, 'demo', 'ensemble.json')]);
    expect(ran.code).toBe(2);
    const said = ran.err.replace(/\s+/g, ' ');
    expect(said).toMatch(/Even the smallest bay, .* min to rain-safe, \d+ min more than/);
    expect(said).toMatch(/Longest is stripping the old covering/);
    expect(said).toMatch(
      /Nearest change that makes it fit: 1 more person, 4 in all\. .*Or with a working day \d+ min longer/,
    );
    expect(ran.out).toBe('');
  });
});
