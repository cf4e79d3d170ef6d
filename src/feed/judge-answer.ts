import { errorAnswer } from './answer-shape.ts';
import { retryAfterLimit } from './call-weight.ts';
import type { RawAnswer } from './one-request.ts';
import { looksLikeHtml, parseServiceJson } from './parse-json.ts';
import type { FeedFailure, FeedFailureCode } from './types.ts';

export type Judged = { readonly ok: true; readonly value: unknown } | FeedFailure;

/** Turns status and body into a parsed answer or a typed failure with a plain sentence. */
export function judgeAnswer(raw: RawAnswer, nowMs: number): Judged {
  const fail = (code: FeedFailureCode, message: string): FeedFailure => ({
    ok: false,
    code,
    message,
    retryAtMs: retryAfterLimit(code, nowMs),
  });
  const html = raw.contentType.includes('text/html') || looksLikeHtml(raw.text);
  const parsed = html ? null : parseServiceJson(raw.text);
  const refusal = parsed?.ok ? errorAnswer.safeParse(parsed.value) : null;
  const reason = refusal?.success ? refusal.data.reason : null;

  if (raw.status === 429) return fail(limitCode(reason), limitSentence(reason));
  if (html && raw.status !== 404) {
    return fail(
      'gateway',
      `A web page came instead of a forecast (status ${raw.status}): a gateway in between is failing.`,
    );
  }
  if (raw.status >= 500) return serverFailure(raw.status, reason, fail);
  if (raw.status >= 300 || reason !== null) return refusalFailure(raw.status, reason, fail);
  if (!parsed?.ok) {
    const why = parsed?.why ?? 'it is a web page';
    return fail('broken-answer', `The forecast service's answer is not readable: ${why}.`);
  }
  return { ok: true, value: parsed.value };
}

type Fail = (code: FeedFailureCode, message: string) => FeedFailure;

function limitCode(reason: string | null): FeedFailureCode {
  if (reason === null) return 'busy';
  if (/^minutely/i.test(reason)) return 'limit-minute';
  if (/^hourly/i.test(reason)) return 'limit-hour';
  if (/^(daily|monthly)/i.test(reason)) return 'limit-day';
  return 'busy';
}

function limitSentence(reason: string | null): string {
  return `The forecast service refuses for now: ${quote(reason ?? 'too many requests')}.`;
}

function serverFailure(status: number, reason: string | null, fail: Fail): FeedFailure {
  if (status === 503 && reason !== null) {
    return fail('busy', `The forecast service is overloaded: ${quote(reason)}.`);
  }
  const detail = reason === null ? '' : `: ${quote(reason)}`;
  return fail('gateway', `The forecast service failed (status ${status})${detail}.`);
}

function refusalFailure(status: number, reason: string | null, fail: Fail): FeedFailure {
  const said = reason === null ? `status ${status}` : quote(reason);
  if (status === 401) {
    return fail('key', `The forecast service asks for a key; set LAYFAIR_FEED_KEY: ${said}.`);
  }
  if (/api key/i.test(reason ?? '')) {
    return fail(
      'key',
      `The forecast service does not accept the key in LAYFAIR_FEED_KEY: ${said}.`,
    );
  }
  if (status === 403) {
    return fail(
      'plan',
      `The key in LAYFAIR_FEED_KEY does not cover this forecast; ensembles need the Professional plan: ${said}.`,
    );
  }
  if (/no data is available/i.test(reason ?? '')) {
    return fail('bad-request', `The chosen model does not cover this place: ${said}.`);
  }
  if (status >= 300 && status < 400) {
    return fail(
      'bad-request',
      `The forecast service sends on to another address (${said}); Layfair does not follow.`,
    );
  }
  return fail('bad-request', `The forecast service does not accept the request: ${said}.`);
}

/** The provider's own words, shortened and on one line. */
function quote(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return JSON.stringify(line.length > 200 ? `${line.slice(0, 197)}...` : line).replace(
    /\.?"$/,
    '"',
  );
}
