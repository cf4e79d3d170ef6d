import { expect, it } from 'vitest';
import { answerDays, runThrough } from '../../src/answers/index.ts';
import { jobOf } from '../fixtures/planner/job.ts';
import { START, weatherOf } from '../fixtures/planner/weather.ts';

it('a forecast that lacks a variable at an hour is told, with the variable and the hour', () => {
  const hourly = weatherOf({
    members: 3,
    rainMm: (h, m) => (m === 1 && h === 20 ? Number.NaN : 0),
  });
  const ready = jobOf('boat-store');
  const answer = runThrough(
    answerDays(ready, hourly, Date.parse(START) + 3_600_000, { depth: 'quick' }),
  );
  expect(answer.weather?.notes.join('\n')).toContain(
    '1 of 3 forecasts lack precipitation at some hour and are unknown from it on, the first at Wed 13 May 20:00',
  );
});
