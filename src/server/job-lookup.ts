import { z } from 'zod';
import { type ReadyJob, readingsOf, readyJob } from '../answers/index.ts';
import type { Issue } from '../contract/index.ts';
import { type Job, NOT_YET_CHECKED } from '../planner/index.ts';
import type { Product } from '../products/index.ts';
import type { Ctx, JobRow } from '../store/index.ts';
import type { Desk } from './desk.ts';
import { firmSpeeds } from './learning.ts';
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

const onPractice = (desk: Desk, job: Job): Job => desk.onPractice?.(job) ?? job;

/** A stored job with its products. One that no longer fits (a product gone) says so. */
export function readyFound(desk: Desk, { row }: FoundJob): ReadyJob {
  const ready = readyJob(onPractice(desk, row.job), desk.shelf);
  if (!ready.ok) {
    const issues = ready.issues.flatMap((issue) => whyOffShelf(desk, row.job, issue));
    const message = issues.map((issue) => issue.message).join(' ');
    throw new RequestError(422, 'job-unplannable', message, issues);
  }
  return ready;
}

/** A product that is kept but contradicts its class is not merely unknown. */
function whyOffShelf(desk: Desk, job: JobRow['job'], issue: Issue): readonly Issue[] {
  const [, role] = /^buildUp\.products\.(\w+)$/.exec(issue.path) ?? [];
  const id = Object.entries(job.buildUp.products).find(([name]) => name === role)?.[1];
  const why = id === undefined ? [] : (desk.offShelf?.(id) ?? []);
  if (why.length === 0) return [issue];
  const message = `${issue.path} is '${id}', which no longer agrees with the class it starts from. ${why.map((one) => one.message).join(' ')}`;
  return [{ path: issue.path, message }];
}

/** The same with what was read on its deck and how the firm's films dry, and a mark that changes with both. */
export async function readyOnSite(
  desk: Desk,
  found: FoundJob,
): Promise<{ readonly ready: ReadyJob; readonly mark: string }> {
  const ready = readyFound(desk, found);
  const events = await desk.store.events(found.ctx, ready.job.id);
  if (!events.ok) throw new RequestError(404, events.code, events.message);
  const readings = readingsOf(events.value);
  const learned = await onFirmSpeeds(desk, found.ctx, ready);
  const marks = readings.map(({ atMs, kind, value }) => `${kind}=${value}@${atMs}`);
  // A product of the firm's own may change while the job stays as it is.
  const own = Object.values(ready.products).filter(({ basedOn }) => basedOn !== undefined);
  marks.push(...own.map((product) => JSON.stringify(product)));
  const record = found.row.job.demo ? undefined : await desk.calls?.record();
  if (record === undefined || record.checked === NOT_YET_CHECKED) {
    return { ready: { ...learned.ready, readings }, mark: [...marks, ...learned.marks].join(',') };
  }
  marks.push(`${record.checked}/${record.after}`);
  return {
    ready: { ...learned.ready, readings, record },
    mark: [...marks, ...learned.marks].join(','),
  };
}

/** A job's products as its firm's films dry; each that is not as on its sheet says so among the notes. */
async function onFirmSpeeds(
  desk: Desk,
  ctx: Ctx,
  ready: ReadyJob,
): Promise<{ readonly ready: ReadyJob; readonly marks: readonly string[] }> {
  const speeds = await firmSpeeds(desk, ctx);
  const roles = Object.entries(ready.products) as [keyof ReadyJob['products'], Product][];
  // One product in several roles stays one: a roof takes two of one name for a mix-up.
  const learned = new Map(
    [...new Set(roles.map(([, sheet]) => sheet))].map((sheet) => [sheet, speeds(sheet)]),
  );
  const set = roles.map(([role, sheet]) => [role, learned.get(sheet)!] as const);
  const products = Object.fromEntries(set.map(([role, { product }]) => [role, product]));
  const changed = new Map(
    set.flatMap(([, { product, words }]) =>
      words === null ? [] : [[product.id, { product, words }] as const],
    ),
  );
  return {
    ready: {
      ...ready,
      products: products as unknown as ReadyJob['products'],
      notes: [...changed.values()].map(({ product, words }) => `${product.name}: ${words}`),
    },
    marks: [...changed.values()].map(({ product }) => {
      return `${product.id}=${product.learned?.factor}/${product.learned?.spread}`;
    }),
  };
}
