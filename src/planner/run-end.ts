import { nightAfter } from './cold-after.ts';
import type { DayBook } from './day-book.ts';
import type { DayPlan } from './day-plan.ts';
import type { Cause, DayRun, OutcomeKind } from './day-run.ts';

/** How a run ended, as the simulation saw it. */
export interface RunEnd {
  readonly kind: OutcomeKind;
  readonly cause: Cause | null;
  readonly causeMs: number | null;
  readonly endMs: number;
  readonly idleMs: number;
  readonly redone: number;
  readonly breakMs: readonly number[];
}

/** What came of a day in member `m`: as it ended, unless its night or the end of its forecast says otherwise. */
export function runOf(
  plan: DayPlan,
  m: number,
  book: DayBook,
  knownEndMs: number,
  end: RunEnd,
): DayRun {
  const { kind, endMs } = end;
  // Of a day cut short the films that went down are asked too: unknown is not a cheaper way to end.
  const night =
    kind === 'finished' || kind === 'shortened' ? nightAfter(plan, m, book.doneMs) : null;
  const ends = kind === 'unknown' || endMs > knownEndMs || night?.kind === 'unknown';
  const doubtful = !ends && night !== null && kind === 'finished';
  const rainSafeMs = book.rainSafeMs();
  return {
    kind: ends ? 'unknown' : doubtful ? 'shortened' : kind,
    cause: ends ? 'forecast-ends' : doubtful ? 'cold-night' : end.cause,
    causeMs: ends ? knownEndMs : doubtful ? night.coatedMs : end.causeMs,
    openedMs: book.openedMs,
    // What the forecast does not reach is not known to be dry.
    rainSafeMs: rainSafeMs !== null && rainSafeMs <= knownEndMs ? rainSafeMs : null,
    endMs,
    idleMs: end.idleMs,
    startMs: book.startMs,
    doneMs: book.doneMs,
    redone: end.redone,
    laid: book.laid,
    breakMs: end.breakMs,
  };
}
