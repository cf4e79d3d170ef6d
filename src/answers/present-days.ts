import type { DaysAnswer, SearchState, Tried } from '../contract/index.ts';
import {
  calledOffCost,
  costLossThreshold,
  type DayOption,
  type DaysFound,
  type Job,
  type Prepared,
} from '../planner/index.ts';
import type { Explained } from './explained.ts';
import { presentOption, presentSkip } from './present-option.ts';
import { presentWeather } from './present-weather.ts';

/** The planner's findings as they cross the wire. Sentences are the planner's own. */

/** Everything the answer says of the job itself, with or without weather. */
export function presentJob(job: Prepared['job']): DaysAnswer['job'] {
  return { id: job.id, name: job.name, timeZone: job.site.timeZone, demo: job.demo };
}

export interface DaysParts {
  /** The job under the figures tried. */
  readonly job: Job;
  readonly nowMs: number;
  readonly bay: DaysAnswer['bay'];
  readonly ownCosts: Job['costs'];
  readonly tried: Tried;
  readonly cautions: readonly string[];
  readonly search: SearchState;
}

/** A day found, with what of it was worked out beyond its line. */
export interface DayFound {
  readonly option: DayOption;
  readonly first: DayOption | undefined;
  readonly explained: Explained | undefined;
}

export function presentDays(
  parts: DaysParts,
  prepared: Prepared,
  found: Pick<DaysFound, 'ranked' | 'skipped'> & { readonly days: readonly DayFound[] },
): DaysAnswer {
  const ranks = new Map(found.ranked.map((option, n) => [option, n + 1]));
  const days = [
    ...found.days.map(({ option, first, explained }) =>
      presentOption(option, {
        rank: ranks.get(option) ?? null,
        split: parts.bay,
        first,
        explained,
      }),
    ),
    ...found.skipped.map(presentSkip),
  ].sort((a, b) => a.date.localeCompare(b.date));
  return {
    ...frame(parts),
    weather: presentWeather(prepared.grid, {
      zone: parts.job.site.timeZone,
      nowMs: parts.nowMs,
    }),
    noForecast: null,
    days,
  };
}

/** The answer where there is no weather to plan on: no days, no chances, and the sentence why. */
export function presentNoForecast(parts: DaysParts, why: string): DaysAnswer {
  return { ...frame(parts), weather: null, noForecast: why, days: [] };
}

/** With the figure that counts where the job states none. */
export function presentCosts(costs: Job['costs']): DaysAnswer['costs'] {
  return { ...costs, calledOff: calledOffCost(costs) };
}

function frame(parts: DaysParts): Omit<DaysAnswer, 'weather' | 'noForecast' | 'days'> {
  return {
    job: presentJob(parts.job),
    nowMs: parts.nowMs,
    bay: parts.bay,
    neverFits: null,
    search: parts.search,
    costs: presentCosts(parts.job.costs),
    ownCosts: presentCosts(parts.ownCosts),
    tried: { ...parts.tried },
    threshold: costLossThreshold(parts.job.costs),
    cautions: [...parts.cautions],
  };
}
