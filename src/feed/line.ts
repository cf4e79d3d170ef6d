import type { Agent, Dispatcher } from 'undici';
import { type CallBudget, freeBudget, noBudget } from './call-weight.ts';
import { judgeAnswer } from './judge-answer.ts';
import { oneRequest, type RawAnswer, type Timeouts } from './one-request.ts';
import type { Waiting } from './retrying.ts';
import type { FeedFailure, FeedPlan } from './types.ts';

export interface LineSetup extends Waiting {
  readonly dispatcher?: Dispatcher;
  readonly apiKey: string | null;
  readonly plan: FeedPlan;
  readonly timeouts: Timeouts;
}

export type LineAnswer =
  | { readonly ok: true; readonly value: unknown; readonly text: string }
  | FeedFailure;

/** The one line to the service: a request at a time, inside the budget, spaced where it is free. */
export interface Line {
  /** Runs whole jobs one after another; the free service refuses requests side by side. */
  inTurn<T>(job: () => Promise<T>): Promise<T>;
  get(url: URL, weight: number): Promise<LineAnswer>;
  close(): Promise<void>;
}

const FREE_GAP_MS = 250;

export function openLine(setup: LineSetup): Line {
  let own: Agent | null = null;
  /** Loaded with the first question: most runs of the command line never ask one. */
  const dispatcher = async (): Promise<Dispatcher> => {
    if (setup.dispatcher !== undefined) return setup.dispatcher;
    if (own === null) {
      const undici = await import('undici');
      own = new undici.Agent({ connections: 1 });
    }
    return own;
  };
  const budget: CallBudget = setup.plan === 'free' ? freeBudget() : noBudget;
  let tail: Promise<unknown> = Promise.resolve();
  let lastEndMs: number | null = null;
  let closedFor: FeedFailure | null = null;

  /** The failure already known to await this call, so that it need not be made. */
  const knownRefusal = (weight: number): FeedFailure | null => {
    const nowMs = setup.now();
    if (closedFor?.retryAtMs != null && nowMs < closedFor.retryAtMs) return closedFor;
    closedFor = null;
    return budget.refusal(nowMs, weight);
  };

  const space = async (): Promise<void> => {
    if (setup.plan !== 'free' || lastEndMs === null) return;
    const waitMs = lastEndMs + FREE_GAP_MS - setup.now();
    if (waitMs > 0) await setup.sleep(waitMs);
  };

  const settle = (raw: RawAnswer | FeedFailure, weight: number): LineAnswer => {
    const nowMs = setup.now();
    lastEndMs = nowMs;
    const judged = raw.ok ? judgeAnswer(raw, nowMs) : raw;
    if (judged.ok) {
      budget.spend(nowMs, weight);
      return { ok: true, value: judged.value, text: (raw as RawAnswer).text };
    }
    // The provider counts a refusal for limits as nothing, any other failed request as one call.
    if (!raw.ok || raw.status !== 429) budget.spend(nowMs, 1);
    if (judged.code === 'limit-hour' || judged.code === 'limit-day') closedFor = judged;
    return judged;
  };

  return {
    inTurn<T>(job: () => Promise<T>): Promise<T> {
      const run = tail.then(job);
      tail = run.catch(() => {});
      return run;
    },
    async get(url, weight) {
      const refused = knownRefusal(weight);
      if (refused !== null) return refused;
      await space();
      const { apiKey, timeouts } = setup;
      return settle(
        await oneRequest(url, { dispatcher: await dispatcher(), apiKey, timeouts }),
        weight,
      );
    },
    async close() {
      await own?.close();
    },
  };
}
