import type { Packing } from './packing.ts';

/**
 * A bound on the best choice, by Lagrangian relaxation of 'one task per slot': each slot gets a price,
 * each task takes the option that is worth most after paying for its slots, and
 * sum of those + sum of prices is never below any choice (Fisher, Management Science 27, 1981). Since
 * each task alone is solved in whole numbers by linear programming too, the best such bound is the one
 * of the linear relaxation.
 */
export interface Bound {
  readonly value: number;
  /** [slotCount], 0 or more */
  readonly prices: Float64Array;
  /** [optionCount]: value less the prices of its slots. */
  readonly reduced: Float64Array;
  /** [taskCount]: largest of its reduced values, at least 0. */
  readonly bestReduced: Float64Array;
  /**
   * [optionCount], 0..1: how often it was its task's choice, late steps counting more. Nears an optimum
   * of the linear relaxation (Barahona and Anbil, Mathematical Programming 87, 2000).
   */
  readonly share: Float64Array;
  readonly steps: number;
}

/** What the prices leave of every option. */
export function boundAt(
  packing: Packing,
  prices: Float64Array,
  share: Float64Array = new Float64Array(packing.optionCount),
): Bound {
  const { taskCount, optionCount, taskOf } = packing;
  const reduced = new Float64Array(optionCount);
  const bestReduced = new Float64Array(taskCount);
  let value = 0;
  for (const price of prices) value += price;
  for (let o = 0; o < optionCount; o += 1) {
    reduced[o] = reducedOf(packing, prices, o);
    if (reduced[o]! > bestReduced[taskOf[o]!]!) bestReduced[taskOf[o]!] = reduced[o]!;
  }
  for (const best of bestReduced) value += best;
  return { value, prices, reduced, bestReduced, share, steps: 0 };
}

function reducedOf({ value, slotFrom, slots }: Packing, prices: Float64Array, o: number): number {
  let left = value[o]!;
  for (let i = slotFrom[o]!; i < slotFrom[o + 1]!; i += 1) left -= prices[slots[i]!]!;
  return left;
}

/** Steps without a better bound before the steps are made smaller. */
const PATIENCE = 8;
/** Share of the last direction kept: damps the zigzag of plain subgradients (Camerini and others, 1975). */
const KEPT_DIRECTION = 0.35;

/** Weight of a step in the shares, against all before it. */
const NEWEST_SHARE = 0.03;

/**
 * Subgradient steps with Polyak's length from the value of the best choice known.
 * @param known   value of a choice, asked for at each step: it may have grown
 * @param onStep  told the prices of each step; a choice made from them may raise `known`
 */
export function tightenBound(
  packing: Packing,
  args: {
    readonly steps: number;
    readonly from?: Float64Array;
    readonly known: () => number;
    readonly onStep?: (step: number, prices: Float64Array) => void;
    readonly shouldStop: () => boolean;
  },
): Bound {
  const { slotCount, taskCount, optionFrom, value, slotFrom, slots } = packing;
  const prices = args.from?.slice() ?? new Float64Array(slotCount);
  const direction = new Float64Array(slotCount);
  const use = new Float64Array(slotCount);
  const share = new Float64Array(packing.optionCount);
  let newest = 1;
  let best = boundAt(packing, prices.slice());
  let scale = 1.2;
  let since = 0;
  let steps = 0;
  for (; steps < args.steps && !args.shouldStop(); steps += 1) {
    use.fill(1);
    let bound = 0;
    for (const price of prices) bound += price;
    for (let t = 0; t < taskCount; t += 1) {
      let most = 0;
      let pick = -1;
      for (let o = optionFrom[t]!; o < optionFrom[t + 1]!; o += 1) {
        // Options stand best first and prices are never below 0: no later one can be worth more.
        if (value[o]! <= most) break;
        let left = value[o]!;
        for (let i = slotFrom[o]!; i < slotFrom[o + 1]!; i += 1) left -= prices[slots[i]!]!;
        if (left > most) {
          most = left;
          pick = o;
        }
      }
      if (pick < 0) continue;
      bound += most;
      share[pick]! += newest;
      for (let i = slotFrom[pick]!; i < slotFrom[pick + 1]!; i += 1) use[slots[i]!]! -= 1;
    }
    if (bound < best.value - 1e-9 * Math.abs(best.value)) {
      best = boundAt(packing, prices.slice());
      since = 0;
    } else {
      since += 1;
      if (since >= PATIENCE) {
        scale *= 0.7;
        since = 0;
      }
    }
    // Weights that grow do what fading all former picks would, without touching them.
    newest /= 1 - NEWEST_SHARE;
    if (newest > 1e100) {
      for (let o = 0; o < share.length; o += 1) share[o]! /= newest;
      newest = 1;
    }
    args.onStep?.(steps, prices);
    const gap = bound - args.known();
    // A free slot without a price cannot become cheaper: it does not count in the length of the step.
    let length = 0;
    for (let s = 0; s < slotCount; s += 1) {
      direction[s] = use[s]! + KEPT_DIRECTION * direction[s]!;
      if (prices[s]! > 0 || direction[s]! < 0) length += direction[s]! ** 2;
    }
    if (length === 0 || gap <= 1e-9 * Math.abs(bound) || scale < 1e-4) break;
    const step = (scale * gap) / length;
    for (let s = 0; s < slotCount; s += 1)
      prices[s] = Math.max(0, prices[s]! - step * direction[s]!);
  }
  // The weights are a geometric row: this is its sum, its head of hardly any weight aside.
  const total = newest * ((1 - NEWEST_SHARE) / NEWEST_SHARE) * (1 - (1 - NEWEST_SHARE) ** steps);
  if (total > 0) for (let o = 0; o < share.length; o += 1) share[o]! /= total;
  return { ...best, share, steps };
}

/** Rounding in sums of this many thousand figures. */
const HAIR = 1e-6;

/**
 * Can an option stand in a choice worth more than the one known? Taking it costs what it leaves of its
 * task's best, off the bound.
 */
export function mayImprove(packing: Packing, bound: Bound, known: number) {
  const room = bound.value - known + HAIR;
  return (option: number): boolean =>
    bound.bestReduced[packing.taskOf[option]!]! - bound.reduced[option]! < room;
}
