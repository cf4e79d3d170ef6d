import { z } from 'zod';
import { type ReadyJob, readingsOf, readyJob } from '../answers/index.ts';
import type { Ctx, JobRow } from '../store/index.ts';
import type { Desk } from './desk.ts';
import { badRequest, notFound, RequestError } from './reply.ts';

export interface FoundJob {
  readonly row: JobRow;
  readonly ctx: Ctx;
}

/** A job of either firm by its id. */
export async function findJob(desk: Desk, id: string): Promise<FoundJob> {
  if (!z.uuid().safeParse(id).success) {
    throw badRequest([{ path: 'id', message: `id is '${id.slice(0, 60)}'; it must be a UUID.` }]);
  }
  for (const ctx of [desk.own, desk.demo]) {
    const found = await desk.store.job(ctx, id);
    if (found.ok) return { row: found.value, ctx };
  }
  throw notFound(`Job ${id}`);
}

/** A stored job with its products. One that no longer fits (a product gone) says so. */
export function readyFound(desk: Desk, { row }: FoundJob): ReadyJob {
  const ready = readyJob(row.job, desk.shelf);
  if (!ready.ok) {
    throw new RequestError(
      422,
      'job-unplannable',
      ready.issues.map((issue) => issue.message).join(' '),
      ready.issues,
    );
  }
  return ready;
}

/** The same with what has been read on its deck, and a mark that changes with the readings. */
export async function readyOnSite(
  desk: Desk,
  found: FoundJob,
): Promise<{ readonly ready: ReadyJob; readonly mark: string }> {
  const ready = readyFound(desk, found);
  const events = await desk.store.events(found.ctx, ready.job.id);
  if (!events.ok) throw new RequestError(404, events.code, events.message);
  const readings = readingsOf(events.value);
  const mark = readings.map(({ atMs, kind, value }) => `${kind}=${value}@${atMs}`).join(',');
  return { ready: { ...ready, readings }, mark };
}
