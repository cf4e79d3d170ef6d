import { z } from 'zod';
import { daysAnswerSchema } from './answers.ts';
import { jobFileSchema } from './job-file.ts';
import { productRowSchema } from './products.ts';
import { siteEventSchema } from './site-events.ts';
import { triedSchema } from './tried.ts';

/**
 * The HTTP API, version 1, under /api. Every answer is `{ ok: true, data }` or
 * `{ ok: false, error: { code, message, issues } }`.
 *
 *   GET  /api/health
 *   GET  /api/firm                              firmSchema
 *   GET  /api/jobs                              { jobs: JobRow[] }
 *   POST /api/jobs                              { requestId, job }          -> JobRow   (409 on a taken id)
 *   PUT  /api/jobs/:id                          { requestId, version, job } -> JobRow   (409 on an old version)
 *   GET  /api/jobs/:id                          JobRow
 *   GET  /api/jobs/:id/days?search=             DaysAnswer (also with figures tried, see tried.ts)
 *   GET  /api/jobs/:id/work?day=YYYY-MM-DD      WorkAnswer (the same)
 *   GET  /api/jobs/:id/ahead?at=&what=&people=&bay=  AheadAnswer
 *   GET  /api/jobs/:id/now?at=&rainIn=&thunderAt=&bay=  NowAnswer
 *   GET  /api/jobs/:id/events                   { events: SiteEvent[] }
 *   POST /api/jobs/:id/events                   { requestId, events }       -> { added }
 *   GET  /api/calls                             Hindsight
 *   GET  /api/products                          { products, unusable }
 *   GET  /api/products/:id                      ProductAnswer
 *   PUT  /api/products/:id                      { requestId, version, product } -> ProductAnswer (409 on an old version)
 *   GET  /api/products/:id/learned?firm=        LearnedAnswer
 *   GET  /api/clock?product=&coated=&until=&closed=&faces=&job= | &air=&rh=&wind=&surface=   ClockAnswer
 *   POST /api/tasks                             { requestId, kind: 'days', jobId, tried } -> Task
 *   GET  /api/tasks/:id                         Task
 *   DELETE /api/tasks/:id                       Task (stopped, with the best found so far)
 */

export const issueSchema = z.object({ path: z.string(), message: z.string() });
export type Issue = z.infer<typeof issueSchema>;

export const firmSchema = z.object({
  id: z.string(),
  name: z.string(),
  demo: z.boolean(),
  /** The firm's clock: the demo clock for the demo firm, the real one for all others. */
  nowMs: z.number(),
  /** The server's own clock, for jobs that are not the demo's. */
  presentMs: z.number(),
  timeZone: z.string(),
  /** 'Demo: Tuesday 12 May, 05:40; invented weather', or null. */
  banner: z.string().nullable(),
});
export type Firm = z.infer<typeof firmSchema>;

export const jobRowSchema = z.object({ version: z.number().int(), job: jobFileSchema });
export type JobRow = z.infer<typeof jobRowSchema>;

export const errorBodySchema = z.object({
  ok: z.literal(false),
  error: z.object({
    code: z.string(),
    message: z.string(),
    issues: z.array(issueSchema),
    /** The job or product as it is now, with codes 'version-conflict' and 'id-taken'. */
    current: z.union([jobRowSchema, productRowSchema]).optional(),
  }),
});
export type ErrorBody = z.infer<typeof errorBodySchema>;

export const createJobSchema = z.strictObject({ requestId: z.uuid(), job: jobFileSchema });
export const updateJobSchema = z.strictObject({
  requestId: z.uuid(),
  version: z.number().int().positive(),
  job: jobFileSchema,
});
export const addEventsSchema = z.strictObject({
  requestId: z.uuid(),
  events: z.array(siteEventSchema).min(1).max(500),
});

export const taskRequestSchema = z.strictObject({
  requestId: z.uuid(),
  kind: z.literal('days'),
  jobId: z.uuid(),
  tried: triedSchema.default({}),
});
export const taskSchema = z.object({
  id: z.string(),
  kind: z.literal('days'),
  jobId: z.string(),
  state: z.enum(['running', 'done', 'stopped', 'failed']),
  /** 0..1 */
  progress: z.number(),
  words: z.string(),
  error: z.string().nullable(),
  tried: triedSchema,
  /** The best answer so far, and once done the answer; null = nothing found yet. */
  soFar: daysAnswerSchema.nullable(),
});
export type Task = z.infer<typeof taskSchema>;
