import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { DaysAnswer, JobRow } from '../../src/contract/index.ts';
import { watchPage } from '../browser/page-problems.ts';

export interface OpenedPage {
  readonly page: Page;
  /** Nothing went wrong so far and nothing was asked of another host. */
  assertQuiet(): void;
  /** Quiet, no sideways scroll, and no breach of the accessibility rules, folded up and unfolded. */
  assertSound(): Promise<void>;
  close(): Promise<void>;
}

interface Options {
  readonly widthPx: number;
  /** A zone that no demo site is in, so that the browser's own clock would be noticed. */
  readonly zone?: string;
  /** Problems that the test provokes on purpose. */
  readonly expected?: readonly RegExp[];
}

/** WCAG 2.2 up to AA, as the rules tag themselves, with the rules' own advice on landmarks. */
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

export async function openPage(
  browser: Browser,
  base: string,
  { widthPx, zone = 'America/Chicago', expected = [] }: Options,
): Promise<OpenedPage> {
  const context = await browser.newContext({
    viewport: { width: widthPx, height: 844 },
    hasTouch: widthPx < 600,
    timezoneId: zone,
    locale: 'en-US',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  const problems = watchPage(page, expected);
  const strangers: string[] = [];
  page.on('request', (request) => {
    if (!request.url().startsWith(base)) strangers.push(request.url());
  });
  const assertQuiet = (): void => {
    problems.assertNone();
    expect(strangers).toEqual([]);
  };
  return {
    page,
    assertQuiet,
    async assertSound() {
      await assertFits(page);
      await assertRules(page);
      await page.evaluate(() => {
        for (const fold of document.querySelectorAll('details')) fold.open = true;
      });
      await assertFits(page);
      await assertRules(page);
      assertQuiet();
    },
    close: () => context.close(),
  };
}

async function assertFits(page: Page): Promise<void> {
  const tooWidePx = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(tooWidePx, `sideways scroll at ${page.url()}`).toBeLessThanOrEqual(0);
}

async function assertRules(page: Page): Promise<void> {
  // No page has a frame, and nobody reads where a rule holds: left out, a check takes a third of its time.
  const { violations, passes } = await new AxeBuilder({ page })
    .options({ runOnly: { type: 'tag', values: RULES }, resultTypes: ['violations'] })
    .setLegacyMode()
    .analyze();
  expect(passes.length).toBeGreaterThan(10);
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}

/** What the server answers, to hold the pages against. */
export async function data<T>(base: string, path: string): Promise<T> {
  const body = (await (await fetch(base + path)).json()) as { ok: boolean; data: T };
  expect(body.ok, `${path} answers`).toBe(true);
  return body.data;
}

export interface PlannedJob {
  readonly row: JobRow;
  readonly days: DaysAnswer;
}

/** The demo's jobs with their days as the front page asks for them. */
export async function plannedJobs(base: string): Promise<PlannedJob[]> {
  const { jobs } = await data<{ jobs: JobRow[] }>(base, '/api/jobs');
  const list: PlannedJob[] = [];
  for (const row of jobs) {
    const path = `/api/jobs/${row.job.id}/days?search=quick`;
    list.push({ row, days: await data<DaysAnswer>(base, path) });
  }
  return list;
}

/** The first job that has a day with a start, and its best such day at first sight. */
export async function startableJob(base: string) {
  for (const { row, days } of await plannedJobs(base)) {
    const day = days.days.find((one) => one.rank === 1 && one.startMs !== null);
    if (day) return { row, days, day };
  }
  throw new Error('no demo job has a day on which it can start');
}
