import { Hono } from 'hono';
import { presentLearned } from '../../answers/index.ts';
import { learnedQuerySchema } from '../../contract/index.ts';
import type { Desk } from '../desk.ts';
import { firmFilms } from '../learning.ts';
import { readQuery } from '../read-request.ts';
import { notFound, ok } from '../reply.ts';

/** What a firm's own site logs say of how a product dries. */
export function learnedRoutes(desk: Desk): Hono {
  const app = new Hono();
  app.get('/:id/learned', async (c) => {
    const { firm = 'own' } = readQuery(c, learnedQuerySchema);
    const id = c.req.param('id');
    const product = desk.shelf.get(id);
    if (product === undefined) throw notFound(`Product ${id.slice(0, 60)}`);
    const ctx = firm === 'demo' ? desk.demo : desk.own;
    const nowMs = desk.clocks.nowMs(firm === 'demo');
    const films = await firmFilms(desk, ctx);
    return ok(c, presentLearned({ product, firm, films, nowMs }));
  });
  return app;
}
