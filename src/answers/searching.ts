import type { DayOption as DayOptionAnswer, SearchState } from '../contract/index.ts';
import { type DayOption, type DaysFound, type Prepared, searchDays } from '../planner/index.ts';
import type { Product } from '../products/index.ts';
import { longDayText } from '../time/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import { type Explained, explaining } from './explained.ts';
import type { ReadyJob } from './job.ts';
import type { DayFound } from './present-days.ts';
import { tooEarlyDays } from './rain-hours.ts';

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

export interface SearchArgs {
  readonly prepared: Prepared;
  readonly ready: ReadyJob;
  readonly hourly: HourlyWeather;
  readonly depth: Depth;
  readonly shelf: readonly Product[];
}

/** Of the whole, before what stands behind the days is worked out. */
const FINDING_SHARE = 0.6;

/** Runs the planner's search to a depth, telling of each day that has become better known. */
export function* searching(args: SearchArgs): Generator<SearchStep, Searched> {
  const { prepared, depth } = args;
  const zone = prepared.job.site.timeZone;
  const seen = new Watched();
  const search = searchDays(prepared, depth);
  let found: DaysFound;
  for (;;) {
    const next = search.next();
    if (next.done) {
      found = next.value;
      break;
    }
    const { share, words, allSeen, found: soFar } = next.value;
    const better = allSeen ? seen.better(soFar) : null;
    yield { share: FINDING_SHARE * share, words, better };
  }
  const behind = new Map<DayOption, Explained>();
  const shown = (running: boolean): Searched => seen.shown(found, running, behind);
  if (depth === 'quick') return shown(false);
  const bestFirst = [...found.ranked, ...found.options.filter((o) => !found.ranked.includes(o))];
  const among = { prepared, options: found.options };
  for (const [n, option] of bestFirst.entries()) {
    const share = FINDING_SHARE + (1 - FINDING_SHARE) * (n / (bestFirst.length + 1));
    const words = `what stands behind ${longDayText(option.day.startMs, zone)}`;
    const pieces = explaining(option, among, args.shelf);
    let next = pieces.next();
    yield { share, words, better: shown(true) };
    for (; !next.done; next = pieces.next()) yield { share, words, better: null };
    behind.set(option, next.value);
  }
  if (found.options.length > 0) {
    const step = { share: 1, words: 'how much hangs on the hours the rain falls in' };
    yield { ...step, better: shown(true) };
    const drawing = tooEarlyDays(args.ready, args.hourly, prepared.nowMs, found.options);
    let next = drawing.next();
    for (; !next.done; next = drawing.next()) yield { ...step, better: null };
    const early = next.value;
    found.options.forEach((option, n) => {
      behind.set(option, { ...behind.get(option)!, tooEarly: early[n] ?? null });
    });
  }
  return shown(false);
}

/** Knows what was shown last, so that nothing is shown twice, and what each day was at first sight. */
class Watched {
  readonly #first = new Map<string, DayOption>();
  #last: readonly DayOption[] = [];

  better(found: DaysFound): Searched | null {
    const { options } = found;
    for (const option of options) {
      const { date } = option.day;
      if (!this.#first.has(date)) this.#first.set(date, option);
    }
    const isNew = options.some((option) => !this.#last.includes(option));
    this.#last = options;
    return isNew ? this.shown(found, true, new Map()) : null;
  }

  shown(
    { options, ranked, skipped }: DaysFound,
    running: boolean,
    behind: ReadonlyMap<DayOption, Explained>,
  ): Searched {
    return {
      days: options.map((option) => ({
        option,
        first: this.#first.get(option.day.date),
        explained: behind.get(option),
      })),
      ranked,
      skipped,
      done: options.filter(({ searched }) => searched === 'full').length,
      running,
    };
  }
}

export function stateOf({ days, done, running }: Searched, depth: Depth): SearchState {
  const of = days.length;
  const state = running ? 'running' : 'done';
  const daysDone = running ? done : depth === 'full' ? of : 0;
  return { depth, state, daysDone, daysOf: of, words: searchWords(depth, running, done, of) };
}

function searchWords(depth: Depth, running: boolean, done: number, of: number): string {
  if (depth === 'quick') return 'First answer: one order of work and one bay size for every day.';
  if (!running) return 'Searched in full: starts, orders of work, bay sizes, people, knocking off.';
  if (done === 0) return 'First answer; every day is now looked at in full.';
  return `${done} of ${of} days looked at in full so far.`;
}
