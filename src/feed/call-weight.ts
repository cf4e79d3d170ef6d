import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import type { FeedFailure, FeedFailureCode } from './types.ts';

const MS_PER_DAY = 24 * MS_PER_HOUR;

/**
 * What one answer costs on the provider's count: 10 variables over 14 days are one call, per
 * location; every forecast of an ensemble counts as variables of its own. Never under one call.
 */
export function callWeight(o: {
  variables: number;
  forecasts: number;
  days: number;
  locations?: number;
}): number {
  const v = o.variables * o.forecasts;
  return (o.locations ?? 1) * Math.max(1, v / 10, ((v / 10) * o.days) / 14);
}

interface Window {
  readonly code: FeedFailureCode;
  readonly word: string;
  readonly lengthMs: number;
  readonly most: number;
}

/** Free service, per address. Windows start at the clock minute, the hour and 00:00 UTC. */
const FREE_WINDOWS: readonly Window[] = [
  { code: 'limit-day', word: 'day', lengthMs: MS_PER_DAY, most: 10_000 },
  { code: 'limit-hour', word: 'hour', lengthMs: MS_PER_HOUR, most: 5_000 },
  { code: 'limit-minute', word: 'minute', lengthMs: MS_PER_MINUTE, most: 600 },
];

/** Start of the next window of this length: the provider's limits start afresh then. */
export const nextWindowMs = (nowMs: number, lengthMs: number): number =>
  (Math.floor(nowMs / lengthMs) + 1) * lengthMs;

/** First instant at which a call refused with this code can pass, or null where no window is known. */
export function retryAfterLimit(code: FeedFailureCode, nowMs: number): number | null {
  const window = FREE_WINDOWS.find((w) => w.code === code);
  return window === undefined ? null : nextWindowMs(nowMs, window.lengthMs);
}

export interface CallBudget {
  /** Null where a call of this weight still fits, else the failure that says when it will. */
  refusal(nowMs: number, weight: number): FeedFailure | null;
  spend(nowMs: number, weight: number): void;
}

/**
 * Keeps this process inside the free service's limits, so that it is never the one to be refused.
 * Counts live in memory: other programs behind the same address are seen only through their 429s.
 */
export function freeBudget(): CallBudget {
  const used = new Map<FeedFailureCode, { window: number; weight: number }>();
  const spent = (w: Window, nowMs: number): number => {
    const entry = used.get(w.code);
    return entry?.window === Math.floor(nowMs / w.lengthMs) ? entry.weight : 0;
  };
  return {
    refusal(nowMs, weight) {
      const full = FREE_WINDOWS.find((w) => spent(w, nowMs) + weight > w.most);
      if (full === undefined) return null;
      const message = `The free forecast service allows ${full.most} calls a ${full.word}; the next one would go over.`;
      return { ok: false, code: full.code, message, retryAtMs: nextWindowMs(nowMs, full.lengthMs) };
    },
    spend(nowMs, weight) {
      for (const w of FREE_WINDOWS) {
        used.set(w.code, {
          window: Math.floor(nowMs / w.lengthMs),
          weight: spent(w, nowMs) + weight,
        });
      }
    },
  };
}

/** Paid plans and own servers have no minute, hour or day limit. */
export const noBudget: CallBudget = { refusal: () => null, spend: () => {} };
