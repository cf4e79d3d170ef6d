import type { Crew, Job, SiteEvent } from '../planner/index.ts';
import type { OwnProduct } from '../products/index.ts';
import type { DayCall } from '../record/index.ts';
import type { WeatherSource } from '../weather/index.ts';

/** On whose behalf a call is made. A call sees and changes rows of this firm only. */
export interface Ctx {
  readonly firmId: string;
  readonly actorId: string;
}

export interface Ok<T> {
  readonly ok: true;
  readonly value: T;
}

export const FAILURE_CODES = [
  'not-found',
  'version-conflict',
  'id-taken',
  'bad-event',
  'request-reused',
] as const;
export type FailureCode = (typeof FAILURE_CODES)[number];

export interface Failure<Current = never> {
  readonly ok: false;
  readonly code: FailureCode;
  /** A sentence for the person who made the call. */
  readonly message: string;
  /** The row as it is now, for 'version-conflict' and 'id-taken', so that a person can be told what changed. */
  readonly current?: Current;
  /** For 'bad-event': every problem at once, each with its place in the request. */
  readonly issues?: readonly { readonly path: string; readonly message: string }[];
}

/** Outcomes a caller must expect are values. Failures of file and disk are thrown as `StoreError`. */
export type Result<T, Current = never> = Ok<T> | Failure<Current>;

export interface Firm {
  readonly id: string;
  readonly name: string;
  /** IANA zone of the office. */
  readonly timeZone: string;
  /** The demo firm lives on the demo clock and on invented weather. */
  readonly demo: boolean;
}

/** What every versioned row carries: 1 for the first version, one more for each change. */
export interface Versioned {
  readonly version: number;
  /** When this version was saved, and by whom. */
  readonly savedMs: number;
  readonly actorId: string;
}

export interface JobRow extends Versioned {
  readonly job: Job;
}

/** A crew the firm keeps, so it has an id; a job holds its own copy of the planner's `Crew`. */
export interface FirmCrew extends Crew {
  readonly id: string;
}

export interface CrewRow extends Versioned {
  readonly crew: FirmCrew;
}

export interface ProductRow extends Versioned {
  /** As the firm wrote it; what it comes to depends on the class of the day. */
  readonly product: OwnProduct;
}

/** How a firm works where a job does not say otherwise; there is one, under the id 'firm'. */
export interface FirmPractice {
  readonly id: 'firm';
  /** Own typical output instead of the usual, in the rate's own unit. */
  readonly rates: Job['rates'];
  readonly layout: Pick<Job['layout'], 'sheetWidthsM' | 'rollLengthM' | 'lapM'>;
}

export interface PracticeRow extends Versioned {
  readonly practice: FirmPractice;
}

export interface ForecastRow {
  readonly id: string;
  /** The job it was fetched for, or null. */
  readonly jobId: string | null;
  /** The feed's name for the place, model and variables asked. */
  readonly placeKey: string;
  readonly source: WeatherSource;
  /** Copied out of `source`; null = not known. */
  readonly issuedMs: number | null;
  readonly fetchedMs: number | null;
  readonly savedMs: number;
  /** Size of the response as received, and its SHA-256. */
  readonly rawBytes: number;
  readonly sha256: string;
}

export interface AppendedEvents {
  /** Newly written. */
  readonly added: number;
  /** Sent before under another request with the same content; left as they are. */
  readonly alreadyThere: number;
}

export interface KeptCalls {
  /** Newly kept. */
  readonly added: number;
  /** Said before of the same day by the same forecast; left as first said. */
  readonly alreadyThere: number;
}

interface Write {
  /** Made by the client (UUID). Repeating a request gives the first result again and changes nothing. */
  readonly requestId: string;
}

/**
 * The one way to saved things. Every call takes who asks first; ids are made by the client. Each
 * write is one transaction together with its request, so it is there whole or not at all.
 */
export interface Store {
  /** All firms in this file, by name. */
  firms(): Promise<readonly Firm[]>;
  /** Adds the firm, or returns the one already kept under this id, unchanged. */
  ensureFirm(firm: Firm): Promise<Firm>;

  firm(ctx: Ctx): Promise<Result<Firm>>;

  /** By name, then id. */
  listJobs(ctx: Ctx): Promise<Ok<readonly JobRow[]>>;
  job(ctx: Ctx, id: string): Promise<Result<JobRow>>;
  createJob(ctx: Ctx, write: Write & { readonly job: Job }): Promise<Result<JobRow, JobRow>>;
  /** `version` is the version that was seen and changed. */
  updateJob(
    ctx: Ctx,
    write: Write & { readonly version: number; readonly job: Job },
  ): Promise<Result<JobRow, JobRow>>;
  /** Every version there has been, oldest first, the present one last. */
  jobHistory(ctx: Ctx, id: string): Promise<Result<readonly JobRow[]>>;

  /** All of the events or none. See docs/storage.md for what an event must satisfy. */
  appendEvents(
    ctx: Ctx,
    write: Write & { readonly jobId: string; readonly events: readonly SiteEvent[] },
  ): Promise<Result<AppendedEvents>>;
  /** In the order things happened (`atMs`); at one instant, in the order they were written down. */
  events(ctx: Ctx, jobId: string): Promise<Result<readonly SiteEvent[]>>;

  /** Keeps what was said of days to come: one call for each job, date and forecast, the first one. */
  saveCalls(
    ctx: Ctx,
    write: Write & { readonly jobId: string; readonly calls: readonly DayCall[] },
  ): Promise<Result<KeptCalls>>;
  /** By date, then as they were said. */
  calls(ctx: Ctx, jobId: string): Promise<Result<readonly DayCall[]>>;
  /** A number that changes whenever the firm's site logs say something new of how days went. */
  dayEndsMark(ctx: Ctx): Promise<Ok<number>>;

  listCrews(ctx: Ctx): Promise<Ok<readonly CrewRow[]>>;
  /** `version` null = a new crew. */
  saveCrew(
    ctx: Ctx,
    write: Write & { readonly version: number | null; readonly crew: FirmCrew },
  ): Promise<Result<CrewRow, CrewRow>>;

  /** 'not-found' until something is set. */
  practice(ctx: Ctx): Promise<Result<PracticeRow>>;
  /** `version` null = nothing has been set yet. */
  savePractice(
    ctx: Ctx,
    write: Write & { readonly version: number | null; readonly practice: FirmPractice },
  ): Promise<Result<PracticeRow, PracticeRow>>;

  /** The firm's own products only; bundled ones are not in the store. */
  listProducts(ctx: Ctx): Promise<Ok<readonly ProductRow[]>>;
  product(ctx: Ctx, id: string): Promise<Result<ProductRow>>;
  /** `version` null = a new product. */
  saveProduct(
    ctx: Ctx,
    write: Write & { readonly version: number | null; readonly product: OwnProduct },
  ): Promise<Result<ProductRow, ProductRow>>;

  /** Keeps a response exactly as received. The forecast's id is the request's id. */
  saveForecast(
    ctx: Ctx,
    write: Write & {
      readonly jobId: string | null;
      readonly placeKey: string;
      readonly source: WeatherSource;
      readonly bytes: Uint8Array;
    },
  ): Promise<Result<ForecastRow>>;
  /** Last saved first. */
  forecasts(ctx: Ctx, placeKey: string): Promise<Ok<readonly ForecastRow[]>>;
  forecastBytes(ctx: Ctx, id: string): Promise<Result<Uint8Array>>;

  /** Waits for running calls, then folds the journal into the file and lets go of it. */
  close(): Promise<void>;
}
