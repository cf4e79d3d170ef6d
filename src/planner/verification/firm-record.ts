import { type CheckedWords, NOT_YET_CHECKED } from './checked-words.ts';
import { ownRecord, type PastCall } from './own-record.ts';

/** A firm's own record as plain data, to be sent from one thread to another. */
export interface FirmRecord {
  /** Days of jobs with a known outcome, whether or not they are enough. */
  readonly cases: number;
  readonly checked: CheckedWords;
  /** Share of the fitted map in the chance shown, 0..1; 0 = chances stay as given. */
  readonly weight: number;
  /** Brier scores of days the map had not seen, without and with it; null below `CASES_NEEDED`. */
  readonly before: number | null;
  readonly after: number | null;
  /** Chance shown for chances evenly spaced from 0 to 1, see `adjustByRecord`; null = as given. */
  readonly curve: readonly number[] | null;
}

export const NO_RECORD: FirmRecord = {
  cases: 0,
  checked: NOT_YET_CHECKED,
  weight: 0,
  before: null,
  after: null,
  curve: null,
};

const STEPS = 200;
/** Maps are asked inside 0..1 only; nobody is ever shown a chance this close to an end. */
const END = 1e-6;

/**
 * What past calls say about a firm's chances, see `ownRecord`, with its map drawn at 201 points.
 * @throws RangeError for a call whose numbers are out of range
 */
export function firmRecord(calls: readonly PastCall[]): FirmRecord {
  const { cases, weight, before, after, words, adjust } = ownRecord(calls);
  const curve =
    weight === 0
      ? null
      : Array.from({ length: STEPS + 1 }, (_, i) =>
          adjust(Math.min(1 - END, Math.max(END, i / STEPS))),
        );
  return { cases, checked: words, weight, before, after, curve };
}

/**
 * The chance with the record's say: straight between the points of its curve, so that the surer of two
 * days stays the surer one. Between 0.02 and 0.98 within 0.001 of the map itself.
 * @param shrunk  chance before the record had its say, inside 0..1
 * @throws RangeError for a chance of 0 or 1, or none
 */
export function adjustByRecord({ curve }: FirmRecord, shrunk: number): number {
  if (!(shrunk > 0 && shrunk < 1)) throw new RangeError(`shrunk (${shrunk}) must be inside 0..1`);
  if (curve === null) return shrunk;
  const at = shrunk * (curve.length - 1);
  const i = Math.min(curve.length - 2, Math.floor(at));
  return curve[i]! + (at - i) * (curve[i + 1]! - curve[i]!);
}
