import type { DayOption } from '../day-option.ts';
import { type Judged, judgeOthers } from './judge-others.ts';
import { startsRound } from './starts.ts';

/** Later starts looked at, counted from the start found; then closer round the best of them [min]. */
const LATER_MIN = Array.from({ length: 18 }, (_, n) => 40 * (n + 1));
const CLOSER_MIN = [-30, -20, -10, 0, 10, 20];

/** The likeliest of the later starts; null where no start leads anywhere, or none is left. */
export function laterStart(option: DayOption): Judged | null {
  const { plan, way, startMs } = option;
  if (startMs === null) return null;
  const among = (starts: readonly number[]): Judged | null =>
    judgeOthers(
      option,
      [{ kind: 'later start', words: '', plan, way, change: {}, starts: [...starts] }],
      (_cost, { kind }) => (kind === 'finished' ? 0 : 1),
    );
  const coarse = startsRound(plan, startMs, LATER_MIN);
  const first = among(coarse);
  if (first === null) return null;
  const closer = startsRound(plan, first.startMs, CLOSER_MIN).filter((ms) => ms > startMs);
  // Judged together, so that all that had a say in picking is taken off.
  return among([...new Set([...coarse, ...closer])].sort((a, b) => a - b));
}
