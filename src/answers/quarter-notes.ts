import { forecastsWords, type Prepared } from '../planner/index.ts';
import { clockText } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import { QUARTER_MS, QUARTERS_PER_HOUR, type QuarterRain, stepAt } from '../weather/index.ts';

/** How far ahead the run's own rain is told. */
const RAIN_AHEAD_H = 2;
/** How far ahead its lightning is. */
const LIGHTNING_AHEAD_H = 6;
/** A run known longer ago than this says nothing of the sky any more. */
const TOO_OLD_H = 6;
/** Lightning potential from which thunder is told [J/kg] (from memory); its scale runs to some 120. */
const THUNDER_JKG = 1;

/**
 * What the run by the quarter hour has itself, beside the forecasts whose rain it times. It is not counted
 * among them: it knows rain only, and one more of 51 would change nothing while looking as if it did.
 */
export function quarterNotes(
  prepared: Prepared,
  quarters: QuarterRain | undefined,
  atMs: number,
): string[] {
  if (quarters === undefined || atMs - quarters.knownMs > TOO_OLD_H * MS_PER_HOUR) return [];
  return [...rainNote(prepared, quarters, atMs), ...lightningNote(prepared, quarters, atMs)];
}

function rainNote(prepared: Prepared, quarters: QuarterRain, atMs: number): string[] {
  const { grid, job, limits } = prepared;
  const untilMs = atMs + RAIN_AHEAD_H * MS_PER_HOUR;
  const ahead = quartersIn(quarters, quarters.rainMm, atMs, untilMs);
  if (ahead === null) return [];
  const others = withRain(prepared, atMs, untilMs);
  const wet = ahead.find(({ value }) => value >= limits.rainMmPerHour / QUARTERS_PER_HOUR);
  const forecasts = forecastsWords(grid.memberCount, grid.source.madeFromOne === true);
  const some = `${others} of ${forecasts} ${others === 1 ? 'has' : 'have'} some by ${clockText(untilMs, job.site.timeZone)}`;
  const who = `${quarters.model} by the quarter hour`;
  const role = 'It times their rain and is not counted among them.';
  if (wet !== undefined) {
    const from = clockText(Math.max(atMs, wet.startMs), job.site.timeZone);
    return [`${who} has rain from ${from}; ${some}. ${role} Look at the sky.`];
  }
  return others === 0 ? [] : [`${who} has no rain for ${RAIN_AHEAD_H} h; ${some}. ${role}`];
}

/** How many forecasts have rain that counts between two moments. */
function withRain({ grid, nextRain }: Prepared, fromMs: number, toMs: number): number {
  const [from, to] = [stepAt(grid, fromMs), stepAt(grid, toMs)];
  let count = 0;
  for (let m = 0; m < grid.memberCount; m += 1) {
    if (from < grid.knownSteps[m]! && nextRain[m * grid.steps + from]! < to) count += 1;
  }
  return count;
}

function lightningNote({ job }: Prepared, quarters: QuarterRain, atMs: number): string[] {
  if (quarters.lightningJkg === null) return [];
  const untilMs = atMs + LIGHTNING_AHEAD_H * MS_PER_HOUR;
  // A gap hides nothing here: only what is there is told, never that there is none.
  const told = quartersIn(quarters, quarters.lightningJkg, atMs, untilMs, true) ?? [];
  const strikes = told.filter(({ value }) => value >= THUNDER_JKG);
  if (strikes.length === 0) return [];
  const from = clockText(Math.max(atMs, strikes[0]!.startMs), job.site.timeZone);
  return [
    `${quarters.model} has lightning possible from about ${from}: plan to be off the roof, and off it at the first thunder until 30 minutes after the last.`,
  ];
}

/** Quarters that lie between two moments, or null where one is missing and that matters. */
function quartersIn(
  { startMs }: QuarterRain,
  values: Float64Array,
  fromMs: number,
  toMs: number,
  gapsPass = false,
): { readonly startMs: number; readonly value: number }[] | null {
  const found: { startMs: number; value: number }[] = [];
  // Quarter q begins a quarter before its stamp.
  const first = Math.floor((fromMs - startMs) / QUARTER_MS) + 1;
  const end = Math.ceil((toMs - startMs) / QUARTER_MS) + 1;
  for (let q = first; q < end; q += 1) {
    const value = values[q] ?? Number.NaN;
    if (!Number.isNaN(value)) found.push({ startMs: startMs + (q - 1) * QUARTER_MS, value });
    else if (!gapsPass) return null;
  }
  return found;
}
