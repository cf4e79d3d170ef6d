import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readJob } from '../../src/answers/index.ts';
import type { Job } from '../../src/planner/index.ts';
import { type Product, parseProduct } from '../../src/products/index.ts';
import {
  type Demo,
  type JobParser,
  loadDemo,
  loadShelf,
  openStore,
  type ProductParser,
  projectRoot,
  seedDemo,
} from '../../src/store/index.ts';
import {
  ANNA,
  FIRM,
  sampleCrew,
  sampleJob,
  sampleProduct,
  steppingClock,
  tempFolder,
  uuid,
} from '../kill/samples.ts';

const [folder, removeFolder] = tempFolder();
afterAll(removeFolder);

const DEMO: Demo = {
  firm: { id: uuid(), name: 'Demo firm', timeZone: 'Europe/Dublin', demo: true },
  crews: [sampleCrew('One'), sampleCrew('Two')],
  jobs: ['A', 'B', 'C'].map((name) => ({ ...sampleJob(name), demo: true })),
};
const AT_DEMO = { firmId: DEMO.firm.id, actorId: 'visitor' };

describe('the demo', () => {
  it('is put in once, and a visitor keeps what he changed when it is put in again', async () => {
    const file = join(folder, 'demo.db');
    let store = await openStore({ file, now: steppingClock() });
    await store.ensureFirm(FIRM);
    await store.createJob(ANNA, { requestId: uuid(), job: sampleJob('Ours') });
    expect(await seedDemo(store, DEMO)).toEqual({ added: 5, kept: 0 });

    const changed = { ...DEMO.jobs[0]!, name: 'A, changed' };
    await store.updateJob(AT_DEMO, { requestId: uuid(), version: 1, job: changed });
    await store.close();

    store = await openStore({ file, now: steppingClock(1_800_000_000_000) });
    expect(await seedDemo(store, DEMO)).toEqual({ added: 0, kept: 5 });
    // The next release brings one job more and another text for job B.
    const newer = {
      ...DEMO,
      jobs: [
        DEMO.jobs[0]!,
        { ...DEMO.jobs[1]!, name: 'B, reworded' },
        DEMO.jobs[2]!,
        { ...sampleJob('D'), demo: true },
      ],
    };
    expect(await seedDemo(store, newer)).toEqual({ added: 1, kept: 5 });
    const names = (await store.listJobs(AT_DEMO)).value.map((row) => row.job.name);
    expect(names).toEqual(['A, changed', 'B', 'C', 'D']);
    expect((await store.listCrews(AT_DEMO)).value.map((row) => row.crew)).toEqual(DEMO.crews);
    expect((await store.listJobs(ANNA)).value.map((row) => row.job.name)).toEqual(['Ours']);
    expect((await store.listCrews(ANNA)).value).toEqual([]);
    await store.close();
  });

  it('put in twice at the same moment is there once', async () => {
    const store = await openStore({ file: join(folder, 'twice.db'), now: steppingClock() });
    await Promise.all([seedDemo(store, DEMO), seedDemo(store, DEMO)]);
    expect((await store.listJobs(AT_DEMO)).value).toHaveLength(3);
    expect((await store.listJobs(AT_DEMO)).value.every((row) => row.version === 1)).toBe(true);
    await store.close();
  });

  it('never goes into a real firm, and takes no job that is not marked as demo', async () => {
    const store = await openStore({ file: join(folder, 'real.db'), now: steppingClock() });
    await store.ensureFirm(FIRM);
    await expect(seedDemo(store, { ...DEMO, firm: { ...DEMO.firm, id: FIRM.id } })).rejects.toThrow(
      'kept as a real firm',
    );
    await expect(seedDemo(store, { ...DEMO, firm: { ...DEMO.firm, demo: false } })).rejects.toThrow(
      'must be marked as demo',
    );
    await expect(seedDemo(store, { ...DEMO, jobs: [sampleJob()] })).rejects.toThrow(
      'must be marked as demo',
    );
    expect((await store.listJobs(ANNA)).value).toEqual([]);
    expect(await store.firms()).toEqual([FIRM]);
    await store.close();
  });
});

describe('the data that comes with the program', () => {
  type Files = Readonly<Record<string, string>>;
  const CREWS_FILE = { format: 'layfair-crews-1', crews: DEMO.crews };
  const FIRM_FILE = { format: 'layfair-firm-1', ...DEMO.firm };
  const GOOD: Files = {
    'products/b.json': JSON.stringify(sampleProduct('b')),
    'products/a.json': JSON.stringify(sampleProduct('a')),
    'products/readme.md': 'not data',
    'demo/firm.json': JSON.stringify(FIRM_FILE),
    'demo/crews.json': JSON.stringify(CREWS_FILE),
    'demo/jobs/one.json': JSON.stringify(DEMO.jobs[0]),
  };

  function dataFolder(files: Files): string {
    const root = join(folder, uuid());
    for (const [file, content] of Object.entries(files)) {
      mkdirSync(dirname(join(root, file)), { recursive: true });
      writeFileSync(join(root, file), content);
    }
    return root;
  }

  /** Stand-ins for the parsers of the rooms that own the meaning: they take anything with a name. */
  const issues = [{ path: 'name', message: 'name is missing' }];
  const named = (value: unknown) => typeof value === 'object' && value !== null && 'name' in value;
  const product: ProductParser = (value) =>
    named(value) ? { ok: true, product: value as Product } : { ok: false, issues };
  const job: JobParser = (value) =>
    named(value) ? { ok: true, job: value as Job } : { ok: false, issues };

  it('is read: products by id, and the demo with firm, crews and jobs', () => {
    const root = dataFolder(GOOD);
    expect([...loadShelf(root, product)]).toEqual([
      ['a', sampleProduct('a')],
      ['b', sampleProduct('b')],
    ]);
    expect(loadDemo(root, job)).toEqual({ ...DEMO, jobs: [DEMO.jobs[0]] });
  });

  const broken: readonly [string, Files, RegExp][] = [
    ['cut off', { 'products/a.json': '{"id":' }, /a\.json' is not valid JSON/],
    [
      'refused by its room',
      { 'products/a.json': '{}' },
      /a\.json' does not hold what it should: name is missing/,
    ],
    [
      'a second product of the same id',
      { 'products/c.json': GOOD['products/a.json'] as string },
      /c\.json' has the id a of another product/,
    ],
    [
      'a firm that is not a demo',
      { 'demo/firm.json': JSON.stringify({ ...FIRM_FILE, demo: false }) },
      /firm\.json' does not hold what it should: demo: /,
    ],
    [
      'an unknown field',
      { 'demo/crews.json': JSON.stringify({ ...CREWS_FILE, extra: 1 }) },
      /crews\.json' does not hold.*extra/,
    ],
    [
      'a job refused',
      { 'demo/jobs/one.json': '1', 'demo/jobs/two.json': '' },
      /one\.json' does not hold.*two\.json' is not valid JSON|two\.json' is not valid JSON.*one\.json' does not hold/,
    ],
  ];
  it.each(broken)('with a file %s is refused, the file named', (_what, files, words) => {
    const root = dataFolder({ ...GOOD, ...files });
    const load = () => [loadShelf(root, product), loadDemo(root, job)];
    expect(load).toThrow(words);
    expect(load).toThrow(expect.objectContaining({ name: 'StoreError', code: 'bundled-data' }));
  });

  it('that is missing is named file by file, all at once', () => {
    const nowhere = join(folder, 'nowhere');
    expect(() => loadShelf(nowhere, product)).toThrow(/products' cannot be read/);
    expect(() => loadDemo(nowhere, job)).toThrow(
      /firm\.json' cannot be read.*crews\.json' cannot be read.*jobs' cannot be read/,
    );
    expect(() => loadShelf(dataFolder({ 'products/readme.md': '' }), product)).toThrow(
      /holds no \.json file/,
    );
  });

  it('as it comes is accepted by the rooms that own it', () => {
    const data = join(projectRoot(import.meta.dirname), 'data');
    const shelf = loadShelf(data, parseProduct);
    expect(shelf.size).toBeGreaterThan(5);
    const demo = loadDemo(data, (value) => readJob(value, shelf));
    expect([demo.crews.length, demo.jobs.length]).toEqual([2, 4]);
    expect(demo.jobs.every((each) => each.demo)).toBe(true);
  });

  it('is looked for from the folder of the program upwards', () => {
    expect(projectRoot(join(import.meta.dirname, 'deeper'))).toBe(
      join(import.meta.dirname, '..', '..'),
    );
    expect(() => projectRoot(folder)).toThrow(/folder 'data' that comes with Layfair is missing/);
  });
});
