import { z } from 'zod';
import type { SiteEvent } from '../planner/index.ts';
import type { WeatherSource } from '../weather/index.ts';
import { canonicalJson } from './canonical.ts';
import { UnreadableRow } from './store-error.ts';
import type { Versioned } from './types.ts';

/**
 * Bodies are kept as JSON beside a format tag. The store checks what it relies on itself: the tag,
 * that the body is an object, and the fields it also keeps as columns. The full schema of a body
 * belongs to the edges, which check everything before it comes here.
 */
export const FORMATS = {
  job: 'layfair-job-1',
  crew: 'layfair-crew-1',
  product: 'layfair-own-product-1',
  practice: 'layfair-practice-1',
  event: 'layfair-event-1',
  source: 'layfair-weather-source-1',
} as const;
export type Format = (typeof FORMATS)[keyof typeof FORMATS];

/** Printable ASCII without spaces: every UUID and product id, and nothing that text columns could mangle. */
const idPattern = /^[\x21-\x7e]{1,200}$/;
const id = z.string().regex(idPattern);
const ms = z.int();

const documentSchema = z.looseObject({ id });
export const eventColumnsSchema = z.looseObject({
  id,
  jobId: id,
  kind: z.string().min(1),
  atMs: ms,
  loggedMs: ms,
  actorId: id,
});
const sourceSchema = z.looseObject({ issuedMs: ms.nullable(), fetchedMs: ms.nullable() });

/** @throws RangeError: ids, times and versions are checked at the edges; a bad one here is a bug. */
export function assertId(name: string, value: string): void {
  if (typeof value !== 'string' || !idPattern.test(value)) {
    throw new RangeError(
      `${name} (${JSON.stringify(value)}) must be 1 to 200 printable ASCII characters without spaces`,
    );
  }
}

/** @throws RangeError */
export function assertVersion(version: number): void {
  if (!Number.isSafeInteger(version) || version < 1) {
    throw new RangeError(`version (${version}) must be a whole number from 1`);
  }
}

/** Body text for a document whose own id is its key. */
export function documentBody(document: { readonly id: string }): string {
  assertId('id', document.id);
  return canonicalJson(document);
}

export interface BodyRow {
  readonly format: string;
  readonly body: string;
}

/** A saved document, under the id its row has. */
export function readDocument<T extends { readonly id: string }>(
  format: Format,
  rowId: string,
  row: BodyRow,
): T {
  return readBody(format, documentSchema, { id: rowId }, row, `id ${rowId}`) as T;
}

export function readSaved(row: { version: number; actor_id: string; saved_ms: number }): Versioned {
  return { version: row.version, savedMs: row.saved_ms, actorId: row.actor_id };
}

export function readEvent(row: BodyRow & { id: string; job_id: string; at_ms: number }): SiteEvent {
  const columns = { id: row.id, jobId: row.job_id, atMs: row.at_ms };
  return readBody(FORMATS.event, eventColumnsSchema, columns, row, `event ${row.id}`) as SiteEvent;
}

export function readSource(
  row: BodyRow & { id: string; issued_ms: number | null; fetched_ms: number | null },
): WeatherSource {
  const columns = { issuedMs: row.issued_ms, fetchedMs: row.fetched_ms };
  return readBody(
    FORMATS.source,
    sourceSchema,
    columns,
    row,
    `forecast ${row.id}`,
  ) as WeatherSource;
}

/**
 * The body, once its tag is known, its shape is right and it agrees with the columns beside it.
 * @throws UnreadableRow
 */
function readBody(
  format: Format,
  schema: z.ZodType<Readonly<Record<string, unknown>>>,
  columns: Readonly<Record<string, unknown>>,
  row: BodyRow,
  what: string,
): unknown {
  if (row.format !== format) {
    throw new UnreadableRow(
      `${what} is kept in format '${row.format}', this program reads '${format}'`,
    );
  }
  const parsed: unknown = JSON.parse(row.body);
  const checked = schema.safeParse(parsed);
  if (!checked.success) {
    throw new UnreadableRow(`${what}: ${z.prettifyError(checked.error).replace(/\s+/g, ' ')}`);
  }
  for (const [name, value] of Object.entries(columns)) {
    const inBody = checked.data[name];
    if (inBody !== value) {
      throw new UnreadableRow(
        `${what}: ${name} is ${String(inBody)} in the body, must be ${String(value)}`,
      );
    }
  }
  return parsed;
}
