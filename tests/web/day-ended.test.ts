import { describe, expect, it } from 'vitest';
import { presentHindsight } from '../../src/answers/index.ts';
import { NO_RECORD } from '../../src/planner/index.ts';
import { calledDays } from '../../src/record/index.ts';
import { dayCall, sampleJob, uuid } from '../kill/samples.ts';
import { DATE, demoSite, JOB, onSite } from './demo-site.ts';
import { openPage } from './open-page.ts';

describe('how a day went', { timeout: 90_000 }, () => {
  const site = demoSite(onSite('08:00'));
  const open = async (path: string) => {
    const opened = await openPage(site.browser, site.url, { widthPx: 390 });
    opened.page.setDefaultTimeout(20_000);
    return { ...opened, go: () => opened.page.goto(`${site.url}${path}`) };
  };

  it('is logged on the day’s page in a sentence, and taken back; a day to come can only be called off', async () => {
    const { page, go, assertQuiet, close } = await open(`/job/${JOB}/day/${DATE}`);
    await go();
    const went = page.getByRole('region', { name: 'How did the day go?' });
    await went.getByLabel('The day was').selectOption('cut short by the weather, sealed');
    await went.getByRole('button', { name: 'Log' }).click();
    await went.getByText('Logged: cut short by the weather, sealed.').waitFor();
    await expect.poll(site.standing).toEqual(['day-ended']);
    const [entry] = await site.events();
    expect(entry).toMatchObject({ date: DATE, went: 'shortened', because: 'weather' });
    await went.getByRole('button', { name: /^Undo: cut short/ }).click();
    await expect.poll(site.standing).toEqual([]);
    expect(await went.getByRole('button', { name: /^Undo/ }).count()).toBe(0);
    assertQuiet();

    await page.goto(`${site.url}/job/${JOB}/day/2026-05-14`);
    const off = page.getByRole('region', { name: 'Called off?' });
    await off.waitFor();
    expect(await off.getByRole('option').allTextContents()).toEqual([
      'not said',
      'called off on the forecast',
      'not worked: something else',
    ]);
    await close();
  });

  it('stands beside what was said of it among the jobs, where there is anything to look back on', async () => {
    const job = sampleJob('Boat house');
    const dates = ['2026-05-04', '2026-05-05', '2026-05-06'];
    const calls = dates.map((date) => dayCall(job.id, date));
    const events = dates.slice(1).map((date, n) => ({
      id: uuid(),
      jobId: job.id,
      atMs: Date.parse(`${date}T16:00:00Z`),
      loggedMs: Date.parse(`${date}T16:00:00Z`),
      actorId: 'foreman',
      kind: 'day-ended' as const,
      date,
      went: n === 0 ? ('finished' as const) : ('caught-open' as const),
      because: null,
    }));
    const nowMs = Date.parse('2026-05-12T05:00:00Z');
    const days = calledDays(job.id, calls, events);
    const told = presentHindsight({ jobs: [{ job, days }], record: NO_RECORD, nowMs });
    const { page, go, assertSound, close } = await open('/');
    // Days are not looked at here: nobody has to work them out.
    await page.route('**/days*', () => undefined);
    await page.route('**/api/calls', (route) => route.fulfill({ json: { ok: true, data: told } }));
    await go();
    const section = page.getByRole('region', { name: 'What was called, and what came' });
    await section.getByText('Of 2 days called about 8 in 10, 1 finished.').waitFor();
    await section.getByText('Days: 3').click();
    const lines = (await section.getByRole('listitem').allTextContents()).join('\n');
    expect(lines).toContain('2026-05-06, Boat house: 1 day ahead about 8 in 10 (40 of 51). It was');
    expect(lines).toContain('caught open by rain');
    expect(lines).toContain('Does not count: nobody has said how the day went.');
    await assertSound();
    await close();
  });
});
