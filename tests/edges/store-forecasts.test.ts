import { randomBytes } from 'node:crypto';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'libsql';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openStore, type Store } from '../../src/store/index.ts';
import { ANNA, FIRM, SOURCE, sampleJob, steppingClock, tempFolder, uuid } from '../kill/samples.ts';

const [folder, removeFolder] = tempFolder();
let count = 0;
let file: string;
let store: Store;

beforeEach(async () => {
  file = join(folder, `${++count}.db`);
  store = await openStore({ file, now: steppingClock() });
  await store.ensureFirm(FIRM);
});
afterEach(() => store.close());
afterAll(removeFolder);

const save = (bytes: Uint8Array, more: object = {}) =>
  store.saveForecast(ANNA, {
    requestId: uuid(),
    jobId: null,
    placeKey: 'ensemble/53.25,-9.0',
    source: SOURCE,
    bytes,
    ...more,
  });

describe('a kept forecast', () => {
  it('comes back byte for byte, with its source, issue, fetch and save times', async () => {
    // 300 kB that do not compress, and all 256 byte values.
    const bytes = new Uint8Array(randomBytes(300_000));
    const requestId = uuid();
    const source = { ...SOURCE, fetchedMs: 1_778_570_000_000, notes: ['gusts estimated'] };
    const saved = await save(bytes, { requestId, source });
    expect(saved).toMatchObject({
      ok: true,
      value: {
        id: requestId,
        jobId: null,
        source,
        issuedMs: source.issuedMs,
        fetchedMs: source.fetchedMs,
        rawBytes: 300_000,
      },
    });
    const back = await store.forecastBytes(ANNA, requestId);
    expect(back.ok && Buffer.from(back.value).equals(bytes)).toBe(true);
  });

  it('has the SHA-256 of the response as received (FIPS 180-4, example "abc")', async () => {
    const saved = await save(Buffer.from('abc'));
    expect(saved.ok && saved.value.sha256).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
  });

  it('is kept compressed', async () => {
    await save(Buffer.from(JSON.stringify(Array.from({ length: 400_000 }, (_, i) => i % 10))));
    await store.close();
    expect(statSync(file).size).toBeLessThan(400_000);
  });

  it('can be empty', async () => {
    const requestId = uuid();
    await save(new Uint8Array(0), { requestId });
    expect(await store.forecastBytes(ANNA, requestId)).toEqual({
      ok: true,
      value: new Uint8Array(0),
    });
  });

  it('is listed by place, last saved first', async () => {
    const ids = [uuid(), uuid(), uuid()];
    for (const requestId of ids) await save(Buffer.from(requestId), { requestId });
    await save(Buffer.from('x'), { placeKey: 'elsewhere' });
    const listed = (await store.forecasts(ANNA, 'ensemble/53.25,-9.0')).value;
    expect(listed.map((row) => row.id)).toEqual([...ids].reverse());
  });

  it('sent again under its request is kept once, and other bytes under that request are refused', async () => {
    const requestId = uuid();
    const first = await save(Buffer.from('one'), { requestId });
    expect(await save(Buffer.from('one'), { requestId })).toEqual(first);
    expect(await save(Buffer.from('two'), { requestId })).toMatchObject({ code: 'request-reused' });
    expect((await store.forecasts(ANNA, 'ensemble/53.25,-9.0')).value).toHaveLength(1);
  });

  it('for a job that is not kept is refused', async () => {
    expect(await save(Buffer.from('x'), { jobId: uuid() })).toMatchObject({ code: 'not-found' });
    const job = sampleJob();
    await store.createJob(ANNA, { requestId: uuid(), job });
    expect(await save(Buffer.from('x'), { jobId: job.id })).toMatchObject({
      ok: true,
      value: { jobId: job.id },
    });
  });

  it('not kept is said to be not found', async () => {
    expect(await store.forecastBytes(ANNA, 'nothing')).toMatchObject({
      ok: false,
      code: 'not-found',
    });
  });

  it('whose bytes were altered behind our back is not passed off as the one saved', async () => {
    const [cut, swapped] = [uuid(), uuid()];
    await save(Buffer.from('sunny all week'), { requestId: cut });
    await save(Buffer.from('sunny all week'), { requestId: swapped });
    await store.close();
    const { gzipSync } = await import('node:zlib');
    const db = new Database(file);
    db.prepare('UPDATE forecast SET gzip = ? WHERE id = ?').run([Buffer.from('junk'), cut]);
    db.prepare('UPDATE forecast SET gzip = ? WHERE id = ?').run([
      gzipSync('rainy all week'),
      swapped,
    ]);
    db.close();
    store = await openStore({ file, now: steppingClock() });
    for (const id of [cut, swapped]) {
      await expect(store.forecastBytes(ANNA, id)).rejects.toMatchObject({
        code: 'damaged',
        message: expect.stringContaining(`forecast ${id}`),
      });
    }
  });
});
