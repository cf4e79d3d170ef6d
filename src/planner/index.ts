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
export { type AdjustedChance, adjustChance, chanceWords, mostFor } from './chance.ts';
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
export * from './explain/index.ts';
export { filmOn } from './film.ts';
export { forecastEndWords } from './fit/forecast-end.ts';
export { whyNotLaid } from './fit/long-work.ts';
export { type NeverFit, neverFits } from './fit/never-fits.ts';
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
export { median, quantile } from './quantile.ts';
export { type Reason, reasonsOf } from './reasons.ts';
export { bestStart } from './search/best-start.ts';
export { optionFor, type SearchDepth } from './search/day-search.ts';
export { type DaysFound, type SearchProgress, searchDays } from './search/days.ts';
export { type DaySkip, planFor, skipReason } from './search/plan-for.ts';
export { extraDaysCost, type LayingWay, type OrderId } from './search/way.ts';
export { settleState } from './settle-state.ts';
export { type Shift, shiftOn } from './shift.ts';
export { simulateDay } from './simulate.ts';
export * from './site-event.ts';
export { ballastFor, checkStop, nextShift, type StopCheck } from './stop-check.ts';
export * from './types.ts';
export { costLossThreshold, type ValueFigures, valueFigures } from './value.ts';
export {
  brierScore,
  brierSkill,
  CASES_NEEDED,
  type FirmRecord,
  firmRecord,
  type JudgedChance,
  NO_RECORD,
  NOT_YET_CHECKED,
  type PastCall,
} from './verification/index.ts';
export { findTasks } from './work-names.ts';
export { type WorkLine, workOrder } from './work-order.ts';
export * from './work-state.ts';
export { stateFromLog } from './work-state-log.ts';
