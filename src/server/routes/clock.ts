import { Hono } from 'hono';
import { z } from 'zod';
import { answerClockSteady } from '../../answers/index.ts';
import type { ClockAnswer } from '../../contract/index.ts';
import type { Product } from '../../products/index.ts';
import { isTimeZone, parseInstant } from '../../time/index.ts';
import type { Desk } from '../desk.ts';
import { findJob, readyFound } from '../job-lookup.ts';
import { readQuery } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

const numberFrom = (low: number, high: number) =>
  z
    .string()
    .refine((text) => text.trim() !== '' && Number(text) >= low && Number(text) <= high, {
      message: `must be a number from ${low} to ${high}`,
    })
    .transform(Number);

const querySchema = z.strictObject({
  product: z.string().min(1).max(60),
  coated: z.string().min(1).max(40),
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
    return ok(c, answerClockSteady(product, coated(query, zone), steadyAir(query), zone));
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
  const { job } = readyFound(desk, await findJob(desk, jobId));
  const timeZone = job.site.timeZone;
  const coatedMs = coated(query, timeZone);
  const weather = await desk.weather.forJob(job);
  if (!weather.ok) throw new RequestError(409, 'no-forecast', weather.why);
  const asked = { product, hourly: weather.hourly, coatedMs, job, timeZone };
  const result = await desk.planning.ask('clock', asked);
  if (result === null) throw new RequestError(409, 'stopped', 'The server is being stopped.');
  if (!result.ok) throw badRequest(result.issues);
  return result.answer;
}

function coated(query: Query, zone: string): number {
  const read = parseInstant(query.coated, zone);
  if (!read.ok) throw badRequest([{ path: 'coated', message: `coated ${read.message}.` }]);
  return read.ms;
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
