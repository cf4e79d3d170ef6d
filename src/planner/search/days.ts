import type { DayWork } from '../../stages/index.ts';
import { localDaysBetween } from '../../time/index.ts';
import { stepStartMs } from '../../weather/index.ts';
import { nextBay } from '../bays.ts';
import type { DayOption } from '../day-option.ts';
import type { Prepared } from '../prepare.ts';
import { DaySearch, type SearchDepth } from './day-search.ts';
import { type DaySkip, skipReason } from './plan-for.ts';

/** How far ahead laying days are looked for. */
const DAYS_AHEAD = 14;
/** Share of a full search's work that its first answer is. */
const QUICK_SHARE = 0.15;

export interface SearchProgress {
  readonly share: number;
  readonly words: string;
  /** Every day has been looked at, at first sight at least. */
  readonly allSeen: boolean;
  /** The best so far: what a caller keeps who stops here. */
  readonly found: DaysFound;
}

export interface DaysFound {
  readonly bay: DayWork['bay'];
  /** In order of date. */
  readonly options: readonly DayOption[];
  /** The same, best first: days that can be judged, days to leave last, by expected cost with the cost of waiting. */
  readonly ranked: readonly DayOption[];
  readonly skipped: readonly DaySkip[];
}

/**
 * Looks at every day of the forecast for the job's next bay: at first sight, then, cheapest first, in full.
 * A generator, so that the caller can show progress, stop it, and keep what has been found so far.
 */
export function* searchDays(
  prepared: Prepared,
  depth: SearchDepth = 'quick',
): Generator<SearchProgress, DaysFound> {
  const { job, grid, nowMs } = prepared;
  const zone = job.site.timeZone;
  const lastKnown = Math.max(0, ...grid.knownSteps);
  const endMs = stepStartMs(grid, lastKnown);
  const days = localDaysBetween(nowMs, endMs, zone).slice(0, DAYS_AHEAD);
  const bay = nextBay(job, prepared.products);
  const best = new Map<string, DayOption>();
  const skipped: DaySkip[] = [];
  const found = (): DaysFound => {
    const options = [...best.values()].sort((a, b) => a.day.startMs - b.day.startMs);
    return { bay, options, ranked: rank(options), skipped: [...skipped] };
  };
  const quickShare = depth === 'quick' ? 1 : QUICK_SHARE;
  const searches = new Map<string, DaySearch>();
  for (const [n, day] of days.entries()) {
    const share = (quickShare * n) / days.length;
    yield { share, words: `looking at ${day.date}`, allSeen: false, found: found() };
    const why = skipReason(prepared, day);
    const search = why === null ? DaySearch.of(prepared, day) : null;
    if (search === null) {
      skipped.push({ day, why: why ?? 'too short' });
      continue;
    }
    best.set(day.date, search.quick());
    searches.set(day.date, search);
  }
  if (depth === 'quick') return found();
  const cheapestFirst = [...best.values()].sort(
    (a, b) => a.expectedCost - b.expectedCost || a.day.startMs - b.day.startMs,
  );
  for (const [n, { day }] of cheapestFirst.entries()) {
    const share = QUICK_SHARE + ((1 - QUICK_SHARE) * n) / cheapestFirst.length;
    const progress = { share, words: `looking at ${day.date} in full`, allSeen: true };
    yield { ...progress, found: found() };
    const steps = searches.get(day.date)!.full();
    searches.delete(day.date);
    for (let next = steps.next(); ; next = steps.next()) {
      if (next.done) {
        best.set(day.date, next.value);
        break;
      }
      yield { ...progress, found: found() };
    }
  }
  return found();
}

function rank(options: readonly DayOption[]): DayOption[] {
  const cost = (option: DayOption): number => {
    const { costs } = option.plan.prepared.job;
    return option.expectedCost + costs.waitPerDay * option.leadDays;
  };
  // A day to leave comes after every day that somebody might lay, however cheap standing down is.
  const left = ({ verdict }: DayOption): number => (verdict === 'no' ? 1 : 0);
  return options
    .filter((option) => option.verdict !== 'unknown')
    .sort((a, b) => left(a) - left(b) || cost(a) - cost(b) || a.day.startMs - b.day.startMs);
}
