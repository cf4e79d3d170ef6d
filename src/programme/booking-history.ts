import { isTimeZone, localDayOf } from '../time/index.ts';
import { dayNumberOf } from './dates.ts';
import type { Place } from './types.ts';

/** One day of a booking, with its clock times as instants. */
export interface BookedDay {
  /** Local date at the site, 'YYYY-MM-DD'. */
  readonly date: string;
  /** null = not known yet: the day is booked, its times are not. */
  readonly hours: { readonly startMs: number; readonly endMs: number } | null;
}

export type BookingState = 'pencilled in' | 'confirmed' | 'called off';

/** All that people were told of a booking from one change to the next. */
export interface BookingVersion {
  readonly changedMs: number;
  readonly state: BookingState;
  readonly roof: string;
  readonly client: string;
  readonly site: {
    readonly name: string;
    readonly address: string | null;
    readonly place: Place | null;
  };
  readonly crewId: string;
  readonly crewName: string;
  /** In order; may be empty in a version that is called off. */
  readonly days: readonly BookedDay[];
}

/**
 * A booking from its first version to the one that stands, none left out: the number of changes
 * tells a reader which of two copies is the newer.
 */
export interface BookingHistory {
  /** Never used again for another booking of the firm. */
  readonly bookingId: string;
  /** IANA zone of the site. */
  readonly zone: string;
  /** Oldest first, at least one. */
  readonly versions: readonly BookingVersion[];
}

// The last second of 9999: a date of RFC 5545 has four digits for the year.
const LATEST_MS = 253_402_300_799_000;
// Line feed and tab can be written in a calendar; no other control character can (RFC 5545, 3.1, CONTROL).
const UNWRITABLE = /[\p{Cc}\p{Surrogate}]/u;

/** Whether a text has a character that no calendar can hold. */
export const isWritable = (text: string): boolean =>
  !UNWRITABLE.test(text.replaceAll('\r\n', '\n').replace(/[\n\t]/g, ''));

/** What is wrong with booking histories, a sentence each; none where a calendar can be made. */
export function historyProblems(histories: readonly BookingHistory[]): string[] {
  const seen = new Set<string>();
  return histories.flatMap((history) => {
    const { bookingId, zone, versions } = history;
    const name = `Booking '${bookingId}'`;
    const problems: string[] = [];
    if (bookingId === '' || !isWritable(bookingId))
      problems.push(`${name}: bookingId must have characters, and none that cannot be shown.`);
    if (seen.has(bookingId)) problems.push(`${name} is given twice.`);
    seen.add(bookingId);
    if (versions.length === 0) problems.push(`${name} has no version; at least one is needed.`);
    if (!isTimeZone(zone)) {
      problems.push(`${name}: zone '${zone}' is no time zone; write one such as Europe/Oslo.`);
      return problems;
    }
    versions.forEach((version, index) => {
      const before = versions[index - 1]?.changedMs ?? 0;
      problems.push(
        ...versionProblems(version, before, zone).map(
          (problem) => `${name}, version ${index + 1}: ${problem}`,
        ),
      );
    });
    return problems;
  });
}

function versionProblems(version: BookingVersion, beforeMs: number, zone: string): string[] {
  const { changedMs, state, days, site } = version;
  const problems: string[] = [];
  if (!(changedMs >= beforeMs && changedMs <= LATEST_MS))
    problems.push(`changedMs (${changedMs}) must not be before the version it follows.`);
  if (days.length === 0 && state !== 'called off')
    problems.push('days is empty; only a booking that is called off has none.');
  const texts = {
    roof: version.roof,
    client: version.client,
    'site.name': site.name,
    'site.address': site.address ?? '',
    crewId: version.crewId,
    crewName: version.crewName,
  };
  for (const [field, text] of Object.entries(texts))
    if (!isWritable(text))
      problems.push(`${field} (${JSON.stringify(text)}) has a character that cannot be shown.`);
  if (version.roof.trim() === '') problems.push('roof is empty; it names the event.');
  if (version.crewId === '') problems.push('crewId is empty.');
  if (site.place !== null) {
    const { latitudeDeg, longitudeDeg } = site.place;
    if (!(Math.abs(latitudeDeg) <= 90 && Math.abs(longitudeDeg) <= 180))
      problems.push(`site.place (${latitudeDeg}, ${longitudeDeg}) must be in -90..90, -180..180.`);
  }
  let last = Number.NEGATIVE_INFINITY;
  for (const { date, hours } of days) {
    const number = dayNumberOf(date);
    if (number === null) problems.push(`date '${date}' is no date such as 2026-05-12.`);
    else if (number <= last) problems.push(`date ${date} must come after the day before it.`);
    last = number ?? last;
    if (hours !== null) problems.push(...hoursProblems(date, hours, zone));
  }
  return problems;
}

function hoursProblems(
  date: string,
  { startMs, endMs }: NonNullable<BookedDay['hours']>,
  zone: string,
): string[] {
  if (!(startMs >= 0 && startMs < endMs && endMs <= LATEST_MS))
    return [`${date}: startMs (${startMs}) must be before endMs (${endMs}), both instants.`];
  if (startMs % 1000 !== 0 || endMs % 1000 !== 0)
    return [`${date}: startMs (${startMs}) and endMs (${endMs}) must be whole seconds.`];
  const startsOn = localDayOf(startMs, zone).date;
  return startsOn === date
    ? []
    : [`startMs (${startMs}) is on ${startsOn} in ${zone}, but the day says ${date}.`];
}
