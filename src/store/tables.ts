import type { Generated } from 'kysely';

/** The tables as kysely sees them; the statements that make them are in migrations/. */

interface Body {
  format: string;
  /** JSON text. */
  body: string;
}

interface Saved {
  actor_id: string;
  saved_ms: number;
}

export interface DocumentTable extends Body, Saved {
  firm_id: string;
  id: string;
  version: number;
}

export interface DayCallTable {
  seq: Generated<number>;
  firm_id: string;
  job_id: string;
  date: string;
  forecast_ms: number;
  issued_ms: number | null;
  model: string | null;
  made: number;
  said_ms: number;
  lead_days: number;
  bay: number;
  verdict: 'go' | 'doubtful' | 'no';
  start_ms: number | null;
  finished: number;
  forecasts: number;
  shrunk: number;
  shown: number;
  words: string;
  actor_id: string;
  saved_ms: number;
}

export interface Tables {
  firm: { id: string; name: string; time_zone: string; demo: number; since_ms: number };
  person: { firm_id: string; id: string; name: string | null; since_ms: number };
  crew: DocumentTable;
  product: DocumentTable;
  practice: DocumentTable;
  job: DocumentTable;
  job_history: Body & Saved & { firm_id: string; job_id: string; version: number };
  site_event: Body & {
    seq: Generated<number>;
    firm_id: string;
    id: string;
    job_id: string;
    kind: string;
    at_ms: number;
    logged_ms: number;
    actor_id: string;
    undoes: string | null;
    saved_by: string;
    saved_ms: number;
  };
  forecast: Saved & {
    seq: Generated<number>;
    firm_id: string;
    id: string;
    job_id: string | null;
    place_key: string;
    issued_ms: number | null;
    fetched_ms: number | null;
    format: string;
    source: string;
    raw_bytes: number;
    sha256: string;
    gzip: Uint8Array;
  };
  day_call: DayCallTable;
  request: Saved & { firm_id: string; id: string; kind: string; hash: string; result: string };
}
