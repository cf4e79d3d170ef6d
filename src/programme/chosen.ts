import type { Packing } from './packing.ts';

/** A choice under way: for each task its option, for each slot its taker; -1 = none. */
export interface Chosen {
  readonly option: Int32Array;
  readonly taker: Int32Array;
  value: number;
}

export function nothingChosen(packing: Packing): Chosen {
  return {
    option: new Int32Array(packing.taskCount).fill(-1),
    taker: new Int32Array(packing.slotCount).fill(-1),
    value: 0,
  };
}

export function copyOf(chosen: Chosen): Chosen {
  return { option: chosen.option.slice(), taker: chosen.taker.slice(), value: chosen.value };
}

export function copyInto(target: Chosen, from: Chosen): void {
  target.option.set(from.option);
  target.taker.set(from.taker);
  target.value = from.value;
}

export function isFree(packing: Packing, chosen: Chosen, option: number): boolean {
  for (let i = packing.slotFrom[option]!; i < packing.slotFrom[option + 1]!; i += 1)
    if (chosen.taker[packing.slots[i]!] !== -1) return false;
  return true;
}

export function take(packing: Packing, chosen: Chosen, option: number): void {
  const task = packing.taskOf[option]!;
  chosen.option[task] = option;
  for (let i = packing.slotFrom[option]!; i < packing.slotFrom[option + 1]!; i += 1)
    chosen.taker[packing.slots[i]!] = task;
  chosen.value += packing.value[option]!;
}

export function giveBack(packing: Packing, chosen: Chosen, task: number): void {
  const option = chosen.option[task]!;
  if (option < 0) return;
  chosen.option[task] = -1;
  for (let i = packing.slotFrom[option]!; i < packing.slotFrom[option + 1]!; i += 1)
    chosen.taker[packing.slots[i]!] = -1;
  chosen.value -= packing.value[option]!;
}

/** The sum afresh: adding and taking away leave rounding behind. */
export function sumOf(packing: Packing, options: Int32Array): number {
  let sum = 0;
  for (const option of options) if (option >= 0) sum += packing.value[option]!;
  return sum;
}
