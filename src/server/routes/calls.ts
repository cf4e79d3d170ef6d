import { Hono } from 'hono';
import { z } from 'zod';
import { presentHindsight } from '../../answers/index.ts';
import type { CallBook } from '../call-book.ts';
import type { Desk } from '../desk.ts';
import { readQuery } from '../read-request.ts';
import { ok } from '../reply.ts';

const noQuery = z.strictObject({});

/** The firm's own hindsight: what each past call said and what came. */
export function callRoutes(desk: Desk, book: CallBook): Hono {
  const app = new Hono();
  app.get('/', async (c) => {
    readQuery(c, noQuery);
    const jobs = await book.jobs();
    const record = await book.record();
    return ok(c, presentHindsight({ jobs, record, nowMs: desk.clocks.nowMs(false) }));
  });
  return app;
}
