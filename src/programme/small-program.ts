import type { Chosen } from './chosen.ts';
import type { Packing } from './packing.ts';

/** A 0/1 program: the largest sum of values with at most one column taken of every row. */
export interface SmallProgram {
  readonly values: readonly number[];
  /** Columns of each row, by number. */
  readonly rows: readonly (readonly number[])[];
}

export interface SmallAnswer {
  /** Numbers of the columns taken. */
  readonly taken: readonly number[];
  /** Nothing is worth more. */
  readonly proven: boolean;
}

/** An exact solver, handed in; null = nothing found within its limits. */
export type SolveSmall = (program: SmallProgram) => SmallAnswer | null;

/** The packing as a program: a row for each task and for each slot that more than one option wants. */
export function programOf(packing: Packing): SmallProgram {
  const { taskCount, slotCount, optionCount, optionFrom, slotFrom, slots } = packing;
  const bySlot = Array.from({ length: slotCount }, (): number[] => []);
  for (let o = 0; o < optionCount; o += 1)
    for (let i = slotFrom[o]!; i < slotFrom[o + 1]!; i += 1) bySlot[slots[i]!]!.push(o);
  const byTask = Array.from({ length: taskCount }, (_, t) =>
    Array.from({ length: optionFrom[t + 1]! - optionFrom[t]! }, (__, n) => optionFrom[t]! + n),
  );
  return {
    values: Array.from(packing.value),
    rows: [...byTask, ...bySlot].filter((row) => row.length > 1),
  };
}

/**
 * The columns taken as options by task.
 * @throws Error where a solver has broken a row: then nothing of it can be believed
 */
export function optionsTaken(packing: Packing, taken: readonly number[]): Int32Array {
  const options = new Int32Array(packing.taskCount).fill(-1);
  const used = new Set<number>();
  for (const o of taken) {
    const task = packing.taskOf[o];
    if (task === undefined || options[task] !== -1) {
      throw new Error(`the solver took option ${o} of task ${task} beside another or none`);
    }
    options[task] = o;
    for (let i = packing.slotFrom[o]!; i < packing.slotFrom[o + 1]!; i += 1) {
      const slot = packing.slots[i]!;
      if (used.has(slot)) throw new Error(`the solver gave slot ${slot} to two tasks`);
      used.add(slot);
    }
  }
  return options;
}

/** Which options a set of freed tasks and slots may choose from, all else staying as it is. */
export function freeOptions(
  packing: Packing,
  chosen: Chosen,
  mayMove: (task: number) => boolean,
): (option: number) => boolean {
  return (o) => {
    if (!mayMove(packing.taskOf[o]!)) return false;
    for (let i = packing.slotFrom[o]!; i < packing.slotFrom[o + 1]!; i += 1) {
      const taker = chosen.taker[packing.slots[i]!]!;
      if (taker !== -1 && !mayMove(taker)) return false;
    }
    return true;
  };
}
