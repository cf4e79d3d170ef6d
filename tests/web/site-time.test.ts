import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import { age, clockTime, dateShort, localDate, timeFrom } from '../../web/src/time/site-time.ts';
import { readWallTime, wallToMs } from '../../web/src/time/wall-time.ts';
import { pageSetup } from '../browser/page-setup.ts';
import { openPage, startableJob } from './open-page.ts';

// Reference: IANA time zone database through luxon, apart from the page's own code.
describe('instants on the site’s wall clock', () => {
  const zones = ['Europe/Dublin', 'America/Chicago', 'Australia/Lord_Howe', 'Asia/Kathmandu'];

  it.each(zones)('reads the same as luxon in %s, over both clock changes', (zone) => {
    const startMs = Date.parse('2026-01-01T00:07:00Z');
    for (let hour = 0; hour < 365 * 24; hour += 5) {
      const ms = startMs + hour * 3_600_000;
      const reference = DateTime.fromMillis(ms, { zone });
      expect(clockTime(ms, zone)).toBe(reference.toFormat('HH:mm'));
      expect(localDate(ms, zone)).toBe(reference.toISODate());
    }
  });

  it.each(zones)('finds the instant of a wall time in %s', (zone) => {
    for (let day = 0; day < 365; day += 9) {
      const wall = DateTime.fromISO('2026-01-01T09:40', { zone }).plus({ days: day });
      expect(wallToMs(wall.toISODate() ?? '', '09:40', zone)).toBe(wall.toMillis());
    }
  });

  it('takes the first of the two 01:30 in Chicago on 1 November 2026', () => {
    // Daylight time is UTC-5 until 07:00Z that day.
    const first = Date.parse('2026-11-01T06:30:00Z');
    expect(wallToMs('2026-11-01', '01:30', 'America/Chicago')).toBe(first);
  });

  it('has no instant for 01:30 in Dublin on 29 March 2026, which the change leaves out', () => {
    expect(wallToMs('2026-03-29', '01:30', 'Europe/Dublin')).toBeNull();
  });

  it('reads a time however it is typed, and nothing that is no time', () => {
    expect(['9:40', '09:40', '09.40', '0940', '940', ' 9:40 '].map(readWallTime)).toEqual(
      Array.from({ length: 6 }, () => '09:40'),
    );
    expect(['24:00', '9:60', 'noon', '', '12', '9:4', '-1:30'].map(readWallTime)).toEqual(
      Array.from({ length: 7 }, () => null),
    );
  });

  it('puts the day in front of a time on another day', () => {
    const ms = Date.parse('2026-05-15T05:10:00Z');
    expect(timeFrom(ms, 'Europe/Dublin', '2026-05-15')).toBe('06:10');
    expect(timeFrom(ms, 'Europe/Dublin', '2026-05-14')).toBe('Fri 15 May 06:10');
    expect(dateShort('2026-05-14')).toBe('Thu 14');
  });

  it('says an age in hours and minutes', () => {
    expect(age(0, 220 * 60_000)).toBe('3 h 40 min');
    expect(age(0, 59 * 60_000)).toBe('59 min');
    expect(age(0, 52 * 3_600_000)).toBe('2 days 4 h');
  });
});

describe('a browser that is somewhere else', () => {
  const pages = pageSetup();

  it.each(['America/Chicago', 'Pacific/Auckland'])('in %s shows the site’s times', async (zone) => {
    const { row, days, day } = await startableJob(pages.url);
    const site = (ms: number) =>
      DateTime.fromMillis(ms, { zone: days.job.timeZone }).toFormat('HH:mm');
    const opened = await openPage(pages.browser, pages.url, { widthPx: 390, zone });
    const { page } = opened;
    await page.goto(`${pages.url}/job/${row.job.id}/day/${day.date}`);
    await page.locator('.work > li').first().waitFor();
    const here = await page.evaluate((ms) => new Date(ms).getHours(), day.startMs ?? 0);
    expect(here, 'the browser is elsewhere').not.toBe(
      DateTime.fromMillis(day.startMs ?? 0, { zone: days.job.timeZone }).hour,
    );
    const times = await page
      .locator('time')
      .evaluateAll((all) => all.map((one) => [one.getAttribute('datetime'), one.textContent]));
    expect(times.length).toBeGreaterThan(4);
    for (const [iso, shown] of times) {
      expect(shown?.endsWith(site(Date.parse(iso ?? ''))), `${iso} shown as ${shown}`).toBe(true);
    }
    await opened.close();
  });
});
