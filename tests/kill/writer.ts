import { writeSync } from 'node:fs';
import { openStore, type Result } from '../../src/store/index.ts';
import { ANNA, dayCall, FIRM, note, SOURCE, sampleJob, uuid } from './samples.ts';

/**
 * Run as a process of its own: writes to a store without pause and prints one line for each write
 * once the store has acknowledged it. Ends when killed, or after `limit` rounds.
 * Arguments: file, job id, limit.
 */
const [file, jobId, limit] = process.argv.slice(2) as [string, string, string];

let nowMs = 1_778_565_600_000;
const store = await openStore({ file, now: () => (nowMs += 1000) });
await store.ensureFirm(FIRM);

function say(line: string): void {
  // Straight to the pipe: a buffered line could be lost with the process although the write is in.
  writeSync(1, `${line}\n`);
}

function mustBeOk<T>(result: Result<T, unknown>): T {
  if (!result.ok) throw new Error(`${result.code}: ${result.message}`);
  return result.value;
}

let version = 0;
const there = await store.job(ANNA, jobId);
if (there.ok) version = there.value.version;
else
  version = mustBeOk(
    await store.createJob(ANNA, { requestId: uuid(), job: sampleJob('1', jobId) }),
  ).version;
say(`ready ${version}`);

for (let round = 0; round < Number(limit); round++) {
  const batch = [note(jobId, round), note(jobId, round), note(jobId, round)];
  mustBeOk(await store.appendEvents(ANNA, { requestId: uuid(), jobId, events: batch }));
  say(`events ${batch.map((event) => event.id).join(' ')}`);

  const job = sampleJob(String(version + 1), jobId);
  version = mustBeOk(await store.updateJob(ANNA, { requestId: uuid(), version, job })).version;
  say(`job ${version}`);

  // A forecast a minute: the calls of an earlier run of this program are not said again.
  const forecastMs = version * 60_000;
  const calls = ['2026-06-09', '2026-06-10'].map((date) => dayCall(jobId, date, { forecastMs }));
  mustBeOk(await store.saveCalls(ANNA, { requestId: uuid(), jobId, calls }));
  say(`calls ${forecastMs}`);

  if (round % 8 === 0) {
    const requestId = uuid();
    const bytes = Buffer.alloc(20_000, requestId);
    mustBeOk(
      await store.saveForecast(ANNA, { requestId, jobId, placeKey: 'p', source: SOURCE, bytes }),
    );
    say(`forecast ${requestId}`);
  }
}
await store.close();
say('end');
