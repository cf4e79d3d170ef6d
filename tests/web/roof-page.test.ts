import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { JobRow, TakeoffAnswer } from '../../src/contract/index.ts';
import { pageSetup } from '../browser/page-setup.ts';
import { data, openPage } from './open-page.ts';

/** Refusals that these tests provoke on purpose. */
const REFUSED = [/answer 4\d\d: (POST|PUT) .*\/api\//, /console error: Failed to load resource/];
const ASKED = /\/api\/takeoff$/;

type Job = JobRow['job'];

const words = async (page: Page, selector: string) =>
  ((await page.locator(selector).first().textContent()) ?? '').replace(/\s+/g, ' ');

/** The rules of accessibility are looked at element by element, and these pages are long. */
const PATIENCE_MS = 90_000;

describe('the roof page', { timeout: PATIENCE_MS }, () => {
  const here = pageSetup();
  const open = (widthPx: number, expected: readonly RegExp[] = []) =>
    openPage(here.browser, here.url, { widthPx, expected });

  async function demoJob(name: string): Promise<Job> {
    const { jobs } = await data<{ jobs: JobRow[] }>(here.url, '/api/jobs');
    const row = jobs.find(({ job }) => job.name === name);
    if (!row) throw new Error(`there is no demo job called ${name}`);
    return row.job;
  }

  /** A job of the user's own, made from a demo job. */
  async function ownJob(part: (demo: Job) => Partial<Job>): Promise<string> {
    const demo = await demoJob('Seed cleaning workshop');
    const id = randomUUID();
    const response = await fetch(`${here.url}/api/jobs`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        requestId: randomUUID(),
        job: { ...demo, id, demo: false, name: 'Own roof', ...part(demo) },
      }),
    });
    expect(response.status, await response.text()).toBe(201);
    return id;
  }

  const takeoff = (id: string) => data<TakeoffAnswer>(here.url, `/api/jobs/${id}/takeoff`);
  const kept = (id: string) => data<JobRow>(here.url, `/api/jobs/${id}`);

  describe.each([390, 1280])('at %i px', (widthPx) => {
    it('leads from the job to its drawing, sheets, materials, stages and days', async () => {
      const { id, name } = await demoJob('Committee room extension');
      const answer = await takeoff(id);
      const opened = await open(widthPx);
      const { page } = opened;
      await page.goto(`${here.url}/job/${id}`);
      await page.getByRole('link', { name: /^Roof: sheets/ }).click();
      await page.getByRole('heading', { level: 1, name: `Roof: ${name}` }).waitFor();

      const drawing = page.getByRole('img', { name: new RegExp(`^Drawing of ${name}`) });
      const drawn = await drawing.evaluate(async (image: HTMLImageElement) => {
        await image.decode();
        return image.naturalWidth / image.naturalHeight;
      });
      // The picture keeps the shape the server drew it in.
      const [, across, down] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(answer.drawing) ?? [];
      expect(drawn).toBeCloseTo(Number(across) / Number(down), 1);

      const stages = page.locator('.stages > li');
      expect(await stages.count()).toBe(19);
      for (const [index, stage] of answer.stages.entries()) {
        const why = stages.nth(index).getByText(stage.whyNot, { exact: true });
        if (stage.applies) continue;
        expect(await why.isVisible(), `${stage.title} is folded`).toBe(false);
      }
      const edges = page.getByRole('table', { name: /^Edges/ }).getByRole('row');
      expect(await edges.count()).toBe(answer.roof.edges.length + 1);
      const pieces = page.getByRole('table', { name: /^Sheets in the order/ }).getByRole('row');
      expect(await pieces.count()).toBe(answer.sheets.pieces.length + 1);
      const text = await words(page, 'main');
      for (const { name: material, containers, container, coverage } of answer.materials) {
        expect(text).toContain(material);
        expect(text).toContain(container === 1 ? `${containers} ` : `${containers} × ${container}`);
        expect(text).toContain(`(${coverage.source})`);
      }
      for (const { title, why } of answer.days.flatMap(({ stops }) => stops)) {
        expect(text).toContain(`${title}. ${why}`);
      }
      for (const caution of answer.cautions) expect(text).toContain(caution);
      // Words of the code; water-block mastic is what the trade calls it.
      expect(text.replaceAll(/water-block/gi, '')).not.toMatch(/\b(member|activity|block)s?\b/i);
      await opened.assertSound();
      await opened.close();
    });

    it('shows what a turn does against what is kept, and keeps nothing of a demo job', async () => {
      const { id } = await demoJob('Committee room extension');
      const before = await takeoff(id);
      const opened = await open(widthPx, REFUSED);
      const { page } = opened;
      await page.goto(`${here.url}/job/${id}/roof`);
      const turn = page.getByRole('textbox', { name: 'Turn rolls, degrees' });
      const asked = page.waitForResponse(ASKED);
      await turn.fill('17');
      const { data: after } = (await (await asked).json()) as { data: TakeoffAnswer };
      const table = page.getByRole('table', { name: /^Kept → tried/ });
      await table.waitFor();
      const row = async (name: string) =>
        ((await table.getByRole('row', { name }).textContent()) ?? '').replace(/\s+/g, ' ');
      const laps = ({ sheets: { laps: l } }: TakeoffAnswer) =>
        Math.round((l.sideM + l.endM + l.joinM) * 10) / 10;
      expect(laps(after)).toBeGreaterThan(laps(before));
      expect(await row('Laps')).toContain(`${laps(before)} m → ${laps(after)} m`);
      const counts = `${before.sheets.pieces.length} → ${after.sheets.pieces.length}`;
      expect(await row('Sheets')).toContain(counts);
      expect(await row('Laying days')).toContain(`${before.days.length} → ${after.days.length}`);
      for (const name of ['Waste', 'Worker-hours']) expect(await row(name)).toMatch(/→/);

      // The panel with the effect never hides what is being typed in.
      const overlap = await turn.evaluate((field) => {
        const { left, right, top, bottom } = field.getBoundingClientRect();
        const at = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
        return at === field ? null : (at?.className ?? 'nothing');
      });
      expect(overlap).toBeNull();
      await opened.assertSound();

      await page.getByRole('button', { name: 'Keep these changes' }).click();
      await page.getByText('Demo jobs come with the program and cannot be changed.').waitFor();
      expect(await turn.inputValue()).toBe('17');
      await page.getByRole('button', { name: 'Undo' }).click();
      await table.waitFor({ state: 'detached' });
      expect(await turn.inputValue()).toBe('');
      expect((await kept(id)).job.layout).toEqual({});
      await opened.close();
    });
  });

  it('says beside the field what is wrong with it and keeps what was typed', async () => {
    const { id } = await demoJob('Seed cleaning workshop');
    const opened = await open(390, REFUSED);
    const { page } = opened;
    await page.goto(`${here.url}/job/${id}/roof`);
    const bay = page.getByRole('textbox', { name: 'Largest bay, m²' });
    await bay.fill('2');
    const error = page.locator('#bayAreaM2-error');
    await error.getByText(/^Largest bay is 2; it must be a number from 4 to/).waitFor();
    expect(await bay.getAttribute('aria-describedby')).toContain('bayAreaM2-error');
    await page.getByRole('textbox', { name: 'Shift first course, m' }).fill('a bit');
    await page.getByText(/^Shift of the first course is “a bit”; a number of metres/).waitFor();
    expect(await bay.inputValue()).toBe('2');
    await opened.assertSound();
    await opened.close();
  });

  it('keeps a product that this roof refuses in sight, with its reason', async () => {
    // Solvents dissolve polystyrene: common practice, in every adhesive maker's substrate list.
    const id = await ownJob((demo) => ({
      buildUp: {
        ...demo.buildUp,
        deck: 'polystyrene',
        products: {
          ...demo.buildUp.products,
          field: 'polyurethane-one-part',
          perimeter: 'deck-adhesive-two-side',
        },
      },
    }));
    const { choices } = await takeoff(id);
    const refused = choices['field']?.find((one) => one.id === 'contact-solvent');
    expect(refused?.refused.join(' ')).toMatch(/polystyrene/);
    const opened = await open(390);
    const { page } = opened;
    await page.goto(`${here.url}/job/${id}/roof`);
    await page.getByText(/^Field adhesive: /).click();
    const group = page.getByRole('group', { name: 'Field adhesive' });
    const radio = group.getByRole('radio', { name: refused?.name ?? '', exact: true });
    expect(await radio.isDisabled()).toBe(true);
    const reason = await radio.getAttribute('aria-describedby');
    expect(await words(page, `#${reason}`)).toContain(refused?.refused[0]);
    expect(await page.locator(`#${reason}`).isVisible()).toBe(true);
    await opened.assertSound();
    await opened.close();
  });

  it('keeps a rate and a bay size on a job of one’s own, once, with the version it saw', async () => {
    const id = await ownJob(() => ({}));
    const opened = await open(390, REFUSED);
    const { page } = opened;
    await page.goto(`${here.url}/job/${id}/roof`);
    await page.getByRole('combobox', { name: 'Labour rate' }).selectOption('lap');
    const rate = page.getByRole('textbox', { name: 'Laps: your own figure' });
    // The usual figure, its range and where it comes from stand beside it.
    expect(await words(page, '#rates-lap-hint')).toMatch(
      /9, 6 to 12 m per worker-hour \(common practice\)/,
    );
    await rate.fill('7,5');
    await page.getByRole('textbox', { name: 'Largest bay, m²' }).fill('30');
    await page.getByRole('row', { name: /^Worker-hours/ }).waitFor();
    await page.getByRole('button', { name: 'Keep these changes' }).click();
    await page.getByText('The job now has these changes.').waitFor();
    const { version, job } = await kept(id);
    expect(job.rates).toEqual({ lap: 7.5 });
    expect(job.bayAreaM2).toBe(30);
    expect(version).toBe(2);
    await opened.assertSound();

    // Somebody else changes it meanwhile: nothing of theirs is written over unasked.
    await fetch(`${here.url}/api/jobs/${id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        requestId: randomUUID(),
        version,
        job: { ...job, name: 'Renamed meanwhile' },
      }),
    });
    await rate.fill('11');
    await page.getByRole('button', { name: 'Keep these changes' }).click();
    const goOn = page.getByRole('button', { name: 'Go on from the job as it is now' });
    await goOn.waitFor();
    expect((await kept(id)).job.rates).toEqual({ lap: 7.5 });
    await goOn.click();
    await page.getByRole('heading', { level: 1, name: 'Roof: Renamed meanwhile' }).waitFor();
    expect(await rate.inputValue()).toBe('11');
    await page.getByRole('row', { name: /^Worker-hours/ }).waitFor();
    await page.getByRole('button', { name: 'Keep these changes' }).click();
    await page.getByText('The job now has these changes.').waitFor();
    const last = (await kept(id)).job;
    expect([last.name, last.rates]).toEqual(['Renamed meanwhile', { lap: 11 }]);
    await opened.close();
  });

  it('says in a sentence that the page itself could not be fetched, and asks again', async () => {
    const { id, name } = await demoJob('Committee room extension');
    const opened = await open(390, [/request failed: GET .*\/assets\//, /Failed to (load|fetch)/]);
    const { page } = opened;
    await page.route(/assets\/RoofScreen.*\.js/, (route) => route.abort());
    await page.goto(`${here.url}/job/${id}/roof`);
    await page
      .getByRole('alert')
      .getByText(/page could not be fetched/)
      .waitFor();
    await page.unroute(/assets\/RoofScreen.*\.js/);
    await page.getByRole('button', { name: 'Ask again' }).click();
    await page.getByRole('heading', { level: 1, name: `Roof: ${name}` }).waitFor();
    await opened.close();
  });

  it('has targets of 44 px or more and works with the keyboard alone', async () => {
    const { id } = await demoJob('Committee room extension');
    const opened = await open(390);
    const { page } = opened;
    await page.goto(`${here.url}/job/${id}/roof`);
    await page.getByText(/^Field adhesive: /).focus();
    await page.keyboard.press('Enter');
    const group = page.getByRole('group', { name: 'Field adhesive' });
    await page.keyboard.press('Tab');
    await page.keyboard.press('ArrowDown');
    await page.getByRole('table', { name: /^Kept → tried/ }).waitFor();
    expect(await group.getByRole('radio', { checked: true }).count()).toBe(1);
    const heights = await page
      .locator('main')
      .locator('button, summary, select, input[type=text], .choice, nav a, h3 a')
      .evaluateAll((all) =>
        all
          .map(
            (one) => [one.textContent?.slice(0, 30), one.getBoundingClientRect().height] as const,
          )
          .filter(([, height]) => height > 0),
      );
    expect(heights.length).toBeGreaterThan(20);
    expect(heights.filter(([, height]) => height < 44)).toEqual([]);
    opened.assertQuiet();
    await opened.close();
  });
});
