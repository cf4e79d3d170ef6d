import { Hono } from 'hono';
import { addEventsSchema } from '../../contract/index.ts';
import { dayEndedIssues } from '../day-ended.ts';
import type { Desk } from '../desk.ts';
import { findJob } from '../job-lookup.ts';
import { firmFilms } from '../learning.ts';
import { readBody } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

/** The append-only log of what happens on site. */
export function eventRoutes(desk: Desk): Hono {
  const app = new Hono();
  app.get('/:id/events', async (c) => {
    const { row, ctx } = await findJob(desk, c.req.param('id'));
    const events = await desk.store.events(ctx, row.job.id);
    if (!events.ok) throw new RequestError(404, events.code, events.message);
    return ok(c, { events: events.value });
  });
  app.post('/:id/events', async (c) => {
    const { requestId, events } = await readBody(c, addEventsSchema);
    const { row, ctx } = await findJob(desk, c.req.param('id'));
    const untrue = dayEndedIssues(row.job, events);
    if (untrue.length > 0) throw badRequest(untrue);
    const added = await desk.store.appendEvents(ctx, { requestId, jobId: row.job.id, events });
    if (!added.ok) {
      if (added.code === 'bad-event')
        throw badRequest(added.issues ?? [{ path: 'events', message: added.message }]);
      throw new RequestError(409, added.code, added.message);
    }
    if (events.some(({ kind }) => kind === 'touch-dry')) {
      // Keeps the weather of the film while it is at hand. Whoever logged it does not wait for that; should it
      // fail, the next question that needs it tries again and says why.
      void firmFilms(desk, ctx).catch(() => undefined);
    }
    return ok(c, added.value, 201);
  });
  return app;
}
