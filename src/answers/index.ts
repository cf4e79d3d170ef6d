/** Puts a question to the planner and its answer into the contract's words; shared by server and command line. */
export {
  answerClockForecast,
  answerClockSteady,
  type ClockResult,
  type SteadyAir,
} from './clock.ts';
export { answerDays, answerWithoutForecast, runThrough } from './days.ts';
export {
  type JobRead,
  type ProductShelf,
  parseJob,
  type ReadyJob,
  readJob,
  readyJob,
} from './job.ts';
export { readingsOf } from './readings.ts';
export { weatherMisuse } from './weather-use.ts';
export { answerWork, type WorkResult } from './work.ts';
