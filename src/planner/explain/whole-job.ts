import { type LocalDay, longDayText } from '../../time/index.ts';
import { stepStartMs } from '../../weather/index.ts';
import { type AdjustedChance, adjustChance } from '../chance.ts';
import type { DayOption } from '../day-option.ts';
import type { Prepared } from '../prepare.ts';
import { median } from '../quantile.ts';
import { BayRuns, tooLikelyCaught } from './bay-runs.ts';

/** All laying days still to do, from a day on. */
export interface WholeJob {
  /** Laying days still to do. */
  readonly layingDays: number;
  /** Forecasts in which all of them are done, and forecasts that reach the last day looked at. */
  readonly count: number;
  readonly of: number;
  /** null = the forecast, or the job's dates, do not leave days enough. */
  readonly chance: AdjustedChance | null;
  /** The last day looked at: the latest the job allows, or the last that the forecast reaches. */
  readonly byDay: LocalDay | null;
  readonly words: string;
}

/**
 * Lays the whole job in each forecast: the remaining bays in order on the days from `from` on, each day in
 * that forecast's own weather and at that day's own start, the next bay only once one is finished; a day
 * that was cut short is done again in full, and a forecast in which the roof is ever caught open is not
 * counted as done. The chance is the count of whole jobs, never a product of days; what picking each
 * day's start flatters comes off for the days a forecast laid on.
 * @param options  the days found, of one search; those before `from` are passed over
 */
export function wholeJob(
  prepared: Prepared,
  options: readonly DayOption[],
  from: LocalDay,
): WholeJob {
  const ahead = options
    .filter(({ day }) => day.date >= from.date)
    .sort((a, b) => a.day.startMs - b.day.startMs);
  const last = ahead.findLastIndex(({ verdict }) => verdict !== 'unknown');
  const days = ahead.slice(0, last + 1);
  // The bays of the day asked about: once begun, a split stays.
  const laidAs = days[0]?.plan.prepared ?? prepared;
  const runs = runsOf(options, laidAs);
  const layingDays = Math.max(1, runs.bays.length - prepared.job.baysDone);
  const byDay = days.at(-1)?.day ?? null;
  const { grid, job } = prepared;
  const zone = job.site.timeZone;
  const what = `The whole job, ${layingDays === 1 ? 'one laying day' : `${layingDays} laying days`} from ${longDayText(from.startMs, zone)} on`;
  const none = { layingDays, count: 0, of: 0, chance: null, byDay };
  if (byDay === null || days.length < layingDays) {
    const left = `${days.length === 0 ? 'no working day' : days.length === 1 ? 'one working day' : `${days.length} working days`}`;
    return { ...none, words: `${what}: the forecast and the job’s dates leave ${left}.` };
  }
  const endMs = days.at(-1)!.plan.shift.endMs;
  const members = Array.from({ length: grid.memberCount }, (_, m) => m).filter(
    (m) => stepStartMs(grid, grid.knownSteps[m]!) >= endMs,
  );
  const done = members.flatMap((m) => laid(days, runs, prepared.job.baysDone, layingDays, m) ?? []);
  const of = members.length;
  if (of === 0) return { ...none, words: `${what}: no forecast reaches that far.` };
  const leadDays = median(done.map(({ leadDays }) => leadDays)) ?? days.at(-1)!.leadDays;
  const chance = adjustChance({
    count: done.length,
    of,
    crossFit: done.reduce((sum, { unflattered }) => sum + unflattered, 0) / of,
    leadDays,
    made: grid.source.madeFromOne === true,
  });
  const by = longDayText(byDay.startMs, zone);
  const words =
    chance.adjusted === null
      ? `${what}: ${done.length === 0 ? 'not done' : 'done'} by ${by} in the one forecast there is.`
      : chance.count === 0
        ? `${what}: done by ${by} in ${chance.words}.`
        : `${what}: ${chance.words} that it is done by ${by}.`;
  return { layingDays, count: done.length, of, chance, byDay, words };
}

interface Laid {
  /** Days from now to the one that finished the job. */
  readonly leadDays: number;
  /** Share of this job left once the days it was laid on are taken down for picking their starts, 0..1. */
  readonly unflattered: number;
}

function laid(
  days: readonly DayOption[],
  runs: BayRuns,
  baysDone: number,
  layingDays: number,
  m: number,
): Laid | null {
  let left = layingDays;
  let unflattered = 1;
  for (const day of days) {
    const option = runs.on(baysDone + layingDays - left, day);
    if (option === null || tooLikelyCaught(option, m)) continue;
    const { kind } = option.runs[m]!;
    if (kind === 'caughtOpen') return null;
    if (kind !== 'finished') continue;
    left -= 1;
    unflattered *= shareKept(option);
    if (left === 0) return { leadDays: option.leadDays, unflattered };
  }
  return null;
}

/** What cross-fitting left of a day's count, 0..1: the shrunk chance runs straight from none of it to all. */
function shareKept({ chance, leadDays }: DayOption): number {
  const { count, of, made = false, shrunk } = chance;
  const at = (crossFit: number) => adjustChance({ count, of, crossFit, leadDays, made }).shrunk;
  const [none, all] = [at(0), at(1)];
  if (shrunk === null || none === null || all === null || !(all > none)) return 1;
  return Math.min(1, Math.max(0, (shrunk - none) / (all - none)));
}

/** Asked about one day after another, the runs of a search are kept. */
const kept = new WeakMap<readonly DayOption[], Map<string, BayRuns>>();

function runsOf(options: readonly DayOption[], prepared: Prepared): BayRuns {
  const known = kept.get(options) ?? new Map<string, BayRuns>();
  kept.set(options, known);
  const { crew, bayAreaM2 } = prepared.job;
  const key = `${crew.people} ${bayAreaM2}`;
  const runs = known.get(key) ?? new BayRuns(prepared);
  known.set(key, runs);
  return runs;
}
