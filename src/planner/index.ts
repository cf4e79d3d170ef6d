/** One job: simulate, search, rank, explain. No I/O; clock and seed are arguments. */
export {
  type AheadSpot,
  aheadAt,
  aheadOver,
  filmOfTask,
  tasksAhead,
  waitUntil,
} from './ahead.ts';
export type { Held } from './ahead-held.ts';
export {
  largestSection,
  type SectionEnd,
  type SectionFit,
  type SectionLimit,
  type SectionPace,
  sectionTimes,
} from './ahead-section.ts';
export { type SectionWindow, sectionWindow } from './ahead-window.ts';
export { aheadSentence, heldWords, sizeWords, whyNone } from './ahead-words.ts';
export { fairDays, jobIssues, nextBay } from './bays.ts';
export { type AdjustedChance, adjustChance, chanceWords } from './chance.ts';
export { chooseStart, type StartChoice } from './choose-start.ts';
export type { OutsideReason, Spoilt } from './clock-outside.ts';
export {
  type AskedFace,
  askClock,
  type ClockAnswerParts,
  type ClockAsked,
} from './clock-question.ts';
export { reasonsWords, reasonWords, WHOSE } from './clock-words.ts';
export { type DayHours, dayHours } from './day-hours.ts';
export {
  bestStart,
  countOutcomes,
  type DayOption,
  type OutcomeCounts,
  type Verdict,
} from './day-option.ts';
export { type DayPlan, dayPlan, type Step } from './day-plan.ts';
export type {
  Cause,
  CloseUpShares,
  DayRun,
  FoundWork,
  OutcomeKind,
  RunFrom,
  WayOn,
} from './day-run.ts';
export { type DeckFit, deckFit } from './deck-fit.ts';
export { eveningList } from './evening-list.ts';
export { CAUTIONS, verdictSentence } from './explain.ts';
export { filmOn } from './film.ts';
export { type GridEdges, type HindsightDay, hindsightDay } from './fixed-future.ts';
export { forecastsWords } from './forecast-words.ts';
export { lastSafeStart } from './last-safe-start.ts';
export { type FirmLimits, STARTER_LIMITS } from './limits.ts';
export { adviseNow, type NextTask, type NowAdvice } from './now.ts';
export { closeUpMs, closeUpShares, type OpenPart, openParts } from './now-close-up.ts';
export { type CloseUpAction, type CloseUpList, closeUpList } from './now-close-up-list.ts';
export { type FilmNow, filmsNow } from './now-films.ts';
export { rainForeseen } from './now-foreseen.ts';
export { AFTER_THUNDER_MS, type OffRoof, offRoofNow } from './now-off-roof.ts';
export { planInUse } from './now-plan.ts';
export {
  RAIN_MARGIN_MS,
  runWays,
  type SkyNow,
  WAYS,
  type WayId,
  type WayResult,
  wayOn,
} from './now-ways.ts';
export { nowSentence, offRoofWords, WAY_WORDS } from './now-words.ts';
export { paceFor, paceOn } from './pace.ts';
export { type Prepared, type ProductSet, prepare } from './prepare.ts';
export { type Reason, reasonsOf } from './reasons.ts';
export {
  type DaySkip,
  type DaysFound,
  optionFor,
  planFor,
  type SearchProgress,
  searchDays,
  skipReason,
} from './search.ts';
export { settleState } from './settle-state.ts';
export { type Shift, shiftOn } from './shift.ts';
export { simulateDay } from './simulate.ts';
export * from './site-event.ts';
export { ballastFor, checkStop, nextShift, type StopCheck } from './stop-check.ts';
export * from './types.ts';
export { costLossThreshold } from './value.ts';
export { findTasks } from './work-names.ts';
export { type WorkLine, workOrder } from './work-order.ts';
export * from './work-state.ts';
export { stateFromLog } from './work-state-log.ts';
