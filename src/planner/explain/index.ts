/** What stands behind a laying day: why, what else, and when to decide. Pure functions of a day as found. */
export {
  anotherDay,
  type CallOff,
  type CallOffChoice,
  type CallOffTime,
  calledOffCost,
  callOff,
} from './call-off.ts';
export { type CostingLimit, costingLimit, costingWords } from './costing-limit.ts';
export {
  type RainTimingSpread,
  rainTimingDraws,
  rainTimingSpread,
  rainTimingSpreads,
  TOO_EARLY_SPREAD,
} from './rain-timing-spread.ts';
export { type SafeStart, safeStartsNote, safeStartsOf } from './safe-starts.ts';
export { type Turn, type TurnKind, turnsOf } from './turns.ts';
export { CAUTIONS, verdictSentence } from './verdict-sentence.ts';
export { type WholeJob, wholeJob } from './whole-job.ts';
