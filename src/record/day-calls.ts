import type { PastCall, SiteEvent } from '../planner/index.ts';
import { effectiveLog } from './effective-log.ts';

/** What one answer said of one laying day of a job. Kept as it was said; never altered. */
export interface DayCall {
  readonly jobId: string;
  /** Day called, local to the site. */
  readonly date: string;
  readonly saidMs: number;
  /** From then to the start of the crew's day; below 0 where that day had begun. */
  readonly leadDays: number;
  /** Laying day of the job, 1 = the first. */
  readonly bay: number;
  readonly verdict: 'go' | 'doubtful' | 'no';
  /** null = no start led anywhere. */
  readonly startMs: number | null;
  /** Forecasts in which the day's work finished, of those that reached its end; `of` at least 2. */
  readonly count: number;
  readonly of: number;
  /** The chance before the firm's own record had its say, inside 0..1. */
  readonly shrunk: number;
  /** The chance as shown, inside 0..1, and in words. */
  readonly shown: number;
  readonly words: string;
  /** Issue time of the forecast; null = the service names none. */
  readonly issuedMs: number | null;
  /** Issue time, or where it is not known when the forecast was fetched: one forecast, one call of a day. */
  readonly forecastMs: number;
  readonly model: string | null;
  /** Its forecasts were made from a single one. */
  readonly made: boolean;
}

export type DayEnded = Extract<SiteEvent, { kind: 'day-ended' }>;

/** How each day went by the entries that stand; of several for a date the one written down last. */
export function dayEnds(events: readonly SiteEvent[]): ReadonlyMap<string, DayEnded> {
  const ends = new Map<string, DayEnded>();
  for (const event of effectiveLog(events)) {
    if (event.kind !== 'day-ended') continue;
    const before = ends.get(event.date);
    if (before === undefined || event.loggedMs >= before.loggedMs) ends.set(event.date, event);
  }
  return ends;
}

/**
 * What a day says of the chance it was called with; null = nothing. A day called off on the forecast
 * alone has no outcome: nobody saw whether it would have finished, and counting it as failed would let
 * a low chance prove itself right. Nor has one that something other than the weather cut short.
 */
export function outcomeOfDay({ went, because }: DayEnded): 'finished' | 'not finished' | null {
  if (went === 'finished') return 'finished';
  if (went === 'caught-open' || because === 'weather') return 'not finished';
  return null;
}

/** Days ahead from which a class of calls begins, counted from the start of the crew's day. */
export const LEAD_CLASSES = [
  { fromDays: 0, words: 'within a day of it' },
  { fromDays: 1, words: '1 day ahead' },
  { fromDays: 2, words: '2 days ahead' },
  { fromDays: 3, words: '3 or 4 days ahead' },
  { fromDays: 5, words: '5 to 7 days ahead' },
  { fromDays: 8, words: '8 days ahead or more' },
] as const;

/** Index into `LEAD_CLASSES`. @param leadDays  0 or more */
export function leadClassOf(leadDays: number): number {
  if (!(leadDays >= 0)) throw new RangeError(`leadDays (${leadDays}) must be 0 or more`);
  return LEAD_CLASSES.findLastIndex(({ fromDays }) => leadDays >= fromDays);
}

/**
 * The calls that count for a day: of each lead class the last one said, so that ten answers on one
 * morning are one. What was said once the crew's day had begun is of another plan than the day's, and
 * what was said after it ended is no call at all.
 * @param calls   of one job and date
 * @param ended   null = not known
 * @returns by lead class, the nearest first
 */
export function countingCalls(calls: readonly DayCall[], ended: DayEnded | null): DayCall[] {
  const last = new Map<number, DayCall>();
  for (const call of calls) {
    if (call.leadDays < 0 || (ended !== null && call.saidMs >= ended.atMs)) continue;
    const lead = leadClassOf(call.leadDays);
    const before = last.get(lead);
    if (before === undefined || call.saidMs >= before.saidMs) last.set(lead, call);
  }
  return [...last].sort(([a], [b]) => a - b).map(([, call]) => call);
}

/** A day of a job with all that was said of it and how it went. */
export interface CalledDay {
  readonly jobId: string;
  readonly date: string;
  /** See `countingCalls`; may be empty. */
  readonly calls: readonly DayCall[];
  readonly ended: DayEnded | null;
}

/** Pairs a job's calls with what its site log says of the days; days without a call are left out. */
export function calledDays(
  jobId: string,
  calls: readonly DayCall[],
  events: readonly SiteEvent[],
): CalledDay[] {
  const ends = dayEnds(events);
  const byDate = new Map<string, DayCall[]>();
  for (const call of calls) {
    if (call.jobId !== jobId) continue;
    byDate.set(call.date, [...(byDate.get(call.date) ?? []), call]);
  }
  return [...byDate]
    .map(([date, of]) => {
      const ended = ends.get(date) ?? null;
      return { jobId, date, calls: countingCalls(of, ended), ended };
    })
    .sort((a, b) => a.date.localeCompare(b.date));
}

/** The same as cases for the firm's own record. */
export function pastCalls(days: readonly CalledDay[]): PastCall[] {
  return days.flatMap(({ jobId, date, calls, ended }) =>
    calls.map((call) => ({
      jobId,
      day: date,
      issuedMs: call.forecastMs,
      k: call.count,
      of: call.of,
      shrunk: call.shrunk,
      shown: call.shown,
      outcome: ended === null ? null : outcomeOfDay(ended),
    })),
  );
}

/** Why a day is no case; null = it is one. */
export function whyNoCase({ calls, ended }: CalledDay): string | null {
  if (ended === null) return 'nobody has said how the day went';
  if (ended.because === 'forecast')
    return 'called off on the forecast: nobody saw whether it would have finished';
  if (outcomeOfDay(ended) === null) return 'it was not the weather';
  return calls.length === 0 ? 'called only once the crew’s day had begun' : null;
}
