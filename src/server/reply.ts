import type { Context } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import type { z } from 'zod';
import { type ErrorBody, type Issue, issueSentences } from '../contract/index.ts';

/** A request that cannot be answered, with the one error shape every route uses. */
export class RequestError extends Error {
  readonly status: ContentfulStatusCode;
  readonly code: string;
  readonly issues: readonly Issue[];

  constructor(
    status: ContentfulStatusCode,
    code: string,
    message: string,
    issues: readonly Issue[] = [],
  ) {
    super(message);
    this.status = status;
    this.code = code;
    this.issues = issues;
  }
}

export const notFound = (what: string): RequestError =>
  new RequestError(404, 'not-found', `${what} is not here.`);

export function badRequest(issues: readonly Issue[]): RequestError {
  return new RequestError(400, 'bad-input', issues.map((issue) => issue.message).join(' '), issues);
}

export function errorBody(error: RequestError): ErrorBody {
  return {
    ok: false,
    error: { code: error.code, message: error.message, issues: [...error.issues] },
  };
}

export function ok<T>(c: Context, data: T, status: ContentfulStatusCode = 200) {
  return c.json({ ok: true as const, data }, status);
}

/** A JSON body in the shape asked, or the sentences saying what is wrong with it. */
export async function readBody<T extends z.ZodType>(c: Context, schema: T): Promise<z.output<T>> {
  const type = c.req.header('content-type') ?? '';
  if (!/^application\/json\b/i.test(type)) {
    throw new RequestError(
      415,
      'not-json',
      `content-type is '${type}'; the body must be application/json.`,
    );
  }
  let value: unknown;
  try {
    value = await c.req.json();
  } catch {
    throw new RequestError(400, 'bad-input', 'The body is not valid JSON.', [
      { path: '', message: 'The body is not valid JSON.' },
    ]);
  }
  const parsed = schema.safeParse(value);
  if (!parsed.success) throw badRequest(issueSentences(parsed.error, value));
  return parsed.data;
}
