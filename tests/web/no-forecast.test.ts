import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { JobRow } from '../../src/contract/index.ts';
import { pageSetup } from '../browser/page-setup.ts';
import { data, openPage } from './open-page.ts';

const NAME = 'Own roof without a forecast';

/** A user's own job, made from a demo job; no forecast service is set up in these tests. */
async function addOwnJob(base: string): Promise<string> {
  const { jobs } = await data<{ jobs: JobRow[] }>(base, '/api/jobs');
  const id = randomUUID();
  const job = { ...jobs[0]?.job, id, name: NAME, demo: false };
  const response = await fetch(`${base}/api/jobs`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ requestId: randomUUID(), job }),
  });
  expect(response.status, await response.text()).toBe(201);
  return id;
}

describe('a job of the user’s own without live weather', () => {
  const here = pageSetup({ env: { LAYFAIR_FEED: '', LAYFAIR_FEED_KEY: '' } });
  let id: string;

  beforeAll(async () => {
    id = await addOwnJob(here.url);
  });

  it('says so beside the demo jobs and gives no chance', async () => {
    const opened = await openPage(here.browser, here.url, { widthPx: 390 });
    await opened.page.goto(here.url);
    const entry = opened.page.getByRole('region', { name: NAME });
    await entry.getByText(/no current forecast/i).waitFor();
    expect(await entry.textContent()).not.toMatch(/in 10|caught open/);
    expect(await entry.locator('.chance-strip').count()).toBe(0);
    await opened.close();
  });

  it('says so on its own page and gives no chance', async () => {
    const opened = await openPage(here.browser, here.url, { widthPx: 390 });
    await opened.page.goto(`${here.url}/job/${id}`);
    const main = opened.page.getByRole('main');
    await main.getByText(/no current forecast/i).waitFor();
    expect(await main.textContent()).not.toMatch(/in 10|caught open/);
    await opened.assertSound();
    await opened.close();
  });

  it('says which job is being worked out when that takes over half a second', async () => {
    const opened = await openPage(here.browser, here.url, { widthPx: 390 });
    const { page } = opened;
    let letGo = (): void => {};
    const held = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    await page.route('**/days*', async (route) => {
      await held;
      await route.continue();
    });
    await page.goto(here.url);
    const status = page.getByRole('status').getByText(/^Working out the days for/);
    await status.waitFor();
    expect(await status.count(), 'one at a time').toBe(1);
    letGo();
    await page
      .getByRole('region', { name: NAME })
      .getByText(/no current forecast/i)
      .waitFor();
    await opened.close();
  });
});
