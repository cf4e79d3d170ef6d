import { figuresOf } from './parse-agreement.ts';
import type { ProductIssue } from './parse-issues.ts';
import {
  brief,
  type Converted,
  convertPrinted,
  type Quantity,
  standsFor,
} from './printed-units.ts';
import type { Limit, NumberSource, Printed } from './types.ts';

/** One figure as a firm writes it: in our unit, as printed, or both. */
export interface GivenFigure {
  readonly value?: number;
  readonly printed?: Printed;
  readonly source: NumberSource;
}
export interface GivenPair {
  readonly low?: number;
  readonly high?: number;
  readonly printed?: Printed;
  readonly source: NumberSource;
}
export interface SettledPair {
  readonly low: number;
  readonly high: number;
  readonly source: NumberSource;
  readonly printed?: Printed;
}

/** Reads figures and remembers a sentence for each that cannot be read; null = told. */
export interface FigureReader {
  readonly issues: readonly ProductIssue[];
  say(path: string, message: string): null;
  /** Every printed figure in our unit. */
  all(
    path: string,
    printed: Printed,
    convert: (v: number, unit: string) => Converted,
  ): number[] | null;
  /** The exact figure where there is one, ours where not; where both are there they must agree. */
  pick(
    path: string,
    given: number | undefined,
    exact: number | undefined,
    printed?: Printed,
  ): number | null;
  one(path: string, quantity: Quantity, given: GivenFigure): Limit | null;
  two(path: string, quantity: Quantity, given: GivenPair): SettledPair | null;
}

export const inUnit =
  (quantity: Quantity) =>
  (value: number, unit: string): Converted =>
    convertPrinted(quantity, value, unit);

/** Keeps the printed figure beside ours, where there is one. */
export const beside = (printed: Printed | undefined): { printed?: Printed } =>
  printed === undefined ? {} : { printed };

export function figureReader(): FigureReader {
  const issues: ProductIssue[] = [];
  const reader: FigureReader = {
    issues,
    say(path, message) {
      issues.push({ path, message: `${path} ${message}` });
      return null;
    },
    all(path, printed, convert) {
      const out: number[] = [];
      for (const figure of figuresOf(printed)) {
        const read = convert(figure, printed.unit);
        if (!read.ok)
          return reader.say(`${path}.printed.unit`, `is '${printed.unit}'; ${read.accepted}`);
        out.push(read.value);
      }
      return out;
    },
    pick(path, given, exact, printed) {
      if (exact === undefined)
        return (
          given ?? reader.say(path, 'is missing; give the number, or printed with value and unit.')
        );
      if (given === undefined || standsFor(given, exact)) return exact;
      const shown = printed ? `${figuresOf(printed).join(' to ')} ${printed.unit}, which is ` : '';
      return reader.say(
        path,
        `is ${given}, but printed beside it is ${shown}${brief(exact)}: one of the two is wrong.`,
      );
    },
    one(path, quantity, { value, printed, source }) {
      const exact = printed && reader.all(path, printed, inUnit(quantity));
      if (exact === null) return null;
      if (exact && exact.length !== 1)
        return reader.say(
          `${path}.printed.value`,
          `has ${exact.length} figures; it must have one.`,
        );
      const picked = reader.pick(`${path}.value`, value, exact?.[0], printed);
      return picked === null ? null : { value: picked, source, ...beside(printed) };
    },
    two(path, quantity, { low, high, printed, source }) {
      const exact = printed && reader.all(path, printed, inUnit(quantity));
      if (exact === null) return null;
      if (exact && exact.length > 2)
        return reader.say(
          `${path}.printed.value`,
          `has ${exact.length} figures; it must have low and high.`,
        );
      const from = reader.pick(`${path}.low`, low, exact?.[0], printed);
      const to = reader.pick(`${path}.high`, high, exact?.at(-1), printed);
      if (from === null || to === null) return null;
      return { low: from, high: to, source, ...beside(printed) };
    },
  };
  return reader;
}
