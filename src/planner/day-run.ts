import type { RuleId } from '../stages/index.ts';
import type { Step } from './day-plan.ts';

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
  /** What the crew finds on the roof at `startMs`; nothing where left out. */
  readonly found?: FoundWork;
  /** How it goes on from there; as listed where left out. */
  readonly way?: WayOn;
}

/** Work already done, as indices into a plan's steps. */
export interface FoundWork {
  /** Begun and done when [epoch ms]; `startMs` NaN = not known. A coating comes before its closing. */
  readonly done: readonly {
    readonly n: number;
    readonly startMs: number;
    readonly doneMs: number;
  }[];
  /** Coatings found touch dry by finger, and when. */
  readonly touchDry: readonly { readonly n: number; readonly atMs: number }[];
  /** Begun and not yet done. */
  readonly inHand: { readonly n: number; readonly startMs: number } | null;
}

/** What a crew keeps to from a moment on. Times that do not apply are infinite. */
export interface WayOn {
  /** May this task be begun at all? */
  readonly begins: (step: Step) => boolean;
  /** Until then only what lies open is closed. */
  readonly waitUntilMs: number;
  /** Closes up once nothing on this way is left to do; else it is waited for until the day is over. */
  readonly closesUp: boolean;
  /** Nobody is on the roof before this. */
  readonly offRoofUntilMs: number;
  /** All that lies open is closed by then, and the rain somebody sees coming. */
  readonly closedByMs: number;
  readonly rainMs: number;
  /** Nothing is opened that could not be closed up again by then; past it, it has no say. */
  readonly openByMs: number;
  readonly shares: CloseUpShares;
}

/** What closing up from any moment takes [ms], as sums over what is not yet done; see `closeUpShares`. */
export interface CloseUpShares {
  /** Per step: closing what its not being done leaves open. */
  readonly openMs: Float64Array;
  /** Per coating: closing its film, or covering it. */
  readonly filmMs: Float64Array;
  /** Once anything has been opened. */
  readonly alwaysMs: number;
}
