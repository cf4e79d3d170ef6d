import { clockTime, localDate } from './site-time.ts';

/** '9:40', '09.40', '0940' or '940' as '09:40'; null when it is no time of day. */
export function readWallTime(typed: string): string | null {
  const match = /^(\d{1,2})[:.h ]?(\d{2})$/.exec(typed.trim());
  if (!match) return null;
  const [hour, minute] = [Number(match[1]), Number(match[2])];
  if (hour > 23 || minute > 59) return null;
  return `${String(hour).padStart(2, '0')}:${match[2]}`;
}

/** Zones are at most 14 h ahead and 12 h behind UTC, in whole quarter hours. */
const FURTHEST_AHEAD_MIN = 14 * 60;
const FURTHEST_BEHIND_MIN = -12 * 60;

/**
 * The instant at which a site's wall clock shows that time. In the hour that the autumn change
 * repeats, the first of the two; in the hour that spring leaves out, null.
 */
export function wallToMs(date: string, time: string, zone: string): number | null {
  const asIfUtc = Date.parse(`${date}T${time}:00Z`);
  if (!Number.isFinite(asIfUtc)) return null;
  for (let offset = FURTHEST_AHEAD_MIN; offset >= FURTHEST_BEHIND_MIN; offset -= 15) {
    const ms = asIfUtc - offset * 60_000;
    if (clockTime(ms, zone) === time && localDate(ms, zone) === date) return ms;
  }
  return null;
}
