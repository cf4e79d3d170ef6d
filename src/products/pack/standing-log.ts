/** What every entry of a site log has, whatever it says. */
export interface LogEntry {
  readonly id: string;
  /** When it happened on site, and when it was written down. */
  readonly atMs: number;
  readonly loggedMs: number;
  readonly kind: string;
}

/** Earlier on site first; at one moment, as they were written down; then by id, so that the order never depends on arrival. */
export function inOrder(a: LogEntry, b: LogEntry): number {
  return a.atMs - b.atMs || a.loggedMs - b.loggedMs || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/**
 * What stands of a site log: entries that were not taken back, in the order things happened. An undo that
 * was itself taken back takes nothing back. Undos are left out; they have done their work.
 * @param events  [n], any order; each id once
 * @throws Error on two entries with one id, or undos that take each other back: no log the store accepts
 */
export function standingLog<T extends LogEntry & { readonly undoes?: string }>(
  events: readonly T[],
): T[] {
  const ids = new Set<string>();
  const undosOf = new Map<string, T[]>();
  for (const event of events) {
    if (ids.has(event.id)) throw new Error(`the site log has two entries with the id ${event.id}`);
    ids.add(event.id);
    if (event.kind !== 'undo' || event.undoes === undefined) continue;
    undosOf.set(event.undoes, [...(undosOf.get(event.undoes) ?? []), event]);
  }
  const judged = new Map<string, boolean>();
  const stands = (id: string, trail: readonly string[]): boolean => {
    const known = judged.get(id);
    if (known !== undefined) return known;
    if (trail.includes(id)) {
      throw new Error(`undos take each other back: ${[...trail, id].join(' -> ')}`);
    }
    const undone = (undosOf.get(id) ?? []).some((undo) => stands(undo.id, [...trail, id]));
    judged.set(id, !undone);
    return !undone;
  };
  // Undos are judged too, so that a circle of them is found even where nothing else is in the log.
  return events
    .filter((event) => stands(event.id, []))
    .filter((event) => event.kind !== 'undo')
    .sort(inOrder);
}
