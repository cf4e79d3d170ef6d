import type { Kysely } from 'kysely';
import type { Job } from '../planner/index.ts';
import type { OwnProduct } from '../products/index.ts';
import { type Kind, notFound } from './documents.ts';
import { FORMATS, readDocument, readSaved } from './formats.ts';
import { wholeCrew, wholeJob } from './older-bodies.ts';
import { ok } from './results.ts';
import type { Tables } from './tables.ts';
import type {
  CrewRow,
  Ctx,
  FirmCrew,
  FirmPractice,
  JobRow,
  PracticeRow,
  ProductRow,
  Result,
} from './types.ts';

export const JOBS: Kind<Job, JobRow> = {
  table: 'job',
  format: FORMATS.job,
  word: 'job',
  toRow: (job, saved) => ({ ...saved, job }),
  nameOf: (job) => job.name,
  whole: wholeJob,
  keepFormer: async (tx, { id, ...former }) => {
    await tx
      .insertInto('job_history')
      .values({ ...former, job_id: id })
      .execute();
  },
};

export const CREWS: Kind<FirmCrew, CrewRow> = {
  table: 'crew',
  format: FORMATS.crew,
  word: 'crew',
  toRow: (crew, saved) => ({ ...saved, crew }),
  nameOf: (crew) => crew.name,
  whole: wholeCrew,
  keepFormer: null,
};

export const PRODUCTS: Kind<OwnProduct, ProductRow> = {
  table: 'product',
  format: FORMATS.product,
  word: 'product',
  toRow: (product, saved) => ({ ...saved, product }),
  nameOf: (product) => product.name,
  whole: (product) => product,
  keepFormer: null,
};

export const PRACTICES: Kind<FirmPractice, PracticeRow> = {
  table: 'practice',
  format: FORMATS.practice,
  word: 'practice',
  toRow: (practice, saved) => ({ ...saved, practice }),
  nameOf: (practice) => practice.id,
  whole: (practice) => practice,
  keepFormer: null,
};

/** Former versions from the history and the present one from the job itself, in one statement. */
export async function jobVersions(
  db: Kysely<Tables>,
  ctx: Ctx,
  jobId: string,
): Promise<Result<readonly JobRow[]>> {
  const columns = ['version', 'format', 'body', 'actor_id', 'saved_ms'] as const;
  const rows = await db
    .selectFrom('job_history')
    .select(columns)
    .where('firm_id', '=', ctx.firmId)
    .where('job_id', '=', jobId)
    .unionAll(
      db
        .selectFrom('job')
        .select(columns)
        .where('firm_id', '=', ctx.firmId)
        .where('id', '=', jobId),
    )
    .orderBy('version')
    .execute();
  if (rows.length === 0) return notFound(JOBS, jobId);
  return ok(
    rows.map((row) =>
      JOBS.toRow(wholeJob(readDocument<Job>(JOBS.format, jobId, row)), readSaved(row)),
    ),
  );
}
