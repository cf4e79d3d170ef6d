import type { Product } from '../../products/index.ts';
import type { RuleId } from '../../stages/index.ts';
import { longDayText } from '../../time/index.ts';
import type { DayOption } from '../day-option.ts';
import type { Cause } from '../day-run.ts';
import { forecastsWords } from '../forecast-words.ts';
import type { Prepared } from '../prepare.ts';
import { type BestMoment, bestMoment } from './best-moment.ts';
import { changeForLimits } from './limit-change.ts';
import { kindWords, missWords } from './miss-words.ts';
import { type NeverMet, neverMet, strayOf } from './never-met.ts';
import { shortDays } from './short-days.ts';
import { type WorkHours, workHours } from './work-hours.ts';
import { type WorkKind, workKinds } from './work-kinds.ts';

/** Why a job can be laid on no day of a forecast. */
export interface NeverFit {
  /** The rule that decides it, or 'day-end' where the working day is too short for the work. */
  readonly rule: Cause;
  /** Which rule, whose, and by how much it is missed at the best. */
  readonly words: string;
  /** The nearest change that was tried and lets it be laid; else what to wait for. */
  readonly change: string;
}

/**
 * Says why no day of the forecast can do, where it is not the weather of single days: a limit that is
 * never met, limits that are never met together, or a day too short or too dark for the work.
 * @param found  days as searched: where one gets finished in more than a stray forecast, nothing is said
 * @param shelf  every product there is, to try others
 * @returns null where some day may do, or the forecast reaches over no whole working day
 */
export function neverFits(
  prepared: Prepared,
  found: { readonly options: readonly Pick<DayOption, 'outcomes'>[] },
  shelf: readonly Product[] = [],
): NeverFit | null {
  const stray = strayOf(prepared.grid.memberCount);
  if (found.options.some(({ outcomes }) => outcomes.finished > stray)) return null;
  const hours = workHours(prepared);
  if (hours === null || hours.members.length === 0) return null;
  if (hours.litSteps.length === 0) return darkDays(prepared, hours);
  const unmet = unmetWork(prepared, hours);
  return unmet.length > 0
    ? limitNeverMet(prepared, hours, unmet, shelf)
    : shortDays(prepared, hours, shelf);
}

/** Of each kind of work that can never be begun, the rule or rules, the kinds in the order they come in. */
function unmetWork(prepared: Prepared, hours: WorkHours): NeverMet[] {
  return workKinds(prepared).flatMap((kind) => neverMet(prepared, hours, kind));
}

function darkDays(prepared: Prepared, hours: WorkHours): NeverFit {
  return {
    rule: 'daylight',
    words: `The sun does not rise in the crew's hours on any of ${spanWords(prepared, hours)}: 0 min of daylight on the lightest, and no work is begun in the dark (a safety limit).`,
    change: 'Plan it for later dates, once there is daylight.',
  };
}

function limitNeverMet(
  prepared: Prepared,
  hours: WorkHours,
  unmet: readonly NeverMet[],
  shelf: readonly Product[],
): NeverFit {
  const first = firstToTell(unmet);
  const { kind, rules, count, of } = first;
  const made = prepared.grid.source.madeFromOne === true;
  const held =
    of === 1
      ? 'in the one forecast there is'
      : count === of
        ? `in none of ${forecastsWords(of, made)}`
        : `in all but ${of - count} of ${forecastsWords(of, made)}`;
  const may = of > 1 && count === of ? 'may begin' : 'may not begin';
  const lead = `${kindWords(kind)} ${may} in any working hour of ${spanWords(prepared, hours)} ${held}`;
  const others = unmet.filter((other) => other.kind !== kind || other.rules !== rules);
  const words = `${lead}: ${whyWords(prepared, hours, first)}.${othersWords(prepared, hours, first, others)}`;
  return {
    rule: rules[0]!,
    words,
    change: changeForLimits(prepared, hours, unmet, shelf),
  };
}

/** What no product changes is told before what one might. */
const FIRST: readonly RuleId[] = ['roof-wind', 'sheet-wind', 'rain', 'deck-dry'];

function firstToTell(unmet: readonly NeverMet[]): NeverMet {
  const rank = ({ rules }: NeverMet): number => {
    const at = rules.length === 1 ? FIRST.indexOf(rules[0]!) : -1;
    return at < 0 ? FIRST.length : at;
  };
  return unmet.reduce((first, next) => (rank(next) < rank(first) ? next : first));
}

function whyWords(prepared: Prepared, hours: WorkHours, { kind, rules }: NeverMet): string {
  if (rules.length === 1) {
    const rule = rules[0]!;
    return missWords(prepared, kind, rule, bestMoment(prepared, hours, kind, rule));
  }
  const parts = rules.map((rule) => {
    const rest = rules.filter((other) => other !== rule);
    const moment: BestMoment | null = bestMoment(prepared, hours, kind, rule, rest);
    return moment === null ? null : missWords(prepared, kind, rule, moment);
  });
  const said = parts.filter((part) => part !== null);
  const [a, b] = said;
  const none = `each limit is met at times, never ${rules.length === 2 ? 'both' : 'all'} in the same hour`;
  if (a === undefined) return none;
  return `${none}. While the other${rules.length > 2 ? 's are' : ' is'} met, ${a}${b === undefined ? '' : `; or ${b}`}`;
}

/** Other work held too: what has the same rule by name only, another rule with its own numbers. */
function othersWords(
  prepared: Prepared,
  hours: WorkHours,
  first: NeverMet,
  others: readonly NeverMet[],
): string {
  const alike = others.filter(({ rules }) => rules.join() === first.rules.join());
  const further = others.filter((other) => !alike.includes(other));
  const names = [...new Set(alike.map(({ kind }) => kind.product?.name ?? kindWords(kind)))].filter(
    (name) => name !== (first.kind.product?.name ?? kindWords(first.kind)),
  );
  const same = names.length === 0 ? '' : ` The same holds for ${listOf(names)}.`;
  const sentences = new Map<string, NeverMet>();
  for (const other of further) {
    const key = `${other.kind.product?.id ?? other.kind.role}|${other.rules.join()}`;
    if (!sentences.has(key)) sentences.set(key, other);
  }
  const more = [...sentences.values()]
    .slice(0, MOST_FURTHER)
    .map((other) => ` ${kindWords(other.kind)}: ${whyWords(prepared, hours, other)}.`);
  return `${same}${more.join('')}`;
}

/** Further rules told with their numbers. */
const MOST_FURTHER = 2;

const listOf = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

/** 'the 8 working days of this forecast, to Friday 22 May' */
export function spanWords({ job }: Prepared, { shifts }: WorkHours): string {
  const last = longDayText(shifts[shifts.length - 1]!.startMs, job.site.timeZone);
  return shifts.length === 1
    ? `the one working day of this forecast, ${last}`
    : `the ${shifts.length} working days of this forecast, to ${last}`;
}

export type { WorkKind };
