import type { RuleId } from '../stages/index.ts';

export type OutcomeKind = 'finished' | 'shortened' | 'stoodDown' | 'caughtOpen' | 'unknown';

/** What decided a day: a rule of the weather, or the clock. */
export type Cause = RuleId | 'day-end' | 'open-time' | 'forecast-ends';

/** How one day went in one member. */
export interface DayRun {
  readonly kind: OutcomeKind;
  /** What decided it where it did not finish, and when; else null. */
  readonly cause: Cause | null;
  readonly causeMs: number | null;
  readonly openedMs: number | null;
  readonly rainSafeMs: number | null;
  readonly endMs: number;
  readonly idleMs: number;
  /** Per activity, NaN where it was not reached. */
  readonly startMs: Float64Array;
  readonly doneMs: Float64Array;
  /** Films that went past their open time and were scraped off and coated again. */
  readonly redone: number;
  /** False where nothing was coated: opened, perhaps, and closed up again for nothing. */
  readonly laid: boolean;
  /** When breaks were begun. */
  readonly breakMs: readonly number[];
}

export interface RunFrom {
  readonly startMs: number;
  /** First activity still to do; all before it count as done (for last safe starts). */
  readonly fromIndex?: number;
  /** Stop as soon as the roof is rain-safe: nothing after it is asked about. */
  readonly untilRainSafe?: boolean;
}
