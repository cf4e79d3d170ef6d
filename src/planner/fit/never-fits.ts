import type { Product } from '../../products/index.ts';
import type { RuleId } from '../../stages/index.ts';
import { longDayText } from '../../time/index.ts';
import type { DayOption } from '../day-option.ts';
import type { Cause } from '../day-run.ts';
import { forecastsWords } from '../forecast-words.ts';
import { RULE_BIT } from '../masks.ts';
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
  // One roof knows one product by a name.
  const atHand = shelf.map((product) => prepared.productById.get(product.id) ?? product);
  const stray = strayOf(prepared.grid.memberCount);
  if (found.options.some(({ outcomes }) => outcomes.finished > stray)) return null;
  const hours = workHours(prepared);
  if (hours === null || hours.members.length === 0) return null;
  if (hours.litSteps.length === 0) return darkDays(prepared, hours);
  const unmet = unmetWork(prepared, hours);
  return unmet.length > 0
    ? limitNeverMet(prepared, hours, unmet, atHand)
    : shortDays(prepared, hours, atHand);
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
  const { kind, count, of } = first;
  const told = unmet.filter((other) => other.kind === kind);
  const made = prepared.grid.source.madeFromOne === true;
  const where =
    of === 1
      ? 'in the one forecast there is'
      : `in ${count === of ? `any of ${forecastsWords(of, made)}` : `${count} of ${forecastsWords(of, made)}`}`;
  const reaches = (kind.bits & RULE_BIT['cold-night']) === 0 ? '' : ', as far as nights are known,';
  const lead = `${kindWords(kind)} cannot begin in a single working hour of ${spanWords(prepared, hours)}${reaches} ${where}`;
  return {
    rule: first.rules[0]!,
    words: `${lead}: ${whyWords(prepared, hours, told)}.${othersWords(prepared, hours, told, unmet)}`,
    change: changeForLimits(prepared, hours, unmet, shelf),
  };
}

/** What no product changes is told before what one might, and one rule before several. */
const FIRST: readonly RuleId[] = ['roof-wind', 'sheet-wind', 'rain', 'deck-dry'];

function firstToTell(unmet: readonly NeverMet[]): NeverMet {
  const rank = ({ rules }: NeverMet): number => {
    const at = FIRST.indexOf(rules[0]!);
    return rules.length > 1 ? FIRST.length + rules.length : at < 0 ? FIRST.length : at;
  };
  return unmet.reduce((first, next) => (rank(next) < rank(first) ? next : first));
}

/** Every rule that alone holds a kind of work; else the first few that do together. */
function whyWords(prepared: Prepared, hours: WorkHours, told: readonly NeverMet[]): string {
  const alone = told.filter(({ rules }) => rules.length === 1);
  if (alone.length > 0) {
    return alone
      .map(({ kind, rules: [rule] }, n) => {
        const moment = bestMoment(prepared, hours, kind, rule!);
        return missWords(prepared, kind, rule!, moment, n === 0 ? undefined : 'it');
      })
      .join('; ');
  }
  const { kind, rules } = told[0]!;
  const moments = rules.map((rule, n) => {
    const rest = rules.filter((other) => other !== rule);
    const moment: BestMoment | null = bestMoment(prepared, hours, kind, rule, rest);
    if (moment === null) return null;
    return missWords(prepared, kind, rule, moment, n === 0 ? undefined : 'it');
  });
  const [a, b] = moments.filter((words) => words !== null);
  const [both, others] = rules.length === 2 ? ['both', 'the other is'] : ['all', 'the others are'];
  const never = `${rules.map((rule) => LIMIT_WORDS[rule]).join(' and ')} are each met at times, never ${both} in the same hour`;
  if (a === undefined) return never;
  return `${never}. While ${others} met, ${a}${b === undefined ? '' : `; or ${b}`}`;
}

const LIMIT_WORDS: Readonly<Record<RuleId, string>> = {
  'air-temp': 'the limits on air temperature',
  'surface-temp': 'the limits on surface temperature',
  'dew-margin': 'the margin over the dew point',
  humidity: 'the limit on humidity',
  'cold-night': 'the warmth asked of the night after',
  'sheet-wind': 'the wind limit for handling sheet',
  'roof-wind': 'the wind limit for work on the roof',
  lightning: 'no lightning',
  heat: 'heat that people can work in',
  chill: 'cold that people can work in',
  rain: 'no rain',
  'deck-dry': 'a dry surface',
  daylight: 'daylight',
};

/** Other work held too: what the same rules hold by name only, what others do with its own numbers. */
function othersWords(
  prepared: Prepared,
  hours: WorkHours,
  told: readonly NeverMet[],
  unmet: readonly NeverMet[],
): string {
  const kind = told[0]!.kind;
  const ofKind = new Map<WorkKind, NeverMet[]>();
  for (const other of unmet) {
    if (other.kind !== kind) ofKind.set(other.kind, [...(ofKind.get(other.kind) ?? []), other]);
  }
  const rulesOf = (list: readonly NeverMet[]): string =>
    list.map(({ rules }) => rules.join()).join('|');
  const nameOf = ({ product, ...rest }: WorkKind): string =>
    product?.name ?? kindWords({ product, ...rest });
  const names = new Set<string>();
  const more = new Map<string, string>();
  for (const [other, list] of ofKind) {
    const known = told.some(({ rules }) => rulesOf(list).split('|').includes(rules.join()));
    const why = known ? '' : whyWords(prepared, hours, list);
    if (known) names.add(nameOf(other));
    else if (more.size < MOST_FURTHER && !more.has(why))
      more.set(why, ` ${kindWords(other)}: ${why}.`);
  }
  names.delete(nameOf(kind));
  const same = names.size === 0 ? '' : ` The same holds for ${listOf([...names])}.`;
  return `${same}${[...more.values()].join('')}`;
}

/** Other work told with its own numbers. */
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
