import { forecastsWords } from './forecast-words.ts';
import {
  adjustByRecord,
  type CheckedWords,
  type FirmRecord,
  NOT_YET_CHECKED,
} from './verification/index.ts';

/**
 * The chance shown: the count, taken down for having picked the best of several starts, shrunk
 * towards even, the more so the further ahead, and put right by the firm's own record where that is
 * long enough. Never surer than the count allows, see `mostFor`.
 */
export interface AdjustedChance {
  readonly count: number;
  readonly of: number;
  /** 0..1, or null where a single forecast allows no chance. */
  readonly adjusted: number | null;
  /** The same before the firm's own record and the count's limit had their say: what a record is fitted to. */
  readonly shrunk: number | null;
  readonly tenths: number | null;
  readonly words: string;
  /** The forecasts counted were made from a single one. */
  readonly made?: true;
  readonly checked: CheckedWords;
}

/** Members an even prior counts for today, and how many more per day ahead. */
const PRIOR_TODAY = 2;
const PRIOR_PER_DAY = 2;
/**
 * Forecasts made from one differ by what forecasts usually err, not by what this weather may do: all
 * of them together count for no more than so many of a weather centre's (judged).
 */
const MADE_WORTH = 10;
/** Risk that a clean count of forecasts comes from a chance below `mostFor` of it. */
const CLEAN_COUNT_RISK = 0.05;

/**
 * Fewer forecasts than this are held to no more: where 8 or 9 of a small ensemble agreed, they were right
 * in 85 to 88 % (docs/verification.md), far oftener than so few can prove.
 */
const HELD_AS_FROM = 20;

/**
 * The surest chance that a count may be shown as, however the shrinkage or a record would have it: the
 * least chance that so many out of so many leaves open at 95 %, the exact form of the rule of three.
 * @param of  forecasts counted, 1 or more
 * @returns 0..1: 0.86 for 20 and fewer, 0.94 for 50
 * @source J. A. Hanley and A. Lippman-Hand, Journal of the American Medical Association 249 (1983),
 *   1743-1745
 */
export const mostFor = (of: number): number => CLEAN_COUNT_RISK ** (1 / Math.max(of, HELD_AS_FROM));

/** A share of so many forecasts shrunk towards even: (k + a/2) / (n + a), a = 2 today and 2 more a day ahead. */
export function shrunkShare(
  share: number,
  args: { readonly of: number; readonly leadDays: number; readonly made: boolean },
): number {
  const prior = PRIOR_TODAY + PRIOR_PER_DAY * args.leadDays;
  const worth = args.made ? Math.min(MADE_WORTH, args.of) : args.of;
  return (share * worth + prior / 2) / (worth + prior);
}

/**
 * @param count      forecasts in which it finished, at the start chosen
 * @param of         forecasts that reach the end of the day
 * @param crossFit   share finished when each fifth of the forecasts is judged by the start that the
 *                   others would have chosen, 0..1
 * @param leadDays   days from now to the day, 0 or more
 * @param made       the forecasts were made from a single one
 * @param record     what the firm's own past calls say, null = nothing yet
 */
export function adjustChance(args: {
  readonly count: number;
  readonly of: number;
  readonly crossFit: number;
  readonly leadDays: number;
  readonly made?: boolean;
  readonly record?: FirmRecord | null;
}): AdjustedChance {
  const { count, of, crossFit, leadDays, made = false, record = null } = args;
  const from = made ? { made: true as const } : {};
  if (of < 2) {
    return {
      count,
      of,
      adjusted: null,
      shrunk: null,
      tenths: null,
      words: 'one forecast only: no chance can be given',
      checked: NOT_YET_CHECKED,
      ...from,
    };
  }
  const shrunk = shrunkShare(Math.min(count / of, crossFit), { of, leadDays, made });
  const recorded = record === null ? shrunk : adjustByRecord(record, shrunk);
  const most = mostFor(of);
  const adjusted = Math.min(recorded, most);
  const checked = record?.checked ?? NOT_YET_CHECKED;
  const figures = { count, of, adjusted, shrunk, checked, ...from };
  // Shrinking towards even is not to make hope out of none.
  if (count === 0) return { ...figures, tenths: 0, words: `none of ${forecastsWords(of, made)}` };
  // 'over 9 in 10' is a claim of more than 0.9, which a clean count of 29 or more bears out.
  return { ...figures, ...chanceWords(most > SURE_WORDS ? recorded : adjusted) };
}

const SURE_WORDS = 0.9;

/** 'about 7 in 10', never 0 or 10 in 10. */
export function chanceWords(share: number): { tenths: number; words: string } {
  const tenths = Math.round(share * 10);
  if (tenths < 1) return { tenths: 0, words: 'under 1 in 10' };
  if (tenths > 9) return { tenths: 10, words: 'over 9 in 10' };
  return { tenths, words: `about ${tenths} in 10` };
}
