import type {
  CallOff,
  CostingLimit,
  DayOption,
  SafeStart,
  Turn,
  WholeJob,
} from '../contract/index.ts';
import {
  anotherDay,
  callOff,
  costingLimit,
  costingWords,
  type DayOption as Found,
  type Prepared,
  safeStartsNote,
  safeStartsOf,
  turnsOf,
  wholeJob,
} from '../planner/index.ts';
import type { Product } from '../products/index.ts';
import { askedFor } from './asked-bay.ts';
import { presentChance } from './present-chance.ts';

/** What stands behind a day's line, in the contract's words. */
export interface Explained {
  readonly wholeJob: WholeJob | null;
  readonly limit: CostingLimit | null;
  readonly turns: readonly Turn[];
  readonly callOff: CallOff | null;
  readonly tooEarly: DayOption['tooEarly'];
  readonly safeStarts: readonly SafeStart[];
  readonly safeStartsNote: string | null;
}

export const NOT_EXPLAINED: Explained = {
  wholeJob: null,
  limit: null,
  turns: [],
  callOff: null,
  tooEarly: null,
  safeStarts: [],
  safeStartsNote: null,
};

/**
 * Works out what stands behind a day, piece by piece: in between, a caller may stop.
 * @param among  all days found, for the whole job and for what else might be done; null = only this day was
 *   looked at, and neither can be said
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
  const pieces = safeStartsOf(option);
  const call = among === null ? null : callOff(option, anotherDay(option, among.options));
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
            finishedWithout: limit.without === null ? null : limit.finishedWithout,
            without: limit.without === null ? null : presentChance(limit.without),
          },
    turns: turns.map(({ kind, words, startMs, chance, expectedCost, gainCost, change }) => ({
      kind,
      words,
      startMs,
      askBayM2:
        kind === 'smaller bay' && change.bayAreaM2 !== undefined
          ? askedFor(change.bayAreaM2)
          : null,
      chance: presentChance(chance),
      expectedCost: Math.round(expectedCost),
      gainCost: Math.round(gainCost),
    })),
    callOff: call === null ? null : presentCallOff(call),
    tooEarly: null,
    safeStarts: pieces.map(({ words, lastMs }) => ({ words, lastMs })),
    safeStartsNote: safeStartsNote(pieces),
  };
}

function presentCallOff({ choices, best, words }: ReturnType<typeof callOff>): CallOff {
  return {
    choices: choices.map((choice) => ({
      when: choice.when,
      atMs: choice.atMs,
      callOffCost: Math.round(choice.callOffCost),
      expectedCost: Math.round(choice.expectedCost),
      calledOffShare: choice.calledOffShare,
    })),
    best,
    words,
  };
}
