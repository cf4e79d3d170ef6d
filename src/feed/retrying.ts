import { MS_PER_MINUTE } from '../units/index.ts';
import type { FeedFailure, FeedFailureCode } from './types.ts';

export interface Waiting {
  readonly now: () => number;
  readonly sleep: (ms: number) => Promise<void>;
  /** 0 <= value < 1; seeded by the caller so that a run can be repeated. */
  readonly random: () => number;
}

const ATTEMPTS = 3;
const FIRST_WAIT_MS = 1_000;
const PASSING: readonly FeedFailureCode[] = [
  'busy',
  'gateway',
  'broken-answer',
  'timeout',
  'unreachable',
];

/**
 * Tries up to three times. Passing trouble waits 1 s, then 2 s, each times 0.5 to 1.5 so that many
 * installations do not come back in step. A minute limit waits for the next clock minute, once. Hour
 * and day limits, keys, plans and refused requests are not tried again: waiting here cannot help.
 */
export async function retrying<T extends { readonly ok: true }>(
  attempt: () => Promise<T | FeedFailure>,
  waiting: Waiting,
): Promise<T | FeedFailure> {
  let waitedForMinute = false;
  for (let n = 1; ; n++) {
    const result = await attempt();
    if (result.ok) return result;
    const waitMs = waitBefore(result, n, waitedForMinute, waiting);
    if (waitMs === null) return result;
    waitedForMinute ||= result.code === 'limit-minute';
    await waiting.sleep(waitMs);
  }
}

function waitBefore(
  f: FeedFailure,
  n: number,
  waitedForMinute: boolean,
  w: Waiting,
): number | null {
  if (n >= ATTEMPTS) return null;
  if (f.code === 'limit-minute') {
    if (waitedForMinute) return null;
    const untilMs = f.retryAtMs ?? w.now() + MS_PER_MINUTE;
    return Math.max(0, untilMs - w.now()) + Math.ceil(w.random() * 2_000);
  }
  if (!PASSING.includes(f.code)) return null;
  return Math.round(FIRST_WAIT_MS * 2 ** (n - 1) * (0.5 + w.random()));
}
