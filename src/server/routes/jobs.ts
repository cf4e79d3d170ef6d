import { Hono } from 'hono';
import { readJob } from '../../answers/index.ts';
import {
  createJobSchema,
  type JobRow as JobRowAnswer,
  toJob,
  updateJobSchema,
} from '../../contract/index.ts';
import type { Failure, JobRow } from '../../store/index.ts';
import type { Desk } from '../desk.ts';
import { findJob } from '../job-lookup.ts';
import { readBody } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

export function jobRoutes(desk: Desk): Hono {
  const app = new Hono();

  app.get('/', async (c) => {
    const [own, demo] = await Promise.all([
      desk.store.listJobs(desk.own),
      desk.store.listJobs(desk.demo),
    ]);
    return ok(c, { jobs: [...own.value, ...demo.value].map(present) });
  });

  app.post('/', async (c) => {
    const body = await readBody(c, createJobSchema);
    checkOwn(desk, body.job);
    await checkNotDemo(desk, body.job.id);
    const made = await desk.store.createJob(desk.own, {
      requestId: body.requestId,
      job: toJob(body.job),
    });
    if (!made.ok) throw conflict(made);
    return ok(c, present(made.value), 201);
  });

  app.get('/:id', async (c) => ok(c, present((await findJob(desk, c.req.param('id'))).row)));

  app.put('/:id', async (c) => {
    const id = c.req.param('id');
    const body = await readBody(c, updateJobSchema);
    if (body.job.id !== id) {
      throw badRequest([
        {
          path: 'job.id',
          message: `job.id is ${body.job.id}; it must be the id in the address, ${id}.`,
        },
      ]);
    }
    const { ctx } = await findJob(desk, id);
    if (ctx === desk.demo)
      throw new RequestError(403, 'demo', 'Demo jobs come with the program and cannot be changed.');
    checkOwn(desk, body.job);
    const saved = await desk.store.updateJob(ctx, {
      requestId: body.requestId,
      version: body.version,
      job: toJob(body.job),
    });
    if (!saved.ok) throw conflict(saved);
    return ok(c, present(saved.value));
  });

  return app;
}

/** Own jobs are real ones: never on the demo clock or the invented forecast. */
function checkOwn(desk: Desk, job: JobRowAnswer['job']): void {
  if (job.demo) {
    throw badRequest([
      {
        path: 'job.demo',
        message: 'job.demo is true; only the jobs that come with the program are demo jobs.',
      },
    ]);
  }
  const read = readJob(job, desk.shelf);
  if (!read.ok) {
    throw badRequest(
      read.issues.map(({ path, message }) => ({
        path: `job.${path}`,
        message: message.startsWith(path) ? `job.${message}` : message,
      })),
    );
  }
}

/** An address leads to one job: an id that a demo job has is taken, whichever firm asks. */
async function checkNotDemo(desk: Desk, id: string): Promise<void> {
  const demo = await desk.store.job(desk.demo, id);
  if (!demo.ok) return;
  throw new RequestError(
    409,
    'id-taken',
    `There is already a job with the id ${id}, a demo job. Nothing was changed.`,
    [],
    present(demo.value),
  );
}

function present(row: JobRow): JobRowAnswer {
  return {
    version: row.version,
    job: { format: 'layfair-job-1', ...structuredClone(row.job) } as JobRowAnswer['job'],
  };
}

function conflict({ code, message, current }: Failure<JobRow>): RequestError {
  const status = code === 'not-found' ? 404 : 409;
  return new RequestError(status, code, message, [], current ? present(current) : null);
}
