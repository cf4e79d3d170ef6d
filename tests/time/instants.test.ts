import { afterEach, describe, expect, it, vi } from 'vitest';
import { isoUtc, isTimeZone, parseInstant } from '../../src/time/index.ts';

/**
 * Clock changes are those of the IANA time zone database: in the European Union at 01:00 UTC on the
 * last Sundays of March and October, in the United States at 02:00 local time on the second Sunday
 * of March and the first of November.
 */

const read = (text: string, zone: string | null = null) => {
  const found = parseInstant(text, zone);
  return found.ok ? isoUtc(found.ms) : found.message;
};

describe('an instant with an offset', () => {
  it.each([
    ['2026-05-14T07:30Z', '2026-05-14T07:30:00Z'],
    ['2026-05-14T07:30:15Z', '2026-05-14T07:30:15Z'],
    ['2026-05-14T07:30+01:00', '2026-05-14T06:30:00Z'],
    ['2026-05-14T07:30+0100', '2026-05-14T06:30:00Z'],
    ['2026-05-14T07:30-05', '2026-05-14T12:30:00Z'],
    ['2026-05-14T23:30-10:00', '2026-05-15T09:30:00Z'],
    ['2026-05-14T07:30+05:45', '2026-05-14T01:45:00Z'],
  ])('%s is %s, whatever the zone', (text, utc) => {
    expect(read(text)).toBe(utc);
    expect(read(text, 'America/Chicago')).toBe(utc);
    expect(read(text, 'Europe/Dublin')).toBe(utc);
  });
});

describe('an instant without an offset', () => {
  it('is local to the zone', () => {
    expect(read('2026-05-14T07:30', 'Europe/Dublin')).toBe('2026-05-14T06:30:00Z');
    expect(read('2026-12-14T07:30', 'Europe/Dublin')).toBe('2026-12-14T07:30:00Z');
    expect(read('2026-05-14T07:30', 'America/Chicago')).toBe('2026-05-14T12:30:00Z');
    expect(read('2026-05-14T07:30', 'Pacific/Kiritimati')).toBe('2026-05-13T17:30:00Z');
  });

  it('is refused without a zone, and the sentence says how to write it', () => {
    const message = read('2026-05-14T07:30');
    expect(message).toContain('has no zone');
    expect(message).toContain('2026-05-14T07:30Z');
    expect(message).toContain('2026-05-14T07:30+01:00');
  });

  it('is refused inside the hour the clocks skip', () => {
    for (const [text, zone] of [
      ['2026-03-29T01:30', 'Europe/Dublin'],
      ['2026-03-29T01:00', 'Europe/Dublin'],
      ['2026-03-08T02:30', 'America/Chicago'],
    ] as const) {
      expect(read(text, zone)).toBe(
        `'${text}' does not exist in ${zone}: the clocks go forward then`,
      );
    }
    expect(read('2026-03-29T00:59', 'Europe/Dublin')).toBe('2026-03-29T00:59:00Z');
    expect(read('2026-03-29T02:00', 'Europe/Dublin')).toBe('2026-03-29T01:00:00Z');
    expect(read('2026-03-08T03:00', 'America/Chicago')).toBe('2026-03-08T08:00:00Z');
  });

  it('is the first of the two where the clocks go back', () => {
    expect(read('2026-10-25T01:30', 'Europe/Dublin')).toBe('2026-10-25T00:30:00Z');
    expect(read('2026-11-01T01:30', 'America/Chicago')).toBe('2026-11-01T06:30:00Z');
    expect(read('2026-10-25T02:00', 'Europe/Dublin')).toBe('2026-10-25T02:00:00Z');
    expect(read('2026-11-01T02:00', 'America/Chicago')).toBe('2026-11-01T08:00:00Z');
  });
});

describe('which of two equal local times is meant', () => {
  afterEach(() => {
    vi.useRealTimers();
  });

  it('does not hang on the season in which it is asked', () => {
    for (const today of ['2026-01-15T12:00:00Z', '2026-07-15T12:00:00Z']) {
      vi.useFakeTimers({ now: Date.parse(today) });
      expect(read('2026-10-25T01:30', 'Europe/Dublin')).toBe('2026-10-25T00:30:00Z');
      expect(read('2026-11-01T01:30', 'America/Chicago')).toBe('2026-11-01T06:30:00Z');
    }
  });
});

describe('what is no instant', () => {
  it.each(['tomorrow', '2026-05-14', '07:30', '14/05/2026 07:30', '2026-05-14 07:30', ''])(
    '%j is refused with an example of what is',
    (text) => {
      expect(read(text, 'Europe/Dublin')).toBe(
        `'${text}' is not a date and time such as 2026-05-14T07:30 or 2026-05-14T07:30Z`,
      );
    },
  );

  it.each([
    '2026-02-30T10:00',
    '2026-13-01T10:00Z',
    '2026-05-14T25:00Z',
    '2026-05-14T07:61',
    '2026-05-14T07:30 or so',
    '2026-05-14T07:30+99:00',
  ])('%j is refused as one that does not exist', (text) => {
    expect(read(text, 'Europe/Dublin')).toBe(`'${text}' is not a date and time that exists`);
  });
});

describe('a time zone', () => {
  it('is an IANA name', () => {
    for (const zone of ['Europe/Dublin', 'America/Chicago', 'Pacific/Kiritimati', 'UTC'])
      expect(isTimeZone(zone)).toBe(true);
    for (const zone of ['Dublin', 'Europe/Atlantis', '']) expect(isTimeZone(zone)).toBe(false);
  });
});
