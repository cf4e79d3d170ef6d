import { DateTime } from 'luxon';

/** Local clock time, 24 h: '09:15'. */
export function clockText(ms: number, zone: string): string {
  return DateTime.fromMillis(ms, { zone }).toFormat('HH:mm');
}

/** 'Tuesday 12 May' */
export function longDayText(ms: number, zone: string): string {
  return DateTime.fromMillis(ms, { zone, locale: 'en-GB' }).toFormat('cccc d LLLL');
}

/** 'Tue 12 May' */
export function shortDayText(ms: number, zone: string): string {
  return DateTime.fromMillis(ms, { zone, locale: 'en-GB' }).toFormat('ccc d LLL');
}

/** 'Tue 12 May 09:15' */
export function momentText(ms: number, zone: string): string {
  return `${shortDayText(ms, zone)} ${clockText(ms, zone)}`;
}

/** A length of time in words: '40 min', '3 h 20 min', '2 days 4 h'. */
export function spanText(ms: number): string {
  const minutes = Math.round(Math.abs(ms) / 60_000);
  if (minutes < 60) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
  const rest = hours % 24;
  return rest === 0 ? `${Math.floor(hours / 24)} days` : `${Math.floor(hours / 24)} days ${rest} h`;
}
