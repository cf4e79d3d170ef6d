import type { JobFile, TakeoffAnswer } from '../../../src/contract/index.ts';
import type { Problem } from '../api/ask.ts';
import { inPlainNames } from '../words/plain-names.ts';
import { type RateId, ROLE_WORDS, ROLES, type Role, rateUnit, rateWords } from './words.ts';

/** What may be tried on a roof, exactly as typed; an empty field leaves it to the search or the usual figure. */
export interface Draft {
  readonly areas: Readonly<Record<string, AreaDraft>>;
  readonly products: Readonly<Record<Role, string>>;
  readonly rates: Readonly<Partial<Record<RateId, string>>>;
  readonly bay: string;
}
export interface AreaDraft {
  readonly turn: string;
  readonly shift: string;
}

/** Sentences by the field of the job that they are about. */
export type WhatIfErrors = Readonly<Record<string, string>>;

export const turnField = (area: string): string => `layout.choices.${area}.rollsRunDeg`;
export const shiftField = (area: string): string => `layout.choices.${area}.shiftM`;
export const productField = (role: Role): string => `buildUp.products.${role}`;
export const rateField = (rate: string): string => `rates.${rate}`;
export const BAY_FIELD = 'bayAreaM2';

/** A roof by its sizes is one area of that name in `layout.choices`. */
const WHOLE_ROOF = 'roof';

export function areasOf({ roof }: JobFile): readonly { id: string; name: string }[] {
  if (!('areas' in roof)) return [{ id: WHOLE_ROOF, name: '' }];
  return roof.areas.map(({ id, name }) => ({ id, name: name || id }));
}

const typed = (value: number | null | undefined): string => (value == null ? '' : String(value));

export function draftOf(job: JobFile): Draft {
  const choices = job.layout.choices ?? {};
  return {
    areas: Object.fromEntries(
      areasOf(job).map(({ id }) => [
        id,
        { turn: typed(choices[id]?.rollsRunDeg), shift: typed(choices[id]?.shiftM) },
      ]),
    ),
    products: job.buildUp.products,
    rates: Object.fromEntries(
      Object.entries(job.rates).map(([rate, value]) => [rate, typed(value)]),
    ),
    bay: typed(job.bayAreaM2),
  };
}

type Read =
  | { readonly ok: true; readonly job: JobFile; readonly changed: boolean }
  | { readonly ok: false; readonly errors: WhatIfErrors };

/** The kept job with what was typed put in; ranges are the server's to judge. */
export function readDraft(kept: JobFile, draft: Draft): Read {
  const errors: Record<string, string> = {};
  const number = (field: string, text: string, what: string, unit: string): number | null => {
    const plain = text.trim().replace(',', '.');
    if (plain === '') return null;
    if (Number.isFinite(Number(plain))) return Number(plain);
    errors[field] = `${what} is “${text}”; a number of ${unit} is accepted, or nothing.`;
    return null;
  };
  // What is set for a part that the form does not show stays as it is.
  const others = Object.entries(kept.layout.choices ?? {}).filter(([id]) => !(id in draft.areas));
  const choices = Object.fromEntries([
    ...others,
    ...Object.entries(draft.areas).flatMap(([id, { turn, shift }]) => {
      const { rollsRunDeg: _turn, shiftM: _shift, ...fixed } = kept.layout.choices?.[id] ?? {};
      const turnDeg = number(turnField(id), turn, 'Turn of the rolls', 'degrees');
      const shiftM = number(shiftField(id), shift, 'Shift of the first course', 'metres');
      const choice = {
        ...fixed,
        ...(turnDeg === null ? {} : { rollsRunDeg: turnDeg }),
        ...(shiftM === null ? {} : { shiftM }),
      };
      return Object.keys(choice).length === 0 ? [] : [[id, choice]];
    }),
  ]);
  const rates = Object.fromEntries(
    Object.entries(draft.rates).flatMap(([rate, text]) => {
      const value = number(rateField(rate), text ?? '', rateWords(rate), 'the rate’s own unit');
      return value === null ? [] : [[rate, value]];
    }),
  );
  const bayAreaM2 = number(BAY_FIELD, draft.bay, 'Largest bay', 'square metres');
  if (Object.keys(errors).length > 0) return { ok: false, errors };
  const { choices: _kept, ...offer } = kept.layout;
  const job: JobFile = {
    ...kept,
    layout: Object.keys(choices).length === 0 ? offer : { ...offer, choices },
    rates,
    bayAreaM2,
    buildUp: { ...kept.buildUp, products: { ...draft.products } },
  };
  return { ok: true, job, changed: marks(job) !== marks(kept) };
}

/** The parts that can be tried, in one fixed order. */
function marks({ layout, rates, bayAreaM2, buildUp }: JobFile): string {
  const sorted = (value: object | undefined) =>
    Object.entries(value ?? {}).sort(([a], [b]) => a.localeCompare(b));
  return JSON.stringify([
    sorted(layout.choices).map(([id, choice]) => [id, sorted(choice)]),
    sorted(rates),
    bayAreaM2,
    ROLES.map((role) => buildUp.products[role]),
  ]);
}

/** The server's sentences beside the fields they name; the rest stays with the form. */
export function errorsByField(
  problem: Problem,
  shown: readonly LabelledField[],
): { readonly errors: WhatIfErrors; readonly rest: Problem | null } {
  const errors: Record<string, string> = {};
  const others = [];
  for (const issue of problem.issues) {
    const field = issue.path.replace(/^job\./, '');
    const message = inPlainNames(issue.message, shown);
    if (shown.some((one) => one.field === field)) errors[field] = message;
    else others.push({ ...issue, message });
  }
  if (problem.issues.length === 0) return { errors, rest: problem };
  if (others.length === 0) return { errors, rest: null };
  const message = others.map((issue) => issue.message).join(' ');
  return { errors, rest: { ...problem, message, issues: others } };
}

export interface LabelledField {
  readonly field: string;
  readonly label: string;
}

/** Every field of the form under its label. */
export function fieldsOf(job: JobFile, rates: readonly RateFacts[]): readonly LabelledField[] {
  return [
    ...areasOf(job).flatMap(({ id }) => [
      { field: turnField(id), label: 'Turn of the rolls' },
      { field: shiftField(id), label: 'Shift of the first course' },
    ]),
    ...ROLES.map((role) => ({ field: productField(role), label: ROLE_WORDS[role] })),
    ...rates.map(({ rate }) => ({ field: rateField(rate), label: rateWords(rate) })),
    { field: BAY_FIELD, label: 'Largest bay' },
  ];
}

export interface RateFacts {
  readonly rate: RateId;
  /** 'Usual: 6, 4 to 8 m² per worker-hour (common practice).' */
  readonly words: string;
}

/** The labour rates a take-off reckons with, each once. */
export function ratesIn({ stages }: TakeoffAnswer): readonly RateFacts[] {
  const facts = new Map<RateId, RateFacts>();
  for (const { rate, typical, low, high, unit, source } of stages.flatMap(({ from }) => from)) {
    const words =
      source === 'user'
        ? `Your firm’s own figure: ${typical} ${rateUnit(unit)}.`
        : `Usual: ${typical}, ${low} to ${high} ${rateUnit(unit)} (${source}).`;
    facts.set(rate, { rate, words });
  }
  return [...facts.values()];
}
