import { z } from 'zod';
import { canonicalJson } from './canonical.ts';
import { UnreadableRow } from './store-error.ts';

/**
 * Bodies are kept as JSON beside a format tag. The store checks what it relies on itself: the tag,
 * that the body is an object, and the fields it also keeps as columns. The full schema of a body
 * belongs to the edges, which check everything before it comes here.
 */
export const FORMATS = {
  job: 'layfair-job-1',
  crew: 'layfair-crew-1',
  product: 'layfair-product-1',
  event: 'layfair-event-1',
  source: 'layfair-weather-source-1',
} as const;
export type Format = (typeof FORMATS)[keyof typeof FORMATS];

/** Printable ASCII without spaces: every UUID and product id, and nothing that text columns could mangle. */
const idPattern = /^[\x21-\x7e]{1,200}$/;
const id = z.string().regex(idPattern);
const ms = z.int();

const savedSchema = z.object({ version: z.int().min(1), actor_id: id, saved_ms: ms });
export const eventColumnsSchema = z.looseObject({
  id,
  jobId: id,
  kind: z.string().min(1),
  atMs: ms,
  loggedMs: ms,
  actorId: id,
});
const sourceColumnsSchema = z.looseObject({ issuedMs: ms.nullable(), fetchedMs: ms.nullable() });

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

/** A saved document with the id its row has. */
export function readDocument<T extends { readonly id: string }>(
  format: Format,
  rowId: string,
  row: BodyRow,
): T {
  return readBody<T>(format, z.looseObject({ id: z.literal(rowId) }), row, `id ${rowId}`);
}

export function readSaved(row: { version: number; actor_id: string; saved_ms: number }) {
  const saved = savedSchema.parse({
    version: row.version,
    actor_id: row.actor_id,
    saved_ms: row.saved_ms,
  });
  return { version: saved.version, savedMs: saved.saved_ms, actorId: saved.actor_id };
}

export function readEvent<T>(row: BodyRow & { id: string; job_id: string; at_ms: number }): T {
  const schema = eventColumnsSchema.extend({
    id: z.literal(row.id),
    jobId: z.literal(row.job_id),
    atMs: z.literal(row.at_ms),
  });
  return readBody<T>(FORMATS.event, schema, row, `event ${row.id}`);
}

export function readSource<T>(row: BodyRow, forecastId: string): T {
  return readBody<T>(FORMATS.source, sourceColumnsSchema, row, `forecast ${forecastId}`);
}

/** @throws UnreadableRow */
function readBody<T>(format: Format, schema: z.ZodType, row: BodyRow, what: string): T {
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
  return parsed as T;
}
