import { forecastsWords } from './forecast-words.ts';

/**
 * The chance shown: the count, taken down for having picked the best of several starts, and shrunk
 * towards even, the more so the further ahead. Not calibrated: no outcomes have been recorded yet.
 */
export interface AdjustedChance {
  readonly count: number;
  readonly of: number;
  /** 0..1, or null where a single forecast allows no chance. */
  readonly adjusted: number | null;
  readonly tenths: number | null;
  readonly words: string;
  /** The forecasts counted were made from a single one. */
  readonly made?: true;
}

/** Members an even prior counts for today, and how many more per day ahead. */
const PRIOR_TODAY = 2;
const PRIOR_PER_DAY = 2;
/**
 * Forecasts made from one differ by what forecasts usually err, not by what this weather may do: all
 * of them together count for no more than so many of a weather centre's (judged).
 */
const MADE_WORTH = 10;

/**
 * @param count      forecasts in which it finished, at the start chosen
 * @param of         forecasts that reach the end of the day
 * @param crossFit   share finished when each fifth of the forecasts is judged by the start that the
 *                   others would have chosen, 0..1
 * @param leadDays   days from now to the day, 0 or more
 * @param made       the forecasts were made from a single one
 */
export function adjustChance(args: {
  readonly count: number;
  readonly of: number;
  readonly crossFit: number;
  readonly leadDays: number;
  readonly made?: boolean;
}): AdjustedChance {
  const { count, of, crossFit, leadDays, made = false } = args;
  const from = made ? { made: true as const } : {};
  if (of < 2) {
    return {
      count,
      of,
      adjusted: null,
      tenths: null,
      words: 'one forecast only: no chance can be given',
      ...from,
    };
  }
  const prior = PRIOR_TODAY + PRIOR_PER_DAY * leadDays;
  const share = Math.min(count / of, crossFit);
  const worth = made ? Math.min(MADE_WORTH, of) : of;
  const adjusted = (share * worth + prior / 2) / (worth + prior);
  // Shrinking towards even is not to make hope out of none.
  if (count === 0) {
    const words = `none of ${forecastsWords(of, made)}`;
    return { count, of, adjusted, tenths: 0, words, ...from };
  }
  return { count, of, adjusted, ...chanceWords(adjusted), ...from };
}

/** 'about 7 in 10', never 0 or 10 in 10. */
export function chanceWords(share: number): { tenths: number; words: string } {
  const tenths = Math.round(share * 10);
  if (tenths < 1) return { tenths: 0, words: 'under 1 in 10' };
  if (tenths > 9) return { tenths: 10, words: 'over 9 in 10' };
  return { tenths, words: `about ${tenths} in 10` };
}
