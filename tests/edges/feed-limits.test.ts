import { describe, expect, it } from 'vitest';
import { callWeight, freeBudget, retryAfterLimit } from '../../src/feed/call-weight.ts';

/** Call weights and limits as the provider documents them: 600 a minute, 5 000 an hour, 10 000 a day. */

const NOON = Date.parse('2026-05-12T12:00:00Z');

describe('callWeight', () => {
  it('counts 10 variables of 51 forecasts over 7 days as 51 calls (the documented example)', () => {
    expect(callWeight({ variables: 10, forecasts: 51, days: 7 })).toBe(51);
  });
  it('counts more than 14 days in proportion, locations each, and nothing below one', () => {
    expect(callWeight({ variables: 10, forecasts: 1, days: 28 })).toBe(2);
    expect(callWeight({ variables: 10, forecasts: 51, days: 7, locations: 3 })).toBe(153);
    expect(callWeight({ variables: 1, forecasts: 1, days: 1 })).toBe(1);
  });
});

describe('the free budget', () => {
  it.each([
    ['limit-minute', 600, 1, '2026-05-12T12:01:00Z'],
    ['limit-hour', 500, 10, '2026-05-12T13:00:00Z'],
    ['limit-day', 500, 20, '2026-05-13T00:00:00Z'],
  ] as const)(
    'refuses with %s after %d calls x %d minutes, until the window ends',
    (code, calls, minutes, until) => {
      const budget = freeBudget();
      let at = NOON;
      for (let m = 0; m < minutes; m++) {
        // The day's calls are spread over two hours, the hour's over ten minutes.
        at = NOON + m * 60_000 + (m >= 10 ? 3_600_000 : 0);
        expect(budget.refusal(at, calls)).toBeNull();
        budget.spend(at, calls);
      }
      expect(budget.refusal(at, 1)).toMatchObject({ code, retryAtMs: Date.parse(until) });
      expect(budget.refusal(Date.parse(until), 1)).toBeNull();
    },
  );
  it('takes exactly the last call that fits', () => {
    const budget = freeBudget();
    budget.spend(NOON, 599);
    expect(budget.refusal(NOON, 1)).toBeNull();
    expect(budget.refusal(NOON, 1.1)?.code).toBe('limit-minute');
  });
});

describe('retryAfterLimit', () => {
  it('names the start of the next clock minute, hour and UTC day, and nothing for other failures', () => {
    const at = Date.parse('2026-05-12T23:59:30Z');
    expect(retryAfterLimit('limit-minute', at)).toBe(Date.parse('2026-05-13T00:00:00Z'));
    expect(retryAfterLimit('limit-hour', NOON)).toBe(Date.parse('2026-05-12T13:00:00Z'));
    expect(retryAfterLimit('limit-day', NOON)).toBe(Date.parse('2026-05-13T00:00:00Z'));
    expect(retryAfterLimit('gateway', NOON)).toBeNull();
  });
});
