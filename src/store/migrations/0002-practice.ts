import type { Migration } from '../migrate.ts';

/** How a firm works: its own rates, rolls and laps, one row for each firm. */
export const practice: Migration = {
  version: 2,
  name: 'practice',
  statements: [
    `CREATE TABLE practice (
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
    `CREATE TRIGGER practice_one_version_on BEFORE UPDATE ON practice
      WHEN NEW.version <> OLD.version + 1 OR NEW.firm_id <> OLD.firm_id OR NEW.id <> OLD.id
      BEGIN SELECT RAISE(ABORT, 'practice: a change must keep firm and id and add one to the version'); END`,
  ],
};
