import { describe, expect, it } from 'vitest';
import { pageSetup } from '../browser/page-setup.ts';
import { openPage, startableJob } from './open-page.ts';

/** Refused and missing answers are what these tests are about. */
const LOST_LINE = [
  /request failed: (GET|POST) .*\/api\//,
  /console error: Failed to load resource/,
];
const REFUSED = [/answer 4\d\d: (GET|POST) .*\/api\//, /console error: Failed to load resource/];

const heading = (date: string) =>
  new Intl.DateTimeFormat('en-GB', {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    timeZone: 'UTC',
  })
    .format(Date.parse(date))
    .replace(',', '');

describe('when something is wrong', () => {
  const here = pageSetup();

  it('says in a sentence that the server is out of reach, and asks again', async () => {
    const { row } = await startableJob(here.url);
    const opened = await openPage(here.browser, here.url, { widthPx: 390, expected: LOST_LINE });
    const { page } = opened;
    await page.route('**/api/**', (route) => route.abort());
    await page.goto(here.url);
    const alert = page.getByRole('alert');
    await alert.getByText(/server is off or out of reach/).waitFor();
    await opened.assertSound();
    await page.unroute('**/api/**');
    await page.getByRole('button', { name: 'Ask again' }).click();
    await page.getByRole('link', { name: row.job.name, exact: true }).waitFor();
    expect(await alert.count()).toBe(0);
    await opened.close();
  });

  it('keeps what is on screen when the line is lost later', async () => {
    const { row, day } = await startableJob(here.url);
    const opened = await openPage(here.browser, here.url, { widthPx: 390, expected: LOST_LINE });
    const { page } = opened;
    await page.goto(`${here.url}/job/${row.job.id}`);
    const shown = page.locator('.day-entry h2', { hasText: heading(day.date) });
    await shown.waitFor();
    await page.getByRole('link', { name: 'Clock', exact: true }).click();
    await page.getByRole('combobox', { name: 'Product' }).waitFor();
    await page.route('**/api/**', (route) => route.abort());
    await page.goBack();
    await page
      .getByRole('alert')
      .getByText(/may be old/)
      .waitFor();
    expect(await shown.isVisible()).toBe(true);
    await opened.close();
  });

  it.each([
    ['/nowhere/at/all', /leads nowhere in Layfair/],
    ['/job/no-such-job', /no-such-job/],
  ])('answers %s with a sentence', async (path, sentence) => {
    const opened = await openPage(here.browser, here.url, { widthPx: 390, expected: REFUSED });
    await opened.page.goto(here.url + path);
    await opened.page.getByRole('main').getByText(sentence).first().waitFor();
    await opened.assertSound();
    await opened.close();
  });

  it('answers a day that is no date with a sentence', async () => {
    const { row } = await startableJob(here.url);
    const opened = await openPage(here.browser, here.url, { widthPx: 390, expected: REFUSED });
    await opened.page.goto(`${here.url}/job/${row.job.id}/day/next-week`);
    await opened.page
      .getByRole('alert')
      .getByText(/next-week|YYYY-MM-DD/)
      .first()
      .waitFor();
    await opened.close();
  });

  it('says what is wrong beside the field and keeps what was typed', async () => {
    const opened = await openPage(here.browser, here.url, { widthPx: 390, expected: REFUSED });
    const { page } = opened;
    await page.goto(`${here.url}/clock`);
    await page.getByRole('combobox', { name: 'Product' }).selectOption({ index: 1 });
    await page.getByLabel('Readings taken here').check();
    const field = (name: string) => page.getByRole('textbox', { name: new RegExp(`^${name}`) });
    await field('Coated at').fill('half nine');
    await field('Air temperature').fill('15');
    await field('Relative humidity').fill('180');
    await field('Wind').fill('breezy');
    await page.getByRole('button', { name: 'Run the clock' }).click();
    await page.getByText(/Coated at is “half nine”; a 24-hour time/).waitFor();
    await page.getByText(/Wind is “breezy”; a number in m\/s/).waitFor();
    expect(await field('Coated at').evaluate((one) => one === document.activeElement)).toBe(true);
    await opened.assertSound();

    await field('Coated at').fill('9:30');
    await field('Wind').fill('2');
    await page.getByRole('button', { name: 'Run the clock' }).click();
    const humidity = field('Relative humidity');
    await page.locator('#rh-error').waitFor();
    expect(await page.locator('#rh-error').textContent()).toContain('180');
    expect(await humidity.getAttribute('aria-describedby')).toBe('rh-error');
    expect(await humidity.inputValue()).toBe('180');
    expect(await field('Air temperature').inputValue()).toBe('15');
    await opened.assertSound();

    await humidity.fill('60');
    await page.getByRole('button', { name: 'Run the clock' }).click();
    await page.locator('.clock-result .sentence').waitFor();
    expect(await page.locator('.field-error').count()).toBe(0);
    await opened.close();
  });
});
