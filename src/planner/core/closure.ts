/** Between two starts that no chain of lags ties together. */
export const NO_PATH = -(1 << 29);

export interface Closure {
  readonly count: number;
  /** Longest path from start to start, [from * count + to]; 0 on the diagonal, NO_PATH where there is none. */
  readonly dist: Int32Array;
  /** True when some activities tie each other both ways, which only maximum lags do. */
  readonly circular: boolean;
  /** Activities of a circle of lags that adds up to more than 0, in order; null when there is none. */
  readonly contradiction: readonly number[] | null;
}

/**
 * Longest paths between all starts (Floyd and Warshall). A circle of positive length is a contradiction:
 * an activity would have to start after itself.
 * @param least  paths shorter than this bind nothing and are left out
 */
export function closeLags(
  count: number,
  lagFrom: Int32Array,
  lagTo: Int32Array,
  minLag: Int32Array,
  least: number,
): Closure {
  const dist = new Int32Array(count * count).fill(NO_PATH);
  const next = new Int32Array(count * count).fill(-1);
  for (let i = 0; i < count; i += 1) dist[i * count + i] = 0;
  for (let k = 0; k < minLag.length; k += 1) {
    const at = lagFrom[k]! * count + lagTo[k]!;
    if (minLag[k]! <= dist[at]! || minLag[k]! < least) continue;
    dist[at] = minLag[k]!;
    next[at] = lagTo[k]!;
  }
  for (let k = 0; k < count; k += 1) {
    for (let i = 0; i < count; i += 1) {
      const first = dist[i * count + k]!;
      if (first === NO_PATH) continue;
      for (let j = 0; j < count; j += 1) {
        const second = dist[k * count + j]!;
        const path = first + second;
        if (second === NO_PATH || path <= dist[i * count + j]! || path < least) continue;
        dist[i * count + j] = path;
        next[i * count + j] = next[i * count + k]!;
      }
      if (dist[i * count + i]! > 0) {
        return { count, dist, circular: true, contradiction: circleFrom(i, next, count) };
      }
    }
  }
  let circular = false;
  for (let i = 0; i < count && !circular; i += 1) {
    for (let j = 0; j < i && !circular; j += 1) {
      circular = dist[i * count + j]! !== NO_PATH && dist[j * count + i]! !== NO_PATH;
    }
  }
  return { count, dist, circular, contradiction: null };
}

/** Follows the steps of the path from an activity back to itself. */
function circleFrom(start: number, next: Int32Array, count: number): number[] {
  const circle = [start];
  let at = next[start * count + start]!;
  while (at !== start && at >= 0 && circle.length <= count) {
    circle.push(at);
    at = next[at * count + start]!;
  }
  return circle;
}
