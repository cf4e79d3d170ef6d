import type { DayOption as DayOptionAnswer, SearchState } from '../contract/index.ts';
import { type DayOption, type DaysFound, type Prepared, searchDays } from '../planner/index.ts';
import type { DayFound } from './present-days.ts';

export type Depth = DayOptionAnswer['searched'];

/** What a search has found: the days with their best so far, in order of date. */
export interface Searched extends Pick<DaysFound, 'ranked' | 'skipped'> {
  readonly days: readonly DayFound[];
  /** Days that are through. */
  readonly done: number;
  readonly running: boolean;
}

export interface SearchStep {
  readonly share: number;
  readonly words: string;
  /** Null where nothing has become better since the last step. */
  readonly better: Searched | null;
}

/** Runs the planner's search to a depth, telling of each day that has become better known. */
export function* searching(prepared: Prepared, _depth: Depth): Generator<SearchStep, Searched> {
  const search = searchDays(prepared);
  for (;;) {
    const next = search.next();
    if (next.done) {
      const { options, ranked, skipped } = next.value;
      const days = options.map((option: DayOption) => ({
        option,
        first: undefined,
        explained: undefined,
      }));
      return { days, ranked, skipped, done: days.length, running: false };
    }
    yield { ...next.value, better: null };
  }
}

export function stateOf({ days, done, running }: Searched, depth: Depth): SearchState {
  const of = days.length;
  const state = running ? 'running' : 'done';
  return { depth, state, daysDone: done, daysOf: of, words: searchWords(depth, running, done, of) };
}

function searchWords(depth: Depth, running: boolean, done: number, of: number): string {
  if (depth === 'quick') return 'First answer: one order of work and one bay size for every day.';
  if (!running) return 'Searched in full: starts, orders of work, bay sizes, people, knocking off.';
  if (done === 0) return 'First answer; every day is now looked at in full.';
  return `${done} of ${of} days looked at in full so far.`;
}
