import { useEffect, useRef, useState } from 'preact/hooks';
import type { DaysAnswer, Task } from '../../../src/contract/index.ts';
import { ask, type Problem } from '../api/ask.ts';
import { held } from '../api/held.ts';
import { daysPath, TASKS, type TriedQuery, taskPath } from '../api/paths.ts';
import { asNumbers } from './tried.ts';

const LOOK_AGAIN_MS = 250;

export interface DaysSearch {
  readonly answer: DaysAnswer | null;
  readonly problem: Problem | null;
  readonly running: boolean;
  /** What is being looked at, and how far the search is, 0..1. */
  readonly words: string;
  readonly share: number;
  /** Ends the search and keeps the best so far. */
  readonly stop: () => void;
  readonly again: () => void;
}

interface Way {
  readonly running: boolean;
  readonly words: string;
  readonly share: number;
}
const BEGINNING: Way = { running: true, words: '', share: 0 };
const OVER: Way = { running: false, words: '', share: 1 };

/** A job's laying days as they get better known: the first answer at once, then whatever is found. */
export function useDays(jobId: string, tried: TriedQuery): DaysSearch {
  const path = daysPath(jobId, tried);
  const slot = held<DaysAnswer>(path);
  const [way, setWay] = useState<Way>(BEGINNING);
  const [turn, setTurn] = useState(0);
  const taskId = useRef<string | null>(null);

  useEffect(() => {
    let wanted = true;
    const put = (answer: DaysAnswer | null, problem: Problem | null): void => {
      slot.value = { data: answer ?? slot.value.data, problem, busy: false };
    };
    const watch = async (): Promise<void> => {
      const requestId = crypto.randomUUID();
      taskId.current = requestId;
      setWay(BEGINNING);
      slot.value = { ...slot.value, problem: null, busy: true };
      const body = { requestId, kind: 'days', jobId, tried: asNumbers(tried) };
      let reply = await ask<Task>(TASKS, { method: 'POST', body });
      while (wanted) {
        if (!reply.ok) {
          put(null, reply.problem);
          return setWay(OVER);
        }
        const { state, soFar, words, progress, error } = reply.data;
        const running = state === 'running';
        if (soFar !== null && soFar !== slot.value.data) put(soFar, null);
        if (!running) {
          if (error !== null) put(null, { code: 'failed', message: error, issues: [] });
          else slot.value = { ...slot.value, busy: false };
          return setWay(OVER);
        }
        setWay({ running, words, share: progress });
        await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));
        if (wanted) reply = await ask<Task>(taskPath(requestId));
      }
    };
    void watch();
    return () => {
      wanted = false;
      slot.value = { ...slot.value, busy: false };
    };
  }, [path, turn]);

  const { data, problem } = slot.value;
  // While other figures are worked out, the answer before them stays in sight.
  const before = useRef<{ readonly jobId: string; readonly answer: DaysAnswer } | null>(null);
  if (data !== null) before.current = { jobId, answer: data };
  const last = before.current?.jobId === jobId ? before.current.answer : null;
  return {
    answer: data ?? last,
    problem,
    ...way,
    stop: () => {
      // What it ends with is read where the task is watched.
      if (taskId.current !== null) void ask<Task>(taskPath(taskId.current), { method: 'DELETE' });
    },
    again: () => setTurn((before) => before + 1),
  };
}
