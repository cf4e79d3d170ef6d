import type { FoundWork } from './day-run.ts';

/** Where a day's work stands at a moment, as told by a person or by the site log. */
export interface WorkState {
  /** Tasks done; by name, see `findTasks`. `atMs` null = not said when. */
  readonly done: readonly { readonly name: string; readonly atMs: number | null }[];
  /** Films coated today, closed since or not; first and last square metre, null = as long as listed. */
  readonly coated: readonly {
    readonly name: string;
    readonly firstMs: number;
    readonly lastMs: number | null;
    /** When a finger found it touch dry; null = not yet, or not said. */
    readonly touchDryMs: number | null;
  }[];
  /** Begun and not yet done, beside a film being coated. */
  readonly inHand: { readonly name: string; readonly startMs: number } | null;
  /** Last thunder; null = none heard. */
  readonly thunderMs: number | null;
  /** Minutes until rain, by the foreman's eye; null = not said. */
  readonly rainInMin: number | null;
  /** True = what a named task waits for counts as done, whether or not it is named (a site log). */
  readonly implies: boolean;
}

export const NOTHING_DONE: WorkState = {
  done: [],
  coated: [],
  inHand: null,
  thunderMs: null,
  rainInMin: null,
  implies: false,
};

export interface StateIssue {
  readonly about: 'done' | 'coated' | 'in-hand' | 'thunder-at' | 'rain-in';
  readonly message: string;
}

export type StateSettled =
  | { readonly ok: true; readonly found: FoundWork; readonly notes: readonly string[] }
  | { readonly ok: false; readonly issues: readonly StateIssue[] };

/** Nobody sees rain further off than this [min]. */
export const LONGEST_RAIN_IN_MIN = 720;
