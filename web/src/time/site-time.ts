/**
 * Instants as the clock on the site's wall shows them. The browser's own zone is never used: the
 * zone is an argument everywhere.
 */

const formats = new Map<string, Intl.DateTimeFormat>();

function format(
  zone: string,
  kind: string,
  options: Intl.DateTimeFormatOptions,
): Intl.DateTimeFormat {
  const key = `${zone}|${kind}`;
  let found = formats.get(key);
  if (!found) {
    found = new Intl.DateTimeFormat('en-GB', { timeZone: zone, ...options });
    formats.set(key, found);
  }
  return found;
}

/** '09:15' */
export function clockTime(ms: number, zone: string): string {
  return format(zone, 'time', { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }).format(ms);
}

/** 'Thu 14 May' */
export function shortDay(ms: number, zone: string): string {
  return format(zone, 'day', { weekday: 'short', day: 'numeric', month: 'short' })
    .format(ms)
    .replace(',', '');
}

/** '2026-05-14' on the site. */
export function localDate(ms: number, zone: string): string {
  const parts = format(zone, 'date', { year: 'numeric', month: '2-digit', day: '2-digit' });
  const at = Object.fromEntries(parts.formatToParts(ms).map((part) => [part.type, part.value]));
  return `${at['year']}-${at['month']}-${at['day']}`;
}

/** '09:15', with the day in front where it is not the day being looked at: 'Fri 15 May 07:10'. */
export function timeFrom(ms: number, zone: string, lookingAt: string): string {
  const time = clockTime(ms, zone);
  return localDate(ms, zone) === lookingAt ? time : `${shortDay(ms, zone)} ${time}`;
}

/** 'Tue 12 May 05:40' */
export function dayAndTime(ms: number, zone: string): string {
  return `${shortDay(ms, zone)} ${clockTime(ms, zone)}`;
}

/** A calendar date has no zone: noon UTC stands for it so that no zone can shift it. */
function noonOf(date: string): number {
  return Date.parse(`${date}T12:00:00Z`);
}

export const isDate = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) && Number.isFinite(noonOf(text));

/** 'Thu 14' for rows, where the month stands above. */
export function dateShort(date: string): string {
  return format('UTC', 'date-short', { weekday: 'short', day: 'numeric' })
    .format(noonOf(date))
    .replace(',', '');
}

/** 'Thursday 14 May' for headings. */
export function dateLong(date: string): string {
  return format('UTC', 'date-long', { weekday: 'long', day: 'numeric', month: 'long' })
    .format(noonOf(date))
    .replace(',', '');
}

/** The calendar date `days` later. */
export function addDays(date: string, days: number): string {
  return localDate(noonOf(date) + days * 86_400_000, 'UTC');
}

/** How old something is: '40 min', '3 h 40 min', '2 days 4 h'. */
export function age(fromMs: number, nowMs: number): string {
  const minutes = Math.max(0, Math.round((nowMs - fromMs) / 60_000));
  const hours = Math.floor(minutes / 60);
  if (hours < 1) return `${minutes} min`;
  if (hours < 48) return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
  return hours % 24 === 0 ? `${hours / 24} days` : `${Math.floor(hours / 24)} days ${hours % 24} h`;
}
