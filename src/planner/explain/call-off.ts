import { clockText, localDayOf, longDayText, wallTimeMs } from '../../time/index.ts';
import { money } from '../../units/index.ts';
import { stepAt } from '../../weather/index.ts';
import { costOf, type DayOption } from '../day-option.ts';
import { forecastsWords } from '../forecast-words.ts';
import type { Costs } from '../types.ts';
import { decideByOthers } from './decide-by-others.ts';
import { pastCloseness } from './past-closeness.ts';

export type CallOffTime = 'now' | 'evening before' | 'on site' | 'go whatever';

/** One moment to decide at, and what comes of deciding then. */
export interface CallOffChoice {
  readonly when: CallOffTime;
  /** null = never looked at again. */
  readonly atMs: number | null;
  /** What calling off costs at that moment. */
  readonly callOffCost: number;
  /** Mean over the forecasts, of calling off where it is called off and of the day where it is not. */
  readonly expectedCost: number;
  /** Share of the forecasts in which it is called off then, 0..1. */
  readonly calledOffShare: number;
  /** Per forecast. */
  readonly calledOff: readonly boolean[];
}

export interface CallOff {
  /** In the order of time; a moment that is past is left out. */
  readonly choices: readonly CallOffChoice[];
  /** The cheapest. */
  readonly best: CallOffTime;
  readonly words: string;
  /** What the job is expected to cost yet where this day does not lay it. */
  readonly anotherDayCost: number;
}

/** Told by then, most of a crew can be put to other work in the morning (common practice). */
const EVENING: string = '17:00';
/** Share of an aborted day that calling off the evening before costs where the firm states no figure (common practice). */
const CALLED_OFF_SHARE = 0.4;

/** What calling a day off before it begins costs. */
export const calledOffCost = ({ calledOff, standDown }: Costs): number =>
  calledOff ?? CALLED_OFF_SHARE * standDown;

/**
 * When to decide about a day: later more is known, and calling off costs more. At each moment the crew
 * of each forecast knows its own weather up to then and, of what comes, only how the *other*
 * forecasts' days end, the closer their past day the more they count; it calls off where going is
 * then expected to cost more than calling off. A single forecast is taken at its word.
 *
 * A day that is called off or not finished leaves the job to another day, which has its own price: the
 * same evening is worth a try before a bad week and not before a good morning.
 * @param anotherDayCost  see `anotherDay`; 0 = only this day counts
 * @source cost-loss rule: A. H. Murphy, Monthly Weather Review 105 (1977), 803-816
 */
export function callOff(option: DayOption, anotherDayCost = 0): CallOff {
  const { plan, runs } = option;
  const { shift, prepared } = plan;
  const { costs } = prepared.job;
  const ofDay = runs.map((run) => costOf(plan, run));
  // What a smaller bay costs in further days comes with going, whatever the weather.
  const beside = Math.max(0, option.expectedCost - mean(ofDay));
  const going = ofDay.map(
    (cost, m) => cost + beside + (runs[m]!.kind === 'finished' ? 0 : anotherDayCost),
  );
  const choices = momentsOf(option).map(({ when, atMs }): CallOffChoice => {
    const callOffCost = atMs < shift.day.startMs ? calledOffCost(costs) : costs.standDown;
    const weights = pastCloseness(prepared.grid, stepAt(prepared.grid, atMs));
    return {
      when,
      atMs,
      callOffCost,
      ...decideByOthers(going, weights, callOffCost + anotherDayCost),
    };
  });
  const never: CallOffChoice = {
    when: 'go whatever',
    atMs: null,
    callOffCost: costs.standDown,
    expectedCost: mean(going),
    calledOffShare: 0,
    calledOff: going.map(() => false),
  };
  const all = [...choices, never];
  const best = cheapest(all);
  return { choices: all, best: best.when, words: wordsOf(option, all, best), anotherDayCost };
}

/**
 * What the job is expected to cost where it is not laid on a day: the cheapest later day of those found,
 * with the days waited for it. Beyond the forecast nothing is known: one day's wait at least.
 */
export function anotherDay(option: DayOption, options: readonly DayOption[]): number {
  const { waitPerDay } = option.plan.prepared.job.costs;
  const later = options.filter(
    (other) => other.day.startMs > option.day.startMs && other.verdict !== 'unknown',
  );
  const costs = later.map(
    (other) => other.expectedCost + waitPerDay * (other.leadDays - option.leadDays),
  );
  return costs.length === 0 ? waitPerDay : Math.min(...costs);
}

function momentsOf({ plan }: DayOption): { readonly when: CallOffTime; readonly atMs: number }[] {
  const { shift, prepared } = plan;
  const zone = prepared.job.site.timeZone;
  const eveningMs = wallTimeMs(localDayOf(shift.day.startMs - 1, zone), EVENING, zone);
  return [
    { when: 'now' as const, atMs: prepared.nowMs },
    { when: 'evening before' as const, atMs: eveningMs },
    { when: 'on site' as const, atMs: shift.startMs },
  ].filter(({ when, atMs }) => when === 'now' || atMs > prepared.nowMs);
}

/** Costs that a hair parts are equal. */
const NO_DIFFERENCE = 0.005;

/** Of equal costs: at once where nothing can change it, else when it is still cheap to think again. */
function cheapest(choices: readonly CallOffChoice[]): CallOffChoice {
  const least = Math.min(...choices.map(({ expectedCost }) => expectedCost));
  const equal = choices.filter(({ expectedCost }) => expectedCost <= least + NO_DIFFERENCE);
  const order: CallOffTime[] = ['evening before', 'on site', 'now', 'go whatever'];
  const settled = equal.find(({ when, calledOffShare }) => when === 'now' && calledOffShare === 1);
  return settled ?? order.flatMap((when) => equal.filter((choice) => choice.when === when))[0]!;
}

function wordsOf(
  { plan, runs }: DayOption,
  choices: readonly CallOffChoice[],
  { when, atMs, callOffCost, calledOffShare }: CallOffChoice,
): string {
  const { job, grid } = plan.prepared;
  const { currency, standDown } = job.costs;
  const zone = job.site.timeZone;
  const sum = (cost: number): string => money(cost, currency);
  const called = Math.round(calledOffShare * runs.length);
  const of = `${called} of ${forecastsWords(runs.length, grid.source.madeFromOne === true)}`;
  switch (when) {
    case 'now':
      return 2 * called > runs.length
        ? `Call it off now, for ${sum(callOffCost)}: waiting to know more is not expected to pay.`
        : 'As things stand it goes ahead; looking again later is not expected to pay.';
    case 'evening before': {
      const at = `at ${clockText(atMs!, zone)} on ${longDayText(atMs!, zone)}`;
      return called === 0
        ? `Nothing calls it off so far. Look again ${at}, while calling off costs ${sum(callOffCost)} and not ${sum(standDown)} as on the day.`
        : `Decide ${at}: in ${of} it is then called off, for ${sum(callOffCost)} and not ${sum(standDown)} as on the day.`;
    }
    case 'on site': {
      const at = `on site at ${clockText(atMs!, zone)}`;
      if (called === 0) return `Nothing calls it off so far. Look again ${at}.`;
      const known = choices.some((choice) => choice.when === 'evening before')
        ? ': what is known by then is worth more than calling off cheaper the evening before'
        : '';
      return `Decide ${at}${known}; in ${of} it is then called off, for ${sum(callOffCost)}.`;
    }
    case 'go whatever':
      return 'Go: calling it off, now or later, is expected to cost more than it saves.';
  }
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
