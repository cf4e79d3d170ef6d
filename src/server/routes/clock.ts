import { Hono } from 'hono';
import { z } from 'zod';
import { answerClockSteady, type CoatDetails, coatIssues } from '../../answers/index.ts';
import { CLOCK_FACES, type ClockAnswer, type ClockFace, type Issue } from '../../contract/index.ts';
import type { Product } from '../../products/index.ts';
import { isTimeZone, parseInstant } from '../../time/index.ts';
import type { Desk } from '../desk.ts';
import { findJob, readyFound } from '../job-lookup.ts';
import { firmSpeeds, type LearnedProduct } from '../learning.ts';
import { readQuery } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

const FACE_NAMES: readonly string[] = CLOCK_FACES;

const numberFrom = (low: number, high: number) =>
  z
    .string()
    .refine((text) => text.trim() !== '' && Number(text) >= low && Number(text) <= high, {
      message: `must be a number from ${low} to ${high}`,
    })
    .transform(Number);

const facesFrom = z
  .string()
  .refine((text) => text.split(',').every((name) => FACE_NAMES.includes(name)), {
    message: `must be one or more of ${CLOCK_FACES.join(', ')}, with commas between`,
  })
  .transform((text) => text.split(',') as ClockFace[]);

const querySchema = z.strictObject({
  product: z.string().min(1).max(60),
  coated: z.string().min(1).max(40),
  until: z.string().min(1).max(40).optional(),
  closed: z.string().min(1).max(40).optional(),
  faces: facesFrom.optional(),
  job: z.uuid().optional(),
  zone: z
    .string()
    .refine(isTimeZone, { message: 'must be an IANA time zone such as Europe/Dublin' })
    .optional(),
  air: numberFrom(-30, 50).optional(),
  rh: numberFrom(1, 100).optional(),
  wind: numberFrom(0, 40).optional(),
  surface: numberFrom(-30, 90).optional(),
});
type Query = z.infer<typeof querySchema>;

/** When a coated area is touch dry, under numbers given or under a job's forecast. */
export function clockRoutes(desk: Desk): Hono {
  const app = new Hono();
  app.get('/', async (c) => {
    const query = readQuery(c, querySchema);
    const product = desk.shelf.get(query.product);
    if (product === undefined) {
      const known = [...desk.shelf.keys()].join(', ');
      throw badRequest([
        { path: 'product', message: `product is '${query.product}'; known products are ${known}.` },
      ]);
    }
    if (query.job !== undefined) return ok(c, await onJob(desk, product, query, query.job));
    const zone = query.zone ?? 'UTC';
    const { coatedMs, more } = coat(product, query, zone);
    const air = steadyAir(query);
    // Without a job it is asked for the firm whose own jobs are kept here.
    const own = (await firmSpeeds(desk, desk.own))(product);
    return ok(c, saying(own, answerClockSteady(own.product, coatedMs, air, zone, more)));
  });
  return app;
}

async function onJob(
  desk: Desk,
  product: Product,
  query: Query,
  jobId: string,
): Promise<ClockAnswer> {
  const beside = (['air', 'rh', 'wind', 'surface', 'zone'] as const).filter(
    (name) => query[name] !== undefined,
  );
  if (beside.length > 0) {
    throw badRequest(
      beside.map((path) => ({
        path,
        message: `${path} is given beside job; the job brings its own weather and time zone. Give one or the other.`,
      })),
    );
  }
  const found = await findJob(desk, jobId);
  const { job } = readyFound(desk, found);
  const timeZone = job.site.timeZone;
  const { coatedMs, more } = coat(product, query, timeZone);
  const weather = await desk.weather.forJob(job);
  if (!weather.ok) throw new RequestError(409, 'no-forecast', weather.why);
  const firm = (await firmSpeeds(desk, found.ctx))(product);
  const asked = {
    product: firm.product,
    hourly: weather.hourly,
    coatedMs,
    job,
    timeZone,
    more: { ...more, nowMs: desk.clocks.nowMs(job.demo) },
  };
  const result = await desk.planning.ask('clock', asked);
  if (result === null) throw new RequestError(409, 'stopped', 'The server is being stopped.');
  if (!result.ok) throw badRequest(result.issues);
  return saying(firm, result.answer);
}

/** Times that are not the sheet's own say so. */
function saying({ words }: LearnedProduct, answer: ClockAnswer): ClockAnswer {
  return words === null ? answer : { ...answer, cautions: [words, ...answer.cautions] };
}

/** Every fault of its times and faces at once. */
function coat(
  product: Product,
  query: Query,
  zone: string,
): { readonly coatedMs: number; readonly more: CoatDetails } {
  const issues: Issue[] = [];
  const read = (path: 'coated' | 'until' | 'closed'): number | undefined => {
    const text = query[path];
    if (text === undefined) return undefined;
    const instant = parseInstant(text, zone);
    if (instant.ok) return instant.ms;
    issues.push({ path, message: `${path} ${instant.message}.` });
    return undefined;
  };
  const coatedMs = read('coated');
  const more = { coatedUntilMs: read('until'), closedMs: read('closed'), faces: query.faces };
  if (coatedMs !== undefined && issues.length === 0)
    issues.push(...coatIssues(product, coatedMs, more));
  if (coatedMs === undefined || issues.length > 0) throw badRequest(issues);
  return { coatedMs, more };
}

function steadyAir(query: Query) {
  const missing = (['air', 'rh', 'wind'] as const).filter((name) => query[name] === undefined);
  if (missing.length > 0) {
    throw badRequest(
      missing.map((path) => ({
        path,
        message: `${path} is missing; give air, rh and wind together, or a job.`,
      })),
    );
  }
  return {
    airTempC: query.air!,
    relHumPct: query.rh!,
    windMps: query.wind!,
    surfaceTempC: query.surface ?? null,
  };
}
