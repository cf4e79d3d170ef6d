import { type Signal, signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { ask, type Problem } from './ask.ts';

/** One answer as the page holds it. `data` stays while it is asked for again, so that nothing blinks. */
export interface Held<T> {
  readonly data: T | null;
  readonly problem: Problem | null;
  readonly busy: boolean;
}

const EMPTY: Held<never> = { data: null, problem: null, busy: false };
const shelf = new Map<string, Signal<Held<unknown>>>();
const underway = new Map<string, Promise<void>>();

/** The signal for one address; empty until somebody fetches it. */
export function held<T>(path: string): Signal<Held<T>> {
  let found = shelf.get(path);
  if (!found) {
    found = signal<Held<unknown>>(EMPTY);
    shelf.set(path, found);
  }
  return found as Signal<Held<T>>;
}

/** Ask for an address once at a time: a second caller waits for the first one's answer. */
export function fetchHeld(path: string): Promise<void> {
  const already = underway.get(path);
  if (already) return already;
  const slot = held<unknown>(path);
  slot.value = { ...slot.value, busy: true };
  const run = ask<unknown>(path).then((reply) => {
    slot.value = reply.ok
      ? { data: reply.data, problem: null, busy: false }
      : { data: slot.value.data, problem: reply.problem, busy: false };
    underway.delete(path);
  });
  underway.set(path, run);
  return run;
}

/** Hold an address for a screen: asked for when the screen opens and whenever the address changes. */
export function useHeld<T>(path: string): Held<T> {
  useEffect(() => {
    void fetchHeld(path);
  }, [path]);
  return held<T>(path).value;
}
