import { DateTime } from 'luxon';
import type { Locator } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { ClockAnswer } from '../../src/contract/index.ts';
import type { Product } from '../../src/products/index.ts';
import { pageSetup } from '../browser/page-setup.ts';
import { data, openPage } from './open-page.ts';

const JOB = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c03';
const ZONE = 'Europe/Dublin';
const clock = (ms: number) => DateTime.fromMillis(ms, { zone: ZONE }).toFormat('HH:mm');
const words = async (part: Locator) => ((await part.textContent()) ?? '').replace(/\s+/g, ' ');

describe('the clock page', { timeout: 90_000 }, () => {
  const setup = pageSetup();
  const run = async (
    widthPx: number,
    { product = 'contact-solvent', coated, until = '' }: Record<string, string>,
  ) => {
    const opened = await openPage(setup.browser, setup.url, { widthPx });
    const { page } = opened;
    page.setDefaultTimeout(20_000);
    const at = Date.parse(`2026-05-13T${coated}:00+01:00`);
    await page.goto(`${setup.url}/clock?product=${product}&job=${JOB}&at=${at}`);
    await page.getByRole('textbox', { name: 'Last square metre at' }).fill(until);
    await page.getByRole('button', { name: 'Run the clock' }).click();
    const result = page.locator('.clock-result');
    await result.waitFor();
    const query = new URLSearchParams({ product, job: JOB, coated: `2026-05-13T${coated}` });
    if (until !== '') query.set('until', `2026-05-13T${until}`);
    const answer = await data<ClockAnswer>(setup.url, `/api/clock?${query}`);
    return { opened, result, answer, text: await words(result) };
  };

  it.each([390, 1280])(
    'shows every moment with its range and when to close, at %i px',
    async (widthPx) => {
      const { opened, answer, text } = await run(widthPx, { coated: '09:00', until: '09:20' });
      const { touchDry, usableUntil, window } = answer;
      for (const range of [touchDry, usableUntil]) {
        for (const ms of Object.values(range!)) expect(text).toContain(clock(ms!));
      }
      expect(text).toContain('Full cure');
      if (window?.kind !== 'finger')
        throw new Error(`expected a window by finger, not ${window?.kind}`);
      expect(text).toContain(
        `Close between ${clock(window.likely.fromMs)} and ${clock(window.likely.untilMs!)}`,
      );
      expect(text).toContain('first to last square metre');
      for (const face of ['deck', 'folded-back sheet']) expect(text).toContain(face);
      await opened.assertSound();
      await opened.close();
    },
  );

  it('names the face that goes off before the other is ready', async () => {
    const { opened, answer, text } = await run(390, { coated: '11:00', until: '12:30' });
    if (answer.window?.kind !== 'none') throw new Error('expected no window');
    expect(text).toContain('No time to close it');
    expect(text).toContain(`goes off about ${clock(answer.window.expiresMs)}`);
    await opened.assertSound();
    await opened.close();
  });

  it('withholds ready outside the data sheet: which limit, whose, since when', async () => {
    const { opened, answer, text } = await run(390, { coated: '02:00' });
    expect(answer.withheld).toBe(true);
    expect(text).toContain('Not called ready');
    expect(text).toMatch(/Touch dry ?withheld/);
    for (const reason of answer.outsideReasons) {
      expect(text).toContain(`${reason.words}; since ${clock(reason.atMs)}`);
      expect(text).toContain(reason.whose);
    }
    expect(text).not.toMatch(/Close between/);
    await opened.assertSound();
    await opened.close();
  });

  it('says from when a foot may be set on what is closed wet', async () => {
    const { opened, answer, text } = await run(390, {
      product: 'polyurethane-one-part',
      coated: '11:00',
    });
    expect(text).toContain('Foot traffic');
    expect(text).toContain(clock(answer.footTraffic!.midMs!));
    expect(text).toContain('While it is wet');
    await opened.close();
  });

  it('offers only products that have a time, and those of the firm first', async () => {
    const own = {
      requestId: crypto.randomUUID(),
      version: null,
      product: {
        format: 'layfair-own-product-1',
        id: 'shed-contact',
        name: 'Contact adhesive from the shed',
        basedOn: 'contact-solvent',
      },
    };
    const put = await fetch(`${setup.url}/api/products/shed-contact`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(own),
    });
    expect(put.status, await put.clone().text()).toBe(201);
    const { products } = await data<{ products: Product[] }>(setup.url, '/api/products');
    const timed = products.filter(
      (product) =>
        product.touchDry ?? product.openUntil ?? product.rainAfter ?? product.footTraffic,
    );
    const opened = await openPage(setup.browser, setup.url, { widthPx: 390 });
    await opened.page.goto(`${setup.url}/clock`);
    const select = opened.page.getByRole('combobox', { name: 'Product' });
    await select.waitFor();
    const offered = await select
      .locator('option')
      .evaluateAll((all) =>
        all.map((one) => (one as HTMLOptionElement).value).filter((value) => value !== ''),
      );
    expect(offered[0]).toBe('shed-contact');
    expect([...offered].sort()).toEqual(timed.map(({ id }) => id).sort());
    expect(offered).not.toContain('seam-tape');
    await opened.close();
  });
});
