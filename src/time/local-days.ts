import { DateTime } from 'luxon';
import { firstPossible } from './instants.ts';

/** A calendar day of a place: 23, 24 or 25 hours long. */
export interface LocalDay {
  /** 'YYYY-MM-DD' */
  readonly date: string;
  readonly startMs: number;
  /** Start of the next day. */
  readonly endMs: number;
  /** 1 = Monday ... 7 = Sunday */
  readonly weekday: number;
}

const localDay = (dateTime: DateTime): LocalDay => {
  const start = dateTime.startOf('day');
  return {
    date: start.toISODate(),
    startMs: start.toMillis(),
    endMs: start.plus({ days: 1 }).startOf('day').toMillis(),
    weekday: start.weekday,
  };
};

/** The local day an instant falls on. */
export function localDayOf(ms: number, zone: string): LocalDay {
  return localDay(DateTime.fromMillis(ms, { zone }));
}

/**
 * The local day of a date.
 * @param date  'YYYY-MM-DD'
 * @throws on a date that does not exist
 */
export function localDayOn(date: string, zone: string): LocalDay {
  return localDay(DateTime.fromISO(date, { zone }));
}

/** All local days that touch [fromMs, toMs). */
export function localDaysBetween(fromMs: number, toMs: number, zone: string): LocalDay[] {
  const days: LocalDay[] = [];
  let day = localDayOf(fromMs, zone);
  while (day.startMs < toMs) {
    days.push(day);
    day = localDayOf(day.endMs, zone);
  }
  return days;
}

/**
 * Instant of a wall-clock time on a day. A time that happens twice means the first; one inside the
 * spring gap means the moment the clocks have gone forward, as a crew would read it.
 * @param wallTime  'HH:mm'
 */
export function wallTimeMs(day: LocalDay, wallTime: string, zone: string): number {
  const [hour = 0, minute = 0] = wallTime.split(':').map(Number);
  const found = DateTime.fromISO(day.date, { zone }).set({ hour, minute });
  if (found.hour !== hour || found.minute !== minute) return clocksWentForwardMs(found);
  return firstPossible(found);
}

/** Luxon moves a time inside the gap on by the gap's length: go back to where the new offset began. */
function clocksWentForwardMs(inNewTime: DateTime): number {
  let first = inNewTime.startOf('minute');
  for (;;) {
    const before = first.minus({ minutes: 1 });
    if (before.offset !== inNewTime.offset) return first.toMillis();
    first = before;
  }
}
