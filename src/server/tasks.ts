import { setImmediate } from 'node:timers/promises';
import type { Task } from '../contract/index.ts';

interface Progress {
  readonly share: number;
  readonly words: string;
}

interface Running<T> {
  task: Task;
  stopped: boolean;
  readonly result: Promise<T | null>;
}

/** Finished tasks remembered, so that a page may still ask after one. */
const MOST_KEPT = 200;

/**
 * Long work in slices: between two slices other requests are served, progress can be read, and the
 * work can be stopped. One registry per server.
 */
export class Tasks {
  readonly #running = new Map<string, Running<unknown>>();

  /**
   * Starts work under an id made by the client; a repeat of the id gives the task there is.
   * @returns the task, and a promise of its result (null where stopped or failed)
   */
  start<T>(
    id: string,
    jobId: string,
    work: Generator<Progress, T>,
  ): { task: Task; result: Promise<T | null> } {
    const known = this.#running.get(id);
    if (known !== undefined) return { task: known.task, result: known.result as Promise<T | null> };
    const running: Running<T> = {
      task: {
        id,
        kind: 'days',
        jobId,
        state: 'running',
        progress: 0,
        words: 'starting',
        error: null,
      },
      stopped: false,
      result: Promise.resolve().then(() => this.#drive(running, work)),
    };
    this.#running.set(id, running);
    this.#forgetOld();
    return { task: running.task, result: running.result };
  }

  get(id: string): Task | null {
    return this.#running.get(id)?.task ?? null;
  }

  stop(id: string): Task | null {
    const running = this.#running.get(id);
    if (running === undefined) return null;
    if (running.task.state === 'running') {
      running.stopped = true;
      running.task = { ...running.task, state: 'stopped', words: 'stopped' };
    }
    return running.task;
  }

  stopAll(): void {
    for (const id of this.#running.keys()) this.stop(id);
  }

  async #drive<T>(running: Running<T>, work: Generator<Progress, T>): Promise<T | null> {
    try {
      for (;;) {
        if (running.stopped) {
          work.return(undefined as never);
          return null;
        }
        const next = work.next();
        if (next.done) {
          running.task = { ...running.task, state: 'done', progress: 1, words: 'done' };
          return next.value;
        }
        running.task = { ...running.task, progress: next.value.share, words: next.value.words };
        await setImmediate();
      }
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      running.task = { ...running.task, state: 'failed', words: 'failed', error: message };
      throw error;
    }
  }

  #forgetOld(): void {
    for (const [id, { task }] of this.#running) {
      if (this.#running.size <= MOST_KEPT) return;
      if (task.state !== 'running') this.#running.delete(id);
    }
  }
}
