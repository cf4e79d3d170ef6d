/**
 * What is left of the programme for the search: of each task at most one option, of each slot (one
 * crew, one day) at most one taker, the sum of values as large as possible. Options of a task
 * stand together, best first; only options worth more than leaving the task out are there.
 */
export interface Packing {
  readonly taskCount: number;
  readonly slotCount: number;
  readonly optionCount: number;
  /** [taskCount + 1]: options of task t are optionFrom[t] .. optionFrom[t + 1] - 1. */
  readonly optionFrom: Int32Array;
  /** [optionCount] */
  readonly taskOf: Int32Array;
  /** [optionCount], all above 0 */
  readonly value: Float64Array;
  /** [optionCount + 1]: slots of option o are slots[slotFrom[o]] .. slots[slotFrom[o + 1] - 1]. */
  readonly slotFrom: Int32Array;
  readonly slots: Int32Array;
}

export interface Option {
  readonly value: number;
  readonly slots: readonly number[];
}

/** @param options  for each task; those not above 0 are left away */
export function packingOf(options: readonly (readonly Option[])[], slotCount: number): Packing {
  const kept = options.map((own) =>
    own.filter((option) => option.value > 0).sort((a, b) => b.value - a.value),
  );
  const optionCount = kept.reduce((sum, own) => sum + own.length, 0);
  const slotsInAll = kept.reduce(
    (sum, own) => sum + own.reduce((inner, option) => inner + option.slots.length, 0),
    0,
  );
  const optionFrom = new Int32Array(options.length + 1);
  const taskOf = new Int32Array(optionCount);
  const value = new Float64Array(optionCount);
  const slotFrom = new Int32Array(optionCount + 1);
  const slots = new Int32Array(slotsInAll);
  let o = 0;
  let s = 0;
  kept.forEach((own, t) => {
    for (const option of own) {
      taskOf[o] = t;
      value[o] = option.value;
      for (const slot of option.slots) slots[s++] = slot;
      o += 1;
      slotFrom[o] = s;
    }
    optionFrom[t + 1] = o;
  });
  const taskCount = options.length;
  return { taskCount, slotCount, optionCount, optionFrom, taskOf, value, slotFrom, slots };
}

/** The packing with only these options, and for each of its options the number it had. */
export function narrowed(
  packing: Packing,
  keep: (option: number) => boolean,
): { readonly packing: Packing; readonly was: Int32Array } {
  const { taskCount, slotCount, optionCount } = packing;
  const was: number[] = [];
  for (let o = 0; o < optionCount; o += 1) if (keep(o)) was.push(o);
  const optionFrom = new Int32Array(taskCount + 1);
  const slotFrom = new Int32Array(was.length + 1);
  const slots: number[] = [];
  was.forEach((o, n) => {
    optionFrom[packing.taskOf[o]! + 1] = n + 1;
    for (let i = packing.slotFrom[o]!; i < packing.slotFrom[o + 1]!; i += 1)
      slots.push(packing.slots[i]!);
    slotFrom[n + 1] = slots.length;
  });
  for (let t = 1; t <= taskCount; t += 1)
    optionFrom[t] = Math.max(optionFrom[t]!, optionFrom[t - 1]!);
  return {
    packing: {
      taskCount,
      slotCount,
      optionCount: was.length,
      optionFrom,
      taskOf: Int32Array.from(was, (o) => packing.taskOf[o]!),
      value: Float64Array.from(was, (o) => packing.value[o]!),
      slotFrom,
      slots: Int32Array.from(slots),
    },
    was: Int32Array.from(was),
  };
}

/** For each slot the options that take it. */
export interface Takers {
  readonly from: Int32Array;
  readonly options: Int32Array;
}

export function takersOf(packing: Packing): Takers {
  const { slotCount, optionCount, slotFrom, slots } = packing;
  const from = new Int32Array(slotCount + 1);
  for (const slot of slots) from[slot + 1]! += 1;
  for (let s = 0; s < slotCount; s += 1) from[s + 1]! += from[s]!;
  const next = from.slice();
  const options = new Int32Array(slots.length);
  for (let o = 0; o < optionCount; o += 1) {
    for (let i = slotFrom[o]!; i < slotFrom[o + 1]!; i += 1) {
      const slot = slots[i]!;
      options[next[slot]!] = o;
      next[slot]! += 1;
    }
  }
  return { from, options };
}
