import { setTimeout as pause } from 'node:timers/promises';
import { type Driver, Kysely, SqliteDialect, type SqliteDialectConfig, SqliteDriver } from 'kysely';
import type Database from 'libsql';
import { storeErrorFrom } from './store-error.ts';
import type { Tables } from './tables.ts';

/** Tries for the write lock: each waits the busy timeout inside SQLite, then pauses without blocking. */
const LOCK_TRIES = 40;
const LOCK_PAUSE_MS = 25;

export function kyselyOver(db: Database.Database, file: string): Kysely<Tables> {
  return new Kysely<Tables>({ dialect: new WriteLockDialect(db, file) });
}

class WriteLockDialect extends SqliteDialect {
  readonly #config: SqliteDialectConfig;
  readonly #db: Database.Database;
  readonly #file: string;

  constructor(db: Database.Database, file: string) {
    const config = { database: db };
    super(config);
    this.#config = config;
    this.#db = db;
    this.#file = file;
  }

  override createDriver(): Driver {
    return new WriteLockDriver(this.#config, this.#db, this.#file);
  }
}

/**
 * Takes the write lock at the start of a transaction. With a plain BEGIN, two processes that both
 * read and then write would end in SQLITE_BUSY_SNAPSHOT, for which SQLite does not wait
 * (sqlite.org/lang_transaction.html, 2.2).
 */
class WriteLockDriver extends SqliteDriver {
  readonly #db: Database.Database;
  readonly #file: string;

  constructor(config: SqliteDialectConfig, db: Database.Database, file: string) {
    super(config);
    this.#db = db;
    this.#file = file;
  }

  override async beginTransaction(): Promise<void> {
    for (let attempt = 1; ; attempt++) {
      try {
        // Not through a prepared statement: one refused with SQLITE_BUSY stays open in this library
        // and makes the later commit fail with 'SQL statements in progress'.
        this.#db.exec('BEGIN IMMEDIATE');
        return;
      } catch (error) {
        const busy = storeErrorFrom(error, this.#file)?.code === 'busy';
        if (!busy || attempt === LOCK_TRIES) throw error;
        await pause(LOCK_PAUSE_MS);
      }
    }
  }

  override async commitTransaction(): Promise<void> {
    this.#db.exec('COMMIT');
  }

  override async rollbackTransaction(): Promise<void> {
    // SQLite rolls back by itself on a full disk or an I/O error; a second rollback would hide the cause.
    if (this.#db.inTransaction) this.#db.exec('ROLLBACK');
  }
}
