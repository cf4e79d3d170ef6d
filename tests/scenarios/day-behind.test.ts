import { describe, expect, it } from 'vitest';
import { NOT_EXPLAINED } from '../../src/answers/explained.ts';
import { answerDays, answerWork, asStopped, runThrough } from '../../src/answers/index.ts';
import { presentOption } from '../../src/answers/present-option.ts';
import { inHundred } from '../../src/answers/value-words.ts';
import { type DaysAnswer, daysAnswerSchema } from '../../src/contract/index.ts';
import { optionFor, prepare } from '../../src/planner/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import { earlyOn, jobOf } from '../fixtures/planner/job.ts';
import { weatherOf } from '../fixtures/planner/weather.ts';

/** Rain that ends the second afternoon, earlier in one forecast than in the next: worked out once. */
const ready = jobOf('seed-workshop');
const hourly = weatherOf({ members: 6, hours: 24 * 4, rainMm: (h, m) => (h > 35 + m ? 1 : 0) });
const nowMs = earlyOn(hourly);
const soFars: DaysAnswer[] = [];
const answer = ((): DaysAnswer => {
  const search = answerDays(ready, hourly, nowMs);
  for (;;) {
    const next = search.next();
    if (next.done) return next.value;
    if (next.value.soFar !== undefined) soFars.push(next.value.soFar);
  }
})();
const offered = answer.days.filter(({ chance }) => chance !== null);

describe('what stands behind a laying day', () => {
  it('is in the shape of the contract, from the first answer to the last', () => {
    for (const one of [...soFars, answer]) daysAnswerSchema.parse(one);
    expect(offered.length).toBeGreaterThan(1);
  });

  it('cost and loss meet at the threshold C / L (Murphy 1977), and the words name all four', () => {
    const { standDown, caughtOpen } = ready.job.costs;
    for (const { value, outcomes, chance } of offered) {
      expect(value?.threshold).toBeCloseTo(standDown / caughtOpen, 12);
      expect(value?.words).toContain(`passes ${inHundred(standDown / caughtOpen)}`);
      const { caughtOpen: caught } = outcomes;
      const here = caught === 0 ? `none of ${chance?.of}` : `${caught} of ${chance?.of}`;
      expect(value?.words).toContain(here);
    }
  });

  it('names at most three reasons, the cheapest moment to decide, and nothing after hours', () => {
    for (const { reasons, callOff, way, date } of offered) {
      expect(reasons.length, date).toBeLessThanOrEqual(3);
      const best = callOff?.choices.find(({ when }) => when === callOff.best);
      const least = Math.min(...callOff!.choices.map(({ expectedCost }) => expectedCost));
      expect(best?.expectedCost, date).toBe(least);
      expect(way?.people, date).toBeLessThanOrEqual(ready.job.crew.people);
      const off = new Date(way!.offMs).toLocaleTimeString('en-GB', {
        timeZone: answer.job.timeZone,
        hour: '2-digit',
        minute: '2-digit',
      });
      expect(off <= ready.job.crew.dayEnd, `${date} ${off}`).toBe(true);
    }
  });

  it('the order of work is of the bay that its day was found with', () => {
    for (const { date, way, startMs, chance } of offered.filter((day) => day.startMs !== null)) {
      const tried = way?.askBayM2 == null ? {} : { bay: way.askBayM2 };
      const work = answerWork(ready, hourly, nowMs, date, tried);
      if (!work.ok) throw new Error(JSON.stringify(work.issues));
      expect(work.answer.bay, date).toEqual(way?.bay);
      expect([work.answer.day.startMs, work.answer.day.chance], date).toEqual([startMs, chance]);
    }
  });

  it('where half a day is dry, a smaller bay says what it costs, and its list is of that bay', () => {
    const cheap = { standDown: 400, waitPerDay: 20, caughtOpen: 30_000 };
    const hall = jobOf('net-hall', { costs: cheap, latest: '2026-05-15', earliest: '2026-05-14' });
    const wet = weatherOf({
      members: 6,
      hours: 24 * 3,
      rainMm: (h, m) => (h % 24 > 13 + (m % 2) && h % 24 < 23 ? 1 : 0),
    });
    const found = runThrough(answerDays(hall, wet, earlyOn(wet)));
    const day = found.days.find(({ date }) => date === '2026-05-14')!;
    const { bay, askBayM2, smallerBay } = day.way!;
    expect(bay.of).toBeGreaterThan(found.bay.of);
    expect(smallerBay).toMatch(
      /^In \d bays of \d\d m² rather than 3 of 80 m²: (one more laying day|\d more laying days), /,
    );
    const asked = { bay: askBayM2! };
    const work = answerWork(hall, wet, earlyOn(wet), day.date, asked);
    if (!work.ok) throw new Error(JSON.stringify(work.issues));
    expect(work.answer.bay).toEqual(bay);
    expect(work.answer.day.startMs).toBe(day.startMs);
  });

  it('a day whose chance hangs on the hours of rain is too early to call, whatever it looks like', () => {
    const prepared = prepare({ ...ready, hourly, nowMs });
    const option = optionFor(prepared, localDayOn(offered[0]!.date, answer.job.timeZone), 'quick')!;
    const explained = { ...NOT_EXPLAINED, tooEarly: { low: 0.3, high: 0.7 } };
    const day = presentOption(option, { rank: 1, split: answer.bay, explained });
    expect([day.verdict, day.rank]).toEqual(['unknown', 1]);
    expect(day.sentence).toMatch(
      /^Too early to call for \w+ \d+ May: .* from about 3 in 10 to about 7 in 10\.$/,
    );
  });
});

describe('an answer that gets better', () => {
  it('begins with every day at first sight and ends with none', () => {
    const dates = answer.days.map(({ date }) => date);
    for (const { days, search } of soFars) {
      expect(days.map(({ date }) => date)).toEqual(dates);
      expect(search.state).toBe('running');
    }
    expect(soFars[0]!.days.every(({ searched }) => searched === 'quick')).toBe(true);
    const done = soFars.map(({ search }) => search.daysDone);
    expect(done).toEqual([...done].sort((a, b) => a - b));
    expect(answer.search).toMatchObject({ state: 'done', daysDone: offered.length });
  });

  it('stopped, says how far it got; a finished one is left as it is', () => {
    expect(asStopped(soFars[0]!).search).toMatchObject({
      state: 'stopped',
      words: expect.stringContaining('first answer'),
    });
    expect(asStopped(answer)).toBe(answer);
  });
});

describe('shares in words', () => {
  it.each([
    [0.075, '8 in 100'],
    [0.5, '50 in 100'],
    [0.0095, '1 in 100'],
    [0.004, '4 in 1,000'],
    [0.0004, 'under 1 in 1,000'],
    [0, '0 in 100'],
  ])('%f is %s', (share, words) => {
    expect(inHundred(share)).toBe(words);
  });
});
