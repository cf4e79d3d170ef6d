import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { type Context, Hono } from 'hono';
import { z } from 'zod';
import { calendarDate, issueSentences } from '../../contract/index.ts';
import { encodePack, PACK_FORMAT } from '../../products/index.ts';
import type { Desk } from '../desk.ts';
import { findJob, readyOnSite } from '../job-lookup.ts';
import { KeptAnswers } from '../kept-answers.ts';
import { readQuery } from '../read-request.ts';
import { badRequest, RequestError } from '../reply.ts';

interface Sent {
  readonly plain: string;
  readonly gzipped: Buffer;
}

const noQuery = z.strictObject({});
const daySchema = z.strictObject({ day: calendarDate });

/**
 * All clocks of a job and day for a phone to carry. The tag stands for what the pack was made from: the
 * job, its products, the forecast and the readings; while it fits, nothing is sent again.
 */
export function clockPackRoutes(desk: Desk): Hono {
  const kept = new KeptAnswers<Sent>();
  const app = new Hono();
  app.get('/:id/days/:date/clock-pack', async (c) => {
    readQuery(c, noQuery);
    const date = dayOf(c.req.param('date'));
    const found = await findJob(desk, c.req.param('id'));
    const { ready, mark } = await readyOnSite(desk, found);
    const weather = await desk.weather.forJob(ready.job);
    if (!weather.ok) throw new RequestError(409, 'no-forecast', weather.why);
    const nowMs = desk.clocks.planMs(ready.job.demo);
    const madeFrom = [
      PACK_FORMAT,
      ready.job.id,
      found.row.version,
      weather.key,
      mark,
      date,
      JSON.stringify(ready.products),
    ].join('|');
    const tag = `"${createHash('sha256').update(madeFrom).digest('hex').slice(0, 32)}"`;
    c.header('etag', tag);
    c.header('vary', 'accept-encoding');
    // It may be kept, and is asked about before it is used again.
    c.header('cache-control', 'private, no-cache');
    if (isAmong(c.req.header('if-none-match'), tag)) return c.body(null, 304);
    const known = kept.get(tag, nowMs);
    const answer = known ?? make(desk, { ready, hourly: weather.hourly, nowMs, date });
    if (known === null) kept.put(tag, nowMs, answer);
    return send(c, await answer);
  });
  return app;
}

function dayOf(text: string): string {
  const parsed = daySchema.safeParse({ day: text });
  if (!parsed.success) throw badRequest(issueSentences(parsed.error, { day: text }));
  return parsed.data.day;
}

async function make(
  desk: Desk,
  asked: Parameters<typeof desk.planning.ask<'pack'>>[1],
): Promise<Sent> {
  const result = await desk.planning.ask('pack', asked);
  if (result === null) throw new RequestError(409, 'stopped', 'The server is being stopped.');
  if (!result.ok) throw badRequest(result.issues);
  const plain = JSON.stringify({ ok: true, data: encodePack(result.pack) });
  return { plain, gzipped: gzipSync(plain, { level: 9 }) };
}

function send(c: Context, { plain, gzipped }: Sent): Response {
  c.header('content-type', 'application/json');
  if (!takesGzip(c.req.header('accept-encoding'))) return c.body(plain);
  c.header('content-encoding', 'gzip');
  return c.body(new Uint8Array(gzipped));
}

/** 'gzip' named and not refused with q=0 (RFC 9110, 12.5.3). */
function takesGzip(accepted: string | undefined): boolean {
  return (accepted ?? '').split(',').some((part) => {
    const [coding = '', ...settings] = part.split(';').map((each) => each.trim().toLowerCase());
    return coding === 'gzip' && !settings.some((setting) => /^q=0(\.0*)?$/.test(setting));
  });
}

/** The weak comparison of RFC 9110, 13.1.2. */
function isAmong(given: string | undefined, tag: string): boolean {
  if (given === undefined) return false;
  return given.split(',').some((each) => {
    const one = each.trim();
    return one === '*' || one.replace(/^W\//, '') === tag;
  });
}
