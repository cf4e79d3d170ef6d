import type { Kysely, Transaction } from 'kysely';
import { canonicalJson, sha256Hex } from './canonical.ts';
import { ensurePerson, findFirm } from './firms.ts';
import { assertId } from './formats.ts';
import { failure } from './results.ts';
import type { Tables } from './tables.ts';
import type { Ctx, Failure, Ok, Result } from './types.ts';

export interface WriteContext {
  readonly tx: Transaction<Tables>;
  readonly ctx: Ctx;
  readonly requestId: string;
  /** The one time this write carries. */
  readonly nowMs: number;
}

interface WriteRequest {
  readonly id: string;
  readonly kind: string;
  /** What was asked, for telling a repeat from another request under the same id. */
  readonly content: unknown;
}

/**
 * One write: firm, request, person, the work and its result in one transaction. An accepted request
 * is remembered with its result. A refused one changes nothing and is not remembered: sent again
 * later (the job now there, the undone event now in), it is judged anew.
 */
export async function write<T, Current>(
  db: Kysely<Tables>,
  now: () => number,
  ctx: Ctx,
  request: WriteRequest,
  work: (context: WriteContext) => Promise<Result<T, Current>>,
): Promise<Result<T, Current>> {
  assertId('requestId', request.id);
  assertId('firmId', ctx.firmId);
  assertId('actorId', ctx.actorId);
  const hash = sha256Hex(canonicalJson({ kind: request.kind, content: request.content }));
  const nowMs = now();
  assertInstant(nowMs);

  try {
    return await db.transaction().execute(async (tx) => {
      const before = await earlierResult<T>(tx, ctx, request.id, hash);
      if (before !== null) return before;
      await ensurePerson(tx, ctx.firmId, ctx.actorId, nowMs);

      const result = await work({ tx, ctx, requestId: request.id, nowMs });
      if (!result.ok) throw new Refusal(result);
      const text = canonicalJson(result);
      await tx
        .insertInto('request')
        .values({
          firm_id: ctx.firmId,
          id: request.id,
          kind: request.kind,
          hash,
          actor_id: ctx.actorId,
          saved_ms: nowMs,
          result: text,
        })
        .execute();
      // The same text a repeat will be answered from.
      return JSON.parse(text) as Ok<T>;
    });
  } catch (error) {
    if (error instanceof Refusal) return error.result as Failure<Current>;
    throw error;
  }
}

/** Carries a refusal out of the transaction so that it is rolled back. */
class Refusal extends Error {
  readonly result: Failure<unknown>;

  constructor(result: Failure<unknown>) {
    super(result.message);
    this.result = result;
  }
}

async function earlierResult<T>(
  tx: Transaction<Tables>,
  ctx: Ctx,
  requestId: string,
  hash: string,
): Promise<Result<T> | null> {
  if ((await findFirm(tx, ctx.firmId)) === null) {
    return failure('not-found', 'This firm is not kept here.');
  }
  const earlier = await tx
    .selectFrom('request')
    .select(['hash', 'result'])
    .where('firm_id', '=', ctx.firmId)
    .where('id', '=', requestId)
    .executeTakeFirst();
  if (!earlier) return null;
  if (earlier.hash === hash) return JSON.parse(earlier.result) as Ok<T>;
  return failure(
    'request-reused',
    'This request id was used before for something else. Nothing was saved; send it again under a new request id.',
  );
}

function assertInstant(nowMs: number): void {
  if (!Number.isSafeInteger(nowMs))
    throw new RangeError(`now() gave ${nowMs}, must be whole epoch milliseconds`);
}
