import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from './browser.ts';
import { watchPage } from './page-problems.ts';

const pages: Readonly<Record<string, string>> = {
  '/good': '<title>Good</title><h1>Sheet down by 14:10</h1>',
  '/logs': '<script>console.error("adhesive")</script>',
  '/throws': '<script>setTimeout(() => { throw new Error("primer") })</script>',
  '/misses': '<img src="/none.png" alt="">',
  '/refused': '<script>fetch("http://127.0.0.1:9/").catch(() => {})</script>',
};

describe('the browser the page tests use', () => {
  let browser: Browser;
  let server: Server;
  let url: string;

  beforeAll(async () => {
    server = createServer((request, response) => {
      const body = pages[request.url ?? ''];
      const status = body !== undefined || request.url === '/favicon.ico' ? 200 : 404;
      response.writeHead(status, { 'content-type': 'text/html; charset=utf-8' });
      response.end(body === undefined ? '' : `<!doctype html><html lang="en">${body}</html>`);
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    browser = await launchBrowser();
  });

  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  it('draws text: a picture with the words differs from one without', async () => {
    const page = await browser.newPage();
    await page.goto(`${url}/good`);
    expect(await page.locator('h1').textContent()).toBe('Sheet down by 14:10');
    const withWords = await page.screenshot();
    await page.evaluate(() => document.querySelector('h1')?.style.setProperty('opacity', '0'));
    expect(withWords.equals(await page.screenshot())).toBe(false);
    await page.close();
  });

  it('keeps the time zone a test asks for', async () => {
    const context = await browser.newContext({ timezoneId: 'America/Chicago', locale: 'en-US' });
    const page = await context.newPage();
    await page.goto(`${url}/good`);
    // IANA time zone database: Chicago is five hours behind UTC on 12 May (daylight saving).
    expect(await page.evaluate(() => new Date(Date.UTC(2026, 4, 12, 12)).getHours())).toBe(7);
    await context.close();
  });

  async function problemsOf(path: string): Promise<readonly string[]> {
    const page = await browser.newPage();
    const problems = watchPage(page);
    await page.goto(`${url}${path}`, { waitUntil: 'networkidle' });
    await page.close();
    return problems.list;
  }

  it('finds nothing wrong with a good page', async () => {
    expect(await problemsOf('/good')).toEqual([]);
  });

  it.each([
    ['/logs', /console error: adhesive/],
    ['/throws', /uncaught: .*primer/],
    ['/misses', /answer 404: GET .*none\.png/],
    ['/refused', /request failed: GET http:\/\/127\.0\.0\.1:9/],
  ])('notices what is wrong with %s', async (path, problem) => {
    expect((await problemsOf(path)).join('\n')).toMatch(problem);
  });

  it('throws with every problem named', async () => {
    const page = await browser.newPage();
    const problems = watchPage(page);
    await page.goto(`${url}/logs`);
    expect(() => problems.assertNone()).toThrow(/1 problem.*\n.*adhesive/);
    await page.close();
  });

  it('leaves out a problem that a test provokes on purpose', async () => {
    const page = await browser.newPage();
    const problems = watchPage(page, [/adhesive/]);
    await page.goto(`${url}/logs`);
    expect(problems.list).toEqual([]);
    await page.close();
  });
});
