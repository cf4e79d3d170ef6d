import type { LocalDay } from '../time/index.ts';
import { wallTimeMs } from '../time/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { Crew } from './types.ts';

/** A crew's working day as instants. */
export interface Shift {
  readonly day: LocalDay;
  readonly startMs: number;
  readonly endMs: number;
  readonly breaks: readonly { readonly fromMs: number; readonly lengthMs: number }[];
}

export const isWorkDay = (crew: Crew, day: LocalDay): boolean =>
  crew.workDays.includes(day.weekday) && !crew.daysOff.includes(day.date);

export function shiftOn(crew: Crew, day: LocalDay, zone: string): Shift {
  return {
    day,
    startMs: wallTimeMs(day, crew.dayStart, zone),
    endMs: wallTimeMs(day, crew.dayEnd, zone),
    breaks: crew.breaks
      .map((rest) => ({
        fromMs: wallTimeMs(day, rest.from, zone),
        lengthMs: rest.minutes * MS_PER_MINUTE,
      }))
      .sort((a, b) => a.fromMs - b.fromMs),
  };
}
