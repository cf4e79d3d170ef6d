import type { Booking, Move } from './move-types.ts';

/** What an agreed move did, enough to take it back. */
export interface MoveUndo {
  readonly jobId: string;
  readonly before: Booking | null;
  readonly after: Booking | null;
  /** Where the former booking stood in the list. */
  readonly at: number;
}

export type Agreed =
  | {
      readonly ok: true;
      readonly bookings: readonly Booking[];
      /** In the order of agreeing. */
      readonly undo: readonly MoveUndo[];
    }
  | { readonly ok: false; readonly problems: readonly string[] };

export type Undone =
  | { readonly ok: true; readonly bookings: readonly Booking[] }
  | { readonly ok: false; readonly problems: readonly string[] };

/**
 * Carries out the moves people have agreed to, all of them or none.
 * @param jobIds  the moves agreed to, by their jobs
 */
export function agreeMoves(
  current: readonly Booking[],
  moves: readonly Move[],
  jobIds: readonly string[],
): Agreed {
  const problems: string[] = [];
  const chosen = moves.filter((move) => jobIds.includes(move.jobId));
  for (const id of jobIds)
    if (!moves.some((move) => move.jobId === id)) problems.push(`No move of '${id}' is proposed.`);
  for (const move of chosen) {
    for (const need of move.needs)
      if (!jobIds.includes(need))
        problems.push(`The move of '${move.jobId}' needs that of '${need}' too.`);
    const standing = current.find((booking) => booking.jobId === move.jobId) ?? null;
    if (!samePlace(standing, move.from))
      problems.push(`'${move.jobId}' is not booked any more as it was when the move was proposed.`);
  }
  if (problems.length > 0) return { ok: false, problems };
  const bookings = [...current];
  const undo: MoveUndo[] = [];
  for (const move of chosen) {
    const at = bookings.findIndex((booking) => booking.jobId === move.jobId);
    const before = bookings[at] ?? null;
    const after = move.booking;
    undo.push({ jobId: move.jobId, before, after, at: at < 0 ? bookings.length : at });
    if (at < 0) bookings.push(after!);
    else bookings.splice(at, 1, ...(after === null ? [] : [after]));
  }
  const clashes = newClashes(current, bookings);
  return clashes.length > 0 ? { ok: false, problems: clashes } : { ok: true, bookings, undo };
}

/**
 * Takes agreed moves back, all of them or none: with all moves of one agreement, the list is again what it was
 * before. Refused where a booking has been changed since, or where another has taken its former days.
 */
export function undoMoves(current: readonly Booking[], undo: readonly MoveUndo[]): Undone {
  const problems: string[] = [];
  const bookings = [...current];
  for (const { jobId, before, after, at } of [...undo].reverse()) {
    const now = bookings.findIndex((booking) => booking.jobId === jobId);
    if (JSON.stringify(bookings[now] ?? null) !== JSON.stringify(after)) {
      problems.push(`The booking of '${jobId}' has been changed since the move was agreed.`);
      continue;
    }
    const put = before === null ? [] : [before];
    if (now >= 0) bookings.splice(now, 1, ...put);
    else bookings.splice(Math.min(at, bookings.length), 0, ...put);
  }
  problems.push(...newClashes(current, bookings));
  return problems.length > 0 ? { ok: false, problems } : { ok: true, bookings };
}

const samePlace = (a: Booking | null, b: Move['from']): boolean =>
  a === null || b === null ? a === b : a.crewId === b.crewId && a.dates.join() === b.dates.join();

/** Crews on two roofs at once that were not so before. */
function newClashes(before: readonly Booking[], after: readonly Booking[]): string[] {
  const known = new Set(clashesIn(before));
  return clashesIn(after).filter((sentence) => !known.has(sentence));
}

function clashesIn(bookings: readonly Booking[]): string[] {
  const holder = new Map<string, string>();
  return bookings.flatMap(({ jobId, crewId, dates }) =>
    dates.flatMap((date) => {
      const key = `${crewId} ${date}`;
      const other = holder.get(key);
      holder.set(key, jobId);
      if (other === undefined) return [];
      const [a, b] = [other, jobId].sort();
      return [`'${a}' and '${b}' would both have crew '${crewId}' on ${date}.`];
    }),
  );
}
