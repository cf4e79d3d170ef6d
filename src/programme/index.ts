/** Many jobs and crews: assign, book, re-plan, moves. No I/O; clock and seed are arguments. */
export { type Agreed, agreeMoves, type MoveUndo, type Undone, undoMoves } from './agree.ts';
export {
  type Assigned,
  type AssignOptions,
  assign,
  type SearchReport,
} from './assign.ts';
export type * from './booking-history.ts';
export { historyProblems } from './booking-history.ts';
export { type CalendarOf, calendarText } from './calendar-text.ts';
export { askProblems } from './check-ask.ts';
export type * from './move-types.ts';
export {
  type MovePrices,
  STARTER_MOVE_PRICES,
  STARTER_PRICES,
  STARTER_TRAVEL,
} from './prices.ts';
export { type ReadyText, type TextAbout, type TextNews, textsFor } from './ready-texts.ts';
export { type ReplanOptions, replan } from './replan.ts';
export { type SearchBudget, USUAL_BUDGET } from './search-packing.ts';
export type { SmallAnswer, SmallProgram, SolveSmall } from './small-program.ts';
export { type HighsLimits, type LoadedHighs, solveWithHighs } from './solver-highs.ts';
export { type Steadied, steadyMoves } from './steady.ts';
export { type TextLength, textLength } from './text-length.ts';
export { distanceKm, travelMinutes, travelPrice } from './travel.ts';
export type * from './types.ts';
