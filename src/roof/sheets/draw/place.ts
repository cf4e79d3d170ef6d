/** Keeps texts of a drawing apart: each takes the place among its candidates that covers least. */

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export interface Candidate<T> {
  readonly box: Box;
  readonly value: T;
  /** How much this place is disliked in itself [square units covered]. */
  readonly dislike?: number;
}

export function boxAround(x: number, y: number, width: number, height: number): Box {
  return { x0: x - width / 2, x1: x + width / 2, y0: y - height / 2, y1: y + height / 2 };
}

export function overlap(a: Box, b: Box): number {
  const w = Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0);
  const h = Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0);
  return w > 0 && h > 0 ? w * h : 0;
}

/** Covering a text is this many times as bad as covering a line or a feature. */
const TEXT_OVER_LINE = 1000;
/** A later candidate must cover this much less [square units]. */
const PER_STEP = 0.05;

export class Places {
  /** Boxes of what must be readable. */
  readonly texts: Box[] = [];
  /** Boxes of lines and features, better left clear. */
  readonly lines: Box[] = [];
  readonly frame: Box;

  constructor(frame: Box) {
    this.frame = frame;
  }

  /** Takes the best candidate and keeps its box clear from then on. */
  take<T>(candidates: readonly Candidate<T>[]): Candidate<T> {
    let best: Candidate<T> | null = null;
    let least = Number.POSITIVE_INFINITY;
    candidates.forEach((candidate, i) => {
      const cost = this.cost(candidate.box) + i * PER_STEP + (candidate.dislike ?? 0);
      if (cost < least) {
        least = cost;
        best = candidate;
      }
    });
    if (best === null) throw new RangeError('a text of the drawing has no candidate places');
    const chosen: Candidate<T> = best;
    this.texts.push(chosen.box);
    return chosen;
  }

  private cost(box: Box): number {
    let cost = 0;
    for (const other of this.texts) cost += overlap(box, other) * TEXT_OVER_LINE;
    for (const other of this.lines) cost += overlap(box, other);
    const area = (box.x1 - box.x0) * (box.y1 - box.y0);
    return cost + (area - overlap(box, this.frame)) * TEXT_OVER_LINE;
  }
}
