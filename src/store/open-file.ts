import { accessSync, closeSync, constants, mkdirSync, openSync, readSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'libsql';
import { checkIsOurs, firstValue, type Migration, migrate, readPragma } from './migrate.ts';
import { storeError, wordingErrors } from './store-error.ts';

/** First bytes of every SQLite 3 file (sqlite.org/fileformat2.html, 1.3). */
const SQLITE_MAGIC = 'SQLite format 3\0';

/** How long one statement waits for another process [ms]; the library blocks meanwhile, so keep it short. */
const BUSY_TIMEOUT_MS = 100;

/** Opens, checks and migrates a file. Nothing is written before the file is known to be sound and ours. */
export function openFile(
  file: string,
  migrations: readonly Migration[],
  nowMs: number,
): Database.Database {
  return wordingErrors(file, () => {
    mkdirSync(dirname(file), { recursive: true });
    // Asked first, because SQLite reports a read-only folder only as 'unable to open'.
    accessSync(dirname(file), constants.W_OK);
    refuseOtherFormats(file);
    const db = new Database(file, { timeout: BUSY_TIMEOUT_MS });
    try {
      checkIntegrity(db, file);
      checkIsOurs(db, file, migrations.length);
      configure(db, file);
      migrate(db, file, migrations, nowMs);
      return db;
    } catch (error) {
      db.close();
      throw error;
    }
  });
}

/** An empty or missing file becomes a new store; anything else must start as an SQLite file does. */
function refuseOtherFormats(file: string): void {
  const head = Buffer.alloc(SQLITE_MAGIC.length);
  let length: number;
  try {
    accessSync(file, constants.W_OK);
    const handle = openSync(file, 'r');
    try {
      length = readSync(handle, head);
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return;
    throw error;
  }
  if (length > 0 && head.toString('latin1') !== SQLITE_MAGIC)
    throw storeError('not-a-database', file);
}

function checkIntegrity(db: Database.Database, file: string): void {
  const finding = String(firstValue(db, 'PRAGMA quick_check(1)'));
  if (finding !== 'ok') throw storeError('damaged', file, finding.replace(/\s+/g, ' ').trim());
}

function configure(db: Database.Database, file: string): void {
  db.exec('PRAGMA foreign_keys = ON');
  const mode = firstValue(db, 'PRAGMA journal_mode = WAL');
  // FULL: a write is acknowledged only once it is on the disk, not just handed to the system.
  db.exec('PRAGMA synchronous = FULL');
  const asked = { journal_mode: 'wal', synchronous: 2, foreign_keys: 1, timeout: BUSY_TIMEOUT_MS };
  const got = {
    journal_mode: mode,
    synchronous: readPragma(db, 'synchronous'),
    foreign_keys: readPragma(db, 'foreign_keys'),
    timeout: readPragma(db, 'busy_timeout'),
  };
  for (const [name, want] of Object.entries(asked)) {
    const has = got[name as keyof typeof got];
    if (has !== want) {
      throw storeError(
        'cannot-open',
        file,
        `${name} is ${String(has)}, must be ${want}; keep the file on a local disk`,
      );
    }
  }
}
