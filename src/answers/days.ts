import type { DaysAnswer, Tried } from '../contract/index.ts';
import { CAUTIONS, neverFits, nextBay } from '../planner/index.ts';
import type { Product } from '../products/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import type { ReadyJob } from './job.ts';
import { preparedFor } from './prepared.ts';
import { type DaysParts, presentDays, presentNoForecast } from './present-days.ts';
import { type Depth, type Searched, searching, stateOf } from './searching.ts';
import { costsOf, onTried } from './tried.ts';

export interface DaysOptions {
  /** 'full' where left out: every start, order, bay and gang; 'quick' the first answer only. */
  readonly depth?: Depth;
  /** Checked with `triedIssues`. */
  readonly tried?: Tried;
  /** Products at hand, for what would turn a day. */
  readonly shelf?: readonly Product[];
}

/** How far it is, and the best answer so far once there is one. */
export interface DaysProgress {
  readonly share: number;
  readonly words: string;
  readonly soFar?: DaysAnswer;
}

/**
 * 'Which day do we lay this roof?' A generator: drive it to the end for the answer, show its progress,
 * or drop it and keep the best so far (see `asStopped`).
 */
export function* answerDays(
  ready: ReadyJob,
  hourly: HourlyWeather,
  nowMs: number,
  { depth = 'full', tried = {}, shelf = [] }: DaysOptions = {},
): Generator<DaysProgress, DaysAnswer> {
  yield { share: 0, words: 'working out the weather on the roof' };
  const prepared = onTried(preparedFor(ready, hourly, nowMs), tried);
  const shown = (searched: Searched): DaysAnswer => {
    const parts = { ...partsOf(ready, nowMs, tried), search: stateOf(searched, depth) };
    if (searched.days.length === 0 && searched.skipped.length === 0) {
      return presentNoForecast(
        parts,
        'No current forecast: the one at hand ended before now. No chance can be given.',
      );
    }
    return presentDays(parts, prepared, searched);
  };
  // What is on the job already is this roof's own, with what was learned of it.
  const atHand = shelf.map((product) => prepared.productById.get(product.id) ?? product);
  const search = searching({ prepared, ready, hourly, depth, shelf: atHand });
  for (;;) {
    const next = search.next();
    if (next.done) {
      const options = next.value.days.map(({ option }) => option);
      // At first sight only one bay size was looked at: that nothing fits cannot be said yet.
      const fit = depth === 'full' ? neverFits(prepared, { options }, atHand) : null;
      return { ...shown(next.value), neverFits: fit };
    }
    const { share, words, better } = next.value;
    yield { share, words, ...(better === null ? {} : { soFar: shown(better) }) };
  }
}

/** The same question without weather: no days, no chances, and why. */
export function answerWithoutForecast(
  ready: ReadyJob,
  nowMs: number,
  why: string,
  tried: Tried = {},
): DaysAnswer {
  return presentNoForecast(partsOf(ready, nowMs, tried), why);
}

/** The best so far of a search that was stopped: it says that it is. */
export function asStopped(soFar: DaysAnswer): DaysAnswer {
  const { search } = soFar;
  if (search.state !== 'running') return soFar;
  const { daysDone, daysOf } = search;
  const reached =
    daysDone === 0
      ? 'this is the first answer, one order of work and bay size'
      : daysDone === daysOf
        ? 'every day was looked at in full, but not all that stands behind each was worked out'
        : `${daysDone} of ${daysOf} days were looked at in full, the others at first sight`;
  return {
    ...soFar,
    search: { ...search, state: 'stopped', words: `Stopped early: ${reached}.` },
  };
}

function partsOf(ready: ReadyJob, nowMs: number, tried: Tried): DaysParts {
  const { job, products } = ready;
  const asked = {
    ...job,
    costs: costsOf(job, tried),
    bayAreaM2: tried.bay ?? job.bayAreaM2,
  };
  return {
    job: asked,
    nowMs,
    bay: nextBay(tried.bay === undefined ? job : asked, products),
    ownCosts: job.costs,
    tried,
    cautions: [...CAUTIONS, ...(ready.notes ?? [])],
    search: { depth: 'full', state: 'done', daysDone: 0, daysOf: 0, words: '' },
  };
}
