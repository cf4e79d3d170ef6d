import { dayNumber } from './dates.ts';
import type { Move } from './move-types.ts';

export interface Steadied {
  /** To be proposed now. */
  readonly now: readonly Move[];
  /** To be looked at again with the next forecast. */
  readonly waiting: readonly Move[];
}

/**
 * Forecasts swing: a booking less than so many days ahead is proposed to move only when the run before wanted to
 * move it from the same days too, or on a hard stop. A move waits with the one that it needs; one
 * that a hard stop needs is proposed with it.
 * @param earlier     moves found with the forecast before this one, however they were shown
 * @param withinDays  bookings that begin sooner than this many days from today wait
 */
export function steadyMoves(
  moves: readonly Move[],
  earlier: readonly Move[],
  today: string,
  withinDays: number,
): Steadied {
  const byJob = new Map(moves.map((move) => [move.jobId, move]));
  const pulled = new Set<string>();
  const pull = (move: Move): void => {
    if (pulled.has(move.jobId)) return;
    pulled.add(move.jobId);
    for (const id of move.needs) {
      const needed = byJob.get(id);
      if (needed !== undefined) pull(needed);
    }
  };
  for (const move of moves) if (move.hardStop) pull(move);
  const held = new Set(
    moves
      .filter(({ jobId }) => !pulled.has(jobId))
      .filter((move) => isSoon(move, today, withinDays) && !wantedBefore(move, earlier))
      .map(({ jobId }) => jobId),
  );
  for (let grown = true; grown; ) {
    grown = false;
    for (const move of moves) {
      if (held.has(move.jobId) || pulled.has(move.jobId)) continue;
      if (!move.needs.some((id) => held.has(id))) continue;
      held.add(move.jobId);
      grown = true;
    }
  }
  return {
    now: moves.filter(({ jobId }) => !held.has(jobId)),
    waiting: moves.filter(({ jobId }) => held.has(jobId)),
  };
}

function isSoon({ from }: Move, today: string, withinDays: number): boolean {
  if (from === null) return false;
  const ahead = from.dates.filter((date) => date >= today).map((date) => dayNumber(date));
  return Math.min(...ahead) - dayNumber(today) < withinDays;
}

function wantedBefore({ jobId, from }: Move, earlier: readonly Move[]): boolean {
  const same = earlier.find((move) => move.jobId === jobId);
  return (
    same?.from != null &&
    same.from.crewId === from?.crewId &&
    same.from.dates.join() === from.dates.join()
  );
}
