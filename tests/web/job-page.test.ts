import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { DayOption, DaysAnswer, Task } from '../../src/contract/index.ts';
import { pageSetup } from '../browser/page-setup.ts';
import { data, type OpenedPage, openPage } from './open-page.ts';

/**
 * The job page as its answer gets better. Here the tasks are played by the test, from one true first answer, so
 * that what comes when is known; the search itself is tested where it stands.
 */
const NET_HALL = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c04';

type Step = Pick<Task, 'state' | 'soFar'>;

/** Answers the page's tasks with one step after the other; the last one stays. */
class PlayedTask {
  readonly posted: { tried?: unknown }[] = [];
  stopped = 0;
  #steps: readonly Step[];
  #at = 0;

  constructor(...steps: readonly Step[]) {
    this.#steps = steps;
  }

  play(...steps: readonly Step[]): void {
    this.#steps = steps;
    this.#at = 0;
  }

  next(): void {
    this.#at = Math.min(this.#at + 1, this.#steps.length - 1);
  }

  async on(page: Page): Promise<void> {
    await page.route('**/api/tasks**', async (route) => {
      const request = route.request();
      if (request.method() === 'POST') this.posted.push(request.postDataJSON());
      if (request.method() === 'DELETE') {
        this.stopped += 1;
        this.next();
      }
      const step = this.#steps[this.#at]!;
      const words = 'looking at 2026-05-14 in full';
      const task = { id: 'x', kind: 'days', jobId: NET_HALL, progress: 0.4, words, error: null };
      await route.fulfill({ json: { ok: true, data: { ...task, ...step, tried: {} } } });
    });
  }
}

const at = (
  answer: DaysAnswer,
  state: 'running' | 'done' | 'stopped',
  words: string,
): DaysAnswer => ({
  ...answer,
  search: { depth: 'full', state, daysDone: 0, daysOf: 9, words },
});

describe('the job page', { timeout: 60_000 }, () => {
  const here = pageSetup();
  let first: DaysAnswer;
  let best: DayOption;
  beforeAll(async () => {
    first = await data<DaysAnswer>(here.url, `/api/jobs/${NET_HALL}/days?search=quick`);
    best = first.days.find(({ rank }) => rank === 1)!;
  });
  const open = async (task: PlayedTask, widthPx = 390, query = ''): Promise<OpenedPage> => {
    const opened = await openPage(here.browser, here.url, { widthPx });
    await task.on(opened.page);
    await opened.page.goto(`${here.url}/job/${NET_HALL}${query}`);
    return opened;
  };

  it('shows the first answer, then the better one, and can be stopped in between', async () => {
    const better = { ...best, chance: { ...best.chance!, words: 'about 8 in 10' } };
    const days = first.days.map((day) => (day === best ? better : day));
    const task = new PlayedTask(
      { state: 'running', soFar: null },
      { state: 'running', soFar: at(first, 'running', 'First answer; every day is looked at.') },
      { state: 'stopped', soFar: at({ ...first, days }, 'stopped', 'Stopped early: 1 of 9 days.') },
    );
    const opened = await open(task);
    const { page } = opened;
    task.next();
    const glance = page.locator('.day-glance').first();
    await glance.getByText(`${best.chance!.words}, caught open 0 of 51`).waitFor();
    await page.getByText('First answer; every day is looked at.').waitFor();
    await page.getByRole('button', { name: 'Stop here' }).click();
    await glance.getByText('about 8 in 10').waitFor();
    await page.getByText('Stopped early: 1 of 9 days.').waitFor();
    expect([task.stopped, task.posted.length]).toEqual([1, 1]);
    await page.getByRole('button', { name: 'Search on' }).click();
    await expect.poll(() => task.posted.length).toBe(2);
    opened.assertQuiet();
    await opened.close();
  });

  it('moves no day while somebody reads; a tap puts the best first', async () => {
    const [one, two] = first.days.filter(({ rank }) => rank === 1 || rank === 2);
    const days = first.days.map((day) => {
      if (day === one) return { ...day, rank: two!.rank };
      return day === two ? { ...day, rank: one!.rank } : day;
    });
    const running: Step = { state: 'running', soFar: at(first, 'running', 'First answer.') };
    const task = new PlayedTask(running, {
      state: 'done',
      soFar: at({ ...first, days }, 'done', 'Searched in full: all of it.'),
    });
    const opened = await open(task);
    const { page } = opened;
    const dates = () => page.locator('.day-entry h2').allTextContents();
    await page.locator('.day-entry').first().waitFor();
    const before = await dates();
    const reading = page.locator('.day-entry > details > summary').nth(3);
    await reading.click();
    const topPx = (await reading.boundingBox())!.y;
    task.next();
    await page.getByText('A better order was found than the one below.').waitFor();
    expect(await dates()).toEqual(before);
    const movedPx = Math.abs((await reading.boundingBox())!.y - topPx);
    expect(movedPx, 'what is read stays where it is').toBeLessThanOrEqual(1);
    await page.getByRole('button', { name: 'Best first' }).click();
    expect((await dates()).slice(0, 2)).toEqual([before[1], before[0]]);
    opened.assertQuiet();
    await opened.close();
  });

  it.each([390, 1280])(
    'tells what stands behind a day, one tap below, at %i px',
    async (widthPx) => {
      const day: DayOption = {
        ...best,
        way: {
          ...best.way!,
          askBayM2: 60,
          smallerBay: 'In 4 bays of 60 m² rather than 3 of 80 m²: one more laying day, but better.',
        },
        wholeJob: {
          layingDays: 3,
          count: 30,
          of: 51,
          chance: null,
          words: 'All three days: so so.',
        },
        limit: {
          rule: 'dew-margin',
          words: 'What costs the day is dew: your firm’s own limit; without it, about 9 in 10.',
          whose: 'firm',
          finishedWithout: 50,
          without: best.chance,
        },
        turns: [
          {
            kind: 'later start',
            words: 'Start at 09:30 rather than 08:00: about 9 in 10 rather than 7.',
            startMs: best.startMs,
            askBayM2: null,
            chance: best.chance!,
            expectedCost: 100,
            gainCost: -40,
          },
        ],
        callOff: {
          choices: [
            {
              when: 'evening before',
              atMs: best.startMs! - 15 * 3_600_000,
              callOffCost: 1,
              expectedCost: 5,
              calledOffShare: 0,
            },
            { when: 'go whatever', atMs: null, callOffCost: 1, expectedCost: 9, calledOffShare: 0 },
          ],
          best: 'evening before',
          words: 'Decide at 17:00 on Wednesday 13 May.',
        },
        safeStarts: [
          { words: 'Field, sheet 1', lastMs: best.startMs },
          { words: 'Low edge', lastMs: null },
        ],
        safeStartsNote: 'None to name for the low edge: too late as planned.',
        tooEarly: { low: 0.3, high: 0.7 },
        verdict: 'unknown',
      };
      const answer = { ...first, days: first.days.map((one) => (one === best ? day : one)) };
      const task = new PlayedTask({
        state: 'done',
        soFar: at(answer, 'done', 'Searched in full.'),
      });
      const opened = await open(task, widthPx);
      const { page } = opened;
      const entry = page.locator('.day-entry').first();
      await entry.getByText('Too early to call', { exact: true }).waitFor();
      const text = ((await entry.textContent()) ?? '').replace(/\s+/g, ' ');
      for (const words of [
        'In 4 bays of 60 m² rather than 3 of 80 m²: one more laying day',
        'All three days: so so.',
        'What costs the day is dew: your firm’s own limit; without it, about 9 in 10.',
        'Start at 09:30 rather than 08:00: about 9 in 10 rather than 7. Expected to cost EUR 40 more.',
        'Decide at 17:00 on Wednesday 13 May.',
        'The evening before (best)',
        'the chance moves from 30 % to 70 %: too early to call',
        day.value!.words,
      ]) {
        expect(text).toContain(words);
      }
      expect(await entry.getByText('Field, sheet 1').isVisible(), 'folded up').toBe(false);
      await entry.getByText('Last safe start of each piece of work').click();
      await entry.getByText('Field, sheet 1').waitFor();
      await entry.getByText(day.safeStartsNote!).waitFor();
      expect(await entry.locator('.safe-starts li').count(), 'pieces with a time').toBe(1);
      const order = entry.getByRole('link', { name: /^Order of work for/ });
      expect(await order.getAttribute('href')).toMatch(/\/day\/2026-05-\d\d\?bay=60$/);
      const small = await page
        .locator('button, summary, input[type=text], .to-costs, .step')
        .evaluateAll((all) =>
          all.map((one) => one.getBoundingClientRect().height).filter((px) => px > 0 && px < 44),
        );
      expect(small).toEqual([]);
      await opened.assertSound();
      await opened.close();
    },
  );

  it('tries other costs, says that nothing is saved, and passes them on', async () => {
    const task = new PlayedTask({ state: 'done', soFar: at(first, 'done', 'Searched in full.') });
    const opened = await open(task);
    const { page } = opened;
    const field = (label: string) => page.getByRole('textbox', { name: `${label}, EUR` });
    await field('Caught open').waitFor();
    expect(await field('Caught open').inputValue()).toBe('14000');
    expect(await field('Called off the evening before').inputValue()).toBe('720');
    await field('Caught open').fill('lots');
    await field('Each day of waiting').fill('-3');
    await page.getByRole('button', { name: 'Work it out with these' }).click();
    await page
      .getByText('“lots” is no amount; a number from 0 to 10,000,000 is accepted.')
      .waitFor();
    await page.getByText('“-3” is no amount').waitFor();
    expect(await field('Caught open').inputValue()).toBe('lots');
    expect(task.posted).toHaveLength(1);

    const costs = { ...first.costs, caughtOpen: 90_000 };
    const tried = { ...first, tried: { caughtOpen: 90_000 }, costs };
    task.play({ state: 'done', soFar: at(tried, 'done', 'Searched in full.') });
    await field('Caught open').fill('90,000');
    await field('Each day of waiting').fill('220');
    await page.getByRole('button', { name: 'Work it out with these' }).click();
    await page.getByText('Figures tried, not saved: caught open EUR 90,000.').waitFor();
    expect(task.posted[1]?.tried).toEqual({ caughtOpen: 90_000 });
    expect(page.url()).toMatch(/\?caughtOpen=90000$/);
    const order = page.getByRole('link', { name: /^Order of work for/ }).first();
    expect(await order.getAttribute('href')).toMatch(/\?caughtOpen=90000$/);
    await page.locator('.tried-effect').getByText('Tried, not saved.').waitFor();
    await opened.assertSound();

    task.play({ state: 'done', soFar: at(first, 'done', 'Searched in full.') });
    await page.getByRole('button', { name: 'Back to the job’s own' }).click();
    await page.getByText('Figures tried, not saved').waitFor({ state: 'detached' });
    expect(await field('Caught open').inputValue()).toBe('14000');
    expect(task.posted.at(-1)?.tried).toEqual({});
    await opened.close();
  });

  it('shows the order of work of the bay and costs in its address', async () => {
    const opened = await openPage(here.browser, here.url, { widthPx: 390 });
    const { page } = opened;
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(`${here.url}/job/${NET_HALL}/day/2026-05-14?bay=60&standDown=900`);
    await page.locator('.work > li').first().waitFor();
    await page
      .getByText(/^In 4 bays of 60 m² rather than 3 of 80 m²/)
      .first()
      .waitFor();
    await page.getByText(/Figures tried, not saved: aborted day, crew on site EUR 900/).waitFor();
    await expect.poll(() => asked.filter((url) => /ahead\?.*bay=60/.test(url)).length).toBe(1);
    expect(asked.some((url) => /work\?day=2026-05-14&standDown=900&bay=60$/.test(url))).toBe(true);
    opened.assertQuiet();
    await opened.close();
  });
});
