import { inRange } from '../../units/index.ts';
import type { FitCase, JudgedChance } from './cases.ts';
import { AS_GIVEN, type ChanceMap } from './chance-map.ts';
import { type CheckedWords, checkedWords } from './checked-words.ts';
import { chooseMap, judgeChoice } from './choose-map.ts';

/** A chance that was shown for one job's day, and how the day went. */
export interface PastCall {
  readonly jobId: string;
  /** Local date of the day called, '2026-05-14'. */
  readonly day: string;
  readonly issuedMs: number;
  /** Forecasts in which the plan finished, and forecasts that reached the end of the day; at least 2. */
  readonly k: number;
  readonly of: number;
  /** The chance before the firm's own record had a say, inside 0..1: what a map is fitted to. */
  readonly shrunk: number;
  /** The chance as shown, inside 0..1: what is judged. */
  readonly shown: number;
  /** null = nobody knows, or nobody tried: no case. */
  readonly outcome: 'finished' | 'not finished' | null;
}

/** Days with a known outcome below which a firm's own record is not used. */
export const CASES_NEEDED = 100;

/** Days at which the record weighs as much as the chance without it (a choice of ours). */
const HALF_WAY_CASES = 100;

export interface OwnRecord {
  /** Days of jobs with a known outcome. */
  readonly cases: number;
  readonly map: ChanceMap;
  /** Share of the map in the chance shown, 0..1; 0 below CASES_NEEDED. */
  readonly weight: number;
  /** Brier scores of days the map had not seen, without and with it; null below CASES_NEEDED. */
  readonly before: number | null;
  readonly after: number | null;
  readonly words: CheckedWords;
  /** @param shrunk  chance before the record has a say, inside 0..1 */
  readonly adjust: (shrunk: number) => number;
}

/**
 * What a firm's past calls say about its chances: below 100 days with a known outcome nothing; from
 * there on a map chosen and fitted on them, blended in by n / (n + 100). A day called several times
 * counts once, each of its calls with its share. A map that does no better than the chances as given on
 * days it has not seen is not used. Calls of all days ahead share one map: the shrinkage has told them
 * apart already. 8,000 calls take about a second: make it when outcomes come in, not for each answer.
 * @throws RangeError for a call whose numbers are out of range
 */
export function ownRecord(calls: readonly PastCall[]): OwnRecord {
  const known = fitCases(calls);
  const cases = Math.round(known.reduce((sum, { weight }) => sum + weight, 0));
  const unused = { cases, map: AS_GIVEN, weight: 0, adjust: AS_GIVEN.apply };
  if (cases < CASES_NEEDED) {
    return { ...unused, before: null, after: null, words: checkedWords(0) };
  }
  const unseen = judgeChoice(known);
  const words = checkedWords(cases);
  const { map } = chooseMap(known);
  if (unseen === null || unseen.after >= unseen.before || map.kind === 'as given') {
    const { before = null, after = null } = unseen ?? {};
    return { ...unused, before, after, words };
  }
  const weight = cases / (cases + HALF_WAY_CASES);
  return {
    cases,
    map,
    weight,
    before: unseen.before,
    after: unseen.after,
    words,
    adjust: (shrunk) => weight * map.apply(shrunk) + (1 - weight) * shrunk,
  };
}

/** The chances as they were shown, for a reliability diagram of a firm's own. */
export function shownCases(calls: readonly PastCall[]): JudgedChance[] {
  return calls
    .filter(({ outcome }) => outcome !== null)
    .map((call) => ({ chance: checked(call).shown, happened: call.outcome === 'finished' }));
}

function fitCases(calls: readonly PastCall[]): FitCase[] {
  const known = calls.filter(({ outcome }) => outcome !== null).map(checked);
  const keyOf = ({ jobId, day }: PastCall): string => JSON.stringify([jobId, day]);
  const times = new Map<string, number>();
  const ends = new Map<string, PastCall['outcome']>();
  for (const call of known) {
    const key = keyOf(call);
    const end = ends.get(key) ?? call.outcome;
    if (end !== call.outcome) {
      throw new RangeError(
        `outcome of ${key} ('${call.outcome}') must be the same in all its calls`,
      );
    }
    ends.set(key, end);
    times.set(key, (times.get(key) ?? 0) + 1);
  }
  return known.map((call) => ({
    chance: call.shrunk,
    happened: call.outcome === 'finished',
    weight: 1 / times.get(keyOf(call))!,
    group: call.day,
  }));
}

function checked(call: PastCall): PastCall {
  const { k, of, shrunk, shown } = call;
  if (!Number.isInteger(of) || of < 2) throw new RangeError(`of (${of}) must be whole, 2 or more`);
  if (!Number.isInteger(k)) throw new RangeError(`k (${k}) must be whole`);
  inRange('k', k, 0, of);
  for (const [name, chance] of Object.entries({ shrunk, shown })) {
    if (!(chance > 0 && chance < 1))
      throw new RangeError(`${name} (${chance}) must be inside 0..1`);
  }
  return call;
}
