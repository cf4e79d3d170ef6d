import type { Migration } from '../migrate.ts';

const SAME_CALL =
  'firm_id = NEW.firm_id AND job_id = NEW.job_id AND date = NEW.date AND forecast_ms = NEW.forecast_ms';
const REFUSE = "BEGIN SELECT RAISE(ABORT, 'day_call is append-only'); END";

/**
 * What was said of each laying day, once for each forecast. Append-only like the site log, and for the
 * same reason: a record that could be altered afterwards would prove nothing.
 */
export const dayCalls: Migration = {
  version: 3,
  name: 'day calls',
  statements: [
    `CREATE TABLE day_call (
      seq INTEGER PRIMARY KEY AUTOINCREMENT,
      firm_id TEXT NOT NULL,
      job_id TEXT NOT NULL,
      date TEXT NOT NULL,
      forecast_ms INTEGER NOT NULL,
      issued_ms INTEGER,
      model TEXT,
      made INTEGER NOT NULL CHECK (made IN (0, 1)),
      said_ms INTEGER NOT NULL,
      lead_days REAL NOT NULL,
      bay INTEGER NOT NULL CHECK (bay >= 1),
      verdict TEXT NOT NULL CHECK (verdict IN ('go', 'doubtful', 'no')),
      start_ms INTEGER,
      finished INTEGER NOT NULL CHECK (finished >= 0),
      forecasts INTEGER NOT NULL CHECK (forecasts >= 2 AND forecasts >= finished),
      shrunk REAL NOT NULL CHECK (shrunk > 0 AND shrunk < 1),
      shown REAL NOT NULL CHECK (shown > 0 AND shown < 1),
      words TEXT NOT NULL,
      actor_id TEXT NOT NULL,
      saved_ms INTEGER NOT NULL,
      UNIQUE (firm_id, job_id, date, forecast_ms),
      FOREIGN KEY (firm_id, job_id) REFERENCES job (firm_id, id),
      FOREIGN KEY (firm_id, actor_id) REFERENCES person (firm_id, id)
    ) STRICT`,
    `CREATE TRIGGER day_call_no_update BEFORE UPDATE ON day_call ${REFUSE}`,
    `CREATE TRIGGER day_call_no_delete BEFORE DELETE ON day_call ${REFUSE}`,
    `CREATE TRIGGER day_call_no_replace BEFORE INSERT ON day_call
      WHEN EXISTS (SELECT 1 FROM day_call WHERE (${SAME_CALL}) OR seq = NEW.seq) ${REFUSE}`,
    // For the mark of how days went: looked up with every question about a job.
    'CREATE INDEX site_event_by_kind ON site_event (firm_id, kind, seq)',
  ],
};
