/** Puts a question to the planner and its answer into the contract's words; shared by server and command line. */
export { type AheadQuestion, type AheadResult, answerAhead } from './ahead.ts';
export { callsIn } from './calls.ts';
export {
  answerClockForecast,
  answerClockSteady,
  type ClockResult,
  type SteadyAir,
} from './clock.ts';
export { type CoatDetails, coatIssues } from './clock-faces.ts';
export { answerClockPack, type PackResult } from './clock-pack.ts';
export {
  answerDays,
  answerWithoutForecast,
  asStopped,
  type DaysOptions,
  type DaysProgress,
} from './days.ts';
export { type HindsightParts, presentHindsight } from './hindsight.ts';
export {
  type JobRead,
  type ProductShelf,
  parseJob,
  type ReadyJob,
  readJob,
  readyJob,
} from './job.ts';
export {
  FILM_MARGIN,
  type FilmOnJob,
  type FirmFilm,
  learnedWords,
  learnFrom,
  loggedFilms,
  measureOnJob,
  presentLearned,
} from './learning.ts';
export { answerNow, type NowQuestion, type NowResult } from './now.ts';
export { readingsOf } from './readings.ts';
export { runThrough } from './run-through.ts';
export { answerTakeoff } from './takeoff.ts';
export { triedIssues } from './tried.ts';
export { weatherMisuse } from './weather-use.ts';
export { answerWork, type WorkResult } from './work.ts';
