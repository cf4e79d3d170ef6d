import type { Product } from '../../products/index.ts';
import { WHOSE } from '../clock-words.ts';
import type { Prepared } from '../prepare.ts';
import { bestMoment } from './best-moment.ts';
import { firstDayLaid, laidWords } from './day-laid.ts';
import { type LooserLimits, looserLimits } from './looser-limit.ts';
import type { NeverMet } from './never-met.ts';
import { heldByProducts, type OtherProducts, otherProducts } from './other-products.ts';
import type { WorkHours } from './work-hours.ts';

/**
 * The nearest change that lets a job be laid whose limits are never met, each run through before it is
 * named: the dates of the job, other products of the shelf, a limit that is the firm's own to change;
 * where none helps, later dates.
 */
export function changeForLimits(
  prepared: Prepared,
  hours: WorkHours,
  unmet: readonly NeverMet[],
  shelf: readonly Product[],
): string {
  const dated = otherDates(prepared);
  if (dated !== null) return dated;
  const other = otherProducts(prepared, hours, unmet, shelf);
  if (other !== null) {
    const also = other.also === null ? '' : ` and ${other.also},`;
    return `With ${exchangeWords(other)}, which the build-up takes,${also} it can be laid: ${laidWords(prepared, other.laid)}.`;
  }
  const moments = unmet.map(({ kind, rules }) => bestMoment(prepared, hours, kind, rules[0]!));
  const looser = looserLimits(prepared, unmet, moments);
  const none = noneWords(unmet, shelf);
  return looser === null
    ? `${none}Plan it for later dates.`
    : `${none}${looserWords(prepared, looser)}`;
}

/** 'Winter bond (winter-bond) as buildUp.products.field and perimeter, Winter tape (winter-tape) as ...' */
function exchangeWords({ changed }: OtherProducts): string {
  const roles = new Map<Product, string[]>();
  for (const { role, product } of changed)
    roles.set(product, [...(roles.get(product) ?? []), role]);
  return [...roles]
    .map(([{ name, id }, of]) => `${name} (${id}) as buildUp.products.${of.join(' and ')}`)
    .join(', ');
}

function noneWords(unmet: readonly NeverMet[], shelf: readonly Product[]): string {
  return shelf.length > 0 && heldByProducts(unmet) ? 'No other product at hand does it. ' : '';
}

/** The job's own earliest and latest date may leave out the days that would do. */
function otherDates(prepared: Prepared): string | null {
  const { earliest, latest } = prepared.job;
  if (earliest === null && latest === null) return null;
  const free = { ...prepared, job: { ...prepared.job, earliest: null, latest: null } };
  const laid = firstDayLaid(free);
  if (laid === null) return null;
  const which = earliest !== null && laid.shift.day.date < earliest ? 'earliest' : 'latest';
  return `Outside the job's dates it can be laid, with ${which} moved to ${laid.shift.day.date}: ${laidWords(prepared, laid)}.`;
}

function looserWords(prepared: Prepared, { limits, source, laid }: LooserLimits): string {
  const asked = limits
    .map(({ what, side, value, unit }) => `${what} ${side} ${value} ${unit}`)
    .join(' and ');
  const lead =
    source === 'user'
      ? `The firm's own limit would have to be ${asked}`
      : `The limit is ${WHOSE[source]}, not off a data sheet: where the sheet in hand allows ${asked}, enter that`;
  return `${lead}; then it can be laid, ${laidWords(prepared, laid)}. Otherwise plan it for later dates.`;
}
