/** Many jobs and crews: assign, book, re-plan, moves. No I/O; clock and seed are arguments. */
export {
  type Assigned,
  type AssignOptions,
  assign,
  type SearchReport,
} from './assign.ts';
export { askProblems } from './check-ask.ts';
export {
  type MovePrices,
  STARTER_MOVE_PRICES,
  STARTER_PRICES,
  STARTER_TRAVEL,
} from './prices.ts';
export { type SearchBudget, USUAL_BUDGET } from './search-packing.ts';
export type { SmallAnswer, SmallProgram, SolveSmall } from './small-program.ts';
export { type HighsLimits, type LoadedHighs, solveWithHighs } from './solver-highs.ts';
export { distanceKm, travelMinutes, travelPrice } from './travel.ts';
export type * from './types.ts';
