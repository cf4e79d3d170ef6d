import { type LocalDay, localDaysBetween } from '../../time/index.ts';
import { MS_PER_MINUTE } from '../../units/index.ts';
import { stepAt, stepStartMs } from '../../weather/index.ts';
import type { Prepared } from '../prepare.ts';
import { RISE_SET_ELEVATION_DEG } from '../rules/daylight.ts';
import { isWorkDay, type Shift, shiftOn } from '../shift.ts';

/** How far ahead laying days are looked for. */
const DAYS_AHEAD = 14;

/** Whole working days of a forecast on which the job may be laid, and their steps in daylight. */
export interface WorkHours {
  readonly shifts: readonly Shift[];
  /** Steps in which somebody could work, the dark left out. */
  readonly litSteps: readonly number[];
  /** Daylight in the crew's hours on the day that has most of it [min]. */
  readonly mostLightMin: number;
  /** Forecasts that reach into these hours at all. */
  readonly members: readonly number[];
}

/** @returns null where not one such day begins within the forecast */
export function workHours(prepared: Prepared): WorkHours | null {
  const { grid, job, nowMs } = prepared;
  const zone = job.site.timeZone;
  const lastKnown = Math.max(0, ...grid.knownSteps);
  const endMs = stepStartMs(grid, lastKnown);
  const shifts = localDaysBetween(nowMs, endMs, zone)
    .slice(0, DAYS_AHEAD)
    .filter((day) => mayBeLaidOn(prepared, day))
    .map((day) => shiftOn(job.crew, day, zone))
    .filter(({ startMs }) => startMs >= nowMs && startMs < endMs);
  const first = shifts[0];
  if (first === undefined) return null;
  const lit = shifts.map((shift) => litIn(prepared, shift, lastKnown));
  const from = stepAt(grid, first.startMs);
  return {
    shifts,
    litSteps: lit.flat(),
    mostLightMin: (Math.max(...lit.map(({ length }) => length)) * grid.stepMs) / MS_PER_MINUTE,
    members: [...grid.knownSteps.keys()].filter((m) => grid.knownSteps[m]! > from),
  };
}

function mayBeLaidOn({ job }: Prepared, day: LocalDay): boolean {
  const { earliest, latest, crew } = job;
  if (!isWorkDay(crew, day)) return false;
  return (earliest === null || day.date >= earliest) && (latest === null || day.date <= latest);
}

function litIn({ grid }: Prepared, { startMs, endMs }: Shift, lastKnown: number): number[] {
  const lit: number[] = [];
  const end = Math.min(stepAt(grid, endMs), lastKnown);
  for (let i = stepAt(grid, startMs); i < end; i += 1) {
    if (grid.sunElevationDeg[i]! >= RISE_SET_ELEVATION_DEG) lit.push(i);
  }
  return lit;
}
