import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import {
  type Demo,
  loadBundled,
  openStore,
  parseBundled,
  seedDemo,
} from '../../src/store/index.ts';
import {
  ANNA,
  FIRM,
  sampleCrew,
  sampleJob,
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
  function dataFolder(name: string, files: Readonly<Record<string, string>>): string {
    const root = join(folder, name);
    for (const sub of ['products', 'demo']) mkdirSync(join(root, sub), { recursive: true });
    for (const [file, text] of Object.entries(files)) writeFileSync(join(root, file), text);
    return root;
  }

  it('is read by name, unchecked', () => {
    const root = dataFolder('good', {
      'products/b.json': '{"id":"b"}',
      'products/a.json': '[1]',
      'products/readme.md': 'not data',
      'demo/jobs.json': 'null',
    });
    expect(loadBundled(root)).toEqual({
      products: [
        { file: join(root, 'products/a.json'), name: 'a', value: [1] },
        { file: join(root, 'products/b.json'), name: 'b', value: { id: 'b' } },
      ],
      demo: [{ file: join(root, 'demo/jobs.json'), name: 'jobs', value: null }],
    });
  });

  it('that is missing or broken is named file by file, all at once', () => {
    const root = dataFolder('broken', { 'products/cut.json': '{"id":', 'products/fine.json': '1' });
    expect(() => loadBundled(root)).toThrow(
      expect.objectContaining({
        code: 'bundled-data',
        message: expect.stringMatching(
          /cut\.json' is not valid JSON: .*demo' holds no \.json file/,
        ),
      }),
    );
    expect(() => loadBundled(join(folder, 'nowhere'))).toThrow(
      /products' cannot be read.*demo' cannot be read/,
    );
  });

  it('is checked by the parser given, and every file that fails is named with the reason', () => {
    const root = dataFolder('checked', {
      'products/a.json': '1',
      'products/b.json': '"x"',
      'products/c.json': '"y"',
      'demo/d.json': '1',
    });
    const { products, demo } = loadBundled(root);
    const parse = (value: unknown) => {
      if (typeof value !== 'number') throw new Error(`${String(value)} must be a number`);
      return value;
    };
    expect(parseBundled(demo, parse)).toEqual([1]);
    expect(() => parseBundled(products, parse)).toThrow(
      /b\.json' does not hold.*x must be a number.*c\.json'.*y must be a number/,
    );
  });
});
