import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { build, type Rolldown } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type EncodedPack,
  encodePack,
  type PackAnswer,
  type PackQuestion,
  readPack,
} from '../../src/products/index.ts';
import { launchBrowser } from '../browser/browser.ts';
import { packOf, randomQuestions } from '../fixtures/planner/clock-pack.ts';
import { jobOf } from '../fixtures/planner/job.ts';
import { weatherOf } from '../fixtures/planner/weather.ts';
import { root } from '../walls/project-files.ts';

/** The page's own module, built as the pages are and put under one name. */
async function packScript(): Promise<string> {
  const built = (await build({
    configFile: join(root, 'web', 'vite.config.ts'),
    logLevel: 'error',
    build: {
      write: false,
      lib: {
        entry: join(root, 'web', 'src', 'clock', 'pack.ts'),
        formats: ['iife'],
        name: 'clockPack',
      },
    },
  })) as Rolldown.RolldownOutput[];
  return built[0]!.output[0].code;
}

interface InPage {
  openPack(kept: unknown): { ok: boolean; data: unknown };
  askPack(pack: unknown, question: PackQuestion): PackAnswer;
}

const askInPage = (page: Page, encoded: EncodedPack, questions: readonly PackQuestion[]) =>
  page.evaluate(
    ([kept, asked]) => {
      const { openPack, askPack } = (globalThis as unknown as { clockPack: InPage }).clockPack;
      const opened = openPack(JSON.stringify(kept));
      if (!opened.ok) throw new Error('the pack does not open');
      return asked.map((question) => JSON.stringify(askPack(opened.data, question)));
    },
    [encoded, questions] as const,
  );

describe('the clock pack in a browser', () => {
  let browser: Browser;
  let page: Page;
  let script: string;

  beforeAll(async () => {
    script = await packScript();
    browser = await launchBrowser();
    page = await browser.newPage();
    await page.evaluate(script.replace(/^var clockPack/, 'globalThis.clockPack'));
  });
  afterAll(async () => {
    await browser?.close();
  });

  it('answers as the server does, to the last digit, whatever is asked', async () => {
    const pack = packOf(
      jobOf('parish-room'),
      weatherOf({
        members: 9,
        airTempC: (h, m) => 9 + m + 5 * Math.sin(((h - 9) * Math.PI) / 12),
        dewPointC: (h, m) => 3 + Math.sin(h + m),
        rainMm: (h, m) => (h > 15 && m % 2 === 0 ? 0.4 : 0),
      }),
      '2026-05-13',
    );
    const questions = randomQuestions(pack, 2000, 20260513);
    const inNode = questions.map((question) => JSON.stringify(readPack(pack, question)));
    expect(await askInPage(page, encodePack(pack), questions)).toEqual(inNode);
    // Of all kinds: answered and refused, shifted and asked about.
    const found = inNode.filter((answer) => answer.includes('"ok":true'));
    expect(found.length).toBeGreaterThan(1000);
    expect(inNode.length - found.length).toBeGreaterThan(50);
    expect(found.filter((answer) => answer.includes('Is that right?')).length).toBeGreaterThan(20);
  });

  it('is small, and holds no schema library and no physics', () => {
    expect(script.length).toBeLessThan(25_000);
    expect(script).not.toMatch(/ZodError|_zod|Antoine|Math\.(exp|log|pow)\b/);
  });
});
