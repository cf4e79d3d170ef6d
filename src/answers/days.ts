import type { DaysAnswer } from '../contract/index.ts';
import {
  CAUTIONS,
  costLossThreshold,
  nextBay,
  type SearchProgress,
  searchDays,
  verdictSentence,
} from '../planner/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import type { ReadyJob } from './job.ts';
import { preparedFor } from './prepared.ts';
import { type DaysParts, presentDays, presentNoForecast } from './present-days.ts';

/**
 * 'Which day do we lay this roof?' A generator: drive it to the end for the answer, show its
 * progress, or drop it to stop.
 */
export function* answerDays(
  ready: ReadyJob,
  hourly: HourlyWeather,
  nowMs: number,
): Generator<SearchProgress, DaysAnswer> {
  yield { share: 0, words: 'working out the weather on the roof' };
  const prepared = preparedFor(ready, hourly, nowMs);
  const found = yield* searchDays(prepared);
  if (found.options.length === 0 && found.skipped.length === 0) {
    return presentNoForecast(
      parts(ready, nowMs),
      'No current forecast: the one at hand ended before now. No chance can be given.',
    );
  }
  return presentDays(parts(ready, nowMs), prepared, found, verdictSentence);
}

/** The same question without weather: no days, no chances, and why. */
export function answerWithoutForecast(ready: ReadyJob, nowMs: number, why: string): DaysAnswer {
  return presentNoForecast(parts(ready, nowMs), why);
}

function parts(ready: ReadyJob, nowMs: number): DaysParts {
  return {
    job: ready.job,
    nowMs,
    bay: nextBay(ready.job, ready.products),
    threshold: costLossThreshold(ready.job.costs),
    cautions: [...CAUTIONS, ...(ready.notes ?? [])],
  };
}

/** Runs a generator to its end in one go. */
export function runThrough<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}
