import type { Kysely, Transaction } from 'kysely';
import { assertId } from './formats.ts';
import type { Tables } from './tables.ts';
import type { Firm } from './types.ts';

const COLUMNS = ['id', 'name', 'time_zone', 'demo'] as const;
type FirmColumns = Pick<Tables['firm'], (typeof COLUMNS)[number]>;

function toFirm(row: FirmColumns): Firm {
  return { id: row.id, name: row.name, timeZone: row.time_zone, demo: row.demo === 1 };
}

export async function allFirms(db: Kysely<Tables>): Promise<readonly Firm[]> {
  const rows = await db.selectFrom('firm').select(COLUMNS).orderBy('name').orderBy('id').execute();
  return rows.map(toFirm);
}

export async function findFirm(db: Kysely<Tables>, firmId: string): Promise<Firm | null> {
  const row = await db
    .selectFrom('firm')
    .select(COLUMNS)
    .where('id', '=', firmId)
    .executeTakeFirst();
  return row ? toFirm(row) : null;
}

/** Safe to repeat: a firm already there is returned as it is kept, whatever `firm` says. */
export async function ensureFirm(db: Kysely<Tables>, firm: Firm, nowMs: number): Promise<Firm> {
  assertId('firm.id', firm.id);
  assertPrintable('firm.name', firm.name);
  assertPrintable('firm.timeZone', firm.timeZone);
  return await db.transaction().execute(async (tx) => {
    await tx
      .insertInto('firm')
      .values({
        id: firm.id,
        name: firm.name,
        time_zone: firm.timeZone,
        demo: firm.demo ? 1 : 0,
        since_ms: nowMs,
      })
      .onConflict((conflict) => conflict.column('id').doNothing())
      .execute();
    const kept = await findFirm(tx, firm.id);
    if (kept === null) throw new Error(`firm ${firm.id} is not there after it was inserted`);
    return kept;
  });
}

/** Whoever acts is a person of the firm from then on; the name is null until somebody enters it. */
export async function ensurePerson(
  tx: Transaction<Tables>,
  firmId: string,
  personId: string,
  nowMs: number,
): Promise<void> {
  await tx
    .insertInto('person')
    .values({ firm_id: firmId, id: personId, name: null, since_ms: nowMs })
    .onConflict((conflict) => conflict.columns(['firm_id', 'id']).doNothing())
    .execute();
}

/** A text column ends at a NUL and cannot hold half a surrogate pair; such text would not come back as given. */
function assertPrintable(name: string, value: string): void {
  if (value.length === 0 || /\p{Cc}|\p{Cs}/u.test(value)) {
    throw new RangeError(
      `${name} (${JSON.stringify(value)}) must be text without control characters`,
    );
  }
}
