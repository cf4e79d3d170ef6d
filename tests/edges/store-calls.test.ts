import { join } from 'node:path';
import Database from 'libsql';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { DayCall } from '../../src/record/index.ts';
import type { Store } from '../../src/store/index.ts';
import { ground } from '../../src/store/migrations/0001-ground.ts';
import { practice } from '../../src/store/migrations/0002-practice.ts';
import { openFile } from '../../src/store/open-file.ts';
import { storeFolder } from '../fixtures/store-folder.ts';
import {
  ANNA,
  dayCall,
  FIRM,
  note,
  OTHER_FIRM,
  STRANGER,
  sampleJob,
  undo,
  uuid,
} from '../kill/samples.ts';

/* The expected outcomes come from the interface's own promise (docs/storage.md); there is no outside source for it. */

const stores = storeFolder();
let count = 0;
let file: string;
let store: Store;
let jobId: string;

beforeEach(async () => {
  file = join(stores.folder, `${++count}.db`);
  store = await stores.opened(file);
  await store.ensureFirm(FIRM);
  await store.ensureFirm(OTHER_FIRM);
  const job = sampleJob();
  jobId = job.id;
  await store.createJob(ANNA, { requestId: uuid(), job });
});
afterEach(() => stores.closeAll());
afterAll(stores.removeFolder);

const save = (calls: readonly DayCall[], requestId = uuid(), ctx = ANNA) =>
  store.saveCalls(ctx, { requestId, jobId, calls });
async function kept(): Promise<readonly DayCall[]> {
  const result = await store.calls(ANNA, jobId);
  if (!result.ok) throw new Error(result.message);
  return result.value;
}

describe('what was said of a day', () => {
  it('comes back as it was said, by date and then by when it was said', async () => {
    const [a, b] = [dayCall(jobId, '2026-06-10'), dayCall(jobId, '2026-06-09')];
    const later = dayCall(jobId, '2026-06-09', {
      saidMs: b.saidMs + 1,
      leadDays: -0.125,
      verdict: 'no',
      startMs: null,
      count: 0,
      issuedMs: null,
      forecastMs: b.forecastMs + 1,
      model: null,
      made: true,
    });
    expect(await save([a, later, b])).toEqual({ ok: true, value: { added: 3, alreadyThere: 0 } });
    expect(await kept()).toEqual([b, later, a]);
  });

  it('by the same forecast is kept once, as first said, whatever is said later', async () => {
    const first = dayCall(jobId, '2026-06-09');
    const again = { ...first, saidMs: first.saidMs + 60_000, count: 12, shown: 0.3 };
    await save([first]);
    const more = [again, dayCall(jobId, '2026-06-10'), dayCall(jobId, '2026-06-10')];
    expect(await save(more)).toEqual({ ok: true, value: { added: 1, alreadyThere: 2 } });
    const calls = await kept();
    expect(calls).toHaveLength(2);
    expect(calls[0]).toEqual(first);
  });

  it('is kept once for a request sent twice; the request id used otherwise is refused', async () => {
    const requestId = uuid();
    const calls = [dayCall(jobId, '2026-06-09')];
    const result = await save(calls, requestId);
    expect(await save(calls, requestId)).toEqual(result);
    expect(await save([dayCall(jobId, '2026-06-10')], requestId)).toMatchObject({
      code: 'request-reused',
    });
    expect(await kept()).toEqual(calls);
  });

  it('is of one firm and job: to another firm neither is there', async () => {
    await save([dayCall(jobId, '2026-06-09')]);
    expect(await store.calls(STRANGER, jobId)).toMatchObject({ ok: false, code: 'not-found' });
    const theirs = save([dayCall(jobId, '2026-06-09')], uuid(), STRANGER);
    expect(await theirs).toMatchObject({ ok: false, code: 'not-found' });
    expect(await kept()).toHaveLength(1);
  });

  it.each<[string, Partial<DayCall>]>([
    ['shown', { shown: 1 }],
    ['shrunk', { shrunk: Number.NaN }],
    ['count', { count: 52 }],
    ['of', { of: 1, count: 1 }],
    ['date', { date: '2026-02-30' }],
    ['jobId', { jobId: 'another' }],
  ])('out of range in %s is a bug, and nothing of the request is kept', async (field, change) => {
    const good = dayCall(jobId, '2026-06-09');
    const bad = { ...dayCall(jobId, '2026-06-10'), ...change };
    await expect(save([good, bad])).rejects.toThrow(field);
    expect(await kept()).toEqual([]);
  });

  it('cannot be altered, removed or replaced, by whatever statement', async () => {
    const call = dayCall(jobId, '2026-06-09');
    await save([call]);
    await stores.closeAll();
    const db = new Database(file);
    const columns = (db.prepare('SELECT * FROM day_call').all([]) as object[])[0]!;
    const names = Object.keys(columns).filter((name) => name !== 'seq');
    const again = `SELECT ${names.join(', ')} FROM day_call`;
    for (const sql of [
      'UPDATE day_call SET shown = 0.1',
      'DELETE FROM day_call',
      `INSERT OR REPLACE INTO day_call (${names.join(', ')}) ${again}`,
      'INSERT OR REPLACE INTO day_call SELECT * FROM day_call',
    ]) {
      expect(() => db.exec(sql), sql).toThrow('day_call is append-only');
    }
    db.close();
    store = await stores.opened(file);
    expect(await kept()).toEqual([call]);
  });
});

describe('the mark of how days went', () => {
  const mark = async (ctx = ANNA) => (await store.dayEndsMark(ctx)).value;
  const log = (events: Parameters<Store['appendEvents']>[1]['events']) =>
    store.appendEvents(ANNA, { requestId: uuid(), jobId, events });

  it('changes with an end and with an undo, and with nothing else', async () => {
    const before = await mark();
    await log([note(jobId, 1)]);
    await save([dayCall(jobId, '2026-06-09')]);
    expect(await mark()).toBe(before);
    const id = uuid();
    const base = { id, jobId, atMs: 5, loggedMs: 5, actorId: 'anna', kind: 'day-ended' } as const;
    await log([{ ...base, date: '2026-06-09', went: 'stood-down', because: 'weather' }]);
    const ended = await mark();
    expect(ended).toBeGreaterThan(before);
    await log([undo(jobId, id, 6)]);
    expect(await mark()).toBeGreaterThan(ended);
    expect(await mark(STRANGER)).toBe(0);
  });
});

describe('a file from before calls were kept', () => {
  it('opens with its jobs and log, and keeps calls from then on', async () => {
    const old = join(stores.folder, 'before-calls.db');
    const db = openFile(old, [ground, practice], 1);
    const job = sampleJob('Kept before');
    db.prepare('INSERT INTO firm VALUES (?, ?, ?, 0, 1)').run([FIRM.id, FIRM.name, FIRM.timeZone]);
    db.prepare('INSERT INTO person VALUES (?, ?, NULL, 1)').run([FIRM.id, ANNA.actorId]);
    db.prepare("INSERT INTO job VALUES (?, ?, 1, 'layfair-job-1', ?, ?, 1)").run([
      FIRM.id,
      job.id,
      JSON.stringify(job),
      ANNA.actorId,
    ]);
    db.close();
    await stores.closeAll();
    store = await stores.opened(old);
    jobId = job.id;
    expect(await kept()).toEqual([]);
    await save([dayCall(jobId, '2026-06-09')]);
    expect(await kept()).toHaveLength(1);
  });
});
