import type { WeatherLabel } from '../contract/index.ts';
import { forecastsWords } from '../planner/index.ts';
import { momentText, parseInstant } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import type { WeatherGrid } from '../weather/index.ts';

/** Where and when a label is read: its notes speak in the site's own time. */
export interface ReadAt {
  readonly zone: string;
  readonly nowMs: number;
}

/** Where the weather came from, and everything that had to be filled in. */
export function presentWeather(grid: WeatherGrid, at: ReadAt): WeatherLabel {
  const { source } = grid;
  return {
    kind: source.kind,
    model: source.model,
    issuedMs: source.issuedMs,
    fetchedMs: source.fetchedMs,
    invented: source.invented,
    attribution: source.attribution,
    notes: [
      ...source.notes.map((note) => inSiteTime(note, at.zone)),
      ...timingNotes(grid, at),
      ...gapNotes(grid, at),
    ],
    count: grid.memberCount,
    ...(source.madeFromOne ? { made: true as const } : {}),
    startMs: grid.startMs,
    endMs: grid.startMs + Math.max(0, ...grid.knownSteps) * grid.stepMs,
  };
}

const INSTANT = /\b\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::\d{2})?Z/g;

/** Notes are made where the site is not known, and kept with the forecast: their times are UTC until somebody reads them. */
function inSiteTime(note: string, zone: string): string {
  return note.replace(INSTANT, (text) => {
    const read = parseInstant(text, null);
    return read.ok ? momentText(read.ms, zone) : text;
  });
}

/** How far ahead rain is timed by the quarter hour; nothing where none is. */
function timingNotes({ rainTimedBy, memberCount }: WeatherGrid, { nowMs }: ReadAt): string[] {
  if (rainTimedBy === undefined || rainTimedBy.untilMs <= nowMs) return [];
  const hours = Math.max(1, Math.round((rainTimedBy.untilMs - nowMs) / MS_PER_HOUR));
  const fewer = memberCount > 1 ? ', in fewer forecasts the further ahead' : '';
  return [`rain of the next ${hours} h timed by 15-minute data of ${rainTimedBy.model}${fewer}`];
}

/** Forecasts that stop before the others, and for want of what: from there on they are unknown. */
function gapNotes(grid: WeatherGrid, { zone }: ReadAt): string[] {
  const longest = Math.max(0, ...grid.knownSteps);
  const found = new Map<string, number[]>();
  grid.endedBy.forEach((lacking, m) => {
    const known = grid.knownSteps[m]!;
    if (lacking === null || known === longest) return;
    found.set(lacking, [...(found.get(lacking) ?? []), known]);
  });
  return [...found].map(([lacking, steps]) => {
    const from = momentText(grid.startMs + Math.min(...steps) * grid.stepMs, zone);
    const count = `${steps.length} of ${forecastsWords(grid.memberCount, grid.source.madeFromOne === true)}`;
    return `${count} lack ${lacking} at some hour and are unknown from it on, the first at ${from}`;
  });
}
