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
}

/** Members an even prior counts for today, and how many more per day ahead. */
const PRIOR_TODAY = 2;
const PRIOR_PER_DAY = 2;

/**
 * @param count      forecasts in which it finished, at the start chosen
 * @param of         forecasts that reach the end of the day
 * @param crossFit   share finished when each fifth of the forecasts is judged by the start that the
 *                   others would have chosen, 0..1
 * @param leadDays   days from now to the day, 0 or more
 */
export function adjustChance(args: {
  readonly count: number;
  readonly of: number;
  readonly crossFit: number;
  readonly leadDays: number;
}): AdjustedChance {
  const { count, of, crossFit, leadDays } = args;
  if (of < 2) {
    return {
      count,
      of,
      adjusted: null,
      tenths: null,
      words: 'one forecast only: no chance can be given',
    };
  }
  const prior = PRIOR_TODAY + PRIOR_PER_DAY * leadDays;
  const share = Math.min(count / of, crossFit);
  const adjusted = (share * of + prior / 2) / (of + prior);
  // Shrinking towards even is not to make hope out of none.
  if (count === 0) return { count, of, adjusted, tenths: 0, words: `none of ${of} forecasts` };
  return { count, of, adjusted, ...chanceWords(adjusted) };
}

/** 'about 7 in 10', never 0 or 10 in 10. */
export function chanceWords(share: number): { tenths: number; words: string } {
  const tenths = Math.round(share * 10);
  if (tenths < 1) return { tenths: 0, words: 'under 1 in 10' };
  if (tenths > 9) return { tenths: 10, words: 'over 9 in 10' };
  return { tenths, words: `about ${tenths} in 10` };
}
