import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openStore, type Store } from '../../src/store/index.ts';
import {
  ANNA,
  FIRM,
  note,
  OTHER_FIRM,
  SOURCE,
  STRANGER,
  sampleCrew,
  sampleJob,
  sampleOwnProduct,
  steppingClock,
  tempFolder,
  uuid,
} from '../kill/samples.ts';

const [folder, removeFolder] = tempFolder();
let count = 0;
let store: Store;

beforeEach(async () => {
  store = await openStore({ file: join(folder, `${++count}.db`), now: steppingClock() });
  await store.ensureFirm(FIRM);
  await store.ensureFirm(OTHER_FIRM);
});
afterEach(() => store.close());
afterAll(removeFolder);

describe('firms', () => {
  it('are added once and stay as first kept', async () => {
    expect(await store.ensureFirm({ ...FIRM, name: 'Renamed' })).toEqual(FIRM);
    expect(await store.firms()).toEqual([OTHER_FIRM, FIRM]);
    expect(await store.firm(ANNA)).toEqual({ ok: true, value: FIRM });
  });

  it('never see each other: same ids and same request ids live side by side', async () => {
    const job = sampleJob();
    const crew = sampleCrew();
    const product = sampleOwnProduct();
    const ids = { job: uuid(), crew: uuid(), product: uuid(), events: uuid(), forecast: uuid() };
    const event = note(job.id, 5);
    const fill = async (ctx: typeof ANNA, name: string) => [
      await store.createJob(ctx, { requestId: ids.job, job: { ...job, name } }),
      await store.saveCrew(ctx, { requestId: ids.crew, version: null, crew: { ...crew, name } }),
      await store.saveProduct(ctx, {
        requestId: ids.product,
        version: null,
        product: { ...product, name },
      }),
      await store.appendEvents(ctx, {
        requestId: ids.events,
        jobId: job.id,
        events: [{ ...event, text: name } as typeof event],
      }),
      await store.saveForecast(ctx, {
        requestId: ids.forecast,
        jobId: job.id,
        placeKey: 'p',
        source: SOURCE,
        bytes: Buffer.from(name),
      }),
    ];

    expect(await fill(ANNA, 'ours')).toMatchObject([
      { ok: true },
      { ok: true },
      { ok: true },
      { ok: true },
      { ok: true },
    ]);
    // The stranger sees nothing of it through any call ...
    expect((await store.listJobs(STRANGER)).value).toEqual([]);
    expect((await store.listCrews(STRANGER)).value).toEqual([]);
    expect((await store.listProducts(STRANGER)).value).toEqual([]);
    expect((await store.forecasts(STRANGER, 'p')).value).toEqual([]);
    for (const result of [
      await store.job(STRANGER, job.id),
      await store.jobHistory(STRANGER, job.id),
      await store.events(STRANGER, job.id),
      await store.forecastBytes(STRANGER, ids.forecast),
      await store.updateJob(STRANGER, { requestId: uuid(), version: 1, job }),
      await store.appendEvents(STRANGER, {
        requestId: uuid(),
        jobId: job.id,
        events: [note(job.id, 1)],
      }),
      await store.saveForecast(STRANGER, {
        requestId: uuid(),
        jobId: job.id,
        placeKey: 'p',
        source: SOURCE,
        bytes: Buffer.from('x'),
      }),
    ]) {
      expect(result).toMatchObject({ ok: false, code: 'not-found' });
      expect(result).not.toHaveProperty('current');
    }
    // ... and may use the very same ids for rows of his own.
    expect(await fill(STRANGER, 'theirs')).toMatchObject([
      { ok: true },
      { ok: true },
      { ok: true },
      { ok: true },
      { ok: true },
    ]);
    await store.updateJob(STRANGER, {
      requestId: uuid(),
      version: 1,
      job: { ...job, name: 'theirs, changed' },
    });

    expect((await store.listJobs(ANNA)).value).toMatchObject([
      { version: 1, job: { name: 'ours' } },
    ]);
    expect((await store.listCrews(ANNA)).value).toMatchObject([{ crew: { name: 'ours' } }]);
    expect((await store.listProducts(ANNA)).value).toMatchObject([{ product: { name: 'ours' } }]);
    expect(await store.jobHistory(ANNA, job.id)).toMatchObject({ value: { length: 1 } });
    expect(await store.events(ANNA, job.id)).toMatchObject({ value: [{ text: 'ours' }] });
    expect((await store.forecasts(ANNA, 'p')).value).toHaveLength(1);
    expect(await store.forecastBytes(ANNA, ids.forecast)).toEqual({
      ok: true,
      value: new Uint8Array(Buffer.from('ours')),
    });
  });

  it('not kept here cannot write', async () => {
    const nobody = { firmId: uuid(), actorId: 'anna' };
    const result = await store.createJob(nobody, { requestId: uuid(), job: sampleJob() });
    expect(result).toMatchObject({
      ok: false,
      code: 'not-found',
      message: 'This firm is not kept here.',
    });
    expect(await store.firm(nobody)).toMatchObject({ ok: false, code: 'not-found' });
  });

  it('and people without an id are a bug, named', async () => {
    for (const ctx of [
      { ...ANNA, firmId: '' },
      { ...ANNA, actorId: 'two words' },
    ]) {
      await expect(store.createJob(ctx, { requestId: uuid(), job: sampleJob() })).rejects.toThrow(
        /must be 1 to 200/,
      );
    }
  });
});
