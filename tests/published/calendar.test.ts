import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarText } from '../../src/programme/index.ts';
import {
  bookedDay,
  CREW_A,
  history,
  OFFICE,
  octetsOf,
  version,
} from '../fixtures/calendar/histories.ts';
import {
  calendarOf,
  eventsOf,
  linesOf,
  momentOf,
  propertyOf,
  propertyValue,
  textOf,
} from '../fixtures/calendar/read-calendar.ts';

/**
 * The calendar against RFC 5545 (Desruisseaux, September 2009), read by a reader written from its grammar. The
 * reader itself is held against the examples that RFC 5545 prints.
 */

const crlf = (lines: readonly string[]): Uint8Array => octetsOf(`${lines.join('\r\n')}\r\n`);
const read = (...histories: Parameters<typeof calendarText>[0]) =>
  eventsOf(octetsOf(calendarText(histories, OFFICE)));

// RFC 5545, section 4, first example; folded as in its own 3.1 wherever a space stands twice.
const CONFERENCE = [
  'BEGIN:VCALENDAR',
  'PRODID:-//xyz Corp//NONSGML PDA Calendar Version 1.0//EN',
  'VERSION:2.0',
  'BEGIN:VEVENT',
  'DTSTAMP:19960704T120000Z',
  'UID:uid1@example.com',
  'ORGANIZER:mailto:jsmith@example.com',
  'DTSTART:19960918T143000Z',
  'DTEND:19960920T220000Z',
  'STATUS:CONFIRMED',
  'CATEGORIES:CONFERENCE',
  'SUMMARY:Networld+Interop Conference',
  'DESCRIPTION:Networld+Interop Conference',
  '  and Exhibit\\nAtlanta World Congress Center\\n',
  ' Atlanta\\, Georgia',
  'END:VEVENT',
  'END:VCALENDAR',
];

describe('the reader on what RFC 5545 prints', () => {
  it('reads the first calendar of section 4', () => {
    const [event] = eventsOf(crlf(CONFERENCE));
    expect(event).toMatchObject({
      uid: 'uid1@example.com',
      status: 'CONFIRMED',
      start: { ms: Date.parse('1996-09-18T14:30:00Z') },
      end: { ms: Date.parse('1996-09-20T22:00:00Z') },
      description:
        'Networld+Interop Conference and Exhibit\nAtlanta World Congress Center\nAtlanta, Georgia',
    });
  });

  it('reads the folded line of 3.1, the text of 3.3.11, the moments of 3.3.4 and 3.3.5', () => {
    expect(
      linesOf(
        crlf(['DESCRIPTION:This is a lo', ' ng description', '  that exists on a long line.']),
      ),
    ).toEqual(['DESCRIPTION:This is a long description that exists on a long line.']);
    expect(textOf('Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.')).toBe(
      'Project XYZ Final Review\nConference Room - 3B\nCome Prepared.',
    );
    expect(momentOf(propertyOf('DTSTART:19970714T173000Z'))).toEqual({
      ms: Date.parse('1997-07-14T13:30:00-04:00'),
    });
    expect(momentOf(propertyOf('DTSTART;VALUE=DATE:19970714'))).toEqual({ date: '1997-07-14' });
    expect(
      propertyOf('ATTENDEE;DELEGATED-TO="mailto:a@b.org","mailto:c@d.org":mailto:e@f.org').params,
    ).toEqual({ 'DELEGATED-TO': ['mailto:a@b.org', 'mailto:c@d.org'] });
  });

  const without = (start: string) => CONFERENCE.filter((line) => !line.startsWith(start));
  it.each<[string, Uint8Array]>([
    ['bare line feeds', octetsOf(`${CONFERENCE.join('\n')}\n`)],
    ['no UID', crlf(without('UID'))],
    ['no DTSTAMP', crlf(without('DTSTAMP'))],
    ['no PRODID', crlf(without('PRODID'))],
    ['two SUMMARY', crlf([...CONFERENCE.slice(0, 5), 'SUMMARY:x', ...CONFERENCE.slice(5)])],
    [
      'an end before the start',
      crlf(CONFERENCE.map((line) => line.replace('19960920', '19960910'))),
    ],
    ['a comma alone', crlf(CONFERENCE.map((line) => line.replace('\\,', ',')))],
    ['76 octets', crlf(CONFERENCE.map((line) => line.replace('Networld+', 'N'.repeat(46))))],
    ['nothing in it', crlf([...CONFERENCE.slice(0, 3), 'END:VCALENDAR'])],
  ])('refuses %s', (_, octets) => {
    expect(() => eventsOf(octets)).toThrow();
  });
});

describe('what is written', () => {
  it('is a calendar with a PRODID of its own, and one even when nothing is booked', () => {
    const full = calendarOf(
      octetsOf(calendarText([history([version('2026-05-01T09:00Z')])], OFFICE)),
    );
    const empty = calendarOf(octetsOf(calendarText([], CREW_A)));
    expect(propertyValue(full, 'PRODID')).toMatch(/^-\/\/Layfair\/\/.+\/\/EN$/);
    expect(empty.components.map(({ name }) => name)).toEqual(['VTIMEZONE']);
  });

  it('has no METHOD, and so DTSTAMP is when the event was last revised (3.8.7.2)', () => {
    const text = calendarText([history([version('2026-05-01T09:00:41.900Z')])], OFFICE);
    expect(propertyValue(calendarOf(octetsOf(text)), 'METHOD')).toBeUndefined();
    const [event] = eventsOf(octetsOf(text));
    expect(event!.stampMs).toBe(Date.parse('2026-05-01T09:00:41Z'));
    expect(event!.modifiedMs).toBe(event!.stampMs);
  });

  it('brings any name back as it was, folded between characters, whatever it is made of', () => {
    const character = fc.oneof(
      fc.constantFrom(...'a ,;:\\"n\n\té学🏠'),
      fc.integer({ min: 0x20, max: 0x10ffff }).map((code) => String.fromCodePoint(code)),
    );
    const anyText = fc
      .array(character, { minLength: 1, maxLength: 90 })
      .map((all) => `R${all.join('').replace(/(?![\n\t])[\p{Cc}\p{Surrogate}]/gu, '\n')}`);
    fc.assert(
      fc.property(anyText, anyText, (roof, address) => {
        const site = { name: 'Yard; \\n,"', address, place: null };
        const [event] = read(history([version('2026-05-01T09:00Z', { roof, site })]));
        return (
          event!.summary === `${roof} - Crew A` && event!.location === `Yard; \\n,", ${address}`
        );
      }),
      { numRuns: 80 },
    );
  });

  it.each(['a', 'é', '学', '🏠'])('counts octets, not characters: %s alone', (character) => {
    const roof = character.repeat(90);
    const [event] = read(history([version('2026-05-01T09:00Z', { roof })]));
    expect(event!.summary).toBe(`${roof} - Crew A`);
  });

  it('refuses a character that no calendar can hold, with its place', () => {
    const bad = history([version('2026-05-01T09:00Z', { client: 'Bell\u0007' })]);
    expect(() => calendarText([bad], OFFICE)).toThrow(/version 1: client \("Bell\\u0007"\)/);
  });
});

// Offsets as the law has them: EU, last Sundays of March and October at 01:00 UTC (Directive 2000/84/EC);
// New Zealand +13:00 until the first Sunday of April (Daylight Time Order 2007); Tonga +13:00 (tz database).
const PLACES = [
  [
    'the day before clocks go forward',
    'Europe/London',
    '2026-03-28',
    '07:30+00:00',
    '16:00+00:00',
    '20260328T073000Z',
  ],
  [
    'the day clocks go forward',
    'Europe/London',
    '2026-03-29',
    '07:30+01:00',
    '16:00+01:00',
    '20260329T063000Z',
  ],
  [
    'the day before clocks go back',
    'Europe/London',
    '2026-10-24',
    '07:30+01:00',
    '16:00+01:00',
    '20261024T063000Z',
  ],
  [
    'the day clocks go back',
    'Europe/London',
    '2026-10-25',
    '07:30+00:00',
    '16:00+00:00',
    '20261025T073000Z',
  ],
  [
    '68 degrees north in June',
    'Europe/Oslo',
    '2026-06-21',
    '19:00+02:00',
    '23:30+02:00',
    '20260621T170000Z',
  ],
  [
    '68 degrees north in December',
    'Europe/Oslo',
    '2026-12-21',
    '09:30+01:00',
    '14:00+01:00',
    '20261221T083000Z',
  ],
  [
    'east of UTC+12, the UTC day before',
    'Pacific/Tongatapu',
    '2026-11-03',
    '07:30+13:00',
    '16:00+13:00',
    '20261102T183000Z',
  ],
  [
    'UTC+13 in summer',
    'Pacific/Auckland',
    '2026-04-04',
    '07:30+13:00',
    '16:00+13:00',
    '20260403T183000Z',
  ],
  [
    'UTC+12 after the change',
    'Pacific/Auckland',
    '2026-04-05',
    '07:30+12:00',
    '16:00+12:00',
    '20260404T193000Z',
  ],
] as const;

describe('instants', () => {
  it.each(PLACES)('%s: %s, %s', (_, zone, date, from, to, utc) => {
    const days = [bookedDay(date, `${date}T${from}`, `${date}T${to}`)];
    const text = calendarText(
      [history([version('2026-01-02T09:00Z', { days })], { zone })],
      OFFICE,
    );
    expect(text).toContain(`DTSTART:${utc}\r\n`);
    const [event] = eventsOf(octetsOf(text));
    expect(event!.end).toEqual({ ms: Date.parse(`${date}T${to}`) });
    expect(event!.description).toContain(`From ${from.slice(0, 5)} to ${to.slice(0, 5)}, `);
  });

  it('a shift over the hour that comes twice is as long as it is', () => {
    const days = [bookedDay('2026-10-25', '2026-10-25T00:30+01:00', '2026-10-25T03:00+00:00')];
    const [event] = read(history([version('2026-10-01T09:00Z', { days })]));
    expect(event).toMatchObject({
      start: { ms: Date.UTC(2026, 9, 24, 23, 30) },
      end: { ms: Date.UTC(2026, 9, 25, 3, 0) },
    });
  });

  it('a day whose times are not known is a date, in no zone', () => {
    const [event] = read(
      history([version('2026-05-01T09:00Z', { days: [bookedDay('2026-05-12', null, null)] })]),
    );
    expect(event).toMatchObject({ start: { date: '2026-05-12' }, end: null });
  });

  it('a time that is on another date at the site is refused', () => {
    const days = [bookedDay('2026-11-02', '2026-11-03T07:30+13:00', '2026-11-03T16:00+13:00')];
    const wrong = history([version('2026-05-01T09:00Z', { days })], { zone: 'Pacific/Tongatapu' });
    expect(() => calendarText([wrong], OFFICE)).toThrow(/is on 2026-11-03 in Pacific\/Tongatapu/);
  });
});
