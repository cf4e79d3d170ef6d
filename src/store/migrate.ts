import type Database from 'libsql';
import { storeError } from './store-error.ts';

export interface Migration {
  /** 1, 2, 3 ... without gaps; kept in the file's `user_version`. */
  readonly version: number;
  readonly name: string;
  /** Only statements that may run inside a transaction. */
  readonly statements: readonly string[];
}

/** Marks a file as ours in the SQLite header ('LyFr'; sqlite.org/pragma.html#pragma_application_id). */
export const APPLICATION_ID = 0x4c794672;

/**
 * Says whether a file may be opened: empty or ours, and not newer than this program.
 * Reads only, so that a refused file stays as it was, byte for byte.
 */
export function checkIsOurs(db: Database.Database, file: string, newest: number): void {
  const version = readPragma(db, 'user_version');
  const application = readPragma(db, 'application_id');
  const tables = Number(firstValue(db, 'SELECT count(*) FROM sqlite_schema'));
  if (application !== APPLICATION_ID && (tables > 0 || version !== 0 || application !== 0)) {
    throw storeError('other-database', file);
  }
  if (version > newest) {
    throw storeError(
      'newer-version',
      file,
      `file version ${version}, this program knows up to ${newest}`,
    );
  }
}

/**
 * Brings a file to the newest version in one transaction: all steps or none. A file that already
 * holds an older version is first copied beside itself, so that the older program can still be used.
 * @returns the path of that copy, or null where none was needed
 */
export function migrate(
  db: Database.Database,
  file: string,
  migrations: readonly Migration[],
  nowMs: number,
): string | null {
  assertNumbered(migrations);
  const before = readPragma(db, 'user_version');
  if (before === migrations.length) return null;

  const copy = before === 0 ? null : `${file}.version-${before}-${nowMs}.copy`;
  if (copy !== null) db.prepare('VACUUM INTO ?').run([copy]);

  db.exec('BEGIN IMMEDIATE');
  try {
    // Another process may have migrated the file while this one waited for the lock.
    checkIsOurs(db, file, migrations.length);
    const version = readPragma(db, 'user_version');
    for (const migration of migrations.slice(version)) {
      for (const statement of migration.statements) db.exec(statement);
      db.exec(`PRAGMA user_version = ${migration.version}`);
    }
    db.exec(`PRAGMA application_id = ${APPLICATION_ID}`);
    db.exec('COMMIT');
  } catch (error) {
    if (db.inTransaction) db.exec('ROLLBACK');
    throw error;
  }
  return copy;
}

function assertNumbered(migrations: readonly Migration[]): void {
  migrations.forEach((migration, i) => {
    if (migration.version !== i + 1) {
      throw new RangeError(
        `migration '${migration.name}' has version ${migration.version}, must be ${i + 1}`,
      );
    }
  });
}

export function readPragma(db: Database.Database, name: string): number {
  const value = firstValue(db, `PRAGMA ${name}`);
  if (typeof value !== 'number')
    throw new TypeError(`PRAGMA ${name} gave ${String(value)}, must be a number`);
  return value;
}

/** The first column of the first row. Reads to the end: the library's get() leaves a statement open. */
export function firstValue(db: Database.Database, sql: string): unknown {
  const [row] = db.prepare(sql).all([]) as Record<string, unknown>[];
  return row === undefined ? undefined : Object.values(row)[0];
}
