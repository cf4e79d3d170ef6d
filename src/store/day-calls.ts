import type { Kysely } from 'kysely';
import { z } from 'zod';
import type { DayCall } from '../record/index.ts';
import { notFound } from './documents.ts';
import { JOBS } from './kinds.ts';
import type { WriteContext } from './requests.ts';
import { ok } from './results.ts';
import { hasJob } from './site-events.ts';
import type { DayCallTable, Tables } from './tables.ts';
import type { Ctx, KeptCalls, Ok, Result } from './types.ts';

const chance = z.number().gt(0).lt(1);
/** Calls come from the planner, not from people: one out of range is a bug. */
const callSchema = z
  .strictObject({
    jobId: z.string().min(1),
    date: z.iso.date(),
    saidMs: z.int(),
    leadDays: z.number(),
    bay: z.int().min(1),
    verdict: z.enum(['go', 'doubtful', 'no']),
    startMs: z.int().nullable(),
    count: z.int().min(0),
    of: z.int().min(2),
    shrunk: chance,
    shown: chance,
    words: z.string().min(1),
    issuedMs: z.int().nullable(),
    forecastMs: z.int(),
    model: z.string().nullable(),
    made: z.boolean(),
  })
  .refine(({ count, of }) => count <= of, { path: ['count'], message: 'must not be more than of' });

/** Keeps those that are new; one that is kept for the same day and forecast stays as it was first said. */
export async function saveCalls(
  { tx, ctx, nowMs }: WriteContext,
  jobId: string,
  calls: readonly DayCall[],
): Promise<Result<KeptCalls>> {
  if (!(await hasJob(tx, ctx, jobId))) return notFound(JOBS, jobId);
  const before = await tx
    .selectFrom('day_call')
    .select(['date', 'forecast_ms'])
    .where('firm_id', '=', ctx.firmId)
    .where('job_id', '=', jobId)
    .where('forecast_ms', 'in', [...new Set(calls.map(({ forecastMs }) => forecastMs))])
    .execute();
  const known = new Set(before.map((row) => `${row.date} ${row.forecast_ms}`));
  let added = 0;
  for (const call of calls) {
    check(call, jobId);
    const key = `${call.date} ${call.forecastMs}`;
    if (known.has(key)) continue;
    known.add(key);
    added += 1;
    const row = { ...toRow(call), firm_id: ctx.firmId, actor_id: ctx.actorId, saved_ms: nowMs };
    await tx.insertInto('day_call').values(row).execute();
  }
  return ok({ added, alreadyThere: calls.length - added });
}

/** @throws RangeError */
function check(call: DayCall, jobId: string): void {
  const checked = callSchema.safeParse(call);
  if (!checked.success) throw new RangeError(`call of a day: ${z.prettifyError(checked.error)}`);
  if (call.jobId !== jobId) throw new RangeError(`jobId (${call.jobId}) must be ${jobId}`);
}

export async function callsOf(
  db: Kysely<Tables>,
  ctx: Ctx,
  jobId: string,
): Promise<Result<readonly DayCall[]>> {
  if (!(await hasJob(db, ctx, jobId))) return notFound(JOBS, jobId);
  const rows = await db
    .selectFrom('day_call')
    .selectAll()
    .where('firm_id', '=', ctx.firmId)
    .where('job_id', '=', jobId)
    .orderBy('date')
    .orderBy('said_ms')
    .orderBy('seq')
    .execute();
  return ok(rows.map(fromRow));
}

/** A number that changes whenever a firm's logs say something new of how days went. */
export async function dayEndsMark(db: Kysely<Tables>, ctx: Ctx): Promise<Ok<number>> {
  const row = await db
    .selectFrom('site_event')
    .select(({ fn }) => fn.max('seq').as('seq'))
    .where('firm_id', '=', ctx.firmId)
    .where('kind', 'in', ['day-ended', 'undo'])
    .executeTakeFirst();
  return ok(Number(row?.seq ?? 0));
}

type Row = Omit<DayCallTable, 'seq' | 'firm_id' | 'actor_id' | 'saved_ms'>;

function toRow(call: DayCall): Row {
  return {
    job_id: call.jobId,
    date: call.date,
    forecast_ms: call.forecastMs,
    issued_ms: call.issuedMs,
    model: call.model,
    made: call.made ? 1 : 0,
    said_ms: call.saidMs,
    lead_days: call.leadDays,
    bay: call.bay,
    verdict: call.verdict,
    start_ms: call.startMs,
    finished: call.count,
    forecasts: call.of,
    shrunk: call.shrunk,
    shown: call.shown,
    words: call.words,
  };
}

function fromRow(row: Row): DayCall {
  return {
    jobId: row.job_id,
    date: row.date,
    saidMs: row.said_ms,
    leadDays: row.lead_days,
    bay: row.bay,
    verdict: row.verdict,
    startMs: row.start_ms,
    count: row.finished,
    of: row.forecasts,
    shrunk: row.shrunk,
    shown: row.shown,
    words: row.words,
    issuedMs: row.issued_ms,
    forecastMs: row.forecast_ms,
    model: row.model,
    made: row.made === 1,
  };
}
