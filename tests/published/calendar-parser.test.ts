import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { calendarText } from '../../src/programme/index.ts';
import { bookedDay, history, OFFICE, octetsOf, version } from '../fixtures/calendar/histories.ts';
import { eventsOf } from '../fixtures/calendar/read-calendar.ts';

/** The calendar read by a parser that is not ours: ical.js 2.2.1 (RFC 5545). */

const read = (text: string): InstanceType<typeof ICAL.Event>[] =>
  new ICAL.Component(ICAL.parse(text))
    .getAllSubcomponents('vevent')
    .map((one) => new ICAL.Event(one));

const AUTUMN = [
  bookedDay('2026-10-24', '2026-10-24T07:30+01:00', '2026-10-24T16:00+01:00'),
  bookedDay('2026-10-26', '2026-10-26T07:30+00:00', '2026-10-26T16:00+00:00'),
];

/** Both sides of the end of summer time in London (IANA time zone database: 25 October 2026, 01:00 UTC). */
describe('the calendar in another parser', () => {
  const told = version('2026-10-01T09:00Z', { days: AUTUMN, roof: 'Slip, ramp; “upper” roof' });
  const off = version('2026-10-02T09:00Z', {
    ...told,
    changedMs: Date.parse('2026-10-02T09:00Z'),
    state: 'called off',
  });
  const text = calendarText([history([told])], OFFICE);

  it('has each day at its instants on both sides of a clock change, and its words', () => {
    const events = read(text);
    expect(events.map(({ startDate }) => startDate.toJSDate().getTime())).toEqual(
      AUTUMN.map(({ hours }) => hours!.startMs),
    );
    expect(events.map(({ endDate }) => endDate.toJSDate().getTime())).toEqual(
      AUTUMN.map(({ hours }) => hours!.endMs),
    );
    for (const { summary } of events) expect(summary).toContain('Slip, ramp; “upper” roof');
  });

  it('has the same events and numbers as our own reader, a cancelled one among them', () => {
    const both = calendarText([history([told, off])], OFFICE);
    const theirs = read(both);
    const ours = eventsOf(octetsOf(both));
    expect(theirs.length).toBe(AUTUMN.length);
    expect(theirs.map(({ uid, sequence }) => ({ uid, sequence }))).toEqual(
      ours.map(({ uid, sequence }) => ({ uid, sequence })),
    );
    for (const { component } of theirs)
      expect(component.getFirstPropertyValue('status')).toBe('CANCELLED');
    expect(Math.min(...theirs.map(({ sequence }) => sequence))).toBe(1);
  });
});
