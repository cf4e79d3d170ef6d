/** What stands behind a laying day: why, what else, and when to decide. Pure functions of a day as found. */
export {
  type CallOff,
  type CallOffChoice,
  type CallOffTime,
  calledOffCost,
  callOff,
} from './call-off.ts';
export { type CostingLimit, costingLimit, costingWords } from './costing-limit.ts';
export { CAUTIONS, verdictSentence } from './verdict-sentence.ts';
