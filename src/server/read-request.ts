import type { Context } from 'hono';
import type { z } from 'zod';
import { issueSentences } from '../contract/index.ts';
import { badRequest, RequestError } from './reply.ts';

/** A JSON body in the shape asked, or the sentences saying what is wrong with it. */
export async function readBody<T extends z.ZodType>(c: Context, schema: T): Promise<z.output<T>> {
  const type = c.req.header('content-type') ?? '';
  if (!/^application\/json\s*(;|$)/i.test(type)) {
    throw new RequestError(
      415,
      'not-json',
      `content-type is '${type.slice(0, 60)}'; the body must be application/json.`,
    );
  }
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(await c.req.arrayBuffer()));
  } catch {
    const message = 'The body is not valid JSON in UTF-8.';
    throw new RequestError(400, 'bad-input', message, [{ path: '', message }]);
  }
  const parsed = schema.safeParse(value);
  if (!parsed.success) throw badRequest(issueSentences(parsed.error, value));
  return parsed.data;
}

/** The query in the shape asked; a name given twice is refused rather than one of the two dropped. */
export function readQuery<T extends z.ZodType>(c: Context, schema: T): z.output<T> {
  const given = c.req.queries();
  const twice = Object.keys(given).filter((name) => (given[name]?.length ?? 0) > 1);
  if (twice.length > 0) {
    throw badRequest(
      twice.map((name) => ({
        path: name.slice(0, 60),
        message: `${name.slice(0, 60)} is given ${given[name]!.length} times; give it once.`,
      })),
    );
  }
  const asked = c.req.query();
  const parsed = schema.safeParse(asked);
  if (!parsed.success) throw badRequest(issueSentences(parsed.error, asked));
  return parsed.data;
}
