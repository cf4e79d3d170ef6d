import { type Signal, signal } from '@preact/signals';
import type { ClockPack } from '../../../../src/products/index.ts';
import type { Problem } from '../../api/ask.ts';
import { fetchPack } from '../../clock/pack.ts';

/** The clocks of a job and day as this page carries them. */
export interface DayPack {
  readonly pack: ClockPack | null;
  readonly problem: Problem | null;
  /** Entries that teach a speed and stood when the pack was made: it may have learned from them. */
  readonly taughtBy: readonly string[];
}

const packs = new Map<string, Signal<DayPack>>();
const underway = new Map<string, Promise<void>>();

export function dayPack(jobId: string, date: string): Signal<DayPack> {
  const key = `${jobId}/${date}`;
  let found = packs.get(key);
  if (found === undefined) {
    found = signal<DayPack>({ pack: null, problem: null, taughtBy: [] });
    packs.set(key, found);
  }
  return found;
}

/**
 * Fetches the pack; one that is held already stays until another is here.
 * @param taughtBy  'touch dry' and 'confirm' entries that stand at the server now
 */
export function fetchDayPack(
  jobId: string,
  date: string,
  taughtBy: readonly string[],
): Promise<void> {
  const key = `${jobId}/${date}`;
  const already = underway.get(key);
  if (already !== undefined) return already;
  const slot = dayPack(jobId, date);
  const run = fetchPack(jobId, date)
    .then((reply) => {
      slot.value = reply.ok
        ? { pack: reply.data, problem: null, taughtBy }
        : { ...slot.value, problem: reply.problem };
    })
    .finally(() => underway.delete(key));
  underway.set(key, run);
  return run;
}
