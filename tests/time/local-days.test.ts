import { describe, expect, it } from 'vitest';
import {
  clockText,
  isoUtc,
  localDayOf,
  localDayOn,
  localDaysBetween,
  longDayText,
  shortDayText,
  spanText,
  wallTimeMs,
} from '../../src/time/index.ts';

/** Clock changes from the IANA time zone database, see instants.test.ts. */

const HOUR_MS = 3_600_000;
const hoursOf = (date: string, zone: string) => {
  const { startMs, endMs } = localDayOn(date, zone);
  return (endMs - startMs) / HOUR_MS;
};
const wall = (date: string, time: string, zone: string) =>
  isoUtc(wallTimeMs(localDayOn(date, zone), time, zone));

describe('a local day', () => {
  it.each([
    ['2026-03-28', 'Europe/Dublin', 24],
    ['2026-03-29', 'Europe/Dublin', 23],
    ['2026-10-25', 'Europe/Dublin', 25],
    ['2026-03-08', 'America/Chicago', 23],
    ['2026-11-01', 'America/Chicago', 25],
    ['2026-05-14', 'Pacific/Kiritimati', 24],
    ['2026-10-04', 'Australia/Lord_Howe', 23.5],
  ])('%s in %s has %d hours', (date, zone, hours) => {
    expect(hoursOf(date, zone)).toBe(hours);
  });

  it('west of Greenwich begins after midnight UTC, east of it before', () => {
    expect(isoUtc(localDayOn('2026-05-14', 'America/Chicago').startMs)).toBe(
      '2026-05-14T05:00:00Z',
    );
    expect(isoUtc(localDayOn('2026-05-14', 'Pacific/Kiritimati').startMs)).toBe(
      '2026-05-13T10:00:00Z',
    );
  });

  it('is found for an instant: the same one lies in three days at once', () => {
    const ms = Date.UTC(2026, 4, 14, 10, 30);
    expect(localDayOf(ms, 'Pacific/Kiritimati').date).toBe('2026-05-15');
    expect(localDayOf(ms, 'Europe/Dublin').date).toBe('2026-05-14');
    expect(localDayOf(ms, 'Pacific/Pago_Pago').date).toBe('2026-05-13');
  });

  it('holds its first moment and not its end', () => {
    const day = localDayOn('2026-03-29', 'Europe/Dublin');
    expect(localDayOf(day.startMs, 'Europe/Dublin')).toEqual(day);
    expect(localDayOf(day.endMs - 1, 'Europe/Dublin')).toEqual(day);
    expect(localDayOf(day.endMs, 'Europe/Dublin').date).toBe('2026-03-30');
  });

  it('knows its weekday: 1 = Monday to 7 = Sunday', () => {
    expect(localDayOn('2026-05-11', 'Europe/Dublin').weekday).toBe(1);
    expect(localDayOn('2026-03-29', 'Europe/Dublin').weekday).toBe(7);
  });

  it('is refused for a date that does not exist', () => {
    expect(() => localDayOn('2026-02-30', 'Europe/Dublin')).toThrow();
  });
});

describe('the days between two instants', () => {
  it.each(['Europe/Dublin', 'America/Chicago', 'Pacific/Kiritimati', 'America/Santiago'])(
    'follow on without gap, overlap or repeat over a year in %s',
    (zone) => {
      const days = localDaysBetween(Date.UTC(2026, 0, 1), Date.UTC(2027, 0, 1), zone);
      expect(days.length).toBeGreaterThanOrEqual(365);
      days.slice(1).forEach((day, n) => {
        expect(day.startMs).toBe(days[n]!.endMs);
        expect(day.date > days[n]!.date).toBe(true);
        expect(day.weekday).toBe((days[n]!.weekday % 7) + 1);
      });
    },
  );

  it('are those that are touched: from the day of the first to the day before the last', () => {
    const zone = 'America/Chicago';
    const dates = (from: string, to: string) =>
      localDaysBetween(Date.parse(from), Date.parse(to), zone).map((day) => day.date);
    expect(dates('2026-05-14T04:59:00Z', '2026-05-14T05:00:00Z')).toEqual(['2026-05-13']);
    expect(dates('2026-05-14T04:59:00Z', '2026-05-14T05:01:00Z')).toEqual([
      '2026-05-13',
      '2026-05-14',
    ]);
    expect(dates('2026-05-14T05:00:00Z', '2026-05-14T05:00:00Z')).toEqual([]);
  });
});

describe('a wall-clock time on a day', () => {
  it('is what the clock on the wall shows, also after the clocks have changed', () => {
    expect(wall('2026-03-28', '07:30', 'Europe/Dublin')).toBe('2026-03-28T07:30:00Z');
    expect(wall('2026-03-29', '07:30', 'Europe/Dublin')).toBe('2026-03-29T06:30:00Z');
    expect(wall('2026-10-25', '07:30', 'Europe/Dublin')).toBe('2026-10-25T07:30:00Z');
    expect(wall('2026-03-08', '07:30', 'America/Chicago')).toBe('2026-03-08T12:30:00Z');
    expect(wall('2026-11-01', '07:30', 'America/Chicago')).toBe('2026-11-01T13:30:00Z');
  });

  it('that happens twice is the first', () => {
    expect(wall('2026-10-25', '01:30', 'Europe/Dublin')).toBe('2026-10-25T00:30:00Z');
    expect(wall('2026-11-01', '01:30', 'America/Chicago')).toBe('2026-11-01T06:30:00Z');
  });

  it('that is skipped is the moment the clocks have gone forward', () => {
    for (const time of ['01:00', '01:30', '01:59'])
      expect(wall('2026-03-29', time, 'Europe/Dublin')).toBe('2026-03-29T01:00:00Z');
    for (const time of ['02:00', '02:30'])
      expect(wall('2026-03-08', time, 'America/Chicago')).toBe('2026-03-08T08:00:00Z');
  });
});

describe('times in words', () => {
  it('are those of the place', () => {
    const ms = Date.UTC(2026, 4, 12, 4, 40);
    expect(clockText(ms, 'Europe/Dublin')).toBe('05:40');
    expect(clockText(ms, 'America/Chicago')).toBe('23:40');
    expect(longDayText(ms, 'Europe/Dublin')).toBe('Tuesday 12 May');
    expect(shortDayText(ms, 'America/Chicago')).toBe('Mon 11 May');
  });

  it('give lengths in minutes, hours and days', () => {
    expect(spanText(40 * 60_000)).toBe('40 min');
    expect(spanText(60 * 60_000)).toBe('1 h');
    expect(spanText(200 * 60_000)).toBe('3 h 20 min');
    expect(spanText(52 * HOUR_MS)).toBe('2 days 4 h');
    expect(spanText(-90 * 60_000)).toBe('1 h 30 min');
  });
});
