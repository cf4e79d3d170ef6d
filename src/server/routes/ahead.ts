import { Hono } from 'hono';
import { z } from 'zod';
import { AHEAD_WHATS, FEWEST_PEOPLE, MOST_PEOPLE, triedBayQuery } from '../../contract/index.ts';
import { parseInstant } from '../../time/index.ts';
import type { Desk } from '../desk.ts';
import { findJob, readyOnSite } from '../job-lookup.ts';
import { readQuery } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

const people = `must be a whole number from ${FEWEST_PEOPLE} to ${MOST_PEOPLE}`;
const querySchema = z.strictObject({
  at: z.string().min(1).max(40),
  what: z.enum(AHEAD_WHATS).default('field'),
  people: z
    .string()
    .refine(
      (text) =>
        /^\d{1,3}$/.test(text) && Number(text) >= FEWEST_PEOPLE && Number(text) <= MOST_PEOPLE,
      { message: people },
    )
    .transform(Number)
    .optional(),
  ...triedBayQuery,
});

/** How far ahead to coat on a job's roof. */
export function aheadRoutes(desk: Desk): Hono {
  const app = new Hono();
  app.get('/:id/ahead', async (c) => {
    const query = readQuery(c, querySchema);
    const { ready } = await readyOnSite(desk, await findJob(desk, c.req.param('id')));
    const at = parseInstant(query.at, ready.job.site.timeZone);
    if (!at.ok) throw badRequest([{ path: 'at', message: `at ${at.message}.` }]);
    const weather = await desk.weather.forJob(ready.job);
    if (!weather.ok) throw new RequestError(409, 'no-forecast', weather.why);
    const result = await desk.planning.ask('ahead', {
      ready,
      hourly: weather.hourly,
      nowMs: desk.clocks.nowMs(ready.job.demo),
      atMs: at.ms,
      what: query.what,
      people: query.people ?? null,
      bayAreaM2: query.bay ?? null,
    });
    if (result === null) throw new RequestError(409, 'stopped', 'The server is being stopped.');
    if (!result.ok) throw badRequest(result.issues);
    return ok(c, result.answer);
  });
  return app;
}
