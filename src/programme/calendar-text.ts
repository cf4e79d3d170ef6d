import { clockText } from '../time/index.ts';
import {
  type BookedDay,
  type BookingHistory,
  type BookingVersion,
  historyProblems,
  isWritable,
} from './booking-history.ts';
import { dateValue, foldedLine, textValue, utcValue } from './calendar-lines.ts';

/** Whose calendar it is. The office sees all crews; a crew its own days. */
export interface CalendarOf {
  readonly firmId: string;
  /** What the calendar is called in a reader's list. */
  readonly name: string;
  /** null = the office. */
  readonly crewId: string | null;
}

/** What a reader sees of one booked day. */
interface Shown {
  readonly status: 'TENTATIVE' | 'CONFIRMED' | 'CANCELLED';
  readonly day: BookedDay;
  readonly summary: string;
  readonly description: string;
  readonly location: string;
  readonly geo: string | null;
}

interface CalendarEvent extends Shown {
  readonly uid: string;
  readonly sequence: number;
  readonly createdMs: number;
  readonly changedMs: number;
}

/**
 * A calendar after RFC 5545, one event for each booked day, to be published as a whole each time. An event
 * keeps its UID as it moves: it is 'day 2 of this booking', whatever the date. One that is called off, goes to
 * another crew or is not needed any more stays, cancelled. Nothing depends on when it is asked for: the same
 * histories give the same octets.
 * @param histories  of every booking that has ever been in this calendar, each from its first version
 * @throws RangeError with all that historyProblems finds
 */
export function calendarText(histories: readonly BookingHistory[], of: CalendarOf): string {
  const problems = historyProblems(histories);
  for (const [field, id] of Object.entries({ firmId: of.firmId, crewId: of.crewId ?? 'office' }))
    if (id === '' || !isWritable(id))
      problems.push(`${field} (${JSON.stringify(id)}) must have characters, all to be shown.`);
  if (!isWritable(of.name))
    problems.push(`name (${JSON.stringify(of.name)}) has a character that cannot be shown.`);
  if (problems.length > 0) throw new RangeError(problems.join(' '));
  const events = histories.flatMap((history) => eventsOf(history, of));
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Layfair//Programme of roofs//EN',
    'CALSCALE:GREGORIAN',
    `NAME:${textValue(of.name)}`,
    ...(events.length === 0 ? NOTHING_BOOKED : events.flatMap(eventLines)),
    'END:VCALENDAR',
  ];
  return lines.map(foldedLine).join('');
}

/** A calendar must hold something (RFC 5545, 3.4); a zone is nothing that a reader shows. */
const NOTHING_BOOKED = [
  'BEGIN:VTIMEZONE',
  'TZID:Etc/UTC',
  'BEGIN:STANDARD',
  'DTSTART:19700101T000000',
  'TZOFFSETFROM:+0000',
  'TZOFFSETTO:+0000',
  'END:STANDARD',
  'END:VTIMEZONE',
];

function eventsOf(history: BookingHistory, of: CalendarOf): CalendarEvent[] {
  const most = Math.max(...history.versions.map(({ days }) => days.length));
  return Array.from({ length: most }, (_, index) => eventOf(history, of, index)).filter(
    (event) => event !== null,
  );
}

/** The story of the nth day: a change that a reader of this calendar can see counts as one, no other does. */
function eventOf(history: BookingHistory, of: CalendarOf, index: number): CalendarEvent | null {
  const uid = uidOf(history.bookingId, of, index);
  let event: CalendarEvent | null = null;
  for (const version of history.versions) {
    const shown: Shown | null = shownOf(version, history.zone, of, index) ?? cancelled(event, of);
    event = revised(event, shown, uid, version.changedMs);
  }
  return event;
}

function revised(
  event: CalendarEvent | null,
  shown: Shown | null,
  uid: string,
  changedMs: number,
): CalendarEvent | null {
  if (shown === null) return null;
  if (event === null) return { ...shown, uid, sequence: 0, createdMs: changedMs, changedMs };
  if (sameShown(event, shown)) return event;
  return { ...event, ...shown, sequence: event.sequence + 1, changedMs };
}

/**
 * A crew's calendar has UIDs of its own: read beside that of the crew that took over, the one's cancelled day
 * would else take the other's off.
 */
function uidOf(bookingId: string, { firmId, crewId }: CalendarOf, index: number): string {
  const parts = [bookingId, `day-${index + 1}`, ...(crewId === null ? [] : [crewId])];
  return `${parts.map(encodeURIComponent).join('/')}@${encodeURIComponent(firmId)}`;
}

function shownOf(
  version: BookingVersion,
  zone: string,
  of: CalendarOf,
  index: number,
): Shown | null {
  const day = version.days[index];
  if (day === undefined || version.state === 'called off') return null;
  if (of.crewId !== null && of.crewId !== version.crewId) return null;
  const pencilled = version.state === 'pencilled in';
  const { site, roof, client, crewName, days } = version;
  const number = days.length === 1 ? '' : `, day ${index + 1} of ${days.length}`;
  const crew = of.crewId === null ? ` - ${crewName}` : '';
  return {
    status: pencilled ? 'TENTATIVE' : 'CONFIRMED',
    day,
    summary: `${pencilled ? 'Pencilled in: ' : ''}${roof}${number}${crew}`,
    description: [
      `Crew: ${crewName}. Client: ${client}.`,
      timesInWords(day, zone),
      pencilled ? 'Not confirmed yet.' : 'Confirmed with the client.',
      'It depends on the weather: look at the plan before you set off.',
    ].join('\n'),
    location: [site.name, ...(site.address === null ? [] : [site.address])].join(', '),
    geo: site.place === null ? null : geoValue(site.place),
  };
}

function timesInWords({ hours }: BookedDay, zone: string): string {
  if (hours === null) return 'Times to follow.';
  const { startMs, endMs } = hours;
  return `From ${clockText(startMs, zone)} to ${clockText(endMs, zone)}, time at the site.`;
}

function cancelled(event: CalendarEvent | null, of: CalendarOf): Shown | null {
  if (event === null || event.status === 'CANCELLED') return event;
  return {
    ...event,
    status: 'CANCELLED',
    summary: `Called off: ${event.summary.replace(/^Pencilled in: /, '')}`,
    description:
      of.crewId === null ? 'Called off.' : 'Called off for your crew. Ask the office if in doubt.',
  };
}

function sameShown(a: Shown, b: Shown): boolean {
  const told = ({ status, day, summary, description, location, geo }: Shown) =>
    JSON.stringify([
      status,
      day.date,
      day.hours?.startMs,
      day.hours?.endMs,
      summary,
      description,
      location,
      geo,
    ]);
  return told(a) === told(b);
}

/** GEO (RFC 5545, 3.8.1.6): six decimals at most, never in the form 1e-7. */
function geoValue({ latitudeDeg, longitudeDeg }: { latitudeDeg: number; longitudeDeg: number }) {
  return `${latitudeDeg.toFixed(6)};${longitudeDeg.toFixed(6)}`;
}

function eventLines(event: CalendarEvent): string[] {
  const { hours, date } = event.day;
  const changed = utcValue(event.changedMs);
  return [
    'BEGIN:VEVENT',
    `UID:${textValue(event.uid)}`,
    // Without METHOD this is when the event was last revised, not when it was fetched (RFC 5545, 3.8.7.2).
    `DTSTAMP:${changed}`,
    `CREATED:${utcValue(event.createdMs)}`,
    `LAST-MODIFIED:${changed}`,
    `SEQUENCE:${event.sequence}`,
    ...(hours === null
      ? // A day without an end lasts that one day (RFC 5545, 3.6.1).
        [`DTSTART;VALUE=DATE:${dateValue(date)}`]
      : [`DTSTART:${utcValue(hours.startMs)}`, `DTEND:${utcValue(hours.endMs)}`]),
    `STATUS:${event.status}`,
    // Nobody is kept busy by what is called off.
    `TRANSP:${event.status === 'CANCELLED' ? 'TRANSPARENT' : 'OPAQUE'}`,
    `SUMMARY:${textValue(event.summary)}`,
    `DESCRIPTION:${textValue(event.description)}`,
    `LOCATION:${textValue(event.location)}`,
    ...(event.geo === null ? [] : [`GEO:${event.geo}`]),
    'END:VEVENT',
  ];
}
