import type { Task } from '../contract/index.ts';
import type { Progress } from './planning/questions.ts';

/** What a piece of long work is given: where to tell how far it is, and whether it is still wanted. */
export interface TaskHooks {
  readonly onProgress: (progress: Progress) => void;
  readonly signal: AbortSignal;
}

interface Running<T> {
  task: Task;
  readonly stopper: AbortController;
  readonly result: Promise<T | null>;
}

/** Finished tasks remembered, so that a page may still ask after one. */
const MOST_KEPT = 200;

/** Long work that can be watched and stopped. One registry per server. */
export class Tasks {
  readonly #running = new Map<string, Running<unknown>>();

  /**
   * Starts work under an id made by the client; a repeat of the id gives the task there is.
   * @param work  resolves to null where it was stopped
   * @returns the task, and a promise of its result (null where stopped), rejected where it failed
   */
  start<T>(
    id: string,
    jobId: string,
    work: (hooks: TaskHooks) => Promise<T | null>,
  ): { task: Task; result: Promise<T | null> } {
    const known = this.#running.get(id);
    if (known !== undefined) return { task: known.task, result: known.result as Promise<T | null> };
    const stopper = new AbortController();
    const running: Running<T> = {
      task: newTask(id, jobId, 'running', 'starting'),
      stopper,
      result: Promise.resolve().then(() => this.#watch(running, work)),
    };
    this.#keep(running);
    return { task: running.task, result: running.result };
  }

  /** Remembers a task that needed no work, because its answer was at hand. */
  done(id: string, jobId: string): Task {
    const known = this.#running.get(id);
    if (known !== undefined) return known.task;
    const task = newTask(id, jobId, 'done', 'done');
    this.#keep({ task, stopper: new AbortController(), result: Promise.resolve(null) });
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
      running.task = { ...running.task, state: 'stopped', words: 'stopped' };
      running.stopper.abort();
    }
    return running.task;
  }

  stopAll(): void {
    for (const id of this.#running.keys()) this.stop(id);
  }

  async #watch<T>(
    running: Running<T>,
    work: (hooks: TaskHooks) => Promise<T | null>,
  ): Promise<T | null> {
    const { signal } = running.stopper;
    const onProgress = ({ share, words }: Progress): void => {
      if (running.task.state === 'running')
        running.task = { ...running.task, progress: share, words };
    };
    try {
      const result = await work({ onProgress, signal });
      if (running.task.state !== 'running') return null;
      running.task =
        result === null
          ? { ...running.task, state: 'stopped', words: 'stopped' }
          : { ...running.task, state: 'done', progress: 1, words: 'done' };
      return result;
    } catch (error) {
      const told = 'The search failed; nothing was changed by it.';
      running.task = { ...running.task, state: 'failed', words: 'failed', error: told };
      throw error;
    }
  }

  #keep(running: Running<unknown>, id = running.task.id): void {
    this.#running.set(id, running);
    for (const [oldId, { task }] of this.#running) {
      if (this.#running.size <= MOST_KEPT) return;
      if (task.state !== 'running') this.#running.delete(oldId);
    }
  }
}

function newTask(id: string, jobId: string, state: 'running' | 'done', words: string): Task {
  const progress = state === 'done' ? 1 : 0;
  return { id, kind: 'days', jobId, state, progress, words, error: null };
}
