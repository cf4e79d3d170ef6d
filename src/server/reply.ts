import type { Context } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import type { ErrorBody, Issue, JobRow, ProductRow } from '../contract/index.ts';

/** A request that cannot be answered, with the one error shape every route uses. */
export class RequestError extends Error {
  readonly status: ContentfulStatusCode;
  readonly code: string;
  readonly issues: readonly Issue[];
  /** The row as it is now, where somebody else's change is in the way. */
  readonly current: JobRow | ProductRow | null;

  constructor(
    status: ContentfulStatusCode,
    code: string,
    message: string,
    issues: readonly Issue[] = [],
    current: JobRow | ProductRow | null = null,
  ) {
    super(message);
    this.status = status;
    this.code = code;
    this.issues = issues;
    this.current = current;
  }
}

export const notFound = (what: string): RequestError =>
  new RequestError(404, 'not-found', `${what} is not here.`);

export function badRequest(issues: readonly Issue[]): RequestError {
  return new RequestError(400, 'bad-input', issues.map((issue) => issue.message).join(' '), issues);
}

export function errorBody(error: RequestError): ErrorBody {
  const { code, message, current } = error;
  const issues = [...error.issues];
  return {
    ok: false,
    error: current === null ? { code, message, issues } : { code, message, issues, current },
  };
}

export function ok<T>(c: Context, data: T, status: ContentfulStatusCode = 200) {
  return c.json({ ok: true as const, data }, status);
}
