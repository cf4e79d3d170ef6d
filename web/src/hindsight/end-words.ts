import type { SiteLogEvent } from '../../../src/contract/index.ts';

type DayEnded = Extract<SiteLogEvent, { kind: 'day-ended' }>;
export type Went = DayEnded['went'];
export type Because = DayEnded['because'];

/** Every way a day can end, as it reads after 'It was'. */
export const ENDS: readonly (readonly [went: Went, because: Because, words: string])[] = [
  ['finished', null, 'finished and rain-safe'],
  ['shortened', 'weather', 'cut short by the weather, sealed'],
  ['shortened', 'forecast', 'cut short on the forecast, sealed'],
  ['shortened', 'other', 'cut short by something else, sealed'],
  ['stood-down', 'weather', 'stood down: the weather that day'],
  ['stood-down', 'forecast', 'called off on the forecast'],
  ['stood-down', 'other', 'not worked: something else'],
  ['caught-open', null, 'caught open by rain'],
];

export const endWords = (went: Went, because: Because): string =>
  ENDS.find(([way, why]) => way === went && why === because)?.[2] ?? went;

/** What can be said of a day before it has begun. */
export const isAhead = (went: Went, because: Because): boolean =>
  went === 'stood-down' && because !== 'weather';
