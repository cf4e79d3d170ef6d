import { type Context, Hono } from 'hono';
import { z } from 'zod';
import { type ReadyJob, readJob, readyJob } from '../../answers/index.ts';
import { type RoofDrawingAnswer, roofDrawingSchema } from '../../contract/index.ts';
import { drawAsWritten } from '../../roof/index.ts';
import type { Desk } from '../desk.ts';
import { findJob, readyOnSite } from '../job-lookup.ts';
import { readBody } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

/** What a kept job's roof asks for. */
export function jobTakeoffRoutes(desk: Desk): Hono {
  const app = new Hono();
  app.get('/:id/takeoff', async (c) => {
    const { ready } = await readyOnSite(desk, await findJob(desk, c.req.param('id')));
    return await answer(desk, c, ready);
  });
  return app;
}

/** The same for a job that is only being thought about: nothing is kept. */
export function takeoffRoutes(desk: Desk): Hono {
  const app = new Hono();
  app.post('/', async (c) => {
    const read = readJob(await readBody(c, z.unknown()), desk.shelf);
    if (!read.ok) throw badRequest(read.issues);
    const ready = readyJob(desk.onPractice?.(read.job) ?? read.job, desk.shelf);
    if (!ready.ok) throw badRequest(ready.issues);
    return await answer(desk, c, ready);
  });
  return app;
}

/** A drawing in the making: sound or not it is drawn, with each fault marked at its place. */
export function roofDrawingRoutes(): Hono {
  const app = new Hono();
  app.post('/', async (c) => {
    const roof = await readBody(c, roofDrawingSchema);
    const { drawing, issues } = drawAsWritten(roof, 'Roof');
    return ok<RoofDrawingAnswer>(c, { drawing, issues: issues.map((issue) => ({ ...issue })) });
  });
  return app;
}

async function answer(desk: Desk, c: Context, ready: ReadyJob) {
  const result = await desk.planning.ask('takeoff', { ready, shelf: new Map(desk.shelf) });
  if (result === null) throw new RequestError(409, 'stopped', 'The server is being stopped.');
  return ok(c, result);
}
