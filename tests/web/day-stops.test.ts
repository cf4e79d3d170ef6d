import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import type { WorkAnswer } from '../../src/contract/index.ts';
import { pageSetup } from '../browser/page-setup.ts';
import { data, openPage } from './open-page.ts';

/** A roof over an occupied room, so that not every place is one to stop at. */
const JOB = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c02';
const DATE = '2026-05-14';

describe('places to stop and the folded list, on the day page', { timeout: 90_000 }, () => {
  const setup = pageSetup();
  const open = async (widthPx: number) => {
    const work = await data<WorkAnswer>(setup.url, `/api/jobs/${JOB}/work?day=${DATE}`);
    const opened = await openPage(setup.browser, setup.url, { widthPx });
    opened.page.setDefaultTimeout(20_000);
    await opened.page.goto(`${setup.url}/job/${JOB}/day/${DATE}`);
    await opened.page.locator('.stop').first().waitFor();
    return { ...opened, work };
  };

  it.each([390, 1280])(
    'tells each with its verdict, next shift and weather at %i px',
    async (widthPx) => {
      const opened = await open(widthPx);
      const { page, work } = opened;
      const zone = work.job.timeZone;
      const stops = page.locator('.stop');
      expect(work.stops.length).toBeGreaterThan(2);
      expect(work.stops.some(({ allowed }) => !allowed)).toBe(true);
      expect(await stops.count()).toBe(work.stops.length);
      for (const [index, stop] of work.stops.entries()) {
        const entry = stops.nth(index);
        const title = (await entry.locator('summary').textContent()) ?? '';
        expect(title).toContain(stop.title);
        expect(title).toContain(stop.allowed ? 'May stop' : 'Not here');
        await entry.locator('summary').click();
        const text = ((await entry.textContent()) ?? '').replace(/\s+/g, ' ');
        for (const words of [stop.why, stop.words, ...stop.actions]) expect(text).toContain(words);
        const back = DateTime.fromMillis(stop.untilMs, { zone, locale: 'en-GB' });
        expect(text).toContain(`Next shift: ${back.toFormat('ccc d LLL HH:mm')}`);
        if (stop.sealM > 0) expect(text).toMatch(/Seal [\d.]+ m of edge, about (\d+ min|\d+ h)/);
        else expect(text).toContain('No edge to seal');
        if (stop.looseM2 > 0) expect(text).toContain('lies loose, to be weighted');
        if (stop.ballast !== null) {
          // In fives and upwards: less than was worked out must never be read.
          const shown = Number(/loose: (\d+) kg\/m²/.exec(text)?.[1]);
          expect(shown).toBeGreaterThanOrEqual(stop.ballast.fieldKgM2);
          expect(shown).toBeLessThan(stop.ballast.fieldKgM2 + 5);
        }
      }
      await opened.assertSound();
      await opened.close();
    },
  );

  it('folds the list into its stretches, every task in one of them, the first at hand', async () => {
    const opened = await open(390);
    const { page, work } = opened;
    const chapters = page.locator('.chapter');
    expect(await chapters.count()).toBeGreaterThan(2);
    expect(await chapters.nth(0).getAttribute('open')).not.toBeNull();
    expect(await chapters.nth(1).getAttribute('open')).toBeNull();
    const text = ((await page.locator('.order').textContent()) ?? '').replace(/\s+/g, ' ');
    for (const { closes, title } of work.items) {
      // A closing stands beside its coating, under that one's name.
      if (closes === null) expect(text).toContain(title);
    }
    expect(text).toContain('Point of no return');
    const heightPx = await page.evaluate(() => document.documentElement.scrollHeight);
    expect(heightPx, 'page at 390 px').toBeLessThan(5500);
    await opened.close();
  });
});
