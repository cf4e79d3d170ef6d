import type { SiteLogEvent } from '../../../../src/contract/index.ts';
import type { CoatedPart } from './parts.ts';

/** Who writes: there is no sign-in, and the crew's foreman holds the phone. */
const ACTOR = 'foreman';

type DayEnded = Extract<SiteLogEvent, { kind: 'day-ended' }>;
type Base = Pick<SiteLogEvent, 'id' | 'jobId' | 'atMs' | 'loggedMs' | 'actorId'>;

const base = (jobId: string, atMs: number, loggedMs: number): Base => ({
  id: crypto.randomUUID(),
  jobId,
  atMs,
  loggedMs: Math.round(loggedMs),
  actorId: ACTOR,
});

export function coatedEntry(
  jobId: string,
  part: CoatedPart,
  atMs: number,
  loggedMs: number,
): SiteLogEvent {
  return {
    ...base(jobId, atMs, loggedMs),
    kind: 'coated',
    activityId: part.id,
    productId: part.productId,
    areaM2: part.areaM2,
  };
}

export const filmEntry = (
  jobId: string,
  kind: 'touch-dry' | 'closed',
  activityId: string,
  atMs: number,
  loggedMs: number,
): SiteLogEvent => ({ ...base(jobId, atMs, loggedMs), kind, activityId });

export const confirmEntry = (jobId: string, confirms: string, nowMs: number): SiteLogEvent => ({
  ...base(jobId, Math.round(nowMs), nowMs),
  kind: 'confirm',
  confirms,
});

export const dayEndedEntry = (
  jobId: string,
  date: string,
  went: DayEnded['went'],
  because: DayEnded['because'],
  nowMs: number,
): SiteLogEvent => ({
  ...base(jobId, Math.round(nowMs), nowMs),
  kind: 'day-ended',
  date,
  went,
  because,
});

export const undoEntry = (jobId: string, undoes: string, nowMs: number): SiteLogEvent => ({
  ...base(jobId, Math.round(nowMs), nowMs),
  kind: 'undo',
  undoes,
});
