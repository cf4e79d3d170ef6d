import { DateTime } from 'luxon';
import { describe, expect, it } from 'vitest';
import type { AheadAnswer, AheadWork } from '../../src/contract/index.ts';
import { DATE, demoSite, JOB, onSite, ZONE } from './demo-site.ts';
import { data, openPage } from './open-page.ts';

const clock = (ms: number) => DateTime.fromMillis(ms, { zone: ZONE }).toFormat('HH:mm');

describe('how far ahead to coat, on the day page', { timeout: 90_000 }, () => {
  const site = demoSite(onSite('08:00'));
  const asked = (atMs: number, what: string, more = '') =>
    data<AheadAnswer>(
      site.url,
      `/api/jobs/${JOB}/ahead?at=${new Date(atMs).toISOString()}&what=${what}${more}`,
    );
  const open = async (widthPx: number, expected: readonly RegExp[] = []) => {
    const opened = await openPage(site.browser, site.url, { widthPx, expected });
    opened.page.setDefaultTimeout(20_000);
    await opened.page.goto(`${site.url}/job/${JOB}/day/${DATE}`);
    await opened.page.locator('.ahead-work').first().waitFor();
    return { ...opened, panel: opened.page.getByRole('region', { name: /How far ahead/ }) };
  };
  /** Sizes are said rounded down: 10.9 m² is no 11 m² (own rule: nobody coats more than was worked out). */
  const most = ({ now, unit }: AheadWork) =>
    `${now.open.most >= 10 ? Math.floor(now.open.most) : Math.floor(now.open.most * 10) / 10} ${unit === 'm2' ? 'm²' : 'm'}`;

  it.each([390, 1280])('says it now, in the open and in the shade, at %i px', async (widthPx) => {
    const nowMs = onSite('10:00');
    site.setTime(nowMs);
    const opened = await open(widthPx);
    const [work] = (await asked(nowMs, 'field')).works;
    if (!work) throw new Error('no field that day');
    await opened.panel.getByText(work.sentence).waitFor();
    const figures = opened.panel.locator('.film-times').first();
    expect(work.now.open.most).toBeGreaterThan(0);
    await figures.getByText(most(work), { exact: true }).waitFor();
    await figures.getByText(`close by ${clock(work.now.open.closeByMs!)}`).waitFor();
    expect(await figures.getByText('In the shade').count()).toBe(1);

    const table = opened.panel.getByRole('table');
    expect(await table.count(), 'the half hours are folded').toBe(0);
    await opened.panel.getByText('Each half hour, sun and shade').click();
    await table.waitFor();
    expect(await table.locator('tbody tr').count()).toBe(work.hours.length);
    await opened.assertSound();
    await opened.close();
  });

  it('answers for another work, time and crew', async () => {
    site.setTime(onSite('10:00'));
    const opened = await open(390);
    const { panel } = opened;
    await panel.getByRole('button', { name: 'Laps' }).click();
    const [laps] = (await asked(onSite('10:00'), 'laps')).works;
    await panel.getByText(laps!.sentence).waitFor();
    await panel.getByLabel('At').fill('11:30');
    await panel.getByLabel('People').fill('3');
    await panel.getByRole('button', { name: 'Work it out' }).click();
    const [later] = (await asked(onSite('11:30'), 'laps', '&people=3')).works;
    await panel.getByText(later!.sentence).waitFor();
    await opened.close();
  });

  it('says what is wrong with a time or a crew, and asks nothing', async () => {
    site.setTime(onSite('10:00'));
    const opened = await open(390);
    const { page, panel } = opened;
    let questions = 0;
    page.on('request', (request) => {
      if (request.url().includes('/ahead?')) questions += 1;
    });
    await panel.getByLabel('At').fill('noonish');
    await panel.getByRole('button', { name: 'Work it out' }).click();
    await panel.getByText(/“noonish” is no time of that day/).waitFor();
    await panel.getByLabel('At').fill('12:00');
    await panel.getByLabel('People').fill('1');
    await panel.getByRole('button', { name: 'Work it out' }).click();
    await panel.getByText(/“1” people; a whole number from 2 to 30/).waitFor();
    expect(questions).toBe(0);
    await opened.close();
  });
});
