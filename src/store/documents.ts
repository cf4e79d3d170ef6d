import type { Kysely, Transaction } from 'kysely';
import { assertVersion, documentBody, type Format, readDocument, readSaved } from './formats.ts';
import type { WriteContext } from './requests.ts';
import { failure, failureWith, ok } from './results.ts';
import type { DocumentTable, Tables } from './tables.ts';
import type { Ctx, Ok, Result, Versioned } from './types.ts';

/**
 * Jobs, crews, products and a firm's practice are kept alike: one row each, a body, and a version that must be the one
 * the writer saw. A `Kind` says what differs.
 */
export interface Kind<Doc extends { readonly id: string }, Row extends Versioned> {
  readonly table: 'job' | 'crew' | 'product' | 'practice';
  readonly format: Format;
  /** The word for it in sentences. */
  readonly word: string;
  readonly toRow: (doc: Doc, saved: Versioned) => Row;
  readonly nameOf: (doc: Doc) => string;
  /** A body kept by an earlier version of the program, with the fields that came later. */
  readonly whole: (kept: Doc) => Doc;
  /** Keeps the version about to be replaced, inside the same transaction. */
  readonly keepFormer: ((tx: Transaction<Tables>, former: DocumentTable) => Promise<void>) | null;
}

/** The tables share their columns; kysely needs one name to type a query by. */
const tableOf = (kind: { readonly table: string }) => kind.table as 'job';

export async function listDocuments<Doc extends { readonly id: string }, Row extends Versioned>(
  db: Kysely<Tables>,
  kind: Kind<Doc, Row>,
  ctx: Ctx,
): Promise<Ok<readonly Row[]>> {
  const rows = await db
    .selectFrom(tableOf(kind))
    .selectAll()
    .where('firm_id', '=', ctx.firmId)
    .orderBy('id')
    .execute();
  const docs = rows.map((row) => ({
    row,
    doc: kind.whole(readDocument<Doc>(kind.format, row.id, row)),
  }));
  docs.sort((a, b) => compareText(kind.nameOf(a.doc), kind.nameOf(b.doc)));
  return ok(docs.map(({ row, doc }) => kind.toRow(doc, readSaved(row))));
}

export async function oneDocument<Doc extends { readonly id: string }, Row extends Versioned>(
  db: Kysely<Tables>,
  kind: Kind<Doc, Row>,
  ctx: Ctx,
  id: string,
): Promise<Result<Row>> {
  const row = await findRow(db, kind, ctx, id);
  return row ? ok(rowOf(kind, row)) : notFound(kind, id);
}

export async function createDocument<Doc extends { readonly id: string }, Row extends Versioned>(
  context: WriteContext,
  kind: Kind<Doc, Row>,
  doc: Doc,
): Promise<Result<Row, Row>> {
  const { tx, ctx, nowMs } = context;
  const there = await findRow(tx, kind, ctx, doc.id);
  if (there) {
    return failureWith(
      'id-taken',
      `There is already a ${kind.word} with the id ${doc.id}. Nothing was changed.`,
      rowOf(kind, there),
    );
  }
  const row: DocumentTable = {
    firm_id: ctx.firmId,
    id: doc.id,
    version: 1,
    format: kind.format,
    body: documentBody(doc),
    actor_id: ctx.actorId,
    saved_ms: nowMs,
  };
  await tx.insertInto(tableOf(kind)).values(row).execute();
  return ok(rowOf(kind, row));
}

export async function updateDocument<Doc extends { readonly id: string }, Row extends Versioned>(
  context: WriteContext,
  kind: Kind<Doc, Row>,
  seenVersion: number,
  doc: Doc,
): Promise<Result<Row, Row>> {
  assertVersion(seenVersion);
  const { tx, ctx, nowMs } = context;
  const former = await findRow(tx, kind, ctx, doc.id);
  if (!former) return notFound(kind, doc.id);
  if (former.version !== seenVersion) {
    return failureWith(
      'version-conflict',
      `This ${kind.word} was changed since you opened it: you saw version ${seenVersion}, it is now version ${former.version}. Nothing was saved.`,
      rowOf(kind, former),
    );
  }
  await kind.keepFormer?.(tx, former);
  const next: DocumentTable = {
    ...former,
    version: former.version + 1,
    format: kind.format,
    body: documentBody(doc),
    actor_id: ctx.actorId,
    saved_ms: nowMs,
  };
  await tx
    .updateTable(tableOf(kind))
    .set(next)
    .where('firm_id', '=', ctx.firmId)
    .where('id', '=', doc.id)
    .execute();
  return ok(rowOf(kind, next));
}

/** Creates at `seenVersion` null, else updates. */
export async function saveDocument<Doc extends { readonly id: string }, Row extends Versioned>(
  context: WriteContext,
  kind: Kind<Doc, Row>,
  seenVersion: number | null,
  doc: Doc,
): Promise<Result<Row, Row>> {
  return seenVersion === null
    ? await createDocument(context, kind, doc)
    : await updateDocument(context, kind, seenVersion, doc);
}

async function findRow(
  db: Kysely<Tables>,
  kind: { readonly table: string },
  ctx: Ctx,
  id: string,
): Promise<DocumentTable | undefined> {
  return await db
    .selectFrom(tableOf(kind))
    .selectAll()
    .where('firm_id', '=', ctx.firmId)
    .where('id', '=', id)
    .executeTakeFirst();
}

function rowOf<Doc extends { readonly id: string }, Row extends Versioned>(
  kind: Kind<Doc, Row>,
  row: DocumentTable,
): Row {
  return kind.toRow(kind.whole(readDocument<Doc>(kind.format, row.id, row)), readSaved(row));
}

export function notFound(kind: { readonly word: string }, id: string) {
  return failure('not-found', `There is no ${kind.word} with the id ${id}.`);
}

/** By code unit, so that the order is the same on every machine. */
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
