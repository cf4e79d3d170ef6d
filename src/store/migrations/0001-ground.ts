import type { Migration } from '../migrate.ts';

/**
 * Every row belongs to a firm and every key starts with it, so that no query can reach across.
 * Deletion is nowhere foreseen: nothing here cascades.
 */
export const ground: Migration = {
  version: 1,
  name: 'ground',
  statements: [
    `CREATE TABLE firm (
      id TEXT NOT NULL PRIMARY KEY,
      name TEXT NOT NULL,
      time_zone TEXT NOT NULL,
      demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
      since_ms INTEGER NOT NULL
    ) STRICT, WITHOUT ROWID`,

    `CREATE TABLE person (
      firm_id TEXT NOT NULL REFERENCES firm (id),
      id TEXT NOT NULL,
      name TEXT,
      since_ms INTEGER NOT NULL,
      PRIMARY KEY (firm_id, id)
    ) STRICT, WITHOUT ROWID`,

    ...['crew', 'product', 'job'].flatMap((table) => [
      `CREATE TABLE ${table} (
        firm_id TEXT NOT NULL REFERENCES firm (id),
        id TEXT NOT NULL,
        version INTEGER NOT NULL CHECK (version >= 1),
        format TEXT NOT NULL,
        body TEXT NOT NULL CHECK (json_valid(body)),
        actor_id TEXT NOT NULL,
        saved_ms INTEGER NOT NULL,
        PRIMARY KEY (firm_id, id),
        FOREIGN KEY (firm_id, actor_id) REFERENCES person (firm_id, id)
      ) STRICT`,
      `CREATE TRIGGER ${table}_one_version_on BEFORE UPDATE ON ${table}
        WHEN NEW.version <> OLD.version + 1 OR NEW.firm_id <> OLD.firm_id OR NEW.id <> OLD.id
        BEGIN SELECT RAISE(ABORT, '${table}: a change must keep firm and id and add one to the version'); END`,
    ]),

    `CREATE TABLE job_history (
      firm_id TEXT NOT NULL,
      job_id TEXT NOT NULL,
      version INTEGER NOT NULL,
      format TEXT NOT NULL,
      body TEXT NOT NULL CHECK (json_valid(body)),
      actor_id TEXT NOT NULL,
      saved_ms INTEGER NOT NULL,
      PRIMARY KEY (firm_id, job_id, version),
      FOREIGN KEY (firm_id, job_id) REFERENCES job (firm_id, id),
      FOREIGN KEY (firm_id, actor_id) REFERENCES person (firm_id, id)
    ) STRICT`,
    ...appendOnly(
      'job_history',
      'firm_id = NEW.firm_id AND job_id = NEW.job_id AND version = NEW.version',
    ),

    `CREATE TABLE site_event (
      seq INTEGER PRIMARY KEY AUTOINCREMENT,
      firm_id TEXT NOT NULL,
      id TEXT NOT NULL,
      job_id TEXT NOT NULL,
      kind TEXT NOT NULL,
      at_ms INTEGER NOT NULL,
      logged_ms INTEGER NOT NULL,
      actor_id TEXT NOT NULL,
      undoes TEXT CHECK ((kind = 'undo') = (undoes IS NOT NULL)),
      saved_by TEXT NOT NULL,
      saved_ms INTEGER NOT NULL,
      format TEXT NOT NULL,
      body TEXT NOT NULL CHECK (json_valid(body)),
      UNIQUE (firm_id, id),
      UNIQUE (firm_id, job_id, id),
      FOREIGN KEY (firm_id, job_id) REFERENCES job (firm_id, id),
      FOREIGN KEY (firm_id, actor_id) REFERENCES person (firm_id, id),
      FOREIGN KEY (firm_id, saved_by) REFERENCES person (firm_id, id),
      FOREIGN KEY (firm_id, job_id, undoes) REFERENCES site_event (firm_id, job_id, id)
    ) STRICT`,
    'CREATE INDEX site_event_in_order ON site_event (firm_id, job_id, at_ms, seq)',
    ...appendOnly('site_event', '(firm_id = NEW.firm_id AND id = NEW.id) OR seq = NEW.seq'),

    `CREATE TABLE forecast (
      seq INTEGER PRIMARY KEY AUTOINCREMENT,
      firm_id TEXT NOT NULL REFERENCES firm (id),
      id TEXT NOT NULL,
      job_id TEXT,
      place_key TEXT NOT NULL,
      issued_ms INTEGER,
      fetched_ms INTEGER,
      saved_ms INTEGER NOT NULL,
      actor_id TEXT NOT NULL,
      format TEXT NOT NULL,
      source TEXT NOT NULL CHECK (json_valid(source)),
      raw_bytes INTEGER NOT NULL CHECK (raw_bytes >= 0),
      sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
      gzip BLOB NOT NULL,
      UNIQUE (firm_id, id),
      FOREIGN KEY (firm_id, job_id) REFERENCES job (firm_id, id),
      FOREIGN KEY (firm_id, actor_id) REFERENCES person (firm_id, id)
    ) STRICT`,
    'CREATE INDEX forecast_by_place ON forecast (firm_id, place_key, seq)',

    `CREATE TABLE request (
      firm_id TEXT NOT NULL REFERENCES firm (id),
      id TEXT NOT NULL,
      kind TEXT NOT NULL,
      hash TEXT NOT NULL CHECK (length(hash) = 64),
      actor_id TEXT NOT NULL,
      saved_ms INTEGER NOT NULL,
      result TEXT NOT NULL CHECK (json_valid(result)),
      PRIMARY KEY (firm_id, id),
      FOREIGN KEY (firm_id, actor_id) REFERENCES person (firm_id, id)
    ) STRICT`,
  ],
};

/**
 * Statements that make a table append-only. The third trigger is for INSERT OR REPLACE, which removes
 * the old row without firing delete triggers (sqlite.org/lang_conflict.html, REPLACE).
 */
function appendOnly(table: string, sameRow: string): string[] {
  const refuse = `BEGIN SELECT RAISE(ABORT, '${table} is append-only'); END`;
  return [
    `CREATE TRIGGER ${table}_no_update BEFORE UPDATE ON ${table} ${refuse}`,
    `CREATE TRIGGER ${table}_no_delete BEFORE DELETE ON ${table} ${refuse}`,
    `CREATE TRIGGER ${table}_no_replace BEFORE INSERT ON ${table}
      WHEN EXISTS (SELECT 1 FROM ${table} WHERE ${sameRow}) ${refuse}`,
  ];
}
