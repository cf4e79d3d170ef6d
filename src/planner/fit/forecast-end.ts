import { WORK_WORDS } from '../../stages/index.ts';
import { clockText, longDayText } from '../../time/index.ts';
import { stepStartMs } from '../../weather/index.ts';
import type { DayPlan } from '../day-plan.ts';
import type { DayRun } from '../day-run.ts';
import { forecastsWords } from '../forecast-words.ts';
import { quantile } from '../quantile.ts';

/** A day as far as its end can be told of: the planner's `DayOption` is one. */
export interface DayRuns {
  readonly plan: DayPlan;
  readonly runs: readonly DayRun[];
}

/**
 * When the forecast ends for a day, in time of the site, and what of the day's work lies beyond it. What
 * lies beyond is neither dry nor wet: such forecasts count for nothing.
 * @returns null where every forecast reaches over the day's work
 */
export function forecastEndWords(option: DayRuns): string | null {
  const { plan, runs } = option;
  const { grid, job } = plan.prepared;
  const ending = runs.flatMap((run, m) => {
    if (run.kind !== 'unknown') return [];
    return [{ run, endMs: stepStartMs(grid, grid.knownSteps[m]!) }];
  });
  const middleMs = quantile(
    ending.map(({ endMs }) => endMs),
    0.5,
  );
  if (middleMs === null) return null;
  const zone = job.site.timeZone;
  const firstMs = Math.min(...ending.map(({ endMs }) => endMs));
  const middle = ending.find(({ endMs }) => endMs === middleMs)!.run;
  const made = grid.source.madeFromOne === true;
  const all = ending.length === runs.length;
  const who =
    all && firstMs === middleMs
      ? 'The forecast ends'
      : `${all ? 'The forecasts' : `${ending.length} of ${forecastsWords(runs.length, made)}`} end`;
  const about = firstMs === middleMs ? '' : 'about ';
  const when = `${who} ${about}on ${longDayText(middleMs, zone)} at ${clockText(middleMs, zone)} site time`;
  return `${when}; ${beyondWords(plan, middle, middleMs)}. What is not known is not taken for dry.`;
}

/** 'bonding the field, the laps and the sealant lie beyond it' */
function beyondWords(plan: DayPlan, run: DayRun, knownEndMs: number): string {
  const { steps } = plan;
  const beyond = steps.filter((_, n) => !(run.doneMs[n]! <= knownEndMs));
  if (beyond.length === steps.length) return "all of the day's work lies beyond it";
  const names = [...new Set(beyond.map(({ activity }) => WORK_WORDS[activity.stage]))];
  const last = names.at(-1);
  if (last === undefined) return 'the night after, which the adhesive minds, lies beyond it';
  const rest = names.slice(0, -1);
  return rest.length === 0
    ? `${last} lies beyond it`
    : `${rest.join(', ')} and ${last} lie beyond it`;
}
