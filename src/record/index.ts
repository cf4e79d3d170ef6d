/** What follows from the site log: which entries stand, and what a firm's films teach of its products. Pure. */
export {
  type CalledDay,
  calledDays,
  countingCalls,
  type DayCall,
  type DayEnded,
  dayEnds,
  LEAD_CLASSES,
  leadClassOf,
  outcomeOfDay,
  pastCalls,
  whyNoCase,
} from './day-calls.ts';
export { effectiveLog } from './effective-log.ts';
export { type DryEntry, filmsOf, type LoggedFilm } from './films.ts';
export { hoursBetween, weatherFromText, weatherToText } from './kept-weather.ts';
export {
  ASK_BEYOND_SD,
  type AsideFilm,
  type AskedFilm,
  type FilmEntry,
  type Learned,
  learn,
  type UsedFilm,
} from './learn.ts';
export {
  type CoatedFace,
  type MeasuredFilm,
  measureFilm,
  minutesAlong,
  type WeatherOfFilm,
} from './measure.ts';
export { type Normal, SD_PER_80_PCT, type Seen, updateNormal } from './normal-update.ts';
export * from './speed.ts';
