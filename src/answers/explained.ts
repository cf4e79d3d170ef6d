import type {
  CallOff,
  CostingLimit,
  DayOption,
  SafeStart,
  Turn,
  WholeJob,
} from '../contract/index.ts';
import {
  callOff,
  costingLimit,
  costingWords,
  type DayOption as Found,
  type Prepared,
  safeStartsOf,
  turnsOf,
  wholeJob,
} from '../planner/index.ts';
import type { Product } from '../products/index.ts';
import { presentChance } from './present-chance.ts';

/** What stands behind a day's line, in the contract's words. */
export interface Explained {
  readonly wholeJob: WholeJob | null;
  readonly limit: CostingLimit | null;
  readonly turns: readonly Turn[];
  readonly callOff: CallOff | null;
  readonly tooEarly: DayOption['tooEarly'];
  readonly safeStarts: readonly SafeStart[];
}

export const NOT_EXPLAINED: Explained = {
  wholeJob: null,
  limit: null,
  turns: [],
  callOff: null,
  tooEarly: null,
  safeStarts: [],
};

/**
 * Works out what stands behind a day, piece by piece: in between, a caller may stop.
 * @param among  all days found, for the whole job; null = only this day was looked at
 * @param shelf  products at hand that might be laid instead
 */
export function* explaining(
  option: Found,
  among: { readonly prepared: Prepared; readonly options: readonly Found[] } | null,
  shelf: readonly Product[],
): Generator<void, Explained> {
  const limit = costingLimit(option);
  yield;
  const turns = turnsOf(option, shelf);
  yield;
  const job = among === null ? null : wholeJob(among.prepared, among.options, option.day);
  yield;
  const { choices, best, words } = callOff(option);
  return {
    wholeJob:
      job === null
        ? null
        : {
            layingDays: job.layingDays,
            count: job.count,
            of: job.of,
            chance: job.chance === null ? null : presentChance(job.chance),
            words: job.words,
          },
    limit:
      limit === null
        ? null
        : {
            ...limit,
            words: costingWords(limit),
            without: limit.without === null ? null : presentChance(limit.without),
          },
    turns: turns.map(({ kind, words, startMs, chance, expectedCost, gainCost }) => ({
      kind,
      words,
      startMs,
      chance: presentChance(chance),
      expectedCost: Math.round(expectedCost),
      gainCost: Math.round(gainCost),
    })),
    callOff: {
      choices: choices.map((choice) => ({
        when: choice.when,
        atMs: choice.atMs,
        callOffCost: Math.round(choice.callOffCost),
        expectedCost: Math.round(choice.expectedCost),
        calledOffShare: choice.calledOffShare,
      })),
      best,
      words,
    },
    tooEarly: null,
    safeStarts: safeStartsOf(option).map(({ words, lastMs }) => ({ words, lastMs })),
  };
}
