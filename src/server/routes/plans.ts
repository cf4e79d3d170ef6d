import { randomUUID } from 'node:crypto';
import { Hono } from 'hono';
import { z } from 'zod';
import {
  answerWithoutForecast,
  type ReadyJob,
  triedIssues,
  type WorkResult,
} from '../../answers/index.ts';
import {
  calendarDate,
  type DaysAnswer,
  type Issue,
  type Task,
  type Tried,
  triedQuery,
} from '../../contract/index.ts';
import type { Desk } from '../desk.ts';
import { type FoundJob, findJob, readyOnSite } from '../job-lookup.ts';
import { KeptAnswers } from '../kept-answers.ts';
import { readQuery } from '../read-request.ts';
import { badRequest, ok, RequestError } from '../reply.ts';

const daysQuery = z.strictObject({
  search: z.enum(['quick', 'full']).default('full'),
  ...triedQuery,
});
const workQuery = z.strictObject({ day: calendarDate, ...triedQuery });

interface Asked {
  readonly answer: Promise<DaysAnswer>;
  /** The task working it out; null where none is needed. */
  readonly taskId: string | null;
}

/** A job's question with everything its answer depends on but the time. */
interface Question {
  readonly ready: ReadyJob;
  readonly nowMs: number;
  readonly tried: Tried;
  readonly mark: string;
}

/** Laying days and orders of work. */
export class Plans {
  readonly #desk: Desk;
  readonly #days = new KeptAnswers<DaysAnswer>(({ search }) => search.state === 'done');
  readonly #first = new KeptAnswers<DaysAnswer>();
  readonly #work = new KeptAnswers<WorkResult>();
  /** Which task works out, or worked out, an answer that is kept. */
  readonly #taskOf = new WeakMap<Promise<DaysAnswer>, string>();

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  routes(): Hono {
    const app = new Hono();
    app.get('/:id/days', async (c) => {
      const { search, ...tried } = readQuery(c, daysQuery);
      const found = await findJob(this.#desk, c.req.param('id'));
      const question = await this.#question(found, tried, '');
      const answer = search === 'quick' ? this.#quick(question) : this.#full(question);
      return ok(c, await (await answer).answer);
    });
    app.get('/:id/work', async (c) => {
      const { day, ...tried } = readQuery(c, workQuery);
      const found = await findJob(this.#desk, c.req.param('id'));
      const result = await this.#orderOfWork(await this.#question(found, tried, ''), day);
      if (!result.ok) throw badRequest(result.issues);
      return ok(c, result.answer);
    });
    return app;
  }

  /** The laying days as a task to watch; a repeat of the id gives the task there is. */
  async task(found: FoundJob, taskId: string, tried: Tried): Promise<Task> {
    const { tasks } = this.#desk;
    const jobId = found.row.job.id;
    const known = tasks.get(taskId);
    if (known !== null) {
      if (known.jobId === jobId && markOf(known.tried) === markOf(tried)) return known;
      const other = known.jobId === jobId ? 'with other figures tried' : `for job ${known.jobId}`;
      throw new RequestError(
        409,
        'request-reused',
        `requestId ${taskId} was used before ${other}; use a new one.`,
      );
    }
    const question = await this.#question(found, tried, 'tried.');
    const { answer, taskId: working } = await this.#full(question, taskId);
    // Whoever watches reads a failure off the task; nobody waits for this promise.
    answer.catch(() => undefined);
    const joined = working === null ? null : tasks.join(taskId, working);
    return joined ?? tasks.done(taskId, { jobId, tried }, await answer);
  }

  /** @param at  where what is tried stands in the request, with its dot */
  async #question(found: FoundJob, tried: Tried, at: string): Promise<Question> {
    const { ready, mark } = await readyOnSite(this.#desk, found);
    const wrong = triedIssues(ready, tried);
    if (wrong.length > 0) throw badRequest(wrong.map((issue) => under(at, issue)));
    return {
      ready,
      nowMs: this.#desk.clocks.planMs(ready.job.demo),
      tried,
      mark: `${ready.job.id}|${found.row.version}|${mark}|${markOf(tried)}`,
    };
  }

  async #orderOfWork({ ready, nowMs, tried, mark }: Question, date: string): Promise<WorkResult> {
    const weather = await this.#desk.weather.forJob(ready.job);
    if (!weather.ok) throw new RequestError(409, 'no-forecast', weather.why);
    const key = `${mark}|${weather.key}|${date}`;
    const kept = this.#work.get(key, nowMs);
    if (kept !== null) return kept;
    const asked = { ready, hourly: weather.hourly, nowMs, date, tried };
    const answer = this.#desk.planning.ask('work', asked).then(unlessStopped);
    this.#work.put(key, nowMs, answer);
    return answer;
  }

  /** Everything searched; the same question asked twice at once is worked out once. */
  async #full(question: Question, taskId: string = randomUUID()): Promise<Asked> {
    const { ready, nowMs, tried, mark } = question;
    const weather = await this.#desk.weather.forJob(ready.job);
    if (!weather.ok) return withoutForecast(question, weather.why);
    const key = `${mark}|${weather.key}`;
    const kept = this.#days.get(key, nowMs);
    if (kept !== null) return { answer: kept, taskId: this.#taskOf.get(kept) ?? null };
    const asked = {
      ready,
      hourly: weather.hourly,
      nowMs,
      options: { depth: 'full', tried, shelf: [...this.#desk.shelf.values()] },
    } as const;
    const { result } = this.#desk.tasks.start(taskId, { jobId: ready.job.id, tried }, (hooks) =>
      this.#desk.planning.ask('days', asked, hooks),
    );
    const answer = result.then(unlessStopped);
    this.#desk.calls?.keep(ready.job, answer);
    this.#taskOf.set(answer, taskId);
    this.#days.put(key, nowMs, answer);
    return { answer, taskId };
  }

  /** The first answer, or a better one where it is at hand. */
  async #quick(question: Question): Promise<Asked> {
    const { ready, nowMs, tried, mark } = question;
    const weather = await this.#desk.weather.forJob(ready.job);
    if (!weather.ok) return withoutForecast(question, weather.why);
    const key = `${mark}|${weather.key}`;
    const full = this.#days.get(key, nowMs);
    const task = full === null ? null : this.#desk.tasks.get(this.#taskOf.get(full) ?? '');
    if (task !== null && task.soFar !== null)
      return { answer: Promise.resolve(task.soFar), taskId: null };
    const kept = this.#first.get(key, nowMs);
    if (kept !== null) return { answer: kept, taskId: null };
    const asked = {
      ready,
      hourly: weather.hourly,
      nowMs,
      options: { depth: 'quick', tried },
    } as const;
    const answer = this.#desk.planning.ask('days', asked).then(unlessStopped);
    this.#first.put(key, nowMs, answer);
    return { answer, taskId: null };
  }
}

const markOf = (tried: Tried): string => JSON.stringify(Object.entries(tried).sort());

/** An issue of what is tried, named as in the request. */
const under = (at: string, { path, message }: Issue): Issue =>
  Object.hasOwn(triedQuery, path)
    ? { path: `${at}${path}`, message: `${at}${message}` }
    : { path, message };

function withoutForecast({ ready, nowMs, tried }: Question, why: string): Asked {
  return {
    answer: Promise.resolve(answerWithoutForecast(ready, nowMs, why, tried)),
    taskId: null,
  };
}

function unlessStopped<T>(answer: T | null): T {
  if (answer !== null) return answer;
  throw new RequestError(409, 'stopped', 'The search was stopped before it had an answer.');
}
