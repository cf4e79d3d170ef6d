import type { Kysely, Transaction } from 'kysely';
import type { SiteEvent } from '../planner/index.ts';
import { canonicalJson } from './canonical.ts';
import { notFound } from './documents.ts';
import { ensurePerson } from './firms.ts';
import { eventColumnsSchema, FORMATS, readEvent } from './formats.ts';
import { JOBS } from './kinds.ts';
import type { WriteContext } from './requests.ts';
import { ok } from './results.ts';
import type { Tables } from './tables.ts';
import type { AppendedEvents, Ctx, Failure, Result } from './types.ts';

interface KnownEvent {
  readonly jobId: string;
  readonly kind: string;
  readonly body: string;
}

/** SQLite's oldest default limit of parameters in a statement is 999 (sqlite.org/limits.html, 9). */
const IDS_PER_QUERY = 500;

export async function appendEvents(
  context: WriteContext,
  jobId: string,
  events: readonly SiteEvent[],
): Promise<Result<AppendedEvents>> {
  const { tx, ctx, nowMs } = context;
  if (!(await hasJob(tx, ctx, jobId))) return notFound(JOBS, jobId);
  const asked = events.flatMap((event) => {
    if (event.kind === 'undo') return [event.id, event.undoes];
    return event.kind === 'confirm' ? [event.id, event.confirms] : [event.id];
  });
  const known = await knownEvents(tx, ctx, asked);
  const judged = judge(jobId, events, known);
  if (judged.failure !== null) return judged.failure;

  for (const { event, body } of judged.fresh) {
    await ensurePerson(tx, ctx.firmId, event.actorId, nowMs);
    await tx
      .insertInto('site_event')
      .values({
        firm_id: ctx.firmId,
        id: event.id,
        job_id: jobId,
        kind: event.kind,
        at_ms: event.atMs,
        logged_ms: event.loggedMs,
        actor_id: event.actorId,
        undoes: event.kind === 'undo' ? event.undoes : null,
        saved_by: ctx.actorId,
        saved_ms: nowMs,
        format: FORMATS.event,
        body,
      })
      .execute();
  }
  return ok({ added: judged.fresh.length, alreadyThere: events.length - judged.fresh.length });
}

export async function eventsOf(
  db: Kysely<Tables>,
  ctx: Ctx,
  jobId: string,
): Promise<Result<readonly SiteEvent[]>> {
  if (!(await hasJob(db, ctx, jobId))) return notFound(JOBS, jobId);
  const rows = await db
    .selectFrom('site_event')
    .select(['id', 'job_id', 'at_ms', 'format', 'body'])
    .where('firm_id', '=', ctx.firmId)
    .where('job_id', '=', jobId)
    .orderBy('at_ms')
    .orderBy('seq')
    .execute();
  return ok(rows.map(readEvent));
}

interface Judged {
  readonly fresh: readonly { readonly event: SiteEvent; readonly body: string }[];
  readonly failure: Failure | null;
}

/** Looks at every event before any is written, so that all problems are told at once. */
function judge(
  jobId: string,
  events: readonly SiteEvent[],
  stored: ReadonlyMap<string, KnownEvent>,
): Judged {
  const seen = new Map(stored);
  const fresh: { event: SiteEvent; body: string }[] = [];
  const issues: { path: string; message: string }[] = [];
  let taken = false;

  events.forEach((event, i) => {
    const say = (field: string, message: string) =>
      issues.push({ path: `events.${i}.${field}`, message });
    const columns = eventColumnsSchema.safeParse(event);
    if (!columns.success) {
      for (const issue of columns.error.issues) say(issue.path.join('.'), issue.message);
      return;
    }
    if (event.jobId !== jobId) {
      say('jobId', `is ${event.jobId}, must be the job the events are sent for, ${jobId}`);
      return;
    }
    const body = canonicalJson(event);
    const earlier = seen.get(event.id);
    if (earlier) {
      // A phone that heard no answer sends its events again, perhaps in another request.
      if (earlier.body === body) return;
      taken = true;
      say('id', `${event.id} is already the id of another event`);
      return;
    }
    if (event.kind === 'undo') {
      const problem = undoProblem(jobId, seen.get(event.undoes));
      if (problem) say('undoes', `${event.undoes} ${problem}`);
    }
    if (event.kind === 'confirm') {
      const problem = confirmProblem(jobId, seen.get(event.confirms));
      if (problem) say('confirms', `${event.confirms} ${problem}`);
    }
    seen.set(event.id, { jobId: event.jobId, kind: event.kind, body });
    fresh.push({ event, body });
  });

  const [first] = issues;
  if (!first) return { fresh, failure: null };
  const more = issues.length > 1 ? ` (and ${issues.length - 1} more)` : '';
  const message = `Nothing was added to the site log: ${first.path} ${first.message}${more}.`;
  return {
    fresh: [],
    failure: { ok: false, code: taken ? 'id-taken' : 'bad-event', message, issues },
  };
}

/**
 * An undo takes back an event of the same job that was logged before it. Undoing an undo is refused:
 * what was taken back by mistake is logged again, so that the log reads forwards. Undoing one event
 * twice is accepted: two people without signal may both do it, and it means the same.
 */
function undoProblem(jobId: string, target: KnownEvent | undefined): string | null {
  if (target?.jobId !== jobId) return 'is not an event of this job logged before';
  if (target.kind === 'undo') return 'is itself an undo; log the event again instead';
  return null;
}

/** Only 'touch dry' entries are ever asked about. Confirming one twice means the same. */
function confirmProblem(jobId: string, target: KnownEvent | undefined): string | null {
  if (target?.jobId !== jobId) return 'is not an event of this job logged before';
  if (target.kind === 'touch-dry') return null;
  return `is of kind '${target.kind}'; only a 'touch-dry' entry can be confirmed`;
}

async function knownEvents(
  tx: Transaction<Tables>,
  ctx: Ctx,
  ids: readonly string[],
): Promise<ReadonlyMap<string, KnownEvent>> {
  const known = new Map<string, KnownEvent>();
  for (let from = 0; from < ids.length; from += IDS_PER_QUERY) {
    const rows = await tx
      .selectFrom('site_event')
      .select(['id', 'job_id', 'kind', 'body'])
      .where('firm_id', '=', ctx.firmId)
      .where('id', 'in', ids.slice(from, from + IDS_PER_QUERY))
      .execute();
    for (const row of rows)
      known.set(row.id, { jobId: row.job_id, kind: row.kind, body: row.body });
  }
  return known;
}

export async function hasJob(db: Kysely<Tables>, ctx: Ctx, jobId: string): Promise<boolean> {
  const row = await db
    .selectFrom('job')
    .select('id')
    .where('firm_id', '=', ctx.firmId)
    .where('id', '=', jobId)
    .executeTakeFirst();
  return row !== undefined;
}
