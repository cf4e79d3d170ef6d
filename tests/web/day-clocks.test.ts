import { DateTime } from 'luxon';
import type { Locator, Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import type { LearnedAnswer } from '../../src/contract/index.ts';
import { decodePack, type PackAnswer, readPack } from '../../src/products/index.ts';
import { DATE, demoSite, JOB, onSite, ZONE } from './demo-site.ts';
import { data, openPage } from './open-page.ts';

const MINUTE_MS = 60_000;
const clock = (ms: number) => DateTime.fromMillis(ms, { zone: ZONE }).toFormat('HH:mm');
const words = async (part: Locator) => ((await part.textContent()) ?? '').replace(/\s+/g, ' ');

/** The times of a card, without its taps: what must go back exactly. */
const timesOf = async (card: Locator): Promise<string> =>
  (await card.locator('.film-head, .film-sentence, .film-times, .outside').allTextContents()).join(
    '|',
  );

describe('a section coated on the roof', { timeout: 90_000 }, () => {
  const site = demoSite(onSite('06:30'));
  afterEach(() => site.takeAllBack());
  const dayUrl = () => `${site.url}/job/${JOB}/day/${DATE}`;
  const first = () => {
    const coat = site.work.items.find((item) => item.stage === 'field' && item.coats !== null);
    if (!coat) throw new Error('the day coats no field');
    return coat;
  };
  /** Asked of the server's own pack, apart from the page. */
  const asReckoned = async (lastMs: number): Promise<PackAnswer & { readonly ok: true }> => {
    const read = decodePack(await data(site.url, `/api/jobs/${JOB}/days/${DATE}/clock-pack`));
    if (!read.ok) throw new Error(read.message);
    const { startMs, endMs, coats } = first();
    const times = readPack(read.pack, {
      productId: coats!.productId,
      surfaces: coats!.surfaces,
      coatedMs: lastMs - Math.round(endMs - startMs),
      lastCoatedMs: lastMs,
      shifts: [],
    });
    if (!times.ok) throw new Error(times.why);
    return times;
  };
  const open = async (widthPx: number, expected: readonly RegExp[] = []) => {
    const opened = await openPage(site.browser, site.url, { widthPx, expected });
    opened.page.setDefaultTimeout(15_000);
    // The phone has the day's clocks before anything is done to its line.
    const pack = opened.page.waitForResponse((reply) => reply.url().endsWith('/clock-pack'));
    await opened.page.goto(dayUrl());
    await opened.page.locator('.coat-form').waitFor();
    await (await pack).finished();
    return opened;
  };
  const undo = (page: Page) => page.getByRole('button', { name: /^Undo:/ });
  const undoAll = async (page: Page) => {
    while ((await undo(page).count()) > 0) {
      const before = (await site.events()).length;
      await undo(page).click();
      await expect.poll(async () => (await site.events()).length).toBe(before + 1);
    }
  };

  it('gets its clock from one tap, the same as the pack says, and keeps it over a reload', async () => {
    const coatedMs = onSite('10:12');
    site.setTime(coatedMs);
    const opened = await open(390);
    const { page } = opened;
    await page
      .locator('.coat-form')
      .getByRole('button', { name: /^Coated now/ })
      .click();
    const card = page.locator('.film');
    await card.waitFor();
    const [event] = await expect
      .poll(() => site.events(), { timeout: 5000 })
      .toHaveLength(1)
      .then(() => site.events());
    expect(event).toMatchObject({ kind: 'coated', activityId: first().id });
    expect(event!.atMs).toBeGreaterThanOrEqual(coatedMs);
    expect(event!.atMs).toBeLessThan(coatedMs + MINUTE_MS);

    const times = await asReckoned(event!.atMs);
    const text = await words(card);
    for (const ms of [
      times.touchDry!.midMs!,
      times.touchDry!.earlyMs!,
      times.touchDry!.lateMs!,
      times.countUntilMs!,
      times.usableUntil!.earlyMs!,
      times.usableUntil!.lateMs!,
    ]) {
      expect(text).toContain(clock(ms));
    }
    expect(text).toMatch(/Wait/);
    expect(text).toMatch(/Close between \d\d:\d\d and \d\d:\d\d/);
    // Read at arm's length: figures of 36 px or more.
    const sizes = await card
      .locator('.film-times strong')
      .evaluateAll((all) => all.map((one) => Number.parseFloat(getComputedStyle(one).fontSize)));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(36);
    await opened.assertSound();

    const before = await timesOf(card);
    await page.reload();
    await card.waitFor();
    expect(await timesOf(card)).toBe(before);
    await undoAll(page);
    expect(await card.count()).toBe(0);
    await opened.close();
  });

  it('takes a finger test, shifts the clock, and goes back exactly', async () => {
    site.setTime(onSite('10:25'));
    const opened = await open(1280);
    const { page } = opened;
    const form = page.locator('.coat-form');
    await form.getByRole('textbox').fill('10:20');
    await form.getByRole('button', { name: /^Log coated/ }).click();
    const card = page.locator('.film');
    await card.waitFor();
    const before = await timesOf(card);
    await expect.poll(() => site.standing()).toEqual(['coated']);
    const times = await asReckoned(onSite('10:20'));
    // Two minutes later than reckoned: an ordinary log that nobody need ask about.
    const dryMs = Math.ceil(times.touchDry!.midMs! / MINUTE_MS + 2) * MINUTE_MS;
    site.setTime(dryMs + MINUTE_MS);
    await page.reload();
    await card.waitFor();
    await card.getByRole('textbox').first().fill(clock(dryMs));
    await card.getByRole('button', { name: /^Log touch dry/ }).click();
    await card.getByText('Found touch dry', { exact: true }).waitFor();
    expect(await words(card)).toContain(`Found touch dry${clock(dryMs)}`);
    await expect.poll(() => site.standing()).toEqual(['coated', 'touch-dry']);

    await undo(page).click();
    await card.getByText('Found touch dry', { exact: true }).waitFor({ state: 'detached' });
    site.setTime(onSite('10:25'));
    await expect.poll(() => site.standing()).toEqual(['coated']);
    await page.reload();
    await card.waitFor();
    expect(await timesOf(card)).toBe(before);
    await opened.close();
  });

  it('goes back exactly from a reload in between, though the server had learned from the entry', async () => {
    site.setTime(onSite('10:21'));
    const opened = await open(390);
    const { page } = opened;
    const form = page.locator('.coat-form');
    await form.getByRole('textbox').fill('10:20');
    await form.getByRole('button', { name: /^Log coated/ }).click();
    const card = page.locator('.film');
    await card.waitFor();
    const before = await timesOf(card);
    const times = await asReckoned(onSite('10:20'));
    const dryMs = Math.floor(times.touchDry!.earlyMs! / MINUTE_MS) * MINUTE_MS;
    site.setTime(dryMs + MINUTE_MS);
    await page.reload();
    await card.waitFor();
    await card.getByRole('button', { name: /^Touch dry now/ }).click();
    await card.getByText('Found touch dry', { exact: true }).waitFor();
    await expect.poll(() => site.standing()).toEqual(['coated', 'touch-dry']);
    await page.reload();
    await card.getByText('Found touch dry', { exact: true }).waitFor();
    site.setTime(onSite('10:21'));
    await page.reload();
    await card.waitFor();
    await undo(page).click();
    await expect.poll(() => timesOf(card)).toBe(before);
    await opened.close();
  });

  it('runs on without a line, keeps what is logged, and sends it later', async () => {
    site.setTime(onSite('10:30'));
    const opened = await open(390, [/request failed/, /console error: Failed to load resource/]);
    const { page } = opened;
    await page.context().setOffline(true);
    const form = page.locator('.coat-form');
    await form.getByRole('button', { name: /^Coated now/ }).click();
    const card = page.locator('.film');
    await card.waitFor();
    await page.getByText('1 entry is kept on this phone').waitFor();
    const times = await asReckoned(onSite('10:30'));
    expect(await words(card)).toContain(clock(times.countUntilMs!));
    const before = await timesOf(card);
    await card.getByRole('textbox').first().fill(clock(times.touchDry!.midMs!));
    await card.getByRole('button', { name: /^Log touch dry/ }).click();
    await card.getByText('Found touch dry', { exact: true }).waitFor();
    await page.getByText('2 entries are kept on this phone').waitFor();
    await undo(page).click();
    await expect.poll(() => timesOf(card)).toBe(before);
    expect(await site.standing()).toEqual([]);

    await page.context().setOffline(false);
    await page.getByText(/kept on this phone/).waitFor({ state: 'detached' });
    await expect.poll(() => site.standing()).toEqual(['coated']);
    expect((await site.events()).some(({ kind }) => kind === 'touch-dry')).toBe(true);
    await opened.close();
  });

  it('asks about an odd entry: right, and it counts; wrong, and it is taken back', async () => {
    site.setTime(onSite('10:10'));
    const opened = await open(390);
    const { page } = opened;
    const card = page.locator('.film');
    await page.locator('.coat-form').getByRole('textbox').fill('10:00');
    await page
      .locator('.coat-form')
      .getByRole('button', { name: /^Log coated/ })
      .click();
    await card.waitFor();
    const plain = await timesOf(card);
    const logDry = async () => {
      await card.getByRole('textbox').first().fill('10:01');
      await card.getByRole('button', { name: /^Log touch dry/ }).click();
    };
    await logDry();
    const asked = page.locator('.asked');
    // The server's own words, which name what the weather would have made of it.
    await asked.getByText(/Logged after 1 min; .* slip of the pen/).waitFor();
    await opened.assertSound();
    await asked.getByRole('button', { name: 'No, take it back' }).click();
    await asked.waitFor({ state: 'detached' });
    await expect.poll(() => timesOf(card)).toBe(plain);

    await logDry();
    await asked.getByText(/slip of the pen/).waitFor();
    await asked.getByRole('button', { name: 'Yes, that is right' }).click();
    await asked.waitFor({ state: 'detached' });
    await expect.poll(() => site.standing()).toContain('confirm');
    const learned = await data<LearnedAnswer>(
      site.url,
      `/api/products/${first().coats!.productId}/learned?firm=demo`,
    );
    expect(learned.asked).toEqual([]);
    expect(learned.used).toMatchObject([{ tookMin: 1, confirmed: true }]);
    await opened.close();
  });

  it('refuses a finger test from before the film was coated, in a sentence', async () => {
    site.setTime(onSite('10:28'));
    const opened = await open(390);
    const { page } = opened;
    await page.locator('.coat-form').getByRole('textbox').fill('half eleven');
    await page
      .locator('.coat-form')
      .getByRole('button', { name: /^Log coated/ })
      .click();
    await page.getByText('“half eleven” is no time').waitFor();
    await page.locator('.coat-form').getByRole('textbox').fill('10:25');
    await page
      .locator('.coat-form')
      .getByRole('button', { name: /^Log coated/ })
      .click();
    const card = page.locator('.film');
    await card.waitFor();
    await card.getByRole('textbox').first().fill('10:20');
    await card.getByRole('button', { name: /^Log touch dry/ }).click();
    await card.getByText('Touch dry at 10:20 is not after it was coated (10:25).').waitFor();
    opened.assertQuiet();
    await opened.close();
  });

  it('says why nothing is called ready outside the data sheet', async () => {
    site.setTime(onSite('06:30'));
    const opened = await open(390);
    const { page } = opened;
    await page
      .locator('.coat-form')
      .getByRole('button', { name: /^Coated now/ })
      .click();
    const card = page.locator('.film');
    await card.getByText('Not called ready').waitFor();
    const times = await asReckoned(onSite('06:30'));
    expect(times.ready).toBe('withheld');
    const text = await words(card);
    expect(text).toContain('Outside the data sheet');
    expect(text).toContain('surface too near the dew point');
    expect(text).not.toContain(`Touch dry${clock(times.touchDry?.midMs ?? 0)}`);
    expect(text).toContain(clock(times.usableUntil!.earlyMs!));
    await opened.close();
  });

  it('of a part that no list names runs by the usual faces of its product', async () => {
    site.setTime(onSite('10:28'));
    const opened = await open(390);
    const { page } = opened;
    const form = page.locator('.coat-form');
    const options = form.locator('option', { hasText: 'Section not on the list' });
    await form
      .locator('select')
      .selectOption({ label: (await options.first().textContent()) ?? '' });
    await form.getByRole('button', { name: /^Coated now/ }).click();
    const card = page.locator('.film');
    await card.waitFor();
    expect(await words(card)).toContain('deck and folded-back sheet');
    expect(await words(card)).toMatch(/Usable until \d\d:\d\d|Usable until\d\d:\d\d/);
    await opened.close();
  });

  it('works with the keyboard alone, and every target is 44 px or more', async () => {
    site.setTime(onSite('10:30'));
    const opened = await open(390);
    const { page } = opened;
    await page.locator('#coat-part').focus();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    const card = page.locator('.film');
    await card.waitFor();
    const small = await page
      .locator('.on-the-roof, .ahead, .stops, .order')
      .locator('button, summary, select, input')
      .evaluateAll((all) =>
        all
          .map(
            (one) => [one.textContent?.slice(0, 30), one.getBoundingClientRect().height] as const,
          )
          .filter(([, height]) => height > 0 && height < 44),
      );
    expect(small).toEqual([]);
    await opened.close();
  });
});
