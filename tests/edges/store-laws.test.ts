import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import type { SiteEvent } from '../../src/planner/index.ts';
import { type Ctx, openStore, type Result, type Store } from '../../src/store/index.ts';
import {
  ANNA,
  FIRM,
  note,
  OTHER_FIRM,
  STRANGER,
  sampleJob,
  steppingClock,
  tempFolder,
  undo,
  uuid,
} from '../kill/samples.ts';

/* Any sequence of calls is followed in a plain model in memory, written from docs/storage.md; store and model must agree. */

const [folder, removeFolder] = tempFolder();
afterAll(removeFolder);

interface Model {
  /** Names of the versions so far, oldest first. */
  jobs: Map<string, string[]>;
  events: Map<string, SiteEvent[]>;
  sent: { again: () => Promise<Result<unknown, unknown>>; result: Result<unknown, unknown> }[];
}

const JOB_IDS = ['job-1', 'job-2', 'job-3'];

const step = fc.oneof(
  fc.record({
    do: fc.constant('create' as const),
    job: fc.constantFrom(...JOB_IDS),
    name: fc.string({ minLength: 1, maxLength: 8, unit: 'binary' }),
  }),
  fc.record({
    do: fc.constant('update' as const),
    job: fc.constantFrom(...JOB_IDS),
    name: fc.string({ minLength: 1, maxLength: 8 }),
    behind: fc.integer({ min: 0, max: 2 }),
  }),
  fc.record({
    do: fc.constant('log' as const),
    job: fc.constantFrom(...JOB_IDS),
    atMs: fc.integer({ min: 0, max: 3 }),
    count: fc.integer({ min: 0, max: 3 }),
  }),
  fc.record({
    do: fc.constant('undo' as const),
    job: fc.constantFrom(...JOB_IDS),
    nth: fc.nat(20),
  }),
  fc.record({ do: fc.constant('repeat' as const), nth: fc.nat(100) }),
  fc.record({ do: fc.constant('reopen' as const) }),
);
const steps = fc.array(fc.tuple(fc.boolean(), step), { minLength: 10, maxLength: 40 });

const emptyModel = (): Model => ({ jobs: new Map(), events: new Map(), sent: [] });

describe('any sequence of creating, changing, logging, undoing and repeating', () => {
  it('leaves what the plain model says: versions without gaps, no repeat carried out twice, firms apart', {
    timeout: 120_000,
  }, async () => {
    let runs = 0;
    let repeats = 0;
    await fc.assert(
      fc.asyncProperty(steps, async (sequence) => {
        const file = join(folder, `${++runs}.db`);
        const now = steppingClock();
        let store = await openStore({ file, now });
        await store.ensureFirm(FIRM);
        await store.ensureFirm(OTHER_FIRM);
        const models = new Map([
          [ANNA, emptyModel()],
          [STRANGER, emptyModel()],
        ]);
        try {
          for (const [stranger, action] of sequence) {
            const ctx = stranger ? STRANGER : ANNA;
            if (action.do === 'reopen') {
              await store.close();
              store = await openStore({ file, now });
            } else if (action.do === 'repeat') {
              if (await repeat(models.get(ctx)!, action.nth)) repeats++;
            } else await carryOut(() => store, ctx, models.get(ctx)!, action);
          }
          for (const [ctx, model] of models) await agree(store, ctx, model);
        } finally {
          await store.close();
        }
      }),
      { numRuns: 80 },
    );
    // A run without repeats would prove nothing about them.
    expect(repeats).toBeGreaterThan(50);
  });
});

type Action = Exclude<
  typeof step extends fc.Arbitrary<infer A> ? A : never,
  { do: 'reopen' } | { do: 'repeat' }
>;

async function carryOut(store: () => Store, ctx: Ctx, model: Model, action: Action): Promise<void> {
  const requestId = uuid();
  const versions = model.jobs.get(action.job);
  const log = model.events.get(action.job) ?? [];
  let again: () => Promise<Result<unknown, unknown>>;
  let expected: string;

  if (action.do === 'create') {
    const job = sampleJob(action.name, action.job);
    again = () => store().createJob(ctx, { requestId, job });
    expected = versions ? 'id-taken' : 'ok';
    if (!versions) model.jobs.set(action.job, [action.name]);
  } else if (action.do === 'update') {
    const version = Math.max(1, (versions?.length ?? 1) - action.behind);
    const job = sampleJob(action.name, action.job);
    again = () => store().updateJob(ctx, { requestId, version, job });
    expected = !versions ? 'not-found' : version === versions.length ? 'ok' : 'version-conflict';
    if (expected === 'ok') versions?.push(action.name);
  } else {
    const target = action.do === 'undo' ? log[action.nth % Math.max(1, log.length)] : undefined;
    const events =
      action.do === 'log'
        ? Array.from({ length: action.count }, () => note(action.job, action.atMs))
        : [undo(action.job, target?.id ?? 'nothing', 2)];
    again = () => store().appendEvents(ctx, { requestId, jobId: action.job, events });
    const badUndo = action.do === 'undo' && (!target || target.kind === 'undo');
    expected = !versions ? 'not-found' : badUndo ? 'bad-event' : 'ok';
    if (expected === 'ok') model.events.set(action.job, [...log, ...events]);
  }

  const result = await again();
  expect(result.ok ? 'ok' : result.code, JSON.stringify(action)).toBe(expected);
  if (result.ok) model.sent.push({ again, result });
}

async function repeat(model: Model, nth: number): Promise<boolean> {
  const sent = model.sent[nth % Math.max(1, model.sent.length)];
  if (!sent) return false;
  expect(await sent.again()).toEqual(sent.result);
  return true;
}

async function agree(store: Store, ctx: Ctx, model: Model): Promise<void> {
  const listed = (await store.listJobs(ctx)).value;
  expect(new Set(listed.map((row) => row.job.id))).toEqual(new Set(model.jobs.keys()));
  for (const [jobId, names] of model.jobs) {
    const history = await store.jobHistory(ctx, jobId);
    const rows = history.ok ? history.value : [];
    expect(rows.map((row) => row.version)).toEqual(names.map((_, i) => i + 1));
    expect(rows.map((row) => row.job.name)).toEqual(names);
    expect(listed.find((row) => row.job.id === jobId)).toEqual(rows.at(-1));
    // Array.prototype.sort is stable (ECMAScript 2019): equal times keep the order of writing.
    const inOrder = [...(model.events.get(jobId) ?? [])].sort((a, b) => a.atMs - b.atMs);
    expect(await store.events(ctx, jobId)).toEqual({ ok: true, value: inOrder });
  }
}
