import { SHORTEST_PIECE_M } from '../practice.ts';
import { type Interval, union, within, without } from './intervals.ts';
import { piecesFor } from './strips.ts';

export interface EndLapQuestion {
  readonly span: Interval;
  readonly rollM: number;
  readonly endLapM: number;
  /** Where an end lap may not start, most important first; a rule that cannot be kept is dropped from the last. */
  readonly keepOff: readonly (readonly Interval[])[];
}

export interface EndLaps {
  /** Where each next piece starts. */
  readonly starts: readonly number[];
  /** How many of the rules were kept. */
  readonly kept: number;
}

/** This many pieces more than the fewest are cut before a rule is given up. */
const MORE_PIECES = 2;

/**
 * End laps along a stretch: the fewest pieces that keep every rule, each as long as the roll lets it.
 * The places an end lap may have are intervals, so this is exact, not a search on a grid.
 */
export function placeEndLaps(q: EndLapQuestion): EndLaps {
  const [from, to] = q.span;
  const least = piecesFor(to - from, q.rollM, q.endLapM);
  if (least === 1) return { starts: [], kept: q.keepOff.length };
  for (let kept = q.keepOff.length; kept >= 0; kept -= 1) {
    const away = q.keepOff.slice(0, kept).flat();
    for (let pieces = least; pieces <= least + MORE_PIECES; pieces += 1) {
      const starts = place(q, pieces, away);
      if (starts !== null) return { starts, kept };
    }
  }
  throw new RangeError(`a stretch of ${to - from} m cannot be cut from rolls of ${q.rollM} m`);
}

function place(q: EndLapQuestion, pieces: number, away: readonly Interval[]): number[] | null {
  const [from, to] = q.span;
  const shortest = Math.min(SHORTEST_PIECE_M, q.rollM / 2);
  const leastStep = shortest - q.endLapM;
  const mostStep = q.rollM - q.endLapM;
  // Allowed starts of the last piece, then of the one before it, and so on down.
  const allowed: Interval[][] = [];
  let reach: Interval[] = without([[to - q.rollM, to - shortest]], away);
  for (let i = pieces - 1; i >= 1; i -= 1) {
    allowed[i] = within(reach, from + i * leastStep - 1e-9, from + i * mostStep + 1e-9);
    if (allowed[i]!.length === 0) return null;
    reach = without(
      union(allowed[i]!.map(([a, b]): Interval => [a - mostStep, b - leastStep])),
      away,
    );
  }
  const starts: number[] = [];
  let at = from;
  for (let i = 1; i < pieces; i += 1) {
    const next = within(allowed[i]!, at + leastStep - 1e-9, at + mostStep + 1e-9);
    const last = next[next.length - 1];
    if (last === undefined) return null;
    at = Math.min(last[1], at + mostStep);
    starts.push(at);
  }
  return starts;
}
