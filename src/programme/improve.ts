import { type Chosen, copyInto, copyOf, giveBack, isFree, sumOf } from './chosen.ts';
import { DESTROY_KINDS, type DestroyContext, pickTasks } from './destroy.ts';
import type { Bound } from './lagrange.ts';
import { type Packing, type Takers, takersOf } from './packing.ts';
import { fillByRegret, fillGreedily, type Score } from './repair.ts';
import { fillExactly } from './repair-exactly.ts';

/** Tasks taken off at a time: at least, and at most as a share of those placed and in number. */
const FEWEST_OFF = 3;
const MOST_OFF_SHARE = 0.25;
const MOST_OFF = 40;
/** In a small programme a quarter of the tasks is too few to change places. */
const FEWEST_MOST_OFF = 10;
/** So often the freed slots are filled in the best way there is, and then fewer tasks are taken off. */
const EXACT_SHARE = 0.85;
const MOST_OFF_EXACTLY = 14;
const NODES = 400;
/** From this draw on a repair leans on what the relaxation chose most. */
const SHARE_FROM = 0.6;
/** A worse choice is gone on from while it is less below the best than this share of one task's mean value. */
const LENIENCE = 0.03;

/**
 * Large-neighbourhood search (Shaw, CP 1998; Pisinger and Ropke's way of mixing steps, 2007): take some
 * tasks off by day, by crew, by who stands in whose way or by who stands worst; place anew greedily or
 * by regret. A worse choice is gone on from for a while, less and less so.
 * @param start  left as it is
 * @returns the best choice met
 */
export function improve(
  packing: Packing,
  start: Chosen,
  args: {
    readonly bound: Bound;
    readonly dayCount: number;
    readonly iterations: number;
    readonly random: () => number;
    readonly shouldStop: () => boolean;
  },
): { readonly best: Chosen; readonly iterations: number } {
  const { bound, iterations, random } = args;
  const { reduced, bestReduced } = bound;
  const context: DestroyContext = { packing, ...args, reduced, bestReduced };
  const takers = takersOf(packing);
  const marks = new Int32Array(packing.optionCount).fill(-1);
  const best = copyOf(start);
  const at = copyOf(start);
  const trial = copyOf(start);
  let done = 0;
  for (; done < iterations && !args.shouldStop(); done += 1) {
    if (bound.value - best.value <= 1e-9 * Math.abs(bound.value)) break;
    copyInto(trial, at);
    const placed = trial.option.reduce((sum, option) => sum + (option >= 0 ? 1 : 0), 0);
    const most = Math.min(MOST_OFF, Math.max(FEWEST_MOST_OFF, Math.round(placed * MOST_OFF_SHARE)));
    const exactly = random() < EXACT_SHARE;
    const upTo = exactly ? Math.min(most, MOST_OFF_EXACTLY) : most;
    const count = FEWEST_OFF + Math.floor(random() * (upTo - FEWEST_OFF + 1));
    const kind = DESTROY_KINDS[Math.floor(random() * DESTROY_KINDS.length)]!;
    for (const task of pickTasks(kind, context, trial, count)) giveBack(packing, trial, task);
    const candidates = fitting(packing, trial, takers, marks, done);
    if (exactly) {
      const toBeat = at.value - trial.value;
      const { prices } = bound;
      if (!fillExactly(packing, trial, candidates, { prices, reduced, toBeat, nodes: NODES }))
        continue;
      copyInto(at, trial);
      if (trial.value > best.value + 1e-9) copyInto(best, trial);
      continue;
    }
    const score = scoreOf(packing, bound, random);
    if (random() < 0.5) fillGreedily(packing, trial, candidates, score);
    else fillByRegret(packing, trial, candidates, score);
    const lenience = (LENIENCE * best.value * (1 - done / iterations)) / Math.max(1, placed);
    if (trial.value > best.value + 1e-9) {
      copyInto(best, trial);
      copyInto(at, trial);
    } else if (trial.value >= best.value - lenience) copyInto(at, trial);
    else if (random() < 0.02) copyInto(at, best);
  }
  best.value = sumOf(packing, best.option);
  return { best, iterations: done };
}

/** Options that could be taken now. */
function fitting(
  packing: Packing,
  chosen: Chosen,
  takers: Takers,
  marks: Int32Array,
  mark: number,
): number[] {
  const found: number[] = [];
  for (let slot = 0; slot < packing.slotCount; slot += 1) {
    if (chosen.taker[slot] !== -1) continue;
    for (let i = takers.from[slot]!; i < takers.from[slot + 1]!; i += 1) {
      const option = takers.options[i]!;
      if (marks[option] === mark) continue;
      marks[option] = mark;
      if (chosen.option[packing.taskOf[option]!] === -1 && isFree(packing, chosen, option))
        found.push(option);
    }
  }
  return found;
}

/** By value, by what the slot prices leave of it, or by that with noise: each sees other ways. */
function scoreOf(packing: Packing, { reduced, share }: Bound, random: () => number): Score {
  const draw = random();
  if (draw > SHARE_FROM) {
    const weight = random();
    return (option) =>
      reduced[option]! + packing.value[option]! * weight * (share[option]! + 0.2 * random());
  }
  if (draw < 0.1) return (option) => packing.value[option]!;
  if (draw < 0.3) return (option) => reduced[option]!;
  const noise = 0.3 * random();
  return (option) => reduced[option]! + packing.value[option]! * noise * (random() - 0.5);
}
