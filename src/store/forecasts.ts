import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import type { Kysely } from 'kysely';
import type { WeatherSource } from '../weather/index.ts';
import { canonicalJson, sha256Hex } from './canonical.ts';
import { notFound } from './documents.ts';
import { assertId, FORMATS, readSource } from './formats.ts';
import { JOBS } from './kinds.ts';
import type { WriteContext } from './requests.ts';
import { failure, ok } from './results.ts';
import { hasJob } from './site-events.ts';
import { UnreadableRow } from './store-error.ts';
import type { Tables } from './tables.ts';
import type { Ctx, ForecastRow, Ok, Result } from './types.ts';

const compress = promisify(gzip);
const expand = promisify(gunzip);

export interface PackedForecast {
  readonly jobId: string | null;
  readonly placeKey: string;
  readonly source: WeatherSource;
  readonly rawBytes: number;
  readonly sha256: string;
  readonly gzip: Uint8Array;
}

/** Done before the transaction, so that the file is not locked while megabytes are compressed. */
export async function packForecast(forecast: {
  readonly jobId: string | null;
  readonly placeKey: string;
  readonly source: WeatherSource;
  readonly bytes: Uint8Array;
}): Promise<PackedForecast> {
  const { jobId, placeKey, source, bytes } = forecast;
  assertId('placeKey', placeKey);
  const sha256 = sha256Hex(bytes);
  return { jobId, placeKey, source, rawBytes: bytes.length, sha256, gzip: await compress(bytes) };
}

const COLUMNS = [
  'id',
  'job_id',
  'place_key',
  'issued_ms',
  'fetched_ms',
  'saved_ms',
  'format',
  'source',
  'raw_bytes',
  'sha256',
] as const;

export async function saveForecast(
  context: WriteContext,
  packed: PackedForecast,
): Promise<Result<ForecastRow>> {
  const { tx, ctx, requestId, nowMs } = context;
  if (packed.jobId !== null && !(await hasJob(tx, ctx, packed.jobId))) {
    return notFound(JOBS, packed.jobId);
  }
  const row = {
    firm_id: ctx.firmId,
    id: requestId,
    job_id: packed.jobId,
    place_key: packed.placeKey,
    issued_ms: packed.source.issuedMs,
    fetched_ms: packed.source.fetchedMs,
    saved_ms: nowMs,
    actor_id: ctx.actorId,
    format: FORMATS.source,
    source: canonicalJson(packed.source),
    raw_bytes: packed.rawBytes,
    sha256: packed.sha256,
  };
  await tx
    .insertInto('forecast')
    .values({ ...row, gzip: packed.gzip })
    .execute();
  return ok(toRow(row));
}

export async function forecastsFor(
  db: Kysely<Tables>,
  ctx: Ctx,
  placeKey: string,
): Promise<Ok<readonly ForecastRow[]>> {
  const rows = await db
    .selectFrom('forecast')
    .select(COLUMNS)
    .where('firm_id', '=', ctx.firmId)
    .where('place_key', '=', placeKey)
    .orderBy('seq', 'desc')
    .execute();
  return ok(rows.map(toRow));
}

/** The response as received, checked against the size and hash taken when it was saved. */
export async function forecastBytes(
  db: Kysely<Tables>,
  ctx: Ctx,
  id: string,
): Promise<Result<Uint8Array>> {
  const row = await db
    .selectFrom('forecast')
    .select(['gzip', 'raw_bytes', 'sha256'])
    .where('firm_id', '=', ctx.firmId)
    .where('id', '=', id)
    .executeTakeFirst();
  if (!row) return failure('not-found', `There is no forecast with the id ${id}.`);
  // The library hands blobs out as ArrayBuffer.
  const bytes = await expand(new Uint8Array(row.gzip)).catch((cause: Error) => {
    throw new UnreadableRow(`forecast ${id} cannot be expanded: ${cause.message}`, { cause });
  });
  if (bytes.length !== row.raw_bytes || sha256Hex(bytes) !== row.sha256) {
    throw new UnreadableRow(`forecast ${id} is not what was saved: its hash differs`);
  }
  return ok(new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.length));
}

function toRow(row: Pick<Tables['forecast'], (typeof COLUMNS)[number]>): ForecastRow {
  return {
    id: row.id,
    jobId: row.job_id,
    placeKey: row.place_key,
    source: readSource({ ...row, body: row.source }),
    issuedMs: row.issued_ms,
    fetchedMs: row.fetched_ms,
    savedMs: row.saved_ms,
    rawBytes: row.raw_bytes,
    sha256: row.sha256,
  };
}
