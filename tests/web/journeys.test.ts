import { DateTime } from 'luxon';
import type { Locator } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { DaysAnswer, Firm, WorkAnswer } from '../../src/contract/index.ts';
import { pageSetup } from '../browser/page-setup.ts';
import { data, openPage, plannedJobs, startableJob } from './open-page.ts';

/** Site times are worked out here with luxon and the IANA zones, apart from the page's own code. */
const clock = (ms: number, zone: string) => DateTime.fromMillis(ms, { zone }).toFormat('HH:mm');
const heading = (date: string) => DateTime.fromISO(date, { zone: 'UTC' }).toFormat('cccc d LLLL');

const words = async (part: Locator) => ((await part.textContent()) ?? '').replace(/\s+/g, ' ');

/** The demo job that takes least to search in full, and its best day. */
async function searchedJob(base: string) {
  const { row } = (await plannedJobs(base)).find((job) => job.row.job.name.startsWith('Net hall'))!;
  const days = await data<DaysAnswer>(base, `/api/jobs/${row.job.id}/days`);
  const day = days.days.find((one) => one.rank === 1)!;
  return { row, days, day };
}

describe('from all jobs to the clock', { timeout: 90_000 }, () => {
  const here = pageSetup();

  describe.each([390, 1280])('at %i px', (widthPx) => {
    it('shows every job with its days, in words and figures beside the fill', async () => {
      const jobs = await plannedJobs(here.url);
      const firm = await data<Firm>(here.url, '/api/firm');
      const opened = await openPage(here.browser, here.url, { widthPx });
      const { page } = opened;
      await page.goto(here.url);
      if (firm.banner) await page.getByText(firm.banner).waitFor();
      expect(jobs.length).toBeGreaterThan(0);
      for (const { row, days } of jobs) {
        const entry = page.getByRole('region', { name: row.job.name });
        await entry.getByText('Waiting for the job above').waitFor({ state: 'detached' });
        if (days.weather === null) {
          await entry.getByText(/no current forecast/i).waitFor();
          expect(await entry.getByText(/in 10/).count()).toBe(0);
          continue;
        }
        const lines = entry.getByRole('listitem');
        await lines.first().waitFor();
        for (const [index, day] of days.days.entries()) {
          const text = await words(lines.nth(index));
          if (day.chance) expect(text).toContain(day.chance.words);
          if (day.chance) expect(text).toContain(`caught open ${day.outcomes.caughtOpen} of`);
          if (day.startMs !== null) {
            expect(text).toContain(`start ${clock(day.startMs, days.job.timeZone)}`);
          }
          if (day.chance?.tenths != null) {
            const laid = await lines.nth(index).locator('.sheet-laid').count();
            expect(laid, `sheets laid on ${day.date}`).toBe(day.chance.tenths);
          }
        }
      }
      await opened.assertSound();
      await opened.close();
    });

    it('leads from a job to its best day, its order of work and its clock', async () => {
      const { row, days, day } = await searchedJob(here.url);
      const zone = days.job.timeZone;
      const work = await data<WorkAnswer>(here.url, `/api/jobs/${row.job.id}/work?day=${day.date}`);
      const opened = await openPage(here.browser, here.url, { widthPx });
      const { page } = opened;
      await page.goto(here.url);
      await page.getByRole('link', { name: row.job.name, exact: true }).click();

      await page.getByText(/^Searched in full/).waitFor({ timeout: 60_000 });
      await page.getByText(day.sentence).first().waitFor();
      const best = page
        .getByRole('listitem')
        .filter({ hasText: heading(day.date) })
        .first();
      const bestText = await words(best);
      expect(bestText).toContain(`Start${clock(day.startMs ?? 0, zone)}`);
      expect(bestText).toContain(`caught open ${day.outcomes.caughtOpen} of`);
      expect(bestText).toContain('not yet checked against outcomes here');
      const count = best.getByText(
        `finishes in ${day.chance?.count} of ${day.chance?.of} forecasts`,
      );
      expect(await count.isVisible(), 'the count is one tap below').toBe(false);
      await best.getByText('How often, by forecast').click();
      await count.waitFor();
      await opened.assertSound();

      await page.getByRole('link', { name: `Order of work for ${heading(day.date)}` }).click();
      await page.getByRole('heading', { name: `Order of work, ${heading(day.date)}` }).waitFor();
      const order = page.locator('.work > li');
      await order.first().waitFor();
      expect(await order.count()).toBeGreaterThan(0);
      expect(await order.count()).toBeLessThanOrEqual(work.items.length);
      const firstItem = work.items[0];
      if (!firstItem) throw new Error('the best day has no order of work');
      const firstText = await words(order.first());
      expect(firstText).toContain(clock(firstItem.startMs, zone));
      await page.locator('svg.hours-chart').waitFor();
      await page.getByText('The same hours as a table').click();
      await page.getByRole('table', { name: /Hour by hour/ }).waitFor();
      await opened.assertSound();

      await page.getByRole('link', { name: 'Clock', exact: true }).click();
      await page.getByRole('combobox', { name: 'Product' }).selectOption({ index: 1 });
      await page.getByRole('combobox', { name: 'Job' }).selectOption(row.job.id);
      await page.getByRole('button', { name: 'Run the clock' }).click();
      await page.locator('.clock-result .sentence').waitFor();
      await opened.assertSound();
      await opened.close();
    });
  });

  it('opens a day from its address alone', async () => {
    const { row, day } = await startableJob(here.url);
    const opened = await openPage(here.browser, here.url, { widthPx: 390 });
    await opened.page.goto(`${here.url}/job/${row.job.id}/day/${day.date}`);
    await opened.page.getByRole('heading', { level: 1, name: row.job.name }).waitFor();
    await opened.page.locator('.work > li').first().waitFor();
    expect(await opened.page.title()).toContain(row.job.name);
    opened.assertQuiet();
    await opened.close();
  });

  it('keeps buttons, folds, fields and day lines at 44 px or more for gloves', async () => {
    const { row } = await startableJob(here.url);
    const opened = await openPage(here.browser, here.url, { widthPx: 390 });
    const { page } = opened;
    for (const path of ['/', `/job/${row.job.id}`, '/clock']) {
      await page.goto(here.url + path, { waitUntil: 'networkidle' });
      const targets = page.locator('button, summary, select, input[type=text], .day-line a, nav a');
      const heights = await targets.evaluateAll((all) =>
        all
          .filter((one) => one.getBoundingClientRect().height > 0)
          .map(
            (one) => [one.textContent?.slice(0, 30), one.getBoundingClientRect().height] as const,
          ),
      );
      expect(heights.length).toBeGreaterThan(2);
      expect(heights.filter(([, height]) => height < 44)).toEqual([]);
    }
    await opened.close();
  });
});
