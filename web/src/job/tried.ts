import type { DaysAnswer, Tried } from '../../../src/contract/index.ts';
import type { Problem } from '../api/ask.ts';
import type { TriedQuery } from '../api/paths.ts';

/** Figures tried on a question: they stand in the page's address, and nothing of them is saved. */

export type CostName = Exclude<keyof Tried, 'bay'>;

export const COST_LABELS: Readonly<Record<CostName, string>> = {
  standDown: 'Aborted day, crew on site',
  calledOff: 'Called off the evening before',
  shortened: 'Shortened day',
  caughtOpen: 'Caught open',
  waitPerDay: 'Each day of waiting',
};
export const COST_FIELDS = Object.keys(COST_LABELS) as CostName[];
const FIELDS: readonly (keyof Tried)[] = [...COST_FIELDS, 'bay'];

/** What of an address is tried, in one order whatever order it stands in. */
export function triedIn(query: Readonly<Record<string, string | undefined>>): TriedQuery {
  const given = FIELDS.flatMap((name) => {
    const text = query[name];
    return text === undefined ? [] : [[name, text] as const];
  });
  return Object.fromEntries(given);
}

/** As a body sends it; what is no number is the server's to tell. */
export const asNumbers = (tried: TriedQuery): Record<string, number> =>
  Object.fromEntries(Object.entries(tried).map(([name, text]) => [name, Number(text)]));

/** Costs go on from the days to a day's order of work; the bay is the day's own. */
export const costsOnly = ({ bay: _bay, ...costs }: TriedQuery): TriedQuery => costs;

export const addressOf = (path: string, query: TriedQuery): string => {
  const text = String(new URLSearchParams(query));
  return text === '' ? path : `${path}?${text}`;
};

export type CostErrors = Readonly<Partial<Record<CostName, string>>>;
export type Typed = Readonly<Record<CostName, string>>;

const MOST = 10_000_000;

/** Plain digits, or thousands apart as the page itself writes them. */
export function readAmount(text: string): number | null {
  const plain = /^\d{1,3}(,\d{3})+(\.\d+)?$/.test(text.trim()) ? text.replaceAll(',', '') : text;
  if (!/^\s*\d+(\.\d+)?\s*$/.test(plain)) return null;
  const value = Number(plain);
  return value <= MOST ? value : null;
}

type Read =
  | { readonly ok: true; readonly tried: TriedQuery }
  | { readonly ok: false; readonly errors: CostErrors };

/** Only what differs from the job's own figures is tried. */
export function readCosts(typed: Typed, own: DaysAnswer['ownCosts']): Read {
  const errors: Partial<Record<CostName, string>> = {};
  const tried: Record<string, string> = {};
  for (const name of COST_FIELDS) {
    const value = readAmount(typed[name]);
    if (value === null) {
      errors[name] =
        `“${typed[name].trim().slice(0, 40)}” is no amount; a number from 0 to 10,000,000 is accepted.`;
    } else if (value !== own[name]) tried[name] = String(value);
  }
  return Object.keys(errors).length > 0 ? { ok: false, errors } : { ok: true, tried };
}

/** A server's sentences by the field they are about. */
export function costErrorsIn(problem: Problem | null): CostErrors {
  const found = (problem?.issues ?? []).flatMap(({ path, message }) => {
    const name = COST_FIELDS.find((field) => path === field || path === `tried.${field}`);
    return name === undefined ? [] : [[name, message.replace(path, COST_LABELS[name])] as const];
  });
  return Object.fromEntries(found);
}
