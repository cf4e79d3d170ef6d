import type { ProductAnswer } from '../../../src/contract/index.ts';
import type { NumberSource } from '../../../src/products/index.ts';
import type { Problem } from '../api/ask.ts';
import { inPlainNames } from '../words/plain-names.ts';
import { type FormRow, LIMIT_ROWS } from './form-rows.ts';

export type OwnFile = NonNullable<ProductAnswer['own']>;

/** What the form holds, exactly as typed. */
export interface OwnForm {
  readonly id: string;
  readonly name: string;
  readonly basedOn: string;
  readonly source: NumberSource;
  readonly rows: Readonly<Record<string, TypedRow>>;
  /** Limits whose looser figure is taken from the sheet by name. */
  readonly takes: readonly string[];
}
export interface TypedRow {
  readonly text: string;
  readonly unit: string;
}
export type OwnErrors = Readonly<Record<string, string>>;

export const emptyForm = (basedOn: string): OwnForm => ({
  id: '',
  name: '',
  basedOn,
  source: 'data sheet',
  rows: {},
  takes: [],
});

/** 'Our contact adhesive' -> 'our-contact-adhesive', offered until an id is typed. */
export const idFrom = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);

type Json = Readonly<Record<string, unknown>>;
const isObject = (value: unknown): value is Json => typeof value === 'object' && value !== null;

function find(file: Json, field: string): unknown {
  return field.split('.').reduce<unknown>((at, key) => (isObject(at) ? at[key] : undefined), file);
}

const listed = (values: readonly unknown[]): string =>
  values.filter((value) => typeof value === 'number').join(' to ');

/** A kept figure as it would be typed: as printed where it was, else in our unit. */
function typedOf(kept: unknown, { units }: FormRow): TypedRow | null {
  const [ours = ''] = units;
  if (typeof kept === 'number') return { text: String(kept), unit: ours };
  if (!isObject(kept)) return null;
  const { printed } = kept;
  if (isObject(printed)) {
    const { value, unit } = printed;
    return { text: listed(Array.isArray(value) ? value : [value]), unit: String(unit) };
  }
  const { value, low, high, lowMin, typicalMin, highMin, unit } = kept;
  const text = listed([value, low, high, lowMin, typicalMin, highMin]);
  return text === '' ? null : { text, unit: typeof unit === 'string' ? unit : ours };
}

export function formOf(own: OwnFile, rows: readonly FormRow[]): OwnForm {
  const typed = rows.flatMap((row): [string, TypedRow][] => {
    const found = typedOf(find(own, row.field), row);
    return found === null ? [] : [[row.field, found]];
  });
  return {
    ...emptyForm(own.basedOn),
    id: own.id,
    name: own.name,
    rows: Object.fromEntries(typed),
    takes: own.takesSheetLimits ?? [],
  };
}

/** '10 to 20', '10-20', '12,5' and '-5'; null = no figures. */
export function readFigures(text: string): number[] | null {
  const parts = text
    .trim()
    .split(/\s*(?:\bto\b|–|\/|;)\s*|(?<=\d)\s*-\s*|\s+/)
    .map((part) => part.replace(',', '.'));
  const values = parts.map(Number);
  return parts.includes('') || values.some((value) => !Number.isFinite(value)) ? null : values;
}

type Read =
  | { readonly ok: true; readonly product: Json }
  | { readonly ok: false; readonly errors: OwnErrors };

/**
 * The product to send. What the form does not show of a kept one (tables, further cautions), and rows
 * nobody touched, go back as they were; ranges and contradictions are the server's to judge.
 */
export function readForm(form: OwnForm, rows: readonly FormRow[], kept: OwnFile | null): Read {
  const errors: Record<string, string> = {};
  if (form.name.trim() === '') errors['name'] = 'Name is empty; give it the name on the tin.';
  if (form.id.trim() === '')
    errors['id'] = 'Id is empty; small letters, digits and hyphens are accepted.';
  const product: Record<string, unknown> = {
    ...kept,
    format: 'layfair-own-product-1',
    id: form.id.trim(),
    name: form.name.trim(),
    basedOn: form.basedOn,
  };
  const before = kept === null ? {} : formOf(kept, rows).rows;
  for (const row of rows) {
    const { field, label, units, most } = row;
    const typed = form.rows[field];
    const unit = typed?.unit ?? units[0] ?? '';
    const text = typed?.text ?? '';
    const was = before[field];
    if (was !== undefined && was.text === text && was.unit === unit) continue;
    if (text.trim() === '') {
      put(product, field, emptied(field, form.source, find(product, field)));
      continue;
    }
    const values = readFigures(text);
    if (values === null || values.length > most) {
      errors[field] =
        `${label} is “${text}”; ${most === 1 ? 'one figure, such as 5, is' : 'one figure, such as 15, or a range, such as 10 to 20, is'} accepted.`;
      continue;
    }
    const printed = { value: values.length === 1 ? values[0] : values, unit };
    put(product, field, figureOf(field, printed, form.source, find(product, field)));
  }
  const takes = form.takes.filter((key) => find(product, `limits.${key}`) !== undefined);
  if (takes.length > 0) product['takesSheetLimits'] = takes;
  else delete product['takesSheetLimits'];
  return Object.keys(errors).length === 0 ? { ok: true, product } : { ok: false, errors };
}

function figureOf(field: string, printed: Json, source: NumberSource, before: unknown): Json {
  // Reference conditions are what the sheet says its times are for: they have no source of their own.
  if (field.startsWith('reference.')) return { printed };
  const on = field === 'coverage' && isObject(before) ? before['on'] : undefined;
  return { printed, source, ...(on === undefined ? {} : { on }) };
}

/** Figures for single substrates hang on the coverage: the server says that they cannot stand alone. */
function emptied(field: string, source: NumberSource, before: unknown): Json | undefined {
  if (field !== 'coverage' || !isObject(before) || before['on'] === undefined) return undefined;
  return { source, on: before['on'] };
}

/** Sets or takes out one field, one level down at most, without touching what was kept. */
function put(product: Record<string, unknown>, field: string, value: unknown): void {
  const [top = '', key] = field.split('.');
  const inner = key === undefined ? undefined : product[top];
  const next = key === undefined ? value : { ...(isObject(inner) ? inner : {}), [key]: value };
  if (key !== undefined && isObject(next) && value === undefined) {
    delete (next as Record<string, unknown>)[key];
  }
  const gone = next === undefined || (key !== undefined && Object.keys(next as Json).length === 0);
  if (gone) delete product[top];
  else product[top] = next;
}

/** The server's sentences beside the rows they name; the rest stays with the form. */
export function errorsByField(
  problem: Problem,
  rows: readonly FormRow[],
): { readonly errors: OwnErrors; readonly rest: Problem | null } {
  if (problem.code === 'id-taken') return { errors: { id: problem.message }, rest: null };
  const labels = [...HEAD, ...rows];
  const errors: Record<string, string> = {};
  const others = [];
  for (const issue of problem.issues) {
    const path = issue.path.replace(/^product\./, '');
    const message = inPlainNames(issue.message, labels);
    const field = labels.find(
      (one) => path === one.field || path.startsWith(`${one.field}.`),
    )?.field;
    if (field === undefined) others.push({ ...issue, message });
    else errors[field] = errors[field] ? `${errors[field]} ${message}` : message;
  }
  if (problem.issues.length === 0) return { errors, rest: problem };
  if (others.length === 0) return { errors, rest: null };
  const message = others.map((issue) => issue.message).join(' ');
  return { errors, rest: { ...problem, message, issues: others } };
}

const HEAD = [
  { field: 'basedOn', label: 'Starts from' },
  { field: 'name', label: 'Name' },
  { field: 'id', label: 'Id' },
] as const;

/** Limits that a figure was typed for: only those can be taken from the sheet by name. */
export const limitsTyped = (form: OwnForm): readonly FormRow[] =>
  LIMIT_ROWS.filter(({ field }) => (form.rows[field]?.text ?? '').trim() !== '');
