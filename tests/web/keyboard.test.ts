import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { pageSetup } from '../browser/page-setup.ts';
import { openPage, startableJob } from './open-page.ts';

const MOST_TABS = 200;

/** Press Tab until something with that name has the focus; its outline must be visible. */
async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  for (let press = 0; press < MOST_TABS; press += 1) {
    await page.keyboard.press('Tab');
    const { text, outline } = await page.evaluate(() => {
      const at = document.activeElement;
      if (!(at instanceof HTMLElement)) return { text: '', outline: '0px' };
      const label = at instanceof HTMLInputElement || at instanceof HTMLSelectElement;
      const words = label ? (at.labels?.[0]?.textContent ?? '') : (at.textContent ?? '');
      return { text: words.trim(), outline: getComputedStyle(at).outlineWidth };
    });
    if (typeof name === 'string' ? text === name : name.test(text)) {
      expect(Number.parseFloat(outline), `focus ring on ${text}`).toBeGreaterThanOrEqual(2);
      return;
    }
  }
  throw new Error(`Tab never reached ${name} at ${page.url()}`);
}

const focusedTag = (page: Page) => page.evaluate(() => document.activeElement?.tagName);

describe('with the keyboard alone', () => {
  const here = pageSetup();

  it('goes from all jobs to the order of work, the focus on each heading in turn', async () => {
    const { row } = await startableJob(here.url);
    const opened = await openPage(here.browser, here.url, { widthPx: 1280 });
    const { page } = opened;
    await page.goto(here.url);
    await page.getByRole('link', { name: row.job.name, exact: true }).waitFor();
    await tabTo(page, row.job.name);
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/job\/[^/]+$/);
    await page
      .getByRole('link', { name: /^Order of work for/ })
      .first()
      .waitFor();
    expect(await focusedTag(page)).toBe('H1');
    await tabTo(page, 'How often, by forecast');
    await page.keyboard.press('Enter');
    await page
      .getByText(/finishes in \d+ of \d+ forecasts/)
      .first()
      .waitFor();
    await tabTo(page, /^Order of work for/);
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/day\//);
    await page.locator('.work > li').first().waitFor();
    expect(await focusedTag(page)).toBe('H1');
    opened.assertQuiet();
    await opened.close();
  });

  it('skips to the page from the first Tab', async () => {
    const opened = await openPage(here.browser, here.url, { widthPx: 390 });
    const { page } = opened;
    await page.goto(here.url);
    await page.keyboard.press('Tab');
    const skip = page.getByRole('link', { name: 'Skip to the page' });
    expect((await skip.boundingBox())?.x).toBeGreaterThanOrEqual(0);
    await page.keyboard.press('Enter');
    await page.waitForURL(/#content$/);
    await page.keyboard.press('Tab');
    const inMain = await page.evaluate(() => document.activeElement?.closest('main') !== null);
    expect(inMain).toBe(true);
    await opened.close();
  });

  it('runs the clock on readings', async () => {
    const opened = await openPage(here.browser, here.url, { widthPx: 390 });
    const { page } = opened;
    await page.goto(`${here.url}/clock`);
    await page.getByRole('combobox', { name: 'Product' }).waitFor();
    await tabTo(page, /^Product(?!s$)/);
    await page.keyboard.press('ArrowDown');
    await tabTo(page, 'The forecast of a job');
    await page.keyboard.press('ArrowDown');
    for (const [label, typed] of [
      [/^Air temperature/, '15'],
      [/^Relative humidity/, '60'],
      [/^Wind/, '2,5'],
    ] as const) {
      await tabTo(page, label);
      await page.keyboard.type(typed);
    }
    await page.keyboard.press('Enter');
    await page.locator('.clock-result .sentence').waitFor();
    opened.assertQuiet();
    await opened.close();
  });
});
