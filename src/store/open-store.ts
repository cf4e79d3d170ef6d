import { resolve } from 'node:path';
import { callsOf, dayEndsMark, saveCalls } from './day-calls.ts';
import { kyselyOver } from './dialect.ts';
import {
  createDocument,
  listDocuments,
  oneDocument,
  saveDocument,
  updateDocument,
} from './documents.ts';
import { allFirms, ensureFirm, findFirm } from './firms.ts';
import { forecastBytes, forecastsFor, packForecast, saveForecast } from './forecasts.ts';
import { CREWS, JOBS, jobVersions, PRACTICES, PRODUCTS } from './kinds.ts';
import { MIGRATIONS } from './migrations/index.ts';
import { openFile } from './open-file.ts';
import { write } from './requests.ts';
import { failure, ok } from './results.ts';
import { appendEvents, eventsOf } from './site-events.ts';
import { storeErrorFrom, wordingErrorsAsync } from './store-error.ts';
import type { Store } from './types.ts';

export interface OpenStoreOptions {
  readonly file: string;
  readonly now: () => number;
}

/**
 * Opens a store file, making or migrating it as needed.
 * @param options.now the time each write carries; called once per write
 * @throws StoreError with a sentence, the file left as it was
 */
export async function openStore(options: OpenStoreOptions): Promise<Store> {
  const { now } = options;
  const file = resolve(options.file);
  const connection = openFile(file, MIGRATIONS, now());
  const db = kyselyOver(connection, file);
  const running = new Set<Promise<unknown>>();
  let closing: Promise<void> | null = null;

  function call<T>(work: () => Promise<T>): Promise<T> {
    if (closing !== null) return Promise.reject(new Error(`the store '${file}' is closed`));
    const promise = wordingErrorsAsync(file, work);
    running.add(promise);
    const done = () => running.delete(promise);
    promise.then(done, done);
    return promise;
  }

  async function shut(): Promise<void> {
    await Promise.allSettled(running);
    try {
      // The file is then complete by itself: copying it is a backup.
      connection.prepare('PRAGMA wal_checkpoint(TRUNCATE)').all([]);
    } catch (error) {
      // No room or no lock just now: every write is in the journal, and the next opening folds it in.
      if (storeErrorFrom(error, file) === null) throw error;
    }
    await db.destroy();
    // Destroying an unused instance does not reach the connection.
    if (connection.open) connection.close();
  }

  return {
    firms: () => call(() => allFirms(db)),
    ensureFirm: (firm) => call(() => ensureFirm(db, firm, now())),
    firm: (ctx) =>
      call(async () => {
        const firm = await findFirm(db, ctx.firmId);
        return firm ? ok(firm) : failure('not-found', 'This firm is not kept here.');
      }),

    listJobs: (ctx) => call(() => listDocuments(db, JOBS, ctx)),
    job: (ctx, id) => call(() => oneDocument(db, JOBS, ctx, id)),
    jobHistory: (ctx, id) => call(() => jobVersions(db, ctx, id)),
    createJob: (ctx, { requestId, job }) =>
      call(() =>
        write(db, now, ctx, { id: requestId, kind: 'create-job', content: { job } }, (context) =>
          createDocument(context, JOBS, job),
        ),
      ),
    updateJob: (ctx, { requestId, version, job }) =>
      call(() =>
        write(
          db,
          now,
          ctx,
          { id: requestId, kind: 'update-job', content: { version, job } },
          (context) => updateDocument(context, JOBS, version, job),
        ),
      ),

    appendEvents: (ctx, { requestId, jobId, events }) =>
      call(() =>
        write(
          db,
          now,
          ctx,
          { id: requestId, kind: 'append-events', content: { jobId, events } },
          (context) => appendEvents(context, jobId, events),
        ),
      ),
    events: (ctx, jobId) => call(() => eventsOf(db, ctx, jobId)),

    saveCalls: (ctx, { requestId, jobId, calls }) =>
      call(() =>
        write(
          db,
          now,
          ctx,
          { id: requestId, kind: 'save-calls', content: { jobId, calls } },
          (context) => saveCalls(context, jobId, calls),
        ),
      ),
    calls: (ctx, jobId) => call(() => callsOf(db, ctx, jobId)),
    dayEndsMark: (ctx) => call(() => dayEndsMark(db, ctx)),

    listCrews: (ctx) => call(() => listDocuments(db, CREWS, ctx)),
    saveCrew: (ctx, { requestId, version, crew }) =>
      call(() =>
        write(
          db,
          now,
          ctx,
          { id: requestId, kind: 'save-crew', content: { version, crew } },
          (context) => saveDocument(context, CREWS, version, crew),
        ),
      ),

    practice: (ctx) => call(() => oneDocument(db, PRACTICES, ctx, 'firm')),
    savePractice: (ctx, { requestId, version, practice }) =>
      call(() =>
        write(
          db,
          now,
          ctx,
          { id: requestId, kind: 'save-practice', content: { version, practice } },
          (context) => saveDocument(context, PRACTICES, version, practice),
        ),
      ),

    listProducts: (ctx) => call(() => listDocuments(db, PRODUCTS, ctx)),
    product: (ctx, id) => call(() => oneDocument(db, PRODUCTS, ctx, id)),
    saveProduct: (ctx, { requestId, version, product }) =>
      call(() =>
        write(
          db,
          now,
          ctx,
          { id: requestId, kind: 'save-product', content: { version, product } },
          (context) => saveDocument(context, PRODUCTS, version, product),
        ),
      ),

    saveForecast: (ctx, { requestId, ...forecast }) =>
      call(async () => {
        const packed = await packForecast(forecast);
        const { gzip: _gzip, ...content } = packed;
        return await write(
          db,
          now,
          ctx,
          { id: requestId, kind: 'save-forecast', content },
          (context) => saveForecast(context, packed),
        );
      }),
    forecasts: (ctx, placeKey) => call(() => forecastsFor(db, ctx, placeKey)),
    forecastBytes: (ctx, id) => call(() => forecastBytes(db, ctx, id)),

    close: () => {
      closing ??= shut();
      return closing;
    },
  };
}
