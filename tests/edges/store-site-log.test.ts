import { join } from 'node:path';
import Database from 'libsql';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Job, SiteEvent } from '../../src/planner/index.ts';
import { openStore, type Store } from '../../src/store/index.ts';
import {
  ANNA,
  BEN,
  FIRM,
  note,
  sampleJob,
  steppingClock,
  tempFolder,
  undo,
  uuid,
} from '../kill/samples.ts';

const [folder, removeFolder] = tempFolder();
let count = 0;
let file: string;
let store: Store;
let job: Job;

beforeEach(async () => {
  file = join(folder, `${++count}.db`);
  store = await openStore({ file, now: steppingClock() });
  await store.ensureFirm(FIRM);
  job = sampleJob();
  await store.createJob(ANNA, { requestId: uuid(), job });
});
afterEach(() => store.close());
afterAll(removeFolder);

const append = (events: readonly SiteEvent[], requestId = uuid(), ctx = ANNA) =>
  store.appendEvents(ctx, { requestId, jobId: job.id, events });

async function logged(): Promise<readonly SiteEvent[]> {
  const result = await store.events(ANNA, job.id);
  if (!result.ok) throw new Error(result.message);
  return result.value;
}

describe('the site log', () => {
  it('gives every kind of event back as it was given', async () => {
    const base = () => ({ id: uuid(), jobId: job.id, atMs: 10, loggedMs: 20, actorId: 'anna' });
    const opened: SiteEvent = { ...base(), kind: 'opened', activityId: 'open-up-1' };
    const dry: SiteEvent = { ...base(), kind: 'touch-dry', activityId: 'field-1' };
    const events: SiteEvent[] = [
      opened,
      { ...base(), kind: 'coated', activityId: 'field-1', productId: 'p', areaM2: null },
      dry,
      { ...base(), kind: 'closed', activityId: 'field-1' },
      { ...base(), kind: 'reading', what: 'surface-temp', value: -3.25 },
      { ...base(), kind: 'batch', productId: 'p', batch: 'L 12/"7"', expires: null },
      { ...base(), kind: 'stop', reason: 'Regen\nüber dem Hof' },
      { ...base(), kind: 'thunder-heard' },
      { ...base(), kind: 'rain-safe' },
      { ...base(), kind: 'finished', activityId: 'check-1' },
      { ...base(), kind: 'confirm', confirms: dry.id },
      { ...base(), kind: 'day-ended', date: '2026-06-09', went: 'finished', because: null },
      { ...base(), kind: 'undo', undoes: opened.id },
    ];
    expect(await append(events)).toEqual({ ok: true, value: { added: 13, alreadyThere: 0 } });
    expect(await logged()).toEqual(events);
  });

  it('runs in the order things happened, and at one instant in the order they were written', async () => {
    const late = note(job.id, 100, 'second, written first');
    const same = note(job.id, 100, 'third, written last');
    const early = note(job.id, 50, 'first, entered late');
    await append([late]);
    await append([early]);
    await append([same]);
    expect(await logged()).toEqual([early, late, same]);
  });

  it('takes an event sent again in another request as already there', async () => {
    const [a, b, c] = [note(job.id, 1), note(job.id, 2), note(job.id, 3)] as const;
    await append([a, b]);
    expect(await append([a, b, c], uuid(), BEN)).toEqual({
      ok: true,
      value: { added: 1, alreadyThere: 2 },
    });
    expect(await append([a, a])).toEqual({ ok: true, value: { added: 0, alreadyThere: 2 } });
    expect(await logged()).toEqual([a, b, c]);
  });

  it('refuses an id that another event has, and the whole request with it', async () => {
    const a = note(job.id, 1);
    await append([a]);
    const result = await append([note(job.id, 2), { ...a, atMs: 9 }]);
    expect(result).toMatchObject({
      ok: false,
      code: 'id-taken',
      issues: [{ path: 'events.1.id' }],
    });
    expect(await logged()).toEqual([a]);
  });

  it('takes an undo of an earlier event, also from the same request and also twice', async () => {
    const a = note(job.id, 1);
    const both = [a, undo(job.id, a.id, 2)];
    expect(await append(both)).toMatchObject({ ok: true });
    expect(await append([undo(job.id, a.id, 3)], uuid(), BEN)).toMatchObject({ ok: true });
    expect(await logged()).toHaveLength(3);
  });

  it('refuses an undo of an unknown event, of a later one, of itself, of another job and of an undo', async () => {
    const other = sampleJob('Other roof');
    await store.createJob(ANNA, { requestId: uuid(), job: other });
    const elsewhere = note(other.id, 1);
    await store.appendEvents(ANNA, { requestId: uuid(), jobId: other.id, events: [elsewhere] });
    const a = note(job.id, 1);
    const takenBack = undo(job.id, a.id, 2);
    await append([a, takenBack]);

    const later = note(job.id, 5);
    const itself: SiteEvent = { ...undo(job.id, 'x', 6), id: 'self', undoes: 'self' } as SiteEvent;
    const result = await append([
      undo(job.id, uuid(), 3),
      undo(job.id, later.id, 4),
      later,
      itself,
      undo(job.id, elsewhere.id, 7),
      undo(job.id, takenBack.id, 8),
    ]);
    expect(result).toMatchObject({ ok: false, code: 'bad-event' });
    const issues = result.ok ? [] : (result.issues ?? []);
    expect(issues.map((issue) => issue.path)).toEqual(
      [0, 1, 3, 4, 5].map((i) => `events.${i}.undoes`),
    );
    expect(issues[4]?.message).toContain('is itself an undo; log the event again instead');
    expect(await logged()).toEqual([a, takenBack]);
  });

  it('refuses events of another job and events without a usable time, all named at once', async () => {
    const bad = [
      note(uuid(), 1),
      note(job.id, 1.5),
      { ...note(job.id, 2), actorId: '' },
      note(job.id, 3),
    ];
    const result = await append(bad);
    expect(result).toMatchObject({ ok: false, code: 'bad-event' });
    expect(result.ok ? [] : result.issues?.map((issue) => issue.path)).toEqual([
      'events.0.jobId',
      'events.1.atMs',
      'events.1.loggedMs',
      'events.2.actorId',
    ]);
    expect(await logged()).toEqual([]);
  });

  it('takes two thousand events in one request', async () => {
    const events = Array.from({ length: 2000 }, (_, i) => note(job.id, i));
    expect(await append(events)).toEqual({ ok: true, value: { added: 2000, alreadyThere: 0 } });
    expect(await append(events)).toEqual({ ok: true, value: { added: 0, alreadyThere: 2000 } });
    expect(await logged()).toHaveLength(2000);
  });
});

describe('the file itself', () => {
  it('forbids changing, removing or replacing what is in the site log and in the job history', async () => {
    await append([note(job.id, 1)]);
    await store.updateJob(ANNA, { requestId: uuid(), version: 1, job });
    await store.close();

    const db = new Database(file);
    const attempts = [
      ['UPDATE site_event SET at_ms = 2', 'site_event is append-only'],
      ['DELETE FROM site_event', 'site_event is append-only'],
      ['INSERT OR REPLACE INTO site_event SELECT * FROM site_event', 'site_event is append-only'],
      ["UPDATE job_history SET body = '{}'", 'job_history is append-only'],
      ['DELETE FROM job_history', 'job_history is append-only'],
      [
        'INSERT OR REPLACE INTO job_history SELECT * FROM job_history',
        'job_history is append-only',
      ],
      ['UPDATE job SET version = version + 2', 'must keep firm and id and add one to the version'],
      [
        "UPDATE job SET version = version + 1, firm_id = 'x'",
        'must keep firm and id and add one to the version',
      ],
    ] as const;
    for (const [sql, message] of attempts) expect(() => db.exec(sql), sql).toThrow(message);
    // The triggers are what refuses: without them the same statement passes.
    db.exec('BEGIN; DROP TRIGGER site_event_no_delete; DELETE FROM site_event; ROLLBACK');
    db.close();

    store = await openStore({ file, now: steppingClock() });
    expect(await logged()).toHaveLength(1);
    expect(await store.jobHistory(ANNA, job.id)).toMatchObject({ value: { length: 2 } });
  });
});
