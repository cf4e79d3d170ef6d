const MS_PER_CALENDAR_DAY = 86_400_000;
const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/;

/**
 * Days since 1970-01-01 of a date without a clock or a zone; null where there is no such date.
 * @param date  'YYYY-MM-DD'
 */
export function dayNumberOf(date: string): number | null {
  const parts = SHAPE.exec(date);
  if (parts === null) return null;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  if (year < 1000 || month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return null;
  return Date.UTC(year, month - 1, day) / MS_PER_CALENDAR_DAY;
}

/** @throws RangeError where there is no such date: dates are checked at the door */
export function dayNumber(date: string): number {
  const found = dayNumberOf(date);
  if (found === null) throw new RangeError(`date (${date}) must be a date, 'YYYY-MM-DD'`);
  return found;
}

/** 1 = Monday ... 7 = Sunday. */
export function weekdayOf(number: number): number {
  // 1970-01-01 was a Thursday.
  return ((((number + 3) % 7) + 7) % 7) + 1;
}

function daysIn(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}
