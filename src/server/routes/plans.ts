import { randomUUID } from 'node:crypto';
import { Hono } from 'hono';
import { z } from 'zod';
import { answerWithoutForecast, type WorkResult } from '../../answers/index.ts';
import { calendarDate, type DaysAnswer, type Task } from '../../contract/index.ts';
import type { Desk } from '../desk.ts';
import { type FoundJob, findJob, readyOnSite } from '../job-lookup.ts';
import { KeptAnswers } from '../kept-answers.ts';
import { readQuery } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

const noQuery = z.strictObject({});
const workQuery = z.strictObject({ day: calendarDate });

interface Asked {
  readonly answer: Promise<DaysAnswer>;
  /** The task working it out; null where none is needed. */
  readonly taskId: string | null;
}

/** Laying days and orders of work. */
export class Plans {
  readonly #desk: Desk;
  readonly #days = new KeptAnswers<DaysAnswer>();
  readonly #work = new KeptAnswers<WorkResult>();
  /** Which task works out, or worked out, an answer that is kept. */
  readonly #taskOf = new WeakMap<Promise<DaysAnswer>, string>();

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  routes(): Hono {
    const app = new Hono();
    app.get('/:id/days', async (c) => {
      readQuery(c, noQuery);
      return ok(c, await this.days(await findJob(this.#desk, c.req.param('id'))));
    });
    app.get('/:id/work', async (c) => {
      const { day } = readQuery(c, workQuery);
      const result = await this.work(await findJob(this.#desk, c.req.param('id')), day);
      if (!result.ok) throw badRequest(result.issues);
      return ok(c, result.answer);
    });
    return app;
  }

  /** The answer for a job; the same question asked twice at once is worked out once. */
  async days(found: FoundJob): Promise<DaysAnswer> {
    return (await this.#ask(found, randomUUID())).answer;
  }

  /** The same as a task to watch; a repeat of the id gives the task there is. */
  async task(found: FoundJob, taskId: string): Promise<Task> {
    const { tasks } = this.#desk;
    const jobId = found.row.job.id;
    const known = tasks.get(taskId);
    if (known !== null) {
      if (known.jobId === jobId) return known;
      throw new RequestError(
        409,
        'request-reused',
        `requestId ${taskId} was used before for job ${known.jobId}; use a new one.`,
      );
    }
    const { answer, taskId: working } = await this.#ask(found, taskId);
    // Whoever watches reads a failure off the task; nobody waits for this promise.
    answer.catch(() => undefined);
    return (working === null ? null : tasks.join(taskId, working)) ?? tasks.done(taskId, jobId);
  }

  async work(found: FoundJob, date: string): Promise<WorkResult> {
    const { ready, mark } = await readyOnSite(this.#desk, found);
    const nowMs = this.#desk.clocks.planMs(ready.job.demo);
    const weather = await this.#desk.weather.forJob(ready.job);
    if (!weather.ok) throw new RequestError(409, 'no-forecast', weather.why);
    const key = `${ready.job.id}|${found.row.version}|${weather.key}|${mark}|${date}`;
    const kept = this.#work.get(key, nowMs);
    if (kept !== null) return kept;
    const asked = { ready, hourly: weather.hourly, nowMs, date };
    const answer = this.#desk.planning.ask('work', asked).then(unlessStopped);
    this.#work.put(key, nowMs, answer);
    return answer;
  }

  async #ask(found: FoundJob, taskId: string): Promise<Asked> {
    const { ready, mark } = await readyOnSite(this.#desk, found);
    const { id, demo } = ready.job;
    const nowMs = this.#desk.clocks.planMs(demo);
    const weather = await this.#desk.weather.forJob(ready.job);
    if (!weather.ok) {
      return {
        answer: Promise.resolve(answerWithoutForecast(ready, nowMs, weather.why)),
        taskId: null,
      };
    }
    const key = `${id}|${found.row.version}|${weather.key}|${mark}`;
    const kept = this.#days.get(key, nowMs);
    if (kept !== null) return { answer: kept, taskId: this.#taskOf.get(kept) ?? null };
    const asked = { ready, hourly: weather.hourly, nowMs };
    const { result } = this.#desk.tasks.start(taskId, id, (hooks) =>
      this.#desk.planning.ask('days', asked, hooks),
    );
    const answer = result.then(unlessStopped);
    this.#taskOf.set(answer, taskId);
    this.#days.put(key, nowMs, answer);
    return { answer, taskId };
  }
}

function unlessStopped<T>(answer: T | null): T {
  if (answer !== null) return answer;
  throw new RequestError(409, 'stopped', 'The search was stopped before it had an answer.');
}
