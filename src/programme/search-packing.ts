import { seededRandom } from '../units/index.ts';
import { type Chosen, copyOf, isFree, nothingChosen, sumOf, take } from './chosen.ts';
import { improve } from './improve.ts';
import { type Bound, boundAt, mayImprove, tightenBound } from './lagrange.ts';
import { narrowed, type Packing } from './packing.ts';
import { fillByRegret, fillGreedily } from './repair.ts';
import { freeOptions, optionsTaken, programOf, type SolveSmall } from './small-program.ts';

/** In steps and calls, never in time, so that the same question gives the same answer everywhere. */
export interface SearchBudget {
  /** Rounds of taking off and placing anew. */
  readonly iterations: number;
  /** Steps of the bound. */
  readonly boundSteps: number;
  /** Sub-problems given to the exact solver, where one is given. */
  readonly solverCalls: number;
  /** Columns at most in one of them. */
  readonly solverColumns: number;
}

export const USUAL_BUDGET: SearchBudget = {
  iterations: 4000,
  boundSteps: 800,
  solverCalls: 8,
  solverColumns: 2500,
};

export interface PackingFound {
  /** [taskCount], -1 = left out */
  readonly options: Int32Array;
  readonly value: number;
  /** No choice is worth more. */
  readonly bound: number;
  readonly proven: boolean;
  readonly iterations: number;
  readonly boundSteps: number;
  readonly solverCalls: number;
  /** Options that could still be in a better choice. */
  readonly optionsLeft: number;
}

const ROUNDS = 4;
/** The first round makes most of the bound; the later ones start from its prices. */
const FIRST_BOUND_SHARE = 0.55;

/**
 * Constructs, bounds, strikes out the options that can no longer be part of anything better, improves, and hands
 * what is small enough to the exact solver; four rounds of it.
 */
export function searchPacking(
  whole: Packing,
  args: {
    readonly dayCount: number;
    readonly budget: SearchBudget;
    readonly seed: number;
    readonly shouldStop: () => boolean;
    readonly solve: SolveSmall | null;
    /** [taskCount], a choice to begin with; -1 = left out */
    readonly start: Int32Array | null;
  },
): PackingFound {
  const { budget, shouldStop, solve, dayCount } = args;
  const random = seededRandom(args.seed);
  let packing = whole;
  let was = Int32Array.from({ length: whole.optionCount }, (_, o) => o);
  let best = construct(whole, args.start);
  let bound: Bound = boundAt(whole, new Float64Array(whole.slotCount));
  let upper = bound.value;
  let iterations = 0;
  let boundSteps = 0;
  let calls = 0;
  const done = (): boolean => upper - best.value <= 1e-7 * Math.max(1, Math.abs(upper));
  const strikeOut = (): void => {
    const may = mayImprove(packing, bound, best.value);
    const kept = narrowed(packing, (o) => may(o) || best.option[packing.taskOf[o]!] === o);
    was = Int32Array.from(kept.was, (o) => was[o]!);
    best = renumbered(best, kept.was);
    packing = kept.packing;
    const { share } = bound;
    bound = boundAt(
      packing,
      bound.prices,
      Float64Array.from(kept.was, (o) => share[o]!),
    );
  };

  for (let round = 0; round < ROUNDS && !done() && !shouldStop(); round += 1) {
    const share = round === 0 ? FIRST_BOUND_SHARE : (1 - FIRST_BOUND_SHARE) / (ROUNDS - 1);
    bound = tightenBound(packing, {
      steps: Math.ceil(budget.boundSteps * share),
      ...(round > 0 ? { from: bound.prices } : {}),
      known: () => best.value,
      onStep: (step, prices) => {
        if (step % 10 === 9) best = better(best, fromPrices(packing, prices));
      },
      shouldStop,
    });
    boundSteps += bound.steps;
    upper = Math.max(best.value, Math.min(upper, bound.value));
    best = better(best, fromShares(packing, bound));
    if (done()) break;
    strikeOut();
    const ran = improve(packing, best, {
      bound,
      dayCount,
      iterations: Math.ceil(budget.iterations / ROUNDS),
      random,
      shouldStop,
    });
    best = better(best, ran.best);
    iterations += ran.iterations;
    strikeOut();
    if (solve === null) continue;
    const quota = Math.ceil((budget.solverCalls * (round + 1)) / ROUNDS);
    while (calls < quota && !done() && !shouldStop()) {
      calls += 1;
      const answer = solvePart(packing, best, { solve, random, dayCount, budget });
      if (answer === null) continue;
      best = better(best, answer.chosen);
      if (answer.whole) upper = best.value;
    }
  }
  const options = Int32Array.from(best.option, (o) => (o < 0 ? -1 : was[o]!));
  const value = sumOf(whole, options);
  return {
    options,
    value,
    bound: Math.max(upper, value),
    proven: done(),
    iterations,
    boundSteps,
    solverCalls: calls,
    optionsLeft: packing.optionCount,
  };
}

function construct(packing: Packing, start: Int32Array | null): Chosen {
  const begun = nothingChosen(packing);
  for (const option of start ?? []) if (option >= 0) take(packing, begun, option);
  const all = Array.from({ length: packing.optionCount }, (_, o) => o).filter(
    (o) => begun.option[packing.taskOf[o]!] === -1 && isFree(packing, begun, o),
  );
  const byRegret = copyOf(begun);
  fillByRegret(packing, byRegret, all, (o) => packing.value[o]!);
  return byRegret;
}

/** A choice read off slot prices: first what they leave most of. */
function fromPrices(packing: Packing, prices: Float64Array): Chosen {
  const { reduced, bestReduced } = boundAt(packing, prices);
  const chosen = nothingChosen(packing);
  const near: number[] = [];
  const rest: number[] = [];
  for (let o = 0; o < packing.optionCount; o += 1) {
    const behind = bestReduced[packing.taskOf[o]!]! - reduced[o]!;
    if (behind < 0.2 * packing.value[o]!) near.push(o);
    else rest.push(o);
  }
  const score = (o: number): number => reduced[o]!;
  fillGreedily(packing, chosen, near, score);
  // Of the rest only what still fits has to be put in order.
  const fits = rest.filter(
    (o) => chosen.option[packing.taskOf[o]!] === -1 && isFree(packing, chosen, o),
  );
  fillGreedily(packing, chosen, fits, score);
  return chosen;
}

/** A choice read off the shares: first what was chosen most. */
function fromShares(packing: Packing, { share, reduced }: Bound): Chosen {
  const chosen = nothingChosen(packing);
  const often: number[] = [];
  const rest: number[] = [];
  for (let o = 0; o < packing.optionCount; o += 1) (share[o]! > 0.01 ? often : rest).push(o);
  fillGreedily(packing, chosen, often, (o) => share[o]!);
  const fits = rest.filter(
    (o) => chosen.option[packing.taskOf[o]!] === -1 && isFree(packing, chosen, o),
  );
  fillGreedily(packing, chosen, fits, (o) => reduced[o]!);
  return chosen;
}

const better = (a: Chosen, b: Chosen): Chosen => (b.value > a.value + 1e-9 ? b : a);

function renumbered(chosen: Chosen, was: Int32Array): Chosen {
  const now = new Map(Array.from(was, (o, n) => [o, n]));
  return {
    ...chosen,
    option: Int32Array.from(chosen.option, (o) => (o < 0 ? -1 : now.get(o)!)),
  };
}

/** Everything if it is small enough, else the tasks of some crews or days, the others staying. */
function solvePart(
  packing: Packing,
  best: Chosen,
  args: {
    readonly solve: SolveSmall;
    readonly random: () => number;
    readonly dayCount: number;
    readonly budget: SearchBudget;
  },
): { readonly chosen: Chosen; readonly whole: boolean } | null {
  const { solve, random, dayCount, budget } = args;
  const everything = packing.optionCount <= budget.solverColumns;
  const part = everything
    ? narrowed(packing, () => true)
    : partOf(packing, best, random, dayCount, budget.solverColumns);
  if (part.packing.optionCount === 0) return null;
  const answer = solve(programOf(part.packing));
  if (answer === null) return null;
  const local = optionsTaken(part.packing, answer.taken);
  const chosen = nothingChosen(packing);
  const moved = new Set(Array.from(part.packing.taskOf));
  best.option.forEach((o, task) => {
    if (o >= 0 && !moved.has(task)) take(packing, chosen, o);
  });
  for (const o of local) if (o >= 0) take(packing, chosen, part.was[o]!);
  chosen.value = sumOf(packing, chosen.option);
  return { chosen, whole: everything && answer.proven };
}

function partOf(
  packing: Packing,
  best: Chosen,
  random: () => number,
  dayCount: number,
  most: number,
): ReturnType<typeof narrowed> {
  const crews = packing.slotCount / dayCount;
  const byCrew = random() < 0.5;
  const order = Array.from({ length: byCrew ? crews : dayCount }, (_, n) => n);
  for (let n = order.length - 1; n > 0; n -= 1) {
    const other = Math.floor(random() * (n + 1));
    [order[n], order[other]] = [order[other]!, order[n]!];
  }
  let found = narrowed(packing, () => false);
  for (let n = 1; n <= order.length; n += 1) {
    const open = new Set(order.slice(0, n));
    const inside = (slot: number): boolean =>
      open.has(byCrew ? Math.floor(slot / dayCount) : slot % dayCount);
    const mayMove = (task: number): boolean => {
      const o = best.option[task]!;
      if (o < 0) return true;
      for (let i = packing.slotFrom[o]!; i < packing.slotFrom[o + 1]!; i += 1)
        if (inside(packing.slots[i]!)) return true;
      return false;
    };
    const wider = narrowed(packing, freeOptions(packing, best, mayMove));
    if (wider.packing.optionCount > most) break;
    found = wider;
  }
  return found;
}
