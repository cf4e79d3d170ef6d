import type { DayOption as DayOptionAnswer, DaysAnswer, WeatherLabel } from '../contract/index.ts';
import {
  type DayOption,
  type DaySkip,
  type DaysFound,
  forecastsWords,
  type Prepared,
  type Reason,
} from '../planner/index.ts';
import { isoUtc } from '../time/index.ts';
import type { WeatherGrid } from '../weather/index.ts';

/** The planner's findings as they cross the wire. Sentences are the planner's own. */

export function presentWeather(grid: WeatherGrid): WeatherLabel {
  const { source } = grid;
  return {
    kind: source.kind,
    model: source.model,
    issuedMs: source.issuedMs,
    fetchedMs: source.fetchedMs,
    invented: source.invented,
    attribution: source.attribution,
    notes: [...source.notes, ...gapNotes(grid)],
    count: grid.memberCount,
    ...(source.madeFromOne ? { made: true as const } : {}),
    startMs: grid.startMs,
    endMs: grid.startMs + Math.max(0, ...grid.knownSteps) * grid.stepMs,
  };
}

/** Forecasts that stop before the others, and for want of what: from there on they are unknown. */
function gapNotes(grid: WeatherGrid): string[] {
  const longest = Math.max(0, ...grid.knownSteps);
  const found = new Map<string, number[]>();
  grid.endedBy.forEach((lacking, m) => {
    const known = grid.knownSteps[m]!;
    if (lacking === null || known === longest) return;
    found.set(lacking, [...(found.get(lacking) ?? []), known]);
  });
  return [...found].map(([lacking, steps]) => {
    const from = isoUtc(grid.startMs + Math.min(...steps) * grid.stepMs);
    const count = `${steps.length} of ${forecastsWords(grid.memberCount, grid.source.madeFromOne === true)}`;
    return `${count} lack ${lacking} at some hour and are unknown from it on, the first at ${from}`;
  });
}

export function presentOption(
  option: DayOption,
  sentence: string,
  rank: number | null,
): DayOptionAnswer {
  const { chance } = option;
  return {
    date: option.day.date,
    verdict: option.verdict,
    sentence,
    startMs: option.startMs,
    finishMs: option.finishMs,
    rainSafeByMs: option.rainSafeByMs,
    lastAdhesiveMs: option.lastAdhesiveMs,
    chance: { ...chance, checked: 'not yet checked against outcomes here' },
    outcomes: { ...option.outcomes },
    expectedCost: Math.round(option.expectedCost),
    reasons: option.reasons.map(presentReason),
    rank,
  };
}

function presentReason(reason: Reason): DayOptionAnswer['reasons'][number] {
  const { cause, ...rest } = reason;
  return { rule: cause, ...rest };
}

/** A day that is not offered still says why. */
function presentSkip(skip: DaySkip): DayOptionAnswer {
  return {
    date: skip.day.date,
    verdict: 'no',
    sentence: SKIP_WORDS[skip.why],
    startMs: null,
    finishMs: null,
    rainSafeByMs: null,
    lastAdhesiveMs: null,
    chance: null,
    outcomes: { finished: 0, shortened: 0, stoodDown: 0, caughtOpen: 0, unknown: 0 },
    expectedCost: null,
    reasons: [],
    rank: null,
  };
}

const SKIP_WORDS: Readonly<Record<DaySkip['why'], string>> = {
  'not a working day': 'Not a working day for this crew.',
  'too early': 'Before the earliest date of this job.',
  'too late': 'After the latest date of this job.',
  'too short': 'Not enough of the working day left to open up and be rain-safe.',
};

/** Everything the answer says of the job itself, with or without weather. */
export function presentJob(job: Prepared['job']): DaysAnswer['job'] {
  return { id: job.id, name: job.name, timeZone: job.site.timeZone, demo: job.demo };
}

export interface DaysParts {
  readonly job: Prepared['job'];
  readonly nowMs: number;
  readonly bay: DaysAnswer['bay'];
  readonly threshold: number;
  readonly cautions: readonly string[];
}

export function presentDays(
  parts: DaysParts,
  prepared: Prepared,
  found: DaysFound,
  sentence: (option: DayOption) => string,
): DaysAnswer {
  const ranks = new Map(found.ranked.map((option, n) => [option, n + 1]));
  const days = [
    ...found.options.map((option) =>
      presentOption(option, sentence(option), ranks.get(option) ?? null),
    ),
    ...found.skipped.map(presentSkip),
  ].sort((a, b) => a.date.localeCompare(b.date));
  return { ...frame(parts), weather: presentWeather(prepared.grid), noForecast: null, days };
}

/** The answer where there is no weather to plan on: no days, no chances, and the sentence why. */
export function presentNoForecast(parts: DaysParts, why: string): DaysAnswer {
  return { ...frame(parts), weather: null, noForecast: why, days: [] };
}

function frame(parts: DaysParts): Omit<DaysAnswer, 'weather' | 'noForecast' | 'days'> {
  return {
    job: presentJob(parts.job),
    nowMs: parts.nowMs,
    bay: parts.bay,
    costs: { ...parts.job.costs },
    threshold: parts.threshold,
    cautions: [...parts.cautions],
  };
}
