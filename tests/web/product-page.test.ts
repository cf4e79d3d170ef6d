import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { JobRow, ProductAnswer } from '../../src/contract/index.ts';
import type { Product } from '../../src/products/index.ts';
import {
  convertCoverage,
  convertPrinted,
  type Quantity,
} from '../../src/products/printed-units.ts';
import { rowsFor } from '../../web/src/products/form-rows.ts';
import { readFigures } from '../../web/src/products/own-form.ts';
import { pageSetup } from '../browser/page-setup.ts';
import { data, openPage } from './open-page.ts';

/** Refusals that these tests provoke on purpose. */
const REFUSED = [/answer 4\d\d: (GET|PUT) .*\/api\//, /console error: Failed to load resource/];

const words = async (page: Page, selector = 'main') =>
  ((await page.locator(selector).first().textContent()) ?? '').replace(/\s+/g, ' ');

/** The rules of accessibility are looked at element by element, and these pages are long. */
const PATIENCE_MS = 90_000;

describe('the product pages', { timeout: PATIENCE_MS }, () => {
  const here = pageSetup();
  const open = (widthPx: number, expected: readonly RegExp[] = []) =>
    openPage(here.browser, here.url, { widthPx, expected });
  const answerFor = (id: string) => data<ProductAnswer>(here.url, `/api/products/${id}`);
  const products = async () =>
    (await data<{ products: Product[] }>(here.url, '/api/products')).products;

  const field = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true });
  const unit = (page: Page, name: string) => page.getByRole('combobox', { name: `Unit: ${name}` });
  const save = (page: Page) => page.getByRole('button', { name: 'Save the product' }).click();

  async function put(id: string, product: object): Promise<void> {
    const response = await fetch(`${here.url}/api/products/${id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        requestId: randomUUID(),
        version: null,
        product: { format: 'layfair-own-product-1', id, ...product },
      }),
    });
    expect(response.status, await response.text()).toBe(201);
  }

  describe.each([390, 1280])('at %i px', (widthPx) => {
    it('lists every product with what it is for and leads to its figures', async () => {
      const all = await products();
      const opened = await open(widthPx);
      const { page } = opened;
      await page.goto(here.url);
      await page.getByRole('link', { name: 'Products', exact: true }).click();
      await page.getByRole('heading', { level: 1, name: 'Products' }).waitFor();
      await page.getByRole('link', { name: all[0]?.name ?? '', exact: true }).waitFor();
      for (const { name } of all) {
        expect(await page.getByRole('link', { name, exact: true }).count(), name).toBe(1);
      }
      await opened.assertSound();

      const { product, numbers } = await answerFor('contact-solvent');
      if (!product) throw new Error('the class has no product');
      await page.getByRole('link', { name: product.name, exact: true }).click();
      await page.getByRole('heading', { level: 1, name: product.name }).waitFor();
      await page.getByText('No films of this product are on record yet').waitFor();
      const text = await words(page);
      for (const { words: what } of numbers) expect(text).toContain(what);
      for (const line of [...product.hazards, ...(product.advice ?? [])]) {
        expect(text).toContain(line);
      }
      expect(text).not.toMatch(/\b(member|activity|block)s?\b/i);
      await opened.assertSound();
      await opened.close();
    });

    it('refuses a sheet that contradicts itself beside the field, loses nothing, and saves it put right', async () => {
      const id = `yard-tin-${widthPx}`;
      const opened = await open(widthPx, REFUSED);
      const { page } = opened;
      await page.goto(`${here.url}/products/new?from=contact-solvent`);
      await field(page, 'Name, as on the tin').fill(`Yard tin ${widthPx}`);
      expect(await field(page, 'Id').inputValue()).toBe(id);
      await field(page, 'Air at least').fill('40');
      await field(page, 'Open time, usable until').fill('5');
      await save(page);
      // 40 °F is 4.4 °C (NIST SP 811): the server names the likelier unit.
      const air = page.locator('#limits-airMinC-error');
      await air.getByText(/^Air at least is 40; .*40 °F is 4\.4 °C/).waitFor();
      await page
        .locator('#openUntil-error')
        .getByText(/past use before it is ready/)
        .waitFor();
      const focused = await page.evaluate(() => document.activeElement?.id);
      expect(focused).toBe('openUntil');
      expect(await field(page, 'Air at least').getAttribute('aria-describedby')).toContain(
        'limits-airMinC-error',
      );
      expect(await field(page, 'Air at least').inputValue()).toBe('40');
      expect((await products()).some((one) => one.id === id)).toBe(false);
      await opened.assertSound();

      await unit(page, 'Air at least').selectOption('°F');
      await field(page, 'Open time, usable until').fill('40-60');
      await field(page, 'Humidity at most').fill('85');
      await field(page, 'Covers').fill('60');
      await unit(page, 'Covers').selectOption('ft2/gal US');
      await save(page);
      await page.getByRole('heading', { level: 1, name: `Yard tin ${widthPx}` }).waitFor();
      const { own, product } = await answerFor(id);
      expect(own).toMatchObject({
        basedOn: 'contact-solvent',
        limits: { airMinC: { printed: { value: 40, unit: '°F' }, source: 'data sheet' } },
        openUntil: { printed: { value: [40, 60], unit: 'min' } },
      });
      // The class asks for 5 °C, the sheet for 4.4: the stricter counts and both are shown.
      const choice = product?.limitChoices?.find(({ limit }) => limit === 'airMinC');
      expect(choice?.wins).toBe('class');
      const text = await words(page);
      expect(text).toContain(choice?.words);
      expect(text).toContain('40 °F as printed = 4.44 °C (data sheet)');
      // 60 ft2 per US gallon = 1.47 m2/L: NIST SP 811, foot and gallon exact.
      expect(text).toContain('60 ft2/gal US as printed = 1.47 m²/L');
      expect(text).toContain('Humidity at most 85 %');
      await opened.assertSound();
      await opened.close();
    });
  });

  it('takes the sheet’s looser limit only by name, and keeps what the form does not show', async () => {
    await put('tabled-tin', {
      name: 'Tabled tin',
      basedOn: 'contact-solvent',
      hazards: ['Keep the lid on between two sections.'],
      touchDry: { printed: { value: [10, 20], unit: 'min' }, source: 'data sheet' },
      limits: { airMinC: { printed: { value: 4, unit: '°C' }, source: 'data sheet' } },
    });
    const opened = await open(390);
    const { page } = opened;
    await page.goto(`${here.url}/product/tabled-tin`);
    await page.getByRole('link', { name: 'Change it' }).click();
    await page.getByRole('heading', { level: 1, name: 'Change Tabled tin' }).waitFor();
    expect(await field(page, 'Touch dry after').inputValue()).toBe('10 to 20');
    await page.getByRole('checkbox', { name: 'Air at least: take the sheet’s' }).check();
    await field(page, 'Touch dry after').fill('12 to 20');
    await save(page);
    await page.getByText(/because the firm takes it by name/).waitFor();
    const { own, version } = await answerFor('tabled-tin');
    expect(version).toBe(2);
    expect(own).toMatchObject({
      hazards: ['Keep the lid on between two sections.'],
      takesSheetLimits: ['airMinC'],
      touchDry: { printed: { value: [12, 20], unit: 'min' } },
      limits: { airMinC: { printed: { value: 4, unit: '°C' } } },
    });
    opened.assertQuiet();
    await opened.close();
  });

  it('says beside the id that it is taken, and what is no figure beside its field', async () => {
    await put('taken-tin', { name: 'Taken tin', basedOn: 'tape-primer' });
    const opened = await open(390, REFUSED);
    const { page } = opened;
    await page.goto(`${here.url}/products/new?from=tape-primer`);
    await save(page);
    await page
      .locator('#name-error')
      .getByText(/^Name is empty/)
      .waitFor();
    await field(page, 'Name, as on the tin').fill('Taken tin');
    await field(page, 'Surface at least').fill('frost free');
    await save(page);
    await page.getByText(/^Surface at least is “frost free”; one figure/).waitFor();
    await field(page, 'Surface at least').fill('');
    await save(page);
    await page
      .locator('#id-error')
      .getByText(/taken-tin/)
      .waitFor();
    expect(await field(page, 'Name, as on the tin').inputValue()).toBe('Taken tin');
    await opened.assertSound();
    await opened.close();
  });

  it('shows what a firm’s own films say: factor, range, count and the films used', async () => {
    const { jobs } = await data<{ jobs: JobRow[] }>(here.url, '/api/jobs');
    const opened = await open(390);
    const { page } = opened;
    // Films need weeks of weather and work: the server's own answers are tested where they are made.
    const film = {
      jobId: jobs[0]?.job.id,
      jobName: 'Boat store roof',
      activityId: 'edges-1',
      coatedMs: 0,
      dryMs: 0,
      date: '2026-05-11',
    };
    await page.route('**/learned?firm=own', (route) =>
      route.fulfill({
        json: {
          ok: true,
          data: {
            product: { id: 'contact-solvent', name: 'Contact' },
            firm: 'own',
            nowMs: 0,
            sheet: { lowMin: 10, typicalMin: 17.5, highMin: 25, source: 'common practice' },
            sees: { lowMin: 9, typicalMin: 14, highMin: 20, source: 'user' },
            speed: {
              factor: 1.25,
              lowFactor: 1.1,
              highFactor: 1.42,
              films: 3,
              days: 2,
              effectiveFilms: 2.8,
            },
            sentence: 'Your films dry faster than the sheet says.',
            used: [
              { ...film, eventId: 'a', tookMin: 14, expectedMin: 17, speed: 1.21, confirmed: true },
            ],
            setAside: [{ ...film, eventId: 'b', why: 'It rained on the film.' }],
            asked: [{ ...film, eventId: 'c', question: 'Dry in 2 min?', canBeConfirmed: true }],
            notes: ['The finger test always overrules it.'],
          },
        },
      }),
    );
    await page.goto(`${here.url}/product/contact-solvent`);
    await page.getByText('Your films dry faster than the sheet says.').waitFor();
    const section = page.getByRole('region', { name: 'What your own logs say' });
    const text = ((await section.textContent()) ?? '').replace(/\s+/g, ' ');
    expect(text).toContain('1.25 times the sheet’s speed, 8 in 10 between 1.10 and 1.42');
    expect(text).toContain('3 films on 2 days');
    expect(text).toContain('took 14 min, by the sheet 17 min');
    expect(text).toContain('It rained on the film.');
    expect(text).toContain('Dry in 2 min?');
    await opened.assertSound();
    await opened.close();
  });

  it('has targets of 44 px or more, form and list', async () => {
    const opened = await open(390);
    const { page } = opened;
    for (const path of [
      '/products',
      '/products/new?from=polyurethane-foam',
      '/product/seam-tape',
    ]) {
      await page.goto(here.url + path, { waitUntil: 'networkidle' });
      const heights = await page
        .locator('main')
        .locator('button, summary, select, input[type=text], .choice, .step, h3 a')
        .evaluateAll((all) =>
          all.map((one) => [one.textContent, one.getBoundingClientRect().height] as const),
        );
      expect(heights.length).toBeGreaterThan(0);
      expect(heights.filter(([, height]) => height < 44)).toEqual([]);
    }
    await opened.close();
  });

  it('offers only units that the server reads for that figure', async () => {
    const quantities: readonly (readonly [RegExp, Quantity])[] = [
      [/^limits\.dewMargin/, 'difference'],
      [/^limits\.hoursAfter/, 'hours'],
      [/relHum/, 'humidity'],
      [/^limits\.|TempC$/, 'temperature'],
      [/./, 'time'],
    ];
    for (const klass of await products()) {
      for (const row of rowsFor(klass).flatMap(({ rows }) => rows)) {
        for (const one of row.units) {
          const quantity = quantities.find(([name]) => name.test(row.field))?.[1] ?? 'time';
          const read =
            row.field === 'coverage' ? convertCoverage(5, one) : convertPrinted(quantity, 5, one);
          expect(read.ok, `${klass.id} ${row.field} ${one}`).toBe(true);
        }
      }
    }
  });
});

describe('figures as they are typed', () => {
  it.each([
    ['15', [15]],
    [' 12,5 ', [12.5]],
    ['-5', [-5]],
    ['10 to 20', [10, 20]],
    ['10-20', [10, 20]],
    ['10 – 20', [10, 20]],
    ['-5 to 5', [-5, 5]],
    ['-5--2', [-5, -2]],
    ['10 / 15 / 20', [10, 15, 20]],
    ['10 15 20', [10, 15, 20]],
    ['', null],
    ['about 10', null],
    ['10 to', null],
    ['1e400', null],
  ])('reads %j', (text, figures) => {
    expect(readFigures(text)).toEqual(figures);
  });
});
