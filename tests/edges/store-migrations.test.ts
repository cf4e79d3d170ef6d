import { join } from 'node:path';
import Database from 'libsql';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import { openStore } from '../../src/store/index.ts';
import { ground } from '../../src/store/migrations/0001-ground.ts';
import { MIGRATIONS } from '../../src/store/migrations/index.ts';
import { openFile } from '../../src/store/open-file.ts';
import { storeFolder } from '../fixtures/store-folder.ts';
import { ANNA, FIRM, sampleJob, steppingClock } from '../kill/samples.ts';

/* The expected outcomes come from the interface's own promise (docs/storage.md); there is no outside source for it. */

const { folder, removeFolder, opened, closeAll, filled } = storeFolder();
afterEach(closeAll);
afterAll(removeFolder);

describe('migrations', () => {
  const next = MIGRATIONS.length + 1;
  const another = {
    version: next,
    name: 'another',
    statements: ['ALTER TABLE firm ADD COLUMN phone TEXT'],
  };

  it('bring an older file up to date and leave a copy the older program can still open', async () => {
    const { file, jobId } = await filled('older.db');
    const db = openFile(file, [...MIGRATIONS, another], 77);
    expect(db.prepare('SELECT name, phone FROM firm').all([])).toEqual([
      { name: FIRM.name, phone: null },
    ]);
    db.close();
    const copy = `${file}.version-${next - 1}-77.copy`;
    expect(await (await opened(copy)).job(ANNA, jobId)).toMatchObject({ ok: true });
    await expect(openStore({ file, now: steppingClock() })).rejects.toMatchObject({
      code: 'newer-version',
    });
  });

  it('leave jobs kept by the first version readable, with what each later field stood for', async () => {
    const file = join(folder, 'first-version.db');
    const db = openFile(file, [ground], 1);
    const { rates, layout, bayAreaM2, ...job } = sampleJob('Kept long ago');
    const { layDeck, insulation, ...buildUp } = job.buildUp;
    const { daysOff, ...crew } = job.crew;
    const body = JSON.stringify({ ...job, buildUp, crew });
    db.prepare('INSERT INTO firm VALUES (?, ?, ?, 0, 1)').run([FIRM.id, FIRM.name, FIRM.timeZone]);
    db.prepare('INSERT INTO person VALUES (?, ?, NULL, 1)').run([FIRM.id, ANNA.actorId]);
    db.prepare("INSERT INTO job VALUES (?, ?, 1, 'layfair-job-1', ?, ?, 1)").run([
      FIRM.id,
      job.id,
      body,
      ANNA.actorId,
    ]);
    db.close();
    const store = await opened(file);
    const kept = await store.job(ANNA, job.id);
    expect(kept).toMatchObject({ ok: true, value: { version: 1 } });
    expect(kept.ok && kept.value.job).toEqual({
      ...job,
      rates: {},
      layout: {},
      bayAreaM2: null,
      buildUp: { ...buildUp, layDeck: false, insulation: null },
      crew: { ...crew, daysOff: [] },
    });
    expect([rates, layout, bayAreaM2, layDeck, insulation, daysOff]).toEqual([
      {},
      {},
      null,
      false,
      null,
      [],
    ]);
  });

  it('go in whole or not at all', async () => {
    const { file, jobId } = await filled('half-migrated.db');
    const broken = {
      version: next + 1,
      name: 'broken',
      statements: ['CREATE TABLE fine (x INTEGER) STRICT', 'CREATE TABLE firm (x INTEGER)'],
    };
    expect(() => openFile(file, [...MIGRATIONS, another, broken], 78)).toThrow('already exists');
    const db = new Database(file);
    expect(
      db
        .prepare(
          "SELECT count(*) AS n FROM sqlite_schema WHERE name = 'fine' OR sql LIKE '%phone%'",
        )
        .all([]),
    ).toEqual([{ n: 0 }]);
    db.close();
    expect(await (await opened(file)).job(ANNA, jobId)).toMatchObject({ ok: true });
  });

  it('must be numbered without gaps', () => {
    expect(() => openFile(join(folder, 'gap.db'), [ground, { ...another, version: 3 }], 0)).toThrow(
      "migration 'another' has version 3, must be 2",
    );
  });
});
