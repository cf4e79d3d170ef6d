import { MS_PER_HOUR } from '../units/index.ts';
import { type AnswerShape, show } from './answer-shape.ts';
import type { TimeColumn } from './time-column.ts';
import { utcLabel } from './utc-label.ts';
import { VARIABLE_RULES, type Variable } from './variables.ts';

/** A problem in one column; problems of one kind in many columns are told once, with a count. */
export interface ColumnProblem {
  readonly kind: string;
  readonly path: string;
  readonly message: string;
}

export interface Column {
  readonly values: Float64Array;
  /** Hours with a value. */
  readonly known: number;
  /** Hours whose relative humidity of 100 to 110 % was brought to 100 %. */
  readonly capped: number;
}

export type ColumnRead = Column | { readonly problem: ColumnProblem } | 'no values';

/** Reads one hourly column into our unit: null becomes NaN, anything outside the range is a problem. */
export function readColumn(
  answer: AnswerShape,
  key: string,
  variable: Variable,
  time: TimeColumn,
): ColumnRead {
  const raw = answer.hourly[key];
  const rule = VARIABLE_RULES[variable];
  const path = `hourly.${key}`;
  const problem = (kind: string, message: string, at = path): ColumnRead => ({
    problem: { kind: `${variable} ${kind}`, path: at, message },
  });

  if (!Array.isArray(raw))
    return problem('shape', `${path} is ${show(raw)}; it must be a list of numbers.`);
  if (raw.length !== time.hours) {
    return problem('length', `${path} has ${raw.length} values; hourly.time has ${time.hours}.`);
  }
  // A variable the model lacks comes as nulls with the unit "undefined".
  if (raw.every((v) => v === null)) return 'no values';

  const unit = answer.hourly_units[key];
  const convert =
    typeof unit === 'string' && Object.hasOwn(rule.units, unit) ? rule.units[unit] : undefined;
  if (convert === undefined) {
    const accepted = Object.keys(rule.units).join(', ');
    const at = `hourly_units.${key}`;
    return problem('unit', `${at} is ${show(unit)}; accepted: ${accepted}.`, at);
  }

  const values = new Float64Array(time.hours).fill(Number.NaN);
  let known = 0;
  let capped = 0;
  for (let h = 0; h < raw.length; h++) {
    const given: unknown = raw[h];
    if (given === null) continue;
    const value = typeof given === 'number' ? convert(given) : Number.NaN;
    if (!(value >= rule.low && value <= rule.high)) {
      const hour = `${utcLabel(time.startMs + h * MS_PER_HOUR)}Z`;
      const amount = typeof given === 'number' ? `${show(given)} ${unit}` : show(given);
      return problem(
        'range',
        `${path} at ${hour} is ${amount}; accepted: ${rule.low} to ${rule.high} ${rule.ourUnit}, or null.`,
        `${path}.${h}`,
      );
    }
    const over = variable === 'relative_humidity_2m' && value > 100;
    if (over) capped++;
    values[h] = over ? 100 : value;
    known++;
  }
  return { values, known, capped };
}

/** One sentence per kind of problem, naming the first place and how many more columns share it. */
export function tellOnce(problems: readonly ColumnProblem[]): { path: string; message: string }[] {
  const byKind = new Map<string, ColumnProblem[]>();
  for (const p of problems) byKind.set(p.kind, [...(byKind.get(p.kind) ?? []), p]);
  return [...byKind.values()].map((same) => {
    const first = same[0] as ColumnProblem;
    const more =
      same.length > 1
        ? ` The same is wrong in ${same.length - 1} more ${same.length === 2 ? 'column' : 'columns'}.`
        : '';
    return { path: first.path, message: first.message + more };
  });
}
