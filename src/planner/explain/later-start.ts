import { MS_PER_MINUTE } from '../../units/index.ts';
import type { DayOption } from '../day-option.ts';
import { type Judged, judgeOthers } from './judge-others.ts';
import { startsOver, startsRound } from './starts.ts';

/** Later starts looked at, counted from the start found; then closer round the best of them [min]. */
const LATER_MIN = Array.from({ length: 18 }, (_, n) => 40 * (n + 1));
const CLOSER_MIN = [-30, -20, -10, 0, 10, 20];

/** Where the cheapest start leads nowhere, starts that might, whatever they cost. */
const ANY_EVERY_MS = 120 * MS_PER_MINUTE;

/**
 * The day to compare a change with: as found; but where its cheapest start leads nowhere, as it is from the
 * likeliest one, so that no change is told to bring what another start would bring alone.
 */
export function asItStands(option: DayOption): DayOption {
  const { plan, startMs } = option;
  if (startMs !== null) return option;
  return likeliest(option, startsOver(plan, ANY_EVERY_MS))?.found ?? option;
}

/** The likeliest of the later starts; null where no start leads anywhere, or none is left. */
export function laterStart(option: DayOption): Judged | null {
  const { plan, startMs } = option;
  if (startMs === null) return null;
  const coarse = startsRound(plan, startMs, LATER_MIN);
  const first = likeliest(option, coarse);
  if (first === null) return null;
  const closer = startsRound(plan, first.startMs, CLOSER_MIN).filter((ms) => ms > startMs);
  // Judged together, so that all that had a say in picking is taken off.
  return likeliest(
    option,
    [...new Set([...coarse, ...closer])].sort((a, b) => a - b),
  );
}

function likeliest(option: DayOption, starts: readonly number[]): Judged | null {
  const { plan, way } = option;
  return judgeOthers(
    option,
    [{ kind: 'later start', words: '', plan, way, change: {}, starts }],
    (_cost, { kind }) => (kind === 'finished' ? 0 : 1),
  );
}
