import type { Product } from '../../products/index.ts';
import { clockText, longDayText } from '../../time/index.ts';
import { WHOSE } from '../clock-words.ts';
import { forecastsWords } from '../forecast-words.ts';
import type { Prepared } from '../prepare.ts';
import { bestMoment } from './best-moment.ts';
import { type DayLaid, firstDayLaid } from './day-laid.ts';
import { type LooserLimit, looserLimit } from './looser-limit.ts';
import type { NeverMet } from './never-met.ts';
import { otherProducts } from './other-products.ts';
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
    const changes = other.changed.map(
      ({ role, product }) => `${product.name} (${product.id}) as buildUp.products.${role}`,
    );
    return `With ${changes.join(', ')}, which the build-up takes, it can be laid: ${laidWords(prepared, other.laid)}.`;
  }
  const moments = unmet.map(({ kind, rules }) => bestMoment(prepared, hours, kind, rules[0]!));
  const looser = looserLimit(prepared, unmet, moments);
  const none = noneWords(unmet, shelf);
  return looser === null
    ? `${none}Plan it for later dates.`
    : `${none}${looserWords(prepared, looser)}`;
}

function noneWords(unmet: readonly NeverMet[], shelf: readonly Product[]): string {
  const products = unmet.some(({ kind }) => kind.product !== null);
  return products && shelf.length > 0 ? 'No other product at hand does it. ' : '';
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

function looserWords(prepared: Prepared, looser: LooserLimit): string {
  const { value, unit, what, side, source, laid } = looser;
  const limit = `${what} ${side} ${value} ${unit}`;
  const lead =
    source === 'user'
      ? `The firm's own limit would have to be ${limit}`
      : `The limit is ${WHOSE[source]}, not off a data sheet: only where the sheet in hand allows ${limit}, enter that`;
  return `${lead}; then it can be laid: ${laidWords(prepared, laid)}. Otherwise plan it for later dates.`;
}

/** 'first on Tuesday 19 May, finished in 14 of 20 forecasts from a 10:30 start' */
export function laidWords({ job, grid }: Prepared, laid: DayLaid): string {
  const zone = job.site.timeZone;
  const day = longDayText(laid.shift.startMs, zone);
  const made = grid.source.madeFromOne === true;
  const count =
    laid.of === 1
      ? 'finished in the one forecast there is'
      : `finished in ${laid.finished} of ${forecastsWords(laid.of, made)}`;
  return `first on ${day}, ${count} from a ${clockText(laid.startMs, zone)} start`;
}
