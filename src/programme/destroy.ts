import type { Chosen } from './chosen.ts';
import type { Packing } from './packing.ts';

/** What a destroy step may look at. */
export interface DestroyContext {
  readonly packing: Packing;
  readonly dayCount: number;
  /** Value less slot prices, by option, and the best of each task. */
  readonly reduced: Float64Array;
  readonly bestReduced: Float64Array;
  readonly random: () => number;
}

export const DESTROY_KINDS = ['day', 'crew', 'neighbours', 'worst'] as const;
export type DestroyKind = (typeof DESTROY_KINDS)[number];

/** Placed tasks to take off before placing anew, about as many as asked. */
export function pickTasks(
  kind: DestroyKind,
  context: DestroyContext,
  chosen: Chosen,
  count: number,
): number[] {
  switch (kind) {
    case 'day':
      return ofDays(context, chosen, count);
    case 'crew':
      return ofCrews(context, chosen, count);
    case 'neighbours':
      return ofNeighbours(context, chosen, count);
    case 'worst':
      return ofWorst(context, chosen, count);
  }
}

const below = (random: () => number, n: number): number => Math.floor(random() * n);

/** All crews on one day and the days round it. */
function ofDays({ packing, dayCount, random }: DestroyContext, chosen: Chosen, count: number) {
  const tasks = new Set<number>();
  const middle = below(random, dayCount);
  const crews = packing.slotCount / dayCount;
  for (let off = 0; off < dayCount && tasks.size < count; off += 1) {
    for (const day of off === 0 ? [middle] : [middle - off, middle + off]) {
      if (day < 0 || day >= dayCount) continue;
      const first = below(random, crews);
      for (let c = 0; c < crews && tasks.size < count; c += 1) {
        const taker = chosen.taker[((first + c) % crews) * dayCount + day]!;
        if (taker >= 0) tasks.add(taker);
      }
    }
  }
  return [...tasks];
}

/** A few crews over all days. */
function ofCrews({ packing, dayCount, random }: DestroyContext, chosen: Chosen, count: number) {
  const tasks = new Set<number>();
  const crews = packing.slotCount / dayCount;
  for (let tries = 0; tries < crews && tasks.size < count; tries += 1) {
    const crew = below(random, crews);
    for (let d = 0; d < dayCount && tasks.size < count; d += 1) {
      const taker = chosen.taker[crew * dayCount + d]!;
      if (taker >= 0) tasks.add(taker);
    }
  }
  return [...tasks];
}

/** Those who stand where one task would like to, those who stand where they would like to, and so on. */
function ofNeighbours(context: DestroyContext, chosen: Chosen, count: number): number[] {
  const { packing, random } = context;
  const { optionFrom, taskCount, slotFrom, slots } = packing;
  const start = below(random, taskCount);
  const seen = new Set([start]);
  const queue = [start];
  for (let n = 0; n < queue.length && seen.size < count; n += 1) {
    const task = queue[n]!;
    const from = optionFrom[task]!;
    const size = optionFrom[task + 1]! - from;
    for (let tries = 0; tries < Math.min(size, 6); tries += 1) {
      // Better options more often than worse ones.
      const option = from + below(() => random() ** 2, size);
      for (let i = slotFrom[option]!; i < slotFrom[option + 1]!; i += 1) {
        const taker = chosen.taker[slots[i]!]!;
        if (taker < 0 || seen.has(taker)) continue;
        seen.add(taker);
        queue.push(taker);
      }
    }
  }
  return [...seen].filter((task) => chosen.option[task]! >= 0);
}

/** Those that lose most by where they stand, by luck of the draw, and who stands where they belong. */
function ofWorst(context: DestroyContext, chosen: Chosen, count: number): number[] {
  const { packing, reduced, bestReduced, random } = context;
  const { optionFrom, slotFrom, slots } = packing;
  const loss = Array.from({ length: packing.taskCount }, (_, task) => ({
    task,
    loss:
      bestReduced[task]! -
      (chosen.option[task]! < 0 ? 0 : Math.max(0, reduced[chosen.option[task]!]!)),
  })).filter((it) => it.loss > 0 || chosen.option[it.task]! >= 0);
  loss.sort((a, b) => b.loss - a.loss || a.task - b.task);
  const tasks = new Set<number>();
  while (tasks.size < count && loss.length > 0) {
    const [it] = loss.splice(
      below(() => random() ** 4, loss.length),
      1,
    );
    const task = it!.task;
    if (chosen.option[task]! >= 0) tasks.add(task);
    let best = -1;
    for (let o = optionFrom[task]!; o < optionFrom[task + 1]!; o += 1)
      if (best < 0 || reduced[o]! > reduced[best]!) best = o;
    if (best < 0) continue;
    for (let i = slotFrom[best]!; i < slotFrom[best + 1]!; i += 1) {
      const taker = chosen.taker[slots[i]!]!;
      if (taker >= 0) tasks.add(taker);
    }
  }
  return [...tasks];
}
