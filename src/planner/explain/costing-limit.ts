import type { RuleId } from '../../stages/index.ts';
import { MS_PER_MINUTE } from '../../units/index.ts';
import { type AdjustedChance, adjustChance } from '../chance.ts';
import { chooseStart } from '../choose-start.ts';
import type { DayOption } from '../day-option.ts';
import type { DayPlan } from '../day-plan.ts';
import type { OutcomeKind } from '../day-run.ts';
import type { Rule, Whose } from '../rules/index.ts';
import { simulateDay } from '../simulate.ts';
import { startsOver } from './starts.ts';
import { ownerOnDay, rulesInTheWay } from './whose-limit.ts';
import { withoutRules } from './without-rule.ts';

/** The one limit that costs a day most. */
export interface CostingLimit {
  readonly rule: RuleId;
  /** What the crew is held up by, as the end of 'held up by ...'. */
  readonly words: string;
  readonly whose: Whose;
  /** Forecasts that would finish if it were not there. */
  readonly finishedWithout: number;
  /** Only where it is the firm's own and nobody else's: no sheet, law, water or safety is argued away. */
  readonly without: AdjustedChance | null;
}

/** Where no start leads anywhere, so many are tried without each limit. */
const START_EVERY_MS = 120 * MS_PER_MINUTE;
/** Limits are compared on each n-th forecast before the best two are asked of all. */
const SCREEN_EVERY = 3;
const SCREENED = 2;

/** Rules lifted together, and the one that stands for them. */
interface Lift {
  readonly rule: Rule;
  readonly ids: readonly RuleId[];
}

/**
 * Runs the day once more without each limit that stood in somebody's way, one at a time, and names the
 * one without which most more forecasts would finish. Rain counts with the rain on open work, and
 * where neither alone would help, with what it leaves wet.
 * @returns null where every forecast finishes, or where no limit alone would make one more finish
 */
export function costingLimit(option: DayOption): CostingLimit | null {
  const { plan, runs } = option;
  const failed = runs.flatMap((run, m) =>
    run.kind === 'finished' || run.kind === 'unknown' ? [] : [m],
  );
  if (failed.length === 0) return null;
  const rules = rulesInTheWay(plan, runs, failed);
  const single = rules.map((rule): Lift => ({ rule, ids: [rule.id] }));
  return helping(option, failed, single) ?? helping(option, failed, wetTogether(rules));
}

function wetTogether(rules: readonly Rule[]): Lift[] {
  const rain = rules.find(({ id }) => id === 'rain');
  return rain === undefined
    ? []
    : [{ rule: { ...rain, words: 'rain and what it leaves wet' }, ids: ['rain', 'deck-dry'] }];
}

/** The day without a limit. */
interface Free {
  readonly rule: Rule;
  readonly plan: DayPlan;
}

interface Tried {
  readonly rule: Rule;
  /** How each start goes in each forecast without the limit. */
  readonly kinds: readonly (readonly OutcomeKind[])[];
  /** Forecasts that finish from the best of the starts. */
  readonly finished: number;
}

function helping(
  option: DayOption,
  failed: readonly number[],
  lifts: readonly Lift[],
): CostingLimit | null {
  const { plan, startMs } = option;
  const starts = startMs === null ? startsOver(plan, START_EVERY_MS) : [startMs];
  if (starts.length === 0) return null;
  const everybody = option.runs.map((_, m) => m);
  // The cheapest start may lead nowhere and another somewhere, at a price: like is compared with like.
  const asIs =
    startMs === null
      ? Math.max(...kindsOf(plan, starts, everybody).map(finishedIn))
      : option.outcomes.finished;
  const free = lifts.map(({ rule, ids }): Free => {
    const list = startMs === null ? 'sized anew' : 'same';
    return { rule, plan: withoutRules(plan, ids, list) };
  });
  const tried = likeliest(free, starts, failed).map(({ rule, plan: freed }): Tried => {
    const kinds = kindsOf(freed, starts, everybody);
    return { rule, kinds, finished: Math.max(...kinds.map(finishedIn)) };
  });
  const most = [...tried].sort((a, b) => b.finished - a.finished)[0];
  if (most === undefined || most.finished <= asIs) return null;
  const { rule, finished: finishedWithout } = most;
  const whose = ownerOnDay(plan, rule);
  const without = whose === 'firm' ? chanceWithout(option, tried, most) : null;
  return { rule: rule.id, words: rule.words, whose, finishedWithout, without };
}

/** The two limits without which most of a third of the forecasts that fail would finish. */
function likeliest(
  free: readonly Free[],
  starts: readonly number[],
  failed: readonly number[],
): readonly Free[] {
  if (free.length <= SCREENED) return free;
  const some = failed.filter((_, n) => n % SCREEN_EVERY === 0);
  return free
    .map((one) => ({ one, finished: Math.max(...kindsOf(one.plan, starts, some).map(finishedIn)) }))
    .sort((a, b) => b.finished - a.finished)
    .slice(0, SCREENED)
    .map(({ one }) => one);
}

/** Picking the limit and the start that help most flatters both: taken off as for starts. */
function chanceWithout(
  { plan, leadDays }: DayOption,
  tried: readonly Tried[],
  most: Tried,
): AdjustedChance {
  const ways = tried.flatMap(({ kinds }) => kinds);
  const { crossFit } = chooseStart(
    ways,
    ways.map((kinds) => kinds.map((kind) => (kind === 'finished' ? 0 : 1))),
  );
  const atBest = most.kinds.find((kinds) => finishedIn(kinds) === most.finished)!;
  const { grid, record } = plan.prepared;
  return adjustChance({
    count: most.finished,
    of: atBest.filter((kind) => kind !== 'unknown').length,
    crossFit,
    leadDays,
    made: grid.source.madeFromOne === true,
    record,
  });
}

const kindsOf = (
  plan: DayPlan,
  starts: readonly number[],
  members: readonly number[],
): OutcomeKind[][] =>
  starts.map((startMs) => members.map((m) => simulateDay(plan, m, { startMs }).kind));

const finishedIn = (kinds: readonly OutcomeKind[]): number =>
  kinds.filter((kind) => kind === 'finished').length;

/** How whose limit it is reads after what it is. */
const OWNERS: Readonly<Record<Whose, string>> = {
  'data sheet': ', a limit of the data sheet',
  law: ', a limit of the law',
  firm: ', a limit of your own firm',
  'visible moisture': ': what is wet is not laid on, whoever asks',
  safety: ', a limit that keeps people safe and is not traded',
  clock: '',
};

/** One sentence: the limit, whose it is, and what there would be without it where that is the firm's to say. */
export function costingWords({ words, whose, without }: CostingLimit): string {
  const first = `What stands most in the way is ${words}${OWNERS[whose]}`;
  if (without === null) return `${first}.`;
  if (without.adjusted === null) return `${first}; without it the one forecast there is finishes.`;
  return `${first}; without it, ${without.words}.`;
}
