import { Hono } from 'hono';
import { taskRequestSchema } from '../../contract/index.ts';
import type { Desk } from '../desk.ts';
import { findJob } from '../job-lookup.ts';
import { readBody } from '../read-request.ts';
import { notFound, ok } from '../reply.ts';
import type { Plans } from './plans.ts';

/** Long work that can be watched and stopped, each time with the best answer so far. */
export function taskRoutes(desk: Desk, plans: Plans): Hono {
  const app = new Hono();
  app.post('/', async (c) => {
    const { requestId, jobId, tried } = await readBody(c, taskRequestSchema);
    const found = await findJob(desk, jobId);
    return ok(c, await plans.task(found, requestId, tried), 202);
  });
  app.get('/:id', (c) => {
    const task = desk.tasks.get(c.req.param('id'));
    if (task === null) throw notFound(`Task ${c.req.param('id')}`);
    return ok(c, task);
  });
  app.delete('/:id', (c) => {
    const task = desk.tasks.stop(c.req.param('id'));
    if (task === null) throw notFound(`Task ${c.req.param('id')}`);
    return ok(c, task);
  });
  return app;
}
