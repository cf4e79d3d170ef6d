import { Worker } from 'node:worker_threads';
import type {
  Answer,
  FromThread,
  Progress,
  QuestionKind,
  Questions,
  ToThread,
} from './questions.ts';

export interface Watch {
  readonly onProgress?: (progress: Progress) => void;
  readonly signal?: AbortSignal;
}

/**
 * Asks the planner on a thread of its own: a search takes seconds, and until it is through the server
 * still answers everybody else.
 */
export interface PlanningDesk {
  /** @returns the answer, or null where `watch.signal` stopped it; rejects where the planner failed */
  ask<K extends QuestionKind>(
    kind: K,
    asked: Questions[K]['asked'],
    watch?: Watch,
  ): Promise<Answer<K> | null>;
  /** Ends the thread; questions still open are answered with null. */
  close(): Promise<void>;
}

interface Open {
  readonly watch: Watch;
  readonly resolve: (answer: unknown) => void;
  readonly reject: (error: Error) => void;
}

/** @param thread  the built `planning/thread`; a new one is started should it ever die */
export function planningDesk(thread: URL): PlanningDesk {
  const open = new Map<number, Open>();
  let lastId = 0;
  let worker: Worker | null = null;
  let closed = false;

  const settle = (id: number): Open | undefined => {
    const question = open.get(id);
    open.delete(id);
    if (open.size === 0) worker?.unref();
    return question;
  };

  const hear = (message: FromThread): void => {
    switch (message.kind) {
      case 'progress':
        open.get(message.id)?.watch.onProgress?.(message.progress);
        return;
      case 'answer':
        settle(message.id)?.resolve(message.answer);
        return;
      case 'failed':
        settle(message.id)?.reject(new Error(`the planner failed: ${message.why}`));
    }
  };

  const start = (): Worker => {
    const started = new Worker(thread);
    started.on('message', hear);
    const lost = (why: string): void => {
      if (worker === started) worker = null;
      for (const id of [...open.keys()]) settle(id)?.reject(new Error(`the planner ended: ${why}`));
    };
    started.on('error', (error) => lost(String(error)));
    started.on('exit', (code) => {
      if (!closed && worker === started) lost(`exit code ${code}`);
    });
    started.unref();
    return started;
  };
  // Started at once, so that the first question does not wait for its modules.
  worker = start();

  return {
    ask(kind, asked, watch = {}) {
      if (closed || watch.signal?.aborted) return Promise.resolve(null);
      worker ??= start();
      lastId += 1;
      const id = lastId;
      const answer = new Promise<unknown>((resolve, reject) => {
        open.set(id, { watch, resolve, reject });
      });
      worker.ref();
      worker.postMessage({ id, kind, asked } as ToThread);
      watch.signal?.addEventListener(
        'abort',
        () => {
          worker?.postMessage({ id, kind: 'stop' } satisfies ToThread);
          settle(id)?.resolve(null);
        },
        { once: true },
      );
      return answer as Promise<Answer<typeof kind> | null>;
    },
    async close() {
      closed = true;
      for (const id of [...open.keys()]) settle(id)?.resolve(null);
      await worker?.terminate();
      worker = null;
    },
  };
}
