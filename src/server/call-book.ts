import { randomUUID } from 'node:crypto';
import { setImmediate } from 'node:timers/promises';
import { callsIn } from '../answers/index.ts';
import type { DaysAnswer } from '../contract/index.ts';
import {
  CASES_NEEDED,
  type FirmRecord,
  firmRecord,
  type Job,
  NO_RECORD,
} from '../planner/index.ts';
import { type CalledDay, calledDays, pastCalls } from '../record/index.ts';
import type { Desk } from './desk.ts';
import { RequestError } from './reply.ts';

const MOST_REMEMBERED = 20_000;

/** The firm's calls: keeps what answers say of days to come, and what came of them. */
export class CallBook {
  readonly #desk: Pick<Desk, 'store' | 'own' | 'planning'>;
  readonly #logError: (error: unknown) => void;
  /** Calls known to be in the store, so that an answer given again writes nothing. */
  readonly #known = new Set<string>();
  readonly #writing = new Set<Promise<void>>();
  #mark: number | null = null;
  #record: Promise<FirmRecord> = Promise.resolve(NO_RECORD);

  constructor(desk: Pick<Desk, 'store' | 'own' | 'planning'>, logError: (error: unknown) => void) {
    this.#desk = desk;
    this.#logError = logError;
  }

  /** Keeps what an answer says once it is there. Whoever asked waits for nothing, and hears of no failure. */
  keep(job: Job, answer: Promise<DaysAnswer>): void {
    if (job.demo) return;
    answer.then(
      (said) => {
        const writing = this.#write(job, said).catch(this.#logError);
        this.#writing.add(writing);
        void writing.finally(() => this.#writing.delete(writing));
      },
      // Whoever asked is told.
      () => undefined,
    );
  }

  async #write(job: Job, answer: DaysAnswer): Promise<void> {
    const keyOf = ({ date, forecastMs }: { date: string; forecastMs: number }): string =>
      `${job.id} ${date} ${forecastMs}`;
    const calls = callsIn(answer, job).filter((call) => !this.#known.has(keyOf(call)));
    if (calls.length === 0) return;
    // The answer goes out first.
    await setImmediate();
    const { store, own } = this.#desk;
    const kept = await store.saveCalls(own, { requestId: randomUUID(), jobId: job.id, calls });
    if (!kept.ok) throw new Error(`calls of job ${job.id} were not kept: ${kept.message}`);
    for (const call of calls) this.#known.add(keyOf(call));
    for (const oldest of this.#known) {
      if (this.#known.size <= MOST_REMEMBERED) break;
      this.#known.delete(oldest);
    }
  }

  /**
   * What the firm's past calls say of its chances, fitted anew when a site log says something new of how
   * days went; another process may have written it. Should it fail, chances are given unchecked.
   */
  async record(): Promise<FirmRecord> {
    const { value: mark } = await this.#desk.store.dayEndsMark(this.#desk.own);
    if (mark !== this.#mark) {
      this.#mark = mark;
      this.#record = this.#fit().catch((error: unknown) => {
        this.#logError(error);
        return NO_RECORD;
      });
    }
    return await this.#record;
  }

  async #fit(): Promise<FirmRecord> {
    const jobs = await this.jobs();
    const calls = pastCalls(jobs.flatMap(({ days }) => days)).filter(
      ({ outcome }) => outcome !== null,
    );
    const days = new Set(calls.map(({ jobId, day }) => `${jobId} ${day}`)).size;
    if (days < CASES_NEEDED) return firmRecord(calls);
    // Fitting years of days takes a second or so: on the planning thread, so that others are answered.
    return (await this.#desk.planning.ask('own-record', { calls })) ?? NO_RECORD;
  }

  /** Every job of the firm with the days that were called. */
  async jobs(): Promise<readonly { readonly job: Job; readonly days: readonly CalledDay[] }[]> {
    await Promise.all(this.#writing);
    const { store, own } = this.#desk;
    const found: { job: Job; days: readonly CalledDay[] }[] = [];
    for (const { job } of (await store.listJobs(own)).value) {
      const [calls, events] = await Promise.all([
        store.calls(own, job.id),
        store.events(own, job.id),
      ]);
      if (!calls.ok) throw new RequestError(404, calls.code, calls.message);
      if (!events.ok) throw new RequestError(404, events.code, events.message);
      if (calls.value.length === 0) continue;
      found.push({ job, days: calledDays(job.id, calls.value, events.value) });
    }
    return found;
  }
}
