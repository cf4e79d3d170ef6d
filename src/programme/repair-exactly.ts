import { type Chosen, isFree, take } from './chosen.ts';
import type { Packing } from './packing.ts';

/**
 * Fills free slots in the best way there is, or the best met within a number of nodes. Slot prices turn
 * the sum of values into losses: a slot left empty loses its price, an option gives what the
 * prices leave of it, and no task can give more than the best of its options. Slots are decided one after the
 * other, the dearest first; a branch ends where even that could not beat the best found.
 * @param candidates  options that fit, of tasks without one
 * @param toBeat      value that the filling has to add more than; nothing is taken where none does
 * @returns whether something better was found and taken
 */
export function fillExactly(
  packing: Packing,
  chosen: Chosen,
  candidates: readonly number[],
  args: {
    readonly prices: Float64Array;
    readonly reduced: Float64Array;
    readonly toBeat: number;
    readonly nodes: number;
  },
): boolean {
  const { prices, reduced, nodes } = args;
  const { taskOf, slotFrom, slots } = packing;
  const bySlot = new Map<number, number[]>();
  const most = new Map<number, number>();
  for (const o of candidates) {
    most.set(taskOf[o]!, Math.max(most.get(taskOf[o]!) ?? 0, reduced[o]!));
    for (let i = slotFrom[o]!; i < slotFrom[o + 1]!; i += 1) {
      const own = bySlot.get(slots[i]!);
      if (own === undefined) bySlot.set(slots[i]!, [o]);
      else own.push(o);
    }
  }
  const order = [...bySlot.keys()].sort((a, b) => prices[b]! - prices[a]! || a - b);
  for (const own of bySlot.values()) own.sort((a, b) => reduced[b]! - reduced[a]! || a - b);
  let allPrices = 0;
  for (const slot of order) allPrices += prices[slot]!;
  let hope = 0;
  for (const best of most.values()) hope += best;

  const decided = new Set<number>();
  const doneTasks = new Set<number>();
  const picked: number[] = [];
  let bestPicked: number[] | null = null;
  // Value added = prices of all slots + what options give - prices of slots left empty.
  let bestGain = args.toBeat - allPrices + 1e-9;
  let visited = 0;

  const open = (o: number): boolean => {
    if (doneTasks.has(taskOf[o]!)) return false;
    for (let i = slotFrom[o]!; i < slotFrom[o + 1]!; i += 1)
      if (decided.has(slots[i]!)) return false;
    return true;
  };
  const decide = (at: number, gain: number, hopeLeft: number): void => {
    if (gain + hopeLeft <= bestGain || visited >= nodes) return;
    visited += 1;
    let n = at;
    while (n < order.length && decided.has(order[n]!)) n += 1;
    if (n === order.length) {
      // Tasks without an option now give nothing, whatever could be hoped of them.
      if (gain <= bestGain) return;
      bestGain = gain;
      bestPicked = [...picked];
      return;
    }
    const slot = order[n]!;
    let left = false;
    const leaveEmpty = (): void => {
      left = true;
      decided.add(slot);
      decide(n + 1, gain - prices[slot]!, hopeLeft);
      decided.delete(slot);
    };
    for (const o of bySlot.get(slot)!) {
      // An empty slot comes at its turn: where it loses less than the option does.
      if (!left && reduced[o]! < -prices[slot]!) leaveEmpty();
      if (gain + reduced[o]! + hopeLeft - most.get(taskOf[o]!)! <= bestGain) continue;
      if (!open(o)) continue;
      const task = taskOf[o]!;
      doneTasks.add(task);
      picked.push(o);
      for (let i = slotFrom[o]!; i < slotFrom[o + 1]!; i += 1) decided.add(slots[i]!);
      decide(n + 1, gain + reduced[o]!, hopeLeft - most.get(task)!);
      for (let i = slotFrom[o]!; i < slotFrom[o + 1]!; i += 1) decided.delete(slots[i]!);
      picked.pop();
      doneTasks.delete(task);
    }
    if (!left) leaveEmpty();
  };
  decide(0, 0, hope);
  if (bestPicked === null) return false;
  for (const o of bestPicked as number[]) {
    if (!isFree(packing, chosen, o)) throw new Error(`option ${o} was taken on a slot not free`);
    take(packing, chosen, o);
  }
  return true;
}
