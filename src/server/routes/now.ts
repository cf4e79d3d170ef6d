import { Hono } from 'hono';
import { z } from 'zod';
import { type Issue, triedBayQuery } from '../../contract/index.ts';
import { LONGEST_RAIN_IN_MIN } from '../../planner/index.ts';
import { parseInstant } from '../../time/index.ts';
import type { Desk } from '../desk.ts';
import { findJob, readyOnSite } from '../job-lookup.ts';
import { readQuery } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

const rainIn = `must be whole minutes from 0 to ${LONGEST_RAIN_IN_MIN}`;
const querySchema = z.strictObject({
  at: z.string().min(1).max(40).optional(),
  thunderAt: z.string().min(1).max(40).optional(),
  rainIn: z
    .string()
    .refine((text) => /^\d{1,3}$/.test(text) && Number(text) <= LONGEST_RAIN_IN_MIN, {
      message: rainIn,
    })
    .transform(Number)
    .optional(),
  ...triedBayQuery,
});

/** The best way on from a minute, from the job's site log. */
export function nowRoutes(desk: Desk): Hono {
  const app = new Hono();
  app.get('/:id/now', async (c) => {
    const query = readQuery(c, querySchema);
    const found = await findJob(desk, c.req.param('id'));
    const { ready } = await readyOnSite(desk, found);
    const { job } = ready;
    const nowMs = desk.clocks.nowMs(job.demo);
    const issues: Issue[] = [];
    const instant = (path: 'at' | 'thunderAt'): number | null => {
      const text = query[path];
      if (text === undefined) return null;
      const read = parseInstant(text, job.site.timeZone);
      if (read.ok) return read.ms;
      issues.push({ path, message: `${path} ${read.message}.` });
      return null;
    };
    const atMs = instant('at') ?? nowMs;
    const thunderMs = instant('thunderAt');
    if (issues.length > 0) throw badRequest(issues);
    const events = await desk.store.events(found.ctx, job.id);
    if (!events.ok) throw new RequestError(404, events.code, events.message);
    const weather = await desk.weather.forJob(job);
    if (!weather.ok) throw new RequestError(409, 'no-forecast', weather.why);
    const result = await desk.planning.ask('now', {
      ready,
      hourly: weather.hourly,
      nowMs,
      atMs,
      bayAreaM2: query.bay ?? null,
      work: { kind: 'log', events: events.value, thunderMs, rainInMin: query.rainIn ?? null },
    });
    if (result === null) throw new RequestError(409, 'stopped', 'The server is being stopped.');
    if (result.ok) return ok(c, result.answer);
    const told = result.issues.map((issue) => asAsked(issue));
    const asked = told.every(({ path }) => path === 'at' || path === 'thunderAt' || path === 'bay');
    if (asked) throw badRequest(told);
    const words = told.map(({ message }) => message).join(' ');
    throw new RequestError(409, 'site-log', `The site log cannot be as it stands: ${words}`, told);
  });
  return app;
}

/** Named as in the query. */
function asAsked({ path, message }: Issue): Issue {
  if (path !== 'thunder-at') return { path, message };
  return { path: 'thunderAt', message: message.replace(/^thunder-at/, 'thunderAt') };
}
