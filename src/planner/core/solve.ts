import { lowerBoundOf } from './bounds.ts';
import { type Evolved, evolve } from './evolve.ts';
import { CompleteSearch } from './exact/search.ts';
import { type Model, modelOf } from './model.ts';
import { type Packed, pack } from './packed.ts';
import type { CoreProject, SolveAnswer, SolveOptions } from './types.ts';

/** What an answer may take when the caller does not say: a few tenths of a second for 30 activities. */
const DEFAULT_BUDGET = { schedules: 20_000, nodes: 20_000 } as const;
/** First turn of either search; each further one is twice as long as the last. */
const FIRST_SCHEDULES = 10_000;
const FIRST_NODES = 2000;

/**
 * Finds the shortest schedule of a project, or shows that there is none.
 *
 * A plain project (no maximum lags, no own limits on starts) is scheduled from lists, which is quick and
 * hardly ever far from the best, in turn with a complete search that proves that nothing is shorter or finds
 * what is. All others go to the complete search alone. It ends with the proof, with the budget or when
 * `shouldStop` says so; the best so far comes back with a bound.
 * @throws RangeError naming every value of the project that is out of range
 */
export function solveSchedule(project: CoreProject, options: SolveOptions = {}): SolveAnswer {
  const model = modelOf(project);
  if (model.contradiction !== null) return noSchedule(model.contradiction, 0, 0);
  const packed = pack(model);
  if (packed === null) return noSchedule(null, 0, 0);
  const lower = lowerBoundOf(model);
  const limit = Math.min(model.horizon, options.upperBound ?? model.horizon);
  if (lower > limit) return noSchedule(null, 0, 0);
  return takeTurns(model, packed, lower, limit, options);
}

function takeTurns(
  model: Model,
  packed: Packed,
  lower: number,
  limit: number,
  { budget = {}, seed = 1, shouldStop = () => false }: SolveOptions,
): SolveAnswer {
  const mostNodes = budget.nodes ?? DEFAULT_BUDGET.nodes;
  const mostSchedules = model.plain ? (budget.schedules ?? DEFAULT_BUDGET.schedules) : 0;
  let best: { readonly starts: Int32Array; readonly makespan: number } | null = null;
  let search: CompleteSearch | null = null;
  let bound = lower;
  let drawn = 0;
  let complete = false;
  for (let turn = 0; !complete; turn += 1) {
    const schedules = Math.min(mostSchedules - drawn, FIRST_SCHEDULES * 2 ** turn);
    if (schedules > 0 && (turn === 0 || !shouldStop())) {
      const found: Evolved = evolve(model, packed, schedules, bound, seed + turn, shouldStop);
      drawn += found.made;
      if (found.makespan <= limit && found.makespan < (best?.makespan ?? Number.POSITIVE_INFINITY))
        best = found;
    }
    complete = best !== null && best.makespan <= bound;
    const nodes: number = Math.min(mostNodes, FIRST_NODES * (2 ** (turn + 1) - 1));
    if (!complete && nodes > (search?.nodes ?? 0)) {
      search ??= new CompleteSearch(model, lower, best === null ? limit : best.makespan - 1);
      if (best !== null) search.beat(best.starts, best.makespan);
      const end = search.run(nodes, shouldStop);
      complete = end.complete;
      if (end.starts !== null) best = { starts: end.starts, makespan: end.makespan };
      bound = Math.max(bound, end.lowerBound);
    }
    if (shouldStop() || (drawn >= mostSchedules && (search?.nodes ?? 0) >= mostNodes)) break;
  }
  const nodes = search?.nodes ?? 0;
  const schedulesMade = drawn + (search?.schedules ?? 0);
  if (best !== null) {
    return {
      status: complete ? 'optimal' : 'feasible',
      starts: [...best.starts],
      makespan: best.makespan,
      lowerBound: complete ? best.makespan : bound,
      schedulesMade,
      nodes,
      contradiction: null,
    };
  }
  if (complete) return noSchedule(null, schedulesMade, nodes);
  return {
    status: 'unknown',
    starts: null,
    makespan: null,
    lowerBound: bound,
    schedulesMade,
    nodes,
    contradiction: null,
  };
}

function noSchedule(
  contradiction: readonly number[] | null,
  schedulesMade: number,
  nodes: number,
): SolveAnswer {
  return {
    status: 'infeasible',
    starts: null,
    makespan: null,
    lowerBound: Number.POSITIVE_INFINITY,
    schedulesMade,
    nodes,
    contradiction,
  };
}
