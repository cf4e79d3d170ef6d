import type { DayOption as DayOptionAnswer, Lay } from '../contract/index.ts';
import {
  chanceWords,
  type DayOption,
  type DaySkip,
  median,
  quantile,
  type Reason,
  verdictSentence,
} from '../planner/index.ts';
import { longDayText } from '../time/index.ts';
import { MS_PER_MINUTE, money } from '../units/index.ts';
import { askedFor } from './asked-bay.ts';
import { type Explained, NOT_EXPLAINED } from './explained.ts';
import { presentChance } from './present-chance.ts';
import { dayValue } from './value-words.ts';

/** One laying day as it crosses the wire. Sentences are the planner's own where it has them. */

/** Most reasons told. */
const REASONS_TOLD = 3;

export interface OptionParts {
  readonly rank: number | null;
  /** The bay to lay next as the job's own split has it. */
  readonly split: Lay['bay'];
  readonly explained?: Explained | undefined;
  /** The same day as the first answer had it, laid by the job's own split. */
  readonly first?: DayOption | undefined;
}

export function presentOption(
  option: DayOption,
  { rank, split, explained = NOT_EXPLAINED, first }: OptionParts,
): DayOptionAnswer {
  const finished = option.runs.filter((run) => run.kind === 'finished');
  const { confidence } = option.plan.prepared.job;
  const early = explained.tooEarly;
  return {
    date: option.day.date,
    verdict: early === null ? option.verdict : 'unknown',
    sentence: early === null ? verdictSentence(option) : earlySentence(option, early),
    startMs: option.startMs,
    finishMs: option.finishMs,
    rainSafeByMs: option.rainSafeByMs,
    lastAdhesiveMs: option.lastAdhesiveMs,
    openFromMs: median(finished.flatMap(({ openedMs }) => openedMs ?? [])),
    openMin: quantile(
      finished.flatMap(({ openedMs, rainSafeMs }) =>
        openedMs === null || rainSafeMs === null
          ? []
          : [Math.round((rainSafeMs - openedMs) / MS_PER_MINUTE)],
      ),
      confidence,
    ),
    chance: presentChance(option.chance),
    outcomes: { ...option.outcomes },
    expectedCost: Math.round(option.expectedCost),
    value: dayValue(option),
    way: presentWay(option, split, first),
    wholeJob: explained.wholeJob,
    reasons: option.reasons.slice(0, REASONS_TOLD).map(presentReason),
    limit: explained.limit,
    turns: [...explained.turns],
    callOff: explained.callOff,
    tooEarly: early,
    safeStarts: [...explained.safeStarts],
    safeStartsNote: explained.safeStartsNote,
    searched: option.searched,
    rank,
  };
}

function earlySentence(
  { day, plan }: DayOption,
  { low, high }: { readonly low: number; readonly high: number },
): string {
  const name = longDayText(day.startMs, plan.prepared.job.site.timeZone);
  return `Too early to call for ${name}: the hours the rain falls in move the chance from ${chanceWords(low).words} to ${chanceWords(high).words}.`;
}

function presentReason(reason: Reason): DayOptionAnswer['reasons'][number] {
  const { cause, ...rest } = reason;
  return { rule: cause, ...rest };
}

const ORDER_WORDS: Readonly<Record<DayOption['way']['order'], string | null>> = {
  'as listed': null,
  'for a middling forecast': 'the quickest to rain-safe in a middling forecast',
  'for slow drying': 'the quickest to rain-safe where films dry slowly',
};

function presentWay(option: DayOption, split: Lay['bay'], first: DayOption | undefined): Lay {
  const { plan, way } = option;
  const { bay } = plan.work;
  const smaller = bay.of > split.of;
  return {
    bay: { ...bay },
    askBayM2: smaller ? askedFor(way.bayAreaM2) : null,
    order: ORDER_WORDS[way.order],
    people: way.people,
    offMs: way.offMs,
    smallerBay: smaller ? smallerBayWords(option, split, first) : null,
  };
}

function smallerBayWords(
  { plan, chance, expectedCost }: DayOption,
  split: Lay['bay'],
  first: DayOption | undefined,
): string {
  const { bay } = plan.work;
  const { currency } = plan.prepared.job.costs;
  const more = bay.of - split.of;
  const days = more === 1 ? 'one more laying day' : `${more} more laying days`;
  const rather = split.of === 1 ? 'one' : String(split.of);
  const sizes = `In ${bay.of} bays of ${Math.round(bay.areaM2)} m² rather than ${rather} of ${Math.round(split.areaM2)} m²: ${days}`;
  if (first === undefined) return `${sizes}.`;
  if (first.chance.words !== chance.words)
    return `${sizes}, but ${chance.words} instead of ${first.chance.words}.`;
  return `${sizes}, counted in; the day is expected to cost ${money(expectedCost, currency)} rather than ${money(first.expectedCost, currency)}.`;
}

/** A day that is not offered still says why. */
export function presentSkip(skip: DaySkip): DayOptionAnswer {
  return {
    date: skip.day.date,
    verdict: 'no',
    sentence: SKIP_WORDS[skip.why],
    startMs: null,
    finishMs: null,
    rainSafeByMs: null,
    lastAdhesiveMs: null,
    openFromMs: null,
    openMin: null,
    chance: null,
    outcomes: { finished: 0, shortened: 0, stoodDown: 0, caughtOpen: 0, unknown: 0 },
    expectedCost: null,
    value: null,
    way: null,
    wholeJob: null,
    reasons: [],
    limit: null,
    turns: [],
    callOff: null,
    tooEarly: null,
    safeStarts: [],
    safeStartsNote: null,
    searched: 'quick',
    rank: null,
  };
}

const SKIP_WORDS: Readonly<Record<DaySkip['why'], string>> = {
  'not a working day': 'Not a working day for this crew.',
  'too early': 'Before the earliest date of this job.',
  'too late': 'After the latest date of this job.',
  'too short': 'Not enough of the working day left to open up and be rain-safe.',
};
