import { describe, expect, it } from 'vitest';
import { type CalendarOf, calendarText, historyProblems } from '../../src/programme/index.ts';
import {
  bookedDay,
  CREW_A,
  CREW_B,
  history,
  OFFICE,
  octetsOf,
  version,
} from '../fixtures/calendar/histories.ts';
import { eventsOf } from '../fixtures/calendar/read-calendar.ts';

/**
 * What a change does to an event: RFC 5545, 3.8.7.4 (SEQUENCE begins at 0 and goes up with each significant
 * revision), 3.8.4.7 (UID is kept), 3.8.1.11 (STATUS), 3.8.7.3 (LAST-MODIFIED).
 */

const hours = (date: string, from = '07:30') =>
  bookedDay(date, `${date}T${from}+01:00`, `${date}T16:00+01:00`);
const TUE = hours('2026-05-12');
const WED = hours('2026-05-13');
const FRI = hours('2026-05-15');

const STORY = [
  version('2026-05-01T08:00Z', { state: 'pencilled in', days: [TUE, WED] }),
  version('2026-05-02T08:00Z', { days: [TUE, WED] }),
  version('2026-05-03T08:00Z', { days: [TUE, FRI] }),
  version('2026-05-04T08:00Z', { days: [TUE, FRI], crewId: 'crew-b', crewName: 'Crew B' }),
  version('2026-05-05T08:00Z', { days: [TUE, FRI] }),
  version('2026-05-06T08:00Z', { days: [FRI] }),
  version('2026-05-07T08:00Z', { state: 'called off', days: [] }),
];

const readAfter = (changes: number, of: CalendarOf) =>
  eventsOf(octetsOf(calendarText([history(STORY.slice(0, changes))], of)));
const brief = (changes: number, of: CalendarOf) =>
  readAfter(changes, of).map(({ sequence, status, start }) => [
    sequence,
    status,
    'ms' in start ? new Date(start.ms).toISOString().slice(8, 10) : start.date,
  ]);

describe('one booking through its changes', () => {
  it.each([
    [
      1,
      [
        [0, 'TENTATIVE', '12'],
        [0, 'TENTATIVE', '13'],
      ],
    ],
    [
      2,
      [
        [1, 'CONFIRMED', '12'],
        [1, 'CONFIRMED', '13'],
      ],
    ],
    // The first day is as it was: nothing about it is new.
    [
      3,
      [
        [1, 'CONFIRMED', '12'],
        [2, 'CONFIRMED', '15'],
      ],
    ],
    [
      4,
      [
        [2, 'CONFIRMED', '12'],
        [3, 'CONFIRMED', '15'],
      ],
    ],
    [
      5,
      [
        [3, 'CONFIRMED', '12'],
        [4, 'CONFIRMED', '15'],
      ],
    ],
    [
      6,
      [
        [4, 'CONFIRMED', '15'],
        [5, 'CANCELLED', '15'],
      ],
    ],
    [
      7,
      [
        [5, 'CANCELLED', '15'],
        [5, 'CANCELLED', '15'],
      ],
    ],
  ])('the office after %i', (changes, expected) => {
    expect(brief(changes, OFFICE)).toEqual(expected);
  });

  it.each([
    [
      3,
      [
        [1, 'CONFIRMED', '12'],
        [2, 'CONFIRMED', '15'],
      ],
      [],
    ],
    [
      4,
      [
        [2, 'CANCELLED', '12'],
        [3, 'CANCELLED', '15'],
      ],
      [
        [0, 'CONFIRMED', '12'],
        [0, 'CONFIRMED', '15'],
      ],
    ],
    [
      5,
      [
        [3, 'CONFIRMED', '12'],
        [4, 'CONFIRMED', '15'],
      ],
      [
        [1, 'CANCELLED', '12'],
        [1, 'CANCELLED', '15'],
      ],
    ],
    [
      7,
      [
        [5, 'CANCELLED', '15'],
        [5, 'CANCELLED', '15'],
      ],
      [
        [1, 'CANCELLED', '12'],
        [1, 'CANCELLED', '15'],
      ],
    ],
  ])('the crew that had it and the one that took over, after %i', (changes, had, took) => {
    expect(brief(changes, CREW_A)).toEqual(had);
    expect(brief(changes, CREW_B)).toEqual(took);
  });

  it('the UID of a day never changes, and no calendar has that of another', () => {
    const uids = STORY.map((_, index) => readAfter(index + 1, OFFICE).map(({ uid }) => uid));
    expect(new Set(uids.map((pair) => pair.join())).size).toBe(1);
    const all = [OFFICE, CREW_A, CREW_B].flatMap((of) => readAfter(7, of).map(({ uid }) => uid));
    expect(new Set(all).size).toBe(6);
  });

  it('the time of the last change is that of the change that the reader sees', () => {
    const modified = readAfter(7, OFFICE).map(({ modifiedMs }) => modifiedMs);
    expect(modified).toEqual([Date.parse('2026-05-07T08:00Z'), Date.parse('2026-05-06T08:00Z')]);
    expect(readAfter(7, CREW_B)[0]!.modifiedMs).toBe(Date.parse('2026-05-05T08:00Z'));
  });

  it('what is called off keeps nobody busy and says so', () => {
    for (const event of readAfter(7, OFFICE)) {
      expect(event.transparent).toBe(true);
      expect(event.summary).toMatch(/^Called off: Boathouse roof/);
    }
    expect(readAfter(2, OFFICE)[0]!.transparent).toBe(false);
  });

  it('a change of the start, of the address or of the name counts; one told again does not', () => {
    const first = version('2026-05-01T08:00Z');
    const later = '2026-05-02T08:00Z';
    const sequence = (...more: (typeof first)[]) =>
      eventsOf(octetsOf(calendarText([history([first, ...more])], OFFICE)))[0]!.sequence;
    expect(sequence(version(later))).toBe(0);
    expect(sequence(version(later, { days: [hours('2026-05-12', '07:31')] }))).toBe(1);
    expect(sequence(version(later, { roof: 'Boat store roof' }))).toBe(1);
    expect(sequence(version(later, { site: { ...first.site, address: null } }))).toBe(1);
    // Taken back within the same second: still two changes.
    expect(sequence(version(later, { roof: 'Boat store roof' }), version(later))).toBe(2);
  });
});

describe('words', () => {
  it('the office reads the crew, everybody the day, client, hours, place', () => {
    const place = { latitudeDeg: 52.1, longitudeDeg: -0.0000001 };
    const site = { name: 'Boathouse', address: '4 Quay Walk, Ternmouth', place };
    const one = history([version('2026-05-01T08:00Z', { days: [TUE, WED], site })]);
    const [office] = eventsOf(octetsOf(calendarText([one], OFFICE)));
    const [crew] = eventsOf(octetsOf(calendarText([one], CREW_A)));
    expect(office!.summary).toBe('Boathouse roof, day 1 of 2 - Crew A');
    expect(crew!.summary).toBe('Boathouse roof, day 1 of 2');
    expect(crew!.description).toContain('Client: Tern Sailing Club.');
    expect(crew!.description).toContain('From 07:30 to 16:00, time at the site.');
    expect(crew!.location).toBe('Boathouse, 4 Quay Walk, Ternmouth');
    expect(crew!.geo).toEqual([52.1, -0]);
  });
});

describe('histories that cannot be', () => {
  it('are told all together, a sentence each', () => {
    const problems = historyProblems([
      history([]),
      history([version('2026-05-02T08:00Z'), version('2026-05-01T08:00Z', { days: [] })]),
      history([version('2026-05-01T08:00Z', { days: [WED, TUE] })], { bookingId: 'b-2' }),
      history([version('2026-05-01T08:00Z')], { bookingId: 'b-3', zone: 'Mars/Base' }),
    ]);
    expect(problems).toEqual([
      expect.stringMatching(/'b-1' has no version/),
      expect.stringMatching(/'b-1' is given twice/),
      expect.stringMatching(/version 2: changedMs \(\d+\) must not be before/),
      expect.stringMatching(/version 2: days is empty/),
      expect.stringMatching(/'b-2', version 1: date 2026-05-12 must come after/),
      expect.stringMatching(/zone 'Mars\/Base' is no time zone/),
    ]);
  });
});
