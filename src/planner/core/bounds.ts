import { NO_PATH } from './closure.ts';
import type { Model } from './model.ts';

/**
 * Makespan no schedule can beat: the longest of the critical path, the work of each resource between the
 * least head and the least tail of those who need it, and pairs that cannot run side by side.
 */
export function lowerBoundOf(model: Model): number {
  let best = 0;
  for (let i = 0; i < model.count; i += 1) best = Math.max(best, model.head[i]! + model.tail[i]!);
  for (let k = 0; k < model.resources; k += 1) best = Math.max(best, workBound(model, k));
  return Math.max(best, pairBound(model));
}

/** Can these two run in the same period as far as resources go? */
export function clash(model: Model, i: number, j: number): boolean {
  if (model.duration[i] === 0 || model.duration[j] === 0) return false;
  for (let k = 0; k < model.resources; k += 1) {
    const both = model.demand[i * model.resources + k]! + model.demand[j * model.resources + k]!;
    if (both > model.capacity[k]!) return true;
  }
  return false;
}

function workBound(model: Model, k: number): number {
  const { count, resources, duration, demand, head, tail } = model;
  const capacity = model.capacity[k]!;
  if (capacity === 0) return 0;
  const users = Array.from({ length: count }, (_, i) => i)
    .filter((i) => demand[i * resources + k]! > 0 && duration[i]! > 0)
    .sort((a, b) => tail[b]! - duration[b]! - (tail[a]! - duration[a]!));
  let best = 0;
  for (const from of users) {
    const least = head[from]!;
    let work = 0;
    // By falling tail after the end: everything taken so far has at least the tail of the latest one.
    for (const i of users) {
      if (head[i]! < least) continue;
      work += duration[i]! * demand[i * resources + k]!;
      best = Math.max(best, least + Math.ceil(work / capacity) + tail[i]! - duration[i]!);
    }
  }
  return best;
}

function pairBound(model: Model): number {
  const { count, duration, head, tail, dist } = model;
  let best = 0;
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j < i; j += 1) {
      if (!clash(model, i, j)) continue;
      let least = Number.POSITIVE_INFINITY;
      if (mayPrecede(dist, count, duration, i, j)) least = head[i]! + duration[i]! + tail[j]!;
      if (mayPrecede(dist, count, duration, j, i))
        least = Math.min(least, head[j]! + duration[j]! + tail[i]!);
      // Neither order: the search finds out.
      if (Number.isFinite(least)) best = Math.max(best, least);
    }
  }
  return best;
}

/** Do the lags leave room for i to end before j starts? */
export function mayPrecede(
  dist: Int32Array,
  count: number,
  duration: Int32Array,
  i: number,
  j: number,
): boolean {
  const back = dist[j * count + i]!;
  return back === NO_PATH || back <= -duration[i]!;
}
