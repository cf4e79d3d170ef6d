import { describe, expect, it } from 'vitest';
import { answerNow } from '../../src/answers/index.ts';
import { NOTHING_DONE, type WorkState } from '../../src/planner/index.ts';
import { jobOf } from '../fixtures/planner/job.ts';
import { type WeatherOptions, weatherOf } from '../fixtures/planner/weather.ts';

/** The same question where the forecast begins late, ends early, is a single one, or the day is an odd one. */

const asked = (time: string, weather: WeatherOptions, state: Partial<WorkState> = {}) => {
  const atMs = Date.parse(time);
  return answerNow({
    ready: jobOf('seed-workshop', { confidence: 0.8 }),
    hourly: weatherOf(weather),
    nowMs: atMs,
    atMs,
    work: { kind: 'told', state: { ...NOTHING_DONE, ...state } },
  });
};
const answered = (...args: Parameters<typeof asked>) => {
  const result = asked(...args);
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join(' '));
  return result.answer;
};
const done = [{ name: '..fold-1', atMs: null }];

describe('a forecast that begins in the middle of the morning', () => {
  const weather = { start: '2026-05-13T09:00:00Z', members: 3 };

  it('is enough for what is still to be done', () => {
    const answer = answered('2026-05-13T10:05:00Z', weather, { done });
    expect(answer.call).toBe('go-on');
    expect(answer.ways[0]!.outcomes.finished).toBe(3);
  });

  it('says nothing of a film coated before it began', () => {
    const coated = [
      {
        name: 'field-1-1',
        firstMs: Date.parse('2026-05-13T08:50:00Z'),
        lastMs: null,
        touchDryMs: null,
      },
    ];
    const result = asked('2026-05-13T10:05:00Z', weather, { done, coated });
    if (result.ok) throw new Error('answered');
    expect(result.issues[0]!.message).toMatch(/before the day or the forecast begins/);
    const before = asked('2026-05-13T08:30:00Z', weather);
    if (before.ok) throw new Error('answered');
    expect(before.issues[0]!.message).toMatch(/^at lies outside the forecast/);
  });
});

describe('a forecast that ends mid-job', () => {
  it('does not count what it does not reach as dry', () => {
    const answer = answered('2026-05-13T10:00:00Z', { hours: 13, members: 3 }, { done });
    const [goOn] = answer.ways;
    expect(goOn!.outcomes).toMatchObject({ finished: 0, unknown: 3 });
  });
});

describe('a single forecast', () => {
  it('gives a way on and no chance', () => {
    const answer = answered('2026-05-13T10:00:00Z', { members: 1 }, { done });
    expect(answer.chance).toMatchObject({ adjusted: null, tenths: null });
    expect(answer.call).toBe('go-on');
  });
});

describe('odd days', () => {
  it('a Saturday is answered, and said to be none of the crew’s days', () => {
    const answer = answered('2026-05-16T10:00:00Z', { start: '2026-05-16T00:00:00Z' }, { done });
    expect(answer.notes.join(' ')).toMatch(/2026-05-16 is not a working day for this crew/);
  });

  it('the day the clocks go back keeps its wall-clock times', () => {
    // Ireland, Sunday 25 October 2026: the shift of 07:30 begins at 07:30 UTC.
    const answer = answered('2026-10-25T06:00:00Z', { start: '2026-10-25T00:00:00Z' });
    expect(
      answer.next.length === 0 || answer.next[0]!.startMs >= Date.parse('2026-10-25T07:30:00Z'),
    ).toBe(true);
    expect(answer.notes.join(' ')).toMatch(/not a working day/);
  });

  it('long after the working day whatever is open is closed up', () => {
    const answer = answered(
      '2026-05-13T18:00:00Z',
      {},
      { done: [{ name: '..field-1-1', atMs: null }] },
    );
    expect(answer.call).toBe('close-up');
    expect(answer.sentence).toMatch(/^Close up now: \d+ min\.$/);
  });
});
