import { asStopped } from '../answers/index.ts';
import type { DaysAnswer, Task, Tried } from '../contract/index.ts';
import type { Progress } from './planning/questions.ts';

/** What a piece of long work is given: where to tell how far it is, and whether it is still wanted. */
export interface TaskHooks {
  readonly onProgress: (progress: Progress) => void;
  readonly signal: AbortSignal;
}

type Result = Promise<DaysAnswer | null>;

interface Running {
  task: Task;
  readonly stopper: AbortController;
  readonly result: Result;
}

export interface TaskOf {
  readonly jobId: string;
  readonly tried: Tried;
}

/** Finished tasks remembered, so that a page may still ask after one. */
const MOST_KEPT = 200;

/** Long work that can be watched and stopped. One registry per server. */
export class Tasks {
  readonly #running = new Map<string, Running>();

  /**
   * Starts work under an id made by the client; a repeat of the id gives the task there is.
   * @param work  resolves to null where it was stopped
   * @returns the task, and a promise of its result: where stopped the best so far, null where there is
   *   none yet; rejected where it failed
   */
  start(
    id: string,
    of: TaskOf,
    work: (hooks: TaskHooks) => Result,
  ): { task: Task; result: Result } {
    const known = this.#running.get(id);
    if (known !== undefined) return { task: known.task, result: known.result };
    const stopper = new AbortController();
    const running: Running = {
      task: newTask(id, of, null),
      stopper,
      result: Promise.resolve().then(() => this.#watch(running, work)),
    };
    this.#keep(running);
    return { task: running.task, result: running.result };
  }

  /** Remembers a task that needed no work, because its answer was at hand. */
  done(id: string, of: TaskOf, answer: DaysAnswer): Task {
    const known = this.#running.get(id);
    if (known !== undefined) return known.task;
    const task = newTask(id, of, answer);
    this.#keep({ task, stopper: new AbortController(), result: Promise.resolve(answer) });
    return task;
  }

  /** Lets a second id stand for a task that already works on the same question. */
  join(id: string, workingId: string): Task | null {
    const running = this.#running.get(workingId);
    if (running === undefined) return null;
    if (id !== workingId) this.#keep(running, id);
    return running.task;
  }

  get(id: string): Task | null {
    return this.#running.get(id)?.task ?? null;
  }

  stop(id: string): Task | null {
    const running = this.#running.get(id);
    if (running === undefined) return null;
    if (running.task.state === 'running') {
      const { soFar } = running.task;
      running.task = {
        ...running.task,
        state: 'stopped',
        words: 'stopped',
        soFar: soFar === null ? null : asStopped(soFar),
      };
      running.stopper.abort();
    }
    return running.task;
  }

  stopAll(): void {
    for (const id of this.#running.keys()) this.stop(id);
  }

  async #watch(running: Running, work: (hooks: TaskHooks) => Result): Result {
    const { signal } = running.stopper;
    const onProgress = ({ share, words, soFar }: Progress): void => {
      if (running.task.state !== 'running') return;
      running.task = {
        ...running.task,
        progress: share,
        words,
        soFar: soFar ?? running.task.soFar,
      };
    };
    try {
      const result = await work({ onProgress, signal });
      if (running.task.state !== 'running') return running.task.soFar;
      running.task =
        result === null
          ? { ...running.task, state: 'stopped', words: 'stopped' }
          : { ...running.task, state: 'done', progress: 1, words: 'done', soFar: result };
      return running.task.soFar;
    } catch (error) {
      const told = 'The search failed; nothing was changed by it.';
      running.task = { ...running.task, state: 'failed', words: 'failed', error: told };
      throw error;
    }
  }

  #keep(running: Running, id = running.task.id): void {
    this.#running.set(id, running);
    for (const [oldId, { task }] of this.#running) {
      if (this.#running.size <= MOST_KEPT) return;
      if (task.state !== 'running') this.#running.delete(oldId);
    }
  }
}

function newTask(id: string, { jobId, tried }: TaskOf, answer: DaysAnswer | null): Task {
  const at =
    answer === null
      ? ({ state: 'running', progress: 0, words: 'starting' } as const)
      : ({ state: 'done', progress: 1, words: 'done' } as const);
  return { id, kind: 'days', jobId, ...at, error: null, tried, soFar: answer };
}
