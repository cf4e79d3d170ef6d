import { gunzipSync } from 'node:zlib';
import type { Dispatcher } from 'undici';
import type { FeedFailure, FeedFailureCode } from './types.ts';

export interface RequestSetup {
  readonly dispatcher: Dispatcher;
  readonly apiKey: string | null;
  readonly timeouts: Timeouts;
}

export interface Timeouts {
  /** Until the answer starts [ms]. */
  readonly headersMs: number;
  /** Longest silence inside the answer [ms]. */
  readonly bodyMs: number;
  /** Until the answer is complete [ms]; catches one that trickles. */
  readonly totalMs: number;
}

export interface RawAnswer {
  readonly ok: true;
  readonly status: number;
  readonly contentType: string;
  readonly text: string;
}

const MAX_BODY_BYTES = 64 * 1024 * 1024;

const failure = (code: FeedFailureCode, message: string): FeedFailure => ({
  ok: false,
  code,
  message,
  retryAtMs: null,
});

/**
 * One GET. Redirects are not followed, so that the key in the header goes nowhere else. The key never
 * enters the address, which ends up in logs and messages.
 */
export async function oneRequest(url: URL, setup: RequestSetup): Promise<RawAnswer | FeedFailure> {
  const { timeouts, apiKey } = setup;
  let started = false;
  try {
    const { request } = await import('undici');
    const answer = await request(url, {
      dispatcher: setup.dispatcher,
      method: 'GET',
      headers: {
        accept: 'application/json',
        'accept-encoding': 'gzip',
        'user-agent': 'layfair',
        ...(apiKey === null ? {} : { 'x-api-key': apiKey }),
      },
      headersTimeout: timeouts.headersMs,
      bodyTimeout: timeouts.bodyMs,
      signal: AbortSignal.timeout(timeouts.totalMs),
    });
    started = true;
    const bytes = await readBody(answer.body);
    if (bytes === null)
      return failure('broken-answer', 'The forecast service sent more than 64 MB.');
    const packed = header(answer.headers['content-encoding']) === 'gzip';
    const plain = packed ? gunzipSync(bytes, { maxOutputLength: MAX_BODY_BYTES }) : bytes;
    const text = new TextDecoder('utf-8', { fatal: true }).decode(plain);
    return {
      ok: true,
      status: answer.statusCode,
      contentType: header(answer.headers['content-type']),
      text,
    };
  } catch (error) {
    return explain(error, started, timeouts);
  }
}

const header = (value: string | string[] | undefined): string =>
  (Array.isArray(value) ? value.join(',') : (value ?? '')).toLowerCase();

async function readBody(body: AsyncIterable<Uint8Array>): Promise<Uint8Array | null> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of body) {
    length += part.length;
    if (length > MAX_BODY_BYTES) return null;
    parts.push(part);
  }
  return Buffer.concat(parts);
}

function explain(error: unknown, started: boolean, timeouts: Timeouts): FeedFailure {
  const name = error instanceof Error ? error.name : '';
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (name === 'TimeoutError' || /TIMEOUT|TIMEDOUT/.test(code)) {
    const seconds = Math.round((started ? timeouts.totalMs : timeouts.headersMs) / 100) / 10;
    const what = started ? 'did not finish its answer' : 'did not answer';
    return failure('timeout', `The forecast service ${what} in time (${seconds} s allowed).`);
  }
  if (started) {
    const detail = code || name || 'unknown reason';
    return failure('broken-answer', `The forecast service's answer broke off (${detail}).`);
  }
  return failure(
    'unreachable',
    `The forecast service cannot be reached (${code || name || 'unknown reason'}).`,
  );
}
