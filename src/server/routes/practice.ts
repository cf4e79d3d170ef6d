import { Hono } from 'hono';
import { type PracticeAnswer, putPracticeSchema } from '../../contract/index.ts';
import type { Desk } from '../desk.ts';
import type { FirmPractices } from '../firm-practice.ts';
import { readBody } from '../read-request.ts';
import { ok, RequestError } from '../reply.ts';

/** How the firm works where a job does not say otherwise. */
export function practiceRoutes(desk: Desk, practices: FirmPractices): Hono {
  const app = new Hono();
  const now = (): PracticeAnswer => {
    const { rates, layout } = practices.practice;
    return { version: practices.version, practice: { rates, layout } } as PracticeAnswer;
  };
  app.get('/', (c) => ok(c, now()));
  app.put('/', async (c) => {
    const { requestId, version, practice } = await readBody(c, putPracticeSchema);
    const saved = await desk.store.savePractice(desk.own, {
      requestId,
      version,
      practice: { id: 'firm', ...practice },
    });
    if (!saved.ok) throw new RequestError(409, saved.code, saved.message);
    await practices.refresh();
    return ok(c, now(), version === null ? 201 : 200);
  });
  return app;
}
