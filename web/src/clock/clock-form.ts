import type { ClockFace } from '../../../src/contract/index.ts';
import type { Problem } from '../api/ask.ts';
import { addDays } from '../time/site-time.ts';
import { readWallTime, wallToMs } from '../time/wall-time.ts';

/** What the form holds, exactly as typed. */
export interface ClockForm {
  readonly product: string;
  /** Null until changed: the present moment is meant. */
  readonly date: string | null;
  readonly time: string | null;
  /** Last square metre; '' = the same moment. */
  readonly until: string;
  /** Faces coated; none = the usual ones of the product. */
  readonly faces: readonly ClockFace[];
  readonly from: 'job' | 'readings';
  readonly job: string;
  readonly air: string;
  readonly rh: string;
  readonly wind: string;
  readonly surface: string;
}

/** Site date and time as they stand in the form. */
export interface CoatedAt {
  readonly date: string;
  readonly time: string;
}

export type FieldName =
  | 'product'
  | 'coated'
  | 'until'
  | 'faces'
  | 'job'
  | 'air'
  | 'rh'
  | 'wind'
  | 'surface';
export type FieldErrors = Readonly<Partial<Record<FieldName, string>>>;

/** The reading fields: label, unit, and whether it may be left out. */
export const READINGS = [
  { name: 'air', label: 'Air temperature', unit: '°C', optional: false },
  { name: 'rh', label: 'Relative humidity', unit: '%', optional: false },
  { name: 'wind', label: 'Wind', unit: 'm/s', optional: false },
  { name: 'surface', label: 'Surface temperature, if measured', unit: '°C', optional: true },
] as const;

type Checked =
  | { readonly ok: true; readonly query: Readonly<Record<string, string>> }
  | { readonly ok: false; readonly errors: FieldErrors };

/** '12,5' and '12.5' are the same number; anything else is told apart in words. */
function asNumber(typed: string): string | null {
  const text = typed.trim().replace(',', '.');
  return text !== '' && Number.isFinite(Number(text)) ? text : null;
}

/** Turn what was typed into the query of the clock; ranges are the server's to judge. */
export function readForm(form: ClockForm, moment: CoatedAt, zone: string): Checked {
  const errors: Partial<Record<FieldName, string>> = {};
  const query: Record<string, string> = {};
  if (form.product === '') errors.product = 'Choose the product that was coated.';
  else query['product'] = form.product;

  const time = readWallTime(moment.time);
  const ms = time === null ? null : wallToMs(moment.date, time, zone);
  if (time === null) {
    errors.coated = `Coated at is “${moment.time}”; a 24-hour time such as 09:40 is accepted.`;
  } else if (ms === null) {
    errors.coated = `${time} does not exist on that day at the site: the clocks go forward over it.`;
  } else query['coated'] = new Date(ms).toISOString();

  if (form.until.trim() !== '') {
    const untilMs = untilOf(form.until, moment.date, ms, zone);
    if (untilMs === null) {
      errors.until = `Last square metre is “${form.until}”; a 24-hour time such as 10:05 is accepted.`;
    } else query['until'] = new Date(untilMs).toISOString();
  }
  if (form.faces.length > 0) query['faces'] = form.faces.join(',');

  if (form.from === 'job') {
    if (form.job === '') errors.job = 'Choose the job whose forecast is to be used.';
    else query['job'] = form.job;
  } else {
    query['zone'] = zone;
    for (const { name, label, unit, optional } of READINGS) {
      if (optional && form[name].trim() === '') continue;
      const number = asNumber(form[name]);
      if (number === null) {
        errors[name] = `${label} is “${form[name]}”; a number in ${unit} is accepted.`;
      } else query[name] = number;
    }
  }
  return Object.keys(errors).length === 0 ? { ok: true, query } : { ok: false, errors };
}

/** A time before the first square metre is one of the next day: coating went on past midnight. */
function untilOf(
  typed: string,
  date: string,
  coatedMs: number | null,
  zone: string,
): number | null {
  const time = readWallTime(typed);
  if (time === null) return null;
  const ms = wallToMs(date, time, zone);
  if (ms === null || coatedMs === null || ms >= coatedMs) return ms;
  const hours = (coatedMs - ms) / 3_600_000;
  return hours > 12 ? wallToMs(addDays(date, 1), time, zone) : ms;
}

const FIELDS: ReadonlySet<string> = new Set([
  'product',
  'coated',
  'until',
  'faces',
  'job',
  ...READINGS.map((reading) => reading.name),
]);

/** The server's sentences, beside the fields they name; the rest stays with the form. */
export function errorsByField(problem: Problem): { fields: FieldErrors; rest: Problem | null } {
  const fields: Partial<Record<FieldName, string>> = {};
  const others = [];
  for (const issue of problem.issues) {
    if (FIELDS.has(issue.path)) fields[issue.path as FieldName] = issue.message;
    else others.push(issue);
  }
  const allPlaced = problem.issues.length > 0 && others.length === 0;
  return { fields, rest: allPlaced ? null : { ...problem, issues: others } };
}
