import { copyFileSync, existsSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'libsql';
import { afterAll, describe, expect, it } from 'vitest';
import { openStore } from '../../src/store/index.ts';
import { ANNA, steppingClock, tempFolder, uuid } from './samples.ts';
import { startWriter } from './start-writer.ts';

/*
 * What is checked against: SQLite's own promise for a WAL file (sqlite.org/wal.html and
 * sqlite.org/atomiccommit.html): a commit that was reported is there after a crash, and no part of
 * one that was not. A kill ends the process, not the machine: the tests of a cut-off journal below
 * stand in for the power cut.
 */

const KILLS = Number(process.env['LAYFAIR_KILLS'] ?? 20);
const [folder, removeFolder] = tempFolder();
afterAll(removeFolder);

interface Acknowledged {
  readonly events: string[];
  readonly forecasts: string[];
  readonly calls: string[];
  jobVersion: number;
}

function collect(lines: readonly string[], all: Acknowledged): void {
  for (const line of lines) {
    const [what, ...rest] = line.split(' ');
    if (what === 'events') all.events.push(...rest);
    if (what === 'calls') all.calls.push(...rest);
    if (what === 'forecast') all.forecasts.push(...rest);
    if (what === 'job' || what === 'ready')
      all.jobVersion = Math.max(all.jobVersion, Number(rest[0]));
  }
}

/** Looks at the file with plain SQL, so that the store does not vouch for itself. */
function lookInside(file: string, jobId: string) {
  const db = new Database(file);
  const all = <T>(sql: string) => db.prepare(sql).all([]) as T[];
  try {
    expect(all('PRAGMA integrity_check')).toEqual([{ integrity_check: 'ok' }]);
    expect(all('PRAGMA foreign_key_check')).toEqual([]);
    const [job] = all<{ version: number; body: string }>('SELECT version, body FROM job');
    const history = all<{ version: number }>('SELECT version FROM job_history ORDER BY version');
    const eventIds = all<{ id: string }>('SELECT id FROM site_event').map((row) => row.id);
    const forecastIds = all<{ id: string }>('SELECT id FROM forecast').map((row) => row.id);
    const calls = all<{ ms: number; n: number }>(
      'SELECT forecast_ms AS ms, count(*) AS n FROM day_call GROUP BY forecast_ms',
    );
    const requests = new Map(
      all<{ kind: string; n: number }>('SELECT kind, count(*) AS n FROM request GROUP BY kind').map(
        (row) => [row.kind, row.n],
      ),
    );
    const version = job?.version ?? 0;
    // No half transaction: every trace of a write is there as often as its request is.
    expect(requests.get('create-job') ?? 0).toBe(version === 0 ? 0 : 1);
    expect(requests.get('update-job') ?? 0).toBe(Math.max(0, version - 1));
    expect(history.map((row) => row.version)).toEqual(
      Array.from({ length: Math.max(0, version - 1) }, (_, i) => i + 1),
    );
    if (job) expect(JSON.parse(job.body)).toMatchObject({ id: jobId, name: String(version) });
    expect(eventIds.length).toBe(3 * (requests.get('append-events') ?? 0));
    expect(forecastIds.length).toBe(requests.get('save-forecast') ?? 0);
    expect(calls.length).toBe(requests.get('save-calls') ?? 0);
    expect(calls.every(({ n }) => n === 2)).toBe(true);
    return {
      version,
      eventIds: new Set(eventIds),
      forecastIds: new Set(forecastIds),
      callsMs: new Set(calls.map(({ ms }) => String(ms))),
    };
  } finally {
    db.close();
  }
}

describe('a process killed while it writes', () => {
  it(`loses no acknowledged write and leaves nothing half done, ${KILLS} times`, {
    timeout: 60_000 + KILLS * 10_000,
  }, async () => {
    const file = join(folder, 'killed.db');
    const jobId = uuid();
    const acknowledged: Acknowledged = { events: [], forecasts: [], calls: [], jobVersion: 0 };
    let keptEvents = 0;
    for (let round = 0; round < KILLS; round++) {
      const writer = startWriter(file, jobId, 1e9);
      // Early kills hit opening and recovery, later ones hit writes and checkpoints.
      if (round % 5 !== 4) await writer.started;
      await pause(Math.random() * (round % 5 === 4 ? 1500 : 120));
      writer.child.kill('SIGKILL');
      const { signal, errors } = await writer.gone;
      expect({ signal, errors }).toEqual({ signal: 'SIGKILL', errors: '' });
      collect(writer.lines(), acknowledged);
      if (!existsSync(file)) continue;

      // The journal is recovered by the store itself, before plain SQL looks at the outcome.
      const store = await openStore({ file, now: steppingClock() });
      await store.close();
      const inside = lookInside(file, jobId);
      expect(acknowledged.events.filter((id) => !inside.eventIds.has(id))).toEqual([]);
      expect(acknowledged.forecasts.filter((id) => !inside.forecastIds.has(id))).toEqual([]);
      expect(acknowledged.calls.filter((ms) => !inside.callsMs.has(ms))).toEqual([]);
      expect(inside.version).toBeGreaterThanOrEqual(acknowledged.jobVersion);
      keptEvents = inside.eventIds.size;
    }
    expect(acknowledged.events.length).toBeGreaterThan(3 * KILLS);
    console.log(
      `kills ${KILLS}: ${acknowledged.events.length} events, ${acknowledged.jobVersion} job versions, ` +
        `${acknowledged.forecasts.length} forecasts acknowledged, 0 lost; ` +
        `${(keptEvents - acknowledged.events.length) / 3} requests kept but not heard of before the kill`,
    );
  });
});

describe('a journal cut off or torn at any place, as by a power cut', () => {
  it('opens with whole writes only, each one a prefix of what was written', {
    timeout: 60_000,
  }, async () => {
    const file = join(folder, 'written.db');
    const jobId = uuid();
    const writer = startWriter(file, jobId, 1e9);
    expect(await writer.started).toBe(true);
    while (writer.lines().length < 60) await pause(10);
    writer.child.kill('SIGKILL');
    await writer.gone;
    const journal = readFileSync(`${file}-wal`);
    expect(journal.length).toBeGreaterThan(100_000);

    const versions: number[] = [];
    for (let i = 0; i <= 24; i++) {
      const torn = join(folder, `torn-${i}.db`);
      copyFileSync(file, torn);
      writeFileSync(`${torn}-wal`, journal);
      const cut = Math.floor((journal.length * i) / 24);
      if (i % 2 === 0) truncateSync(`${torn}-wal`, cut);
      else {
        // A page that reached the disk as noise: its checksum must not match.
        const noisy = Buffer.from(journal);
        noisy.fill(0xa5, cut, cut + 3000);
        writeFileSync(`${torn}-wal`, noisy.subarray(0, journal.length));
      }
      const store = await openStore({ file: torn, now: steppingClock() });
      const history = await store.jobHistory(ANNA, jobId);
      await store.close();
      const { version } = lookInside(torn, jobId);
      expect(history.ok ? history.value.length : 0).toBe(version);
      versions.push(version);
    }
    expect([...versions].sort((a, b) => a - b)).toEqual(versions);
    expect(versions[0]).toBe(0);
    expect(versions.at(-1)).toBeGreaterThan(10);
  });
});
