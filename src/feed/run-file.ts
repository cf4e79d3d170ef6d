import { z } from 'zod';
import { spanText } from '../time/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { FeedFailure, ModelRun } from './types.ts';

const unixSeconds = z.number().int().positive();

const runFile = z.looseObject({
  last_run_initialisation_time: unixSeconds,
  last_run_availability_time: unixSeconds,
  update_interval_seconds: z.number().int().positive(),
});

/** How long answers may still mix two runs, and how late a run may be: the provider's own figures. */
const SETTLING_MS = 10 * MS_PER_MINUTE;
const LATE_AFTER_MS = 20 * MS_PER_MINUTE;

/** Reads a model's meta.json. */
export function readRunFile(
  value: unknown,
  model: string,
  nowMs: number,
): { ok: true; run: ModelRun } | FeedFailure {
  const parsed = runFile.safeParse(value);
  if (!parsed.success) {
    const what = parsed.error.issues.map((i) => i.path.join('.')).join(', ') || 'its form';
    const message = `The run file of ${model} cannot be used: ${what} missing or not in unix seconds.`;
    return { ok: false, code: 'broken-answer', message, retryAtMs: null };
  }
  const availableMs = parsed.data.last_run_availability_time * 1000;
  const updateEveryMs = parsed.data.update_interval_seconds * 1000;
  const run: ModelRun = {
    model,
    initialisedMs: parsed.data.last_run_initialisation_time * 1000,
    availableMs,
    updateEveryMs,
    late: nowMs > availableMs + updateEveryMs + LATE_AFTER_MS,
    settled: nowMs >= availableMs + SETTLING_MS,
  };
  return { ok: true, run };
}

/** What a person should know about the run behind a forecast. */
export function runNotes(run: ModelRun, nowMs: number): string[] {
  const notes: string[] = [];
  if (run.late) {
    notes.push(
      `the model is late: its last run came ${spanText(nowMs - run.availableMs)} ago, a new one is due every ${spanText(run.updateEveryMs)}`,
    );
  }
  if (!run.settled) {
    notes.push(
      'fetched within 10 minutes of a new run: hours of the run before may still be mixed in',
    );
  }
  return notes;
}
