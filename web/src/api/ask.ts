import type { Issue } from '../../../src/contract/index.ts';

/** What went wrong, in the server's words where it answered and in ours where it did not. */
export interface Problem {
  readonly code: string;
  readonly message: string;
  readonly issues: readonly Issue[];
  /** What is kept now, where somebody else's change is in the way. */
  readonly current?: unknown;
}

/** What goes along with a request that is more than a question. */
export type Sending =
  | { readonly method: 'POST' | 'PUT'; readonly body: unknown }
  | { readonly method: 'DELETE' };

export type Reply<T> =
  | { readonly ok: true; readonly data: T }
  | { readonly ok: false; readonly problem: Problem };

/** Long enough for the slowest search, short enough that a dead line is noticed. */
const GIVE_UP_AFTER_MS = 60_000;

function problem<T>(code: string, message: string): Reply<T> {
  return { ok: false, problem: { code, message, issues: [] } };
}

/** GET one address of the API, or send or stop something there. Never throws: a lost line is an answer too. */
export async function ask<T>(path: string, sending?: Sending): Promise<Reply<T>> {
  let response: Response;
  try {
    response = await fetch(path, {
      ...(sending && { method: sending.method }),
      ...(sending && 'body' in sending && { body: JSON.stringify(sending.body) }),
      headers: {
        accept: 'application/json',
        ...(sending && 'body' in sending && { 'content-type': 'application/json' }),
      },
      signal: AbortSignal.timeout(GIVE_UP_AFTER_MS),
    });
  } catch (cause) {
    if (cause instanceof DOMException && cause.name === 'TimeoutError') {
      return problem('timeout', 'No answer within a minute. The server may be busy: ask again.');
    }
    return problem(
      'offline',
      'No answer: the Layfair server is off or out of reach. Anything still shown here may be old.',
    );
  }
  let body: unknown;
  try {
    body = await response.json();
  } catch {
    return problem(
      'unreadable',
      `The server answered with status ${response.status} and something this page cannot read.`,
    );
  }
  return readBody<T>(body, response.status);
}

function readBody<T>(body: unknown, status: number): Reply<T> {
  if (typeof body === 'object' && body !== null && 'ok' in body) {
    if (body.ok === true && 'data' in body) return { ok: true, data: body.data as T };
    if (body.ok === false && 'error' in body) {
      const { code, message, issues, current } = body.error as Problem;
      return { ok: false, problem: { code, message, issues: issues ?? [], current } };
    }
  }
  return problem('unreadable', `The server answered with status ${status} and no data in it.`);
}
