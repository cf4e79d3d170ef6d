import { join } from 'node:path';
import Database from 'libsql';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openStore, type Store } from '../../src/store/index.ts';
import {
  ANNA,
  BEN,
  FIRM,
  note,
  OTHER_FIRM,
  sampleCrew,
  sampleJob,
  sampleOwnProduct,
  steppingClock,
  tempFolder,
  uuid,
} from '../kill/samples.ts';

/* The expected outcomes come from the interface's own promise (docs/storage.md); there is no outside source for it. */

const [folder, removeFolder] = tempFolder();
let count = 0;
let file: string;
let store: Store;

beforeEach(async () => {
  file = join(folder, `${++count}.db`);
  store = await openStore({ file, now: steppingClock() });
  await store.ensureFirm(FIRM);
  await store.ensureFirm(OTHER_FIRM);
});
afterEach(() => store.close());
afterAll(removeFolder);

async function reopen(): Promise<void> {
  await store.close();
  store = await openStore({ file, now: steppingClock(1_800_000_000_000) });
}

async function created(job = sampleJob()) {
  const result = await store.createJob(ANNA, { requestId: uuid(), job });
  if (!result.ok) throw new Error(result.message);
  return result.value;
}

describe('jobs', () => {
  it('come back after reopening as they were given, to the letter', async () => {
    const job = sampleJob('Schuppen "Ost"; DROP TABLE job; -- \u0000 \ud800 Ωß🚲');
    await created(job);
    await reopen();
    const back = await store.job(ANNA, job.id);
    expect(back).toEqual({
      ok: true,
      value: { version: 1, savedMs: expect.any(Number), actorId: 'anna', job },
    });
  });

  it('are refused under an id already used, and show the job that has it', async () => {
    const first = await created();
    const again = await store.createJob(BEN, {
      requestId: uuid(),
      job: { ...first.job, name: 'Another' },
    });
    expect(again).toMatchObject({ ok: false, code: 'id-taken', current: first });
    expect(await store.job(ANNA, first.job.id)).toEqual({ ok: true, value: first });
  });

  it('move up one version for each change and keep every version with person and time', async () => {
    const first = await created();
    const second = { ...first.job, name: 'Second' };
    const third = { ...first.job, name: 'Third' };
    await store.updateJob(BEN, { requestId: uuid(), version: 1, job: second });
    await store.updateJob(ANNA, { requestId: uuid(), version: 2, job: third });
    await reopen();
    const history = await store.jobHistory(ANNA, first.job.id);
    if (!history.ok) throw new Error(history.message);
    expect(history.value.map((row) => [row.version, row.actorId, row.job.name])).toEqual([
      [1, 'anna', 'Bicycle shed'],
      [2, 'ben', 'Second'],
      [3, 'anna', 'Third'],
    ]);
    const times = history.value.map((row) => row.savedMs);
    expect(times[0]).toBe(first.savedMs);
    expect([...times].sort()).toEqual(times);
    expect(new Set(times).size).toBe(3);
  });

  it('tell the second of two people what the first has saved', async () => {
    const seen = await created();
    const anna = await store.updateJob(ANNA, {
      requestId: uuid(),
      version: 1,
      job: { ...seen.job, client: 'A' },
    });
    const ben = await store.updateJob(BEN, {
      requestId: uuid(),
      version: 1,
      job: { ...seen.job, client: 'B' },
    });
    expect(anna).toMatchObject({ ok: true, value: { version: 2 } });
    expect(ben).toMatchObject({
      ok: false,
      code: 'version-conflict',
      current: { version: 2, actorId: 'anna', job: { client: 'A' } },
      message: expect.stringContaining('you saw version 1, it is now version 2'),
    });
  });

  it('of two changes sent at the same moment, exactly one goes through', async () => {
    const seen = await created();
    const results = await Promise.all(
      ['A', 'B', 'C', 'D'].map((client) =>
        store.updateJob(ANNA, { requestId: uuid(), version: 1, job: { ...seen.job, client } }),
      ),
    );
    expect(results.filter((result) => result.ok)).toHaveLength(1);
    expect(await store.jobHistory(ANNA, seen.job.id)).toMatchObject({ value: { length: 2 } });
  });

  it('are listed by name', async () => {
    for (const name of ['b', 'a', 'C']) await created(sampleJob(name));
    expect((await store.listJobs(ANNA)).value.map((row) => row.job.name)).toEqual(['C', 'a', 'b']);
  });

  it('not kept here are said to be not found', async () => {
    const job = sampleJob();
    const update = await store.updateJob(ANNA, { requestId: uuid(), version: 1, job });
    for (const result of [
      update,
      await store.job(ANNA, job.id),
      await store.jobHistory(ANNA, job.id),
      await store.events(ANNA, job.id),
      await store.appendEvents(ANNA, {
        requestId: uuid(),
        jobId: job.id,
        events: [note(job.id, 1)],
      }),
    ]) {
      expect(result).toEqual({
        ok: false,
        code: 'not-found',
        message: `There is no job with the id ${job.id}.`,
      });
    }
  });

  it('holding a number JSON cannot hold are a bug, named with its place, and nothing is saved', async () => {
    const job = { ...sampleJob(), confidence: Number.NaN };
    await expect(store.createJob(ANNA, { requestId: uuid(), job })).rejects.toThrow(
      '$.content.job.confidence (NaN) must be a finite number',
    );
    expect((await store.listJobs(ANNA)).value).toEqual([]);
  });
});

describe('a repeated request', () => {
  it('gives the first result again after others have changed the job, and changes nothing', async () => {
    const job = sampleJob();
    const create = { requestId: uuid(), job };
    const first = await store.createJob(ANNA, create);
    const change = { requestId: uuid(), version: 1, job: { ...job, name: 'New' } };
    const second = await store.updateJob(ANNA, change);
    await reopen();
    expect(await store.createJob(BEN, create)).toEqual(first);
    expect(await store.updateJob(BEN, change)).toEqual(second);
    expect(await store.jobHistory(ANNA, job.id)).toMatchObject({ value: { length: 2 } });
  });

  it('sent many times at once is carried out once', async () => {
    const write = { requestId: uuid(), job: sampleJob() };
    const results = await Promise.all(
      Array.from({ length: 8 }, () => store.createJob(ANNA, write)),
    );
    expect(new Set(results.map((result) => JSON.stringify(result))).size).toBe(1);
    expect((await store.listJobs(ANNA)).value).toHaveLength(1);
  });

  it('is recognised with its fields in another order', async () => {
    const requestId = uuid();
    const job = sampleJob();
    const backwards = Object.fromEntries(Object.entries(job).reverse()) as unknown as typeof job;
    const first = await store.createJob(ANNA, { requestId, job });
    expect(await store.createJob(ANNA, { job: backwards, requestId })).toEqual(first);
  });

  it('under the same id with other content or of another kind is refused', async () => {
    const requestId = uuid();
    const job = sampleJob();
    await store.createJob(ANNA, { requestId, job });
    const other = await store.createJob(ANNA, { requestId, job: { ...job, name: 'Other' } });
    const kind = await store.updateJob(ANNA, { requestId, version: 1, job });
    expect(other).toMatchObject({ ok: false, code: 'request-reused' });
    expect(kind).toMatchObject({ ok: false, code: 'request-reused' });
    expect(await store.job(ANNA, job.id)).toMatchObject({
      value: { version: 1, job: { name: 'Bicycle shed' } },
    });
  });

  it('that is refused leaves no trace in the file, not even of the person', async () => {
    const { job } = await created();
    const lookInside = () => {
      const db = new Database(file);
      const tables = ['person', 'request', 'job', 'job_history', 'site_event', 'crew', 'forecast'];
      const counts = tables.map((table) =>
        db.prepare(`SELECT count(*) AS n FROM ${table}`).all([]),
      );
      db.close();
      return counts;
    };
    const before = lookInside();
    expect(before[0]).toEqual([{ n: 1 }]);
    for (const result of [
      await store.createJob(BEN, { requestId: uuid(), job }),
      await store.updateJob(BEN, { requestId: uuid(), version: 7, job }),
      await store.appendEvents(BEN, {
        requestId: uuid(),
        jobId: job.id,
        events: [note(job.id, 1), note(uuid(), 1)],
      }),
      await store.saveCrew(BEN, { requestId: uuid(), version: 1, crew: sampleCrew() }),
    ]) {
      expect(result.ok).toBe(false);
    }
    expect(lookInside()).toEqual(before);
  });

  it('that was refused the first time is judged anew', async () => {
    const job = sampleJob();
    const append = { requestId: uuid(), jobId: job.id, events: [note(job.id, 1)] };
    expect(await store.appendEvents(ANNA, append)).toMatchObject({ ok: false, code: 'not-found' });
    await created(job);
    expect(await store.appendEvents(ANNA, append)).toEqual({
      ok: true,
      value: { added: 1, alreadyThere: 0 },
    });
  });
});

describe('crews and own products', () => {
  it('are made without a version, changed with the version seen, and refused with an old one', async () => {
    const crew = sampleCrew();
    const product = sampleOwnProduct();
    for (const save of [
      (version: number | null, name: string) =>
        store.saveCrew(ANNA, { requestId: uuid(), version, crew: { ...crew, name } }),
      (version: number | null, name: string) =>
        store.saveProduct(ANNA, { requestId: uuid(), version, product: { ...product, name } }),
    ]) {
      expect(await save(1, 'too early')).toMatchObject({ ok: false, code: 'not-found' });
      expect(await save(null, 'one')).toMatchObject({ ok: true, value: { version: 1 } });
      expect(await save(null, 'again')).toMatchObject({
        ok: false,
        code: 'id-taken',
        current: { version: 1 },
      });
      expect(await save(1, 'two')).toMatchObject({ ok: true, value: { version: 2 } });
      expect(await save(1, 'late')).toMatchObject({
        ok: false,
        code: 'version-conflict',
        current: { version: 2 },
      });
    }
    await reopen();
    expect((await store.listCrews(ANNA)).value.map((row) => row.crew)).toEqual([
      { ...crew, name: 'two' },
    ]);
    expect((await store.listProducts(ANNA)).value.map((row) => row.product)).toEqual([
      { ...product, name: 'two' },
    ]);
  });
});

describe('a closed store', () => {
  it('finishes what was running and refuses further calls', async () => {
    const job = sampleJob();
    const running = store.createJob(ANNA, { requestId: uuid(), job });
    await store.close();
    expect(await running).toMatchObject({ ok: true });
    await expect(store.listJobs(ANNA)).rejects.toThrow('is closed');
    await reopen();
    expect(await store.job(ANNA, job.id)).toMatchObject({ ok: true });
  });
});
