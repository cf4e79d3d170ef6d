import { randomUUID } from 'node:crypto';
import { Hono } from 'hono';
import { answerDays, answerWithoutForecast, answerWork } from '../../answers/index.ts';
import type { DaysAnswer, Task } from '../../contract/index.ts';
import { MS_PER_MINUTE } from '../../units/index.ts';
import type { Desk } from '../desk.ts';
import { type FoundJob, findJob, readyFound } from '../job-lookup.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

/** An answer this young is given again; it carries the time it was made for. */
const KEPT_MS = 5 * MS_PER_MINUTE;

interface Kept {
  readonly key: string;
  readonly madeMs: number;
  readonly answer: Promise<DaysAnswer>;
  /** The task working it out; null where none is needed. */
  readonly taskId: string | null;
}

/** Laying days and orders of work. */
export class Plans {
  readonly #desk: Desk;
  readonly #kept = new Map<string, Kept>();

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  routes(): Hono {
    const app = new Hono();
    app.get('/:id/days', async (c) =>
      ok(c, await this.days(await findJob(this.#desk, c.req.param('id')))),
    );
    app.get('/:id/work', async (c) => {
      const day = c.req.query('day') ?? '';
      if (!/^\d{4}-\d{2}-\d{2}$/.test(day) || Number.isNaN(Date.parse(day))) {
        throw badRequest([
          {
            path: 'day',
            message: `day is '${day.slice(0, 60)}'; it must be a date such as 2026-05-14.`,
          },
        ]);
      }
      const found = await findJob(this.#desk, c.req.param('id'));
      const ready = readyFound(this.#desk, found);
      const weather = await this.#desk.weather.forJob(ready.job);
      if (!weather.ok) throw new RequestError(409, 'no-forecast', weather.why);
      const result = answerWork(
        ready,
        weather.hourly,
        this.#desk.clocks.nowMs(ready.job.demo),
        day,
      );
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
    const known = this.#desk.tasks.get(taskId);
    if (known !== null) return known;
    const { answer, taskId: running } = await this.#ask(found, taskId);
    // Whoever watches reads a failure off the task; nobody waits for this promise.
    answer.catch(() => undefined);
    const task = running === null ? null : this.#desk.tasks.get(running);
    return task ?? doneTask(taskId, found.row.job.id);
  }

  async #ask(found: FoundJob, taskId: string): Promise<Kept> {
    const ready = readyFound(this.#desk, found);
    const { id, demo } = ready.job;
    const nowMs = this.#desk.clocks.nowMs(demo);
    const weather = await this.#desk.weather.forJob(ready.job);
    if (!weather.ok) {
      const answer = Promise.resolve(answerWithoutForecast(ready, nowMs, weather.why));
      return { key: 'none', madeMs: nowMs, answer, taskId: null };
    }
    const key = `${found.row.version}|${weather.key}`;
    const kept = this.#kept.get(id);
    if (kept !== undefined && kept.key === key && nowMs - kept.madeMs < KEPT_MS) return kept;
    const { result } = this.#desk.tasks.start(taskId, id, answerDays(ready, weather.hourly, nowMs));
    const answer = result.then((made) => {
      if (made !== null) return made;
      throw new RequestError(409, 'stopped', 'The search was stopped before it had an answer.');
    });
    const fresh: Kept = { key, madeMs: nowMs, answer, taskId };
    this.#kept.set(id, fresh);
    answer.catch(() => {
      if (this.#kept.get(id) === fresh) this.#kept.delete(id);
    });
    return fresh;
  }
}

/** Nothing had to be worked out: the answer was at hand, or there is no forecast to work on. */
function doneTask(id: string, jobId: string): Task {
  return { id, kind: 'days', jobId, state: 'done', progress: 1, words: 'done', error: null };
}
