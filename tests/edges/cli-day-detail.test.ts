import { describe, expect, it } from 'vitest';
import { dayDetail } from '../../src/cli/print/day-detail.ts';
import type { DayOption } from '../../src/contract/index.ts';
import { safeStartsNote } from '../../src/planner/index.ts';

/** What is printed behind a day's line, for days written by hand. */

const ZONE = 'Europe/Dublin';
const DAY: DayOption = {
  date: '2026-05-13',
  verdict: 'go',
  sentence: 'Lay the roof.',
  startMs: null,
  openFromMs: null,
  lastAdhesiveMs: null,
  rainSafeByMs: null,
  finishMs: null,
  openMin: null,
  chance: null,
  outcomes: { finished: 0, shortened: 0, stoodDown: 0, caughtOpen: 0, unknown: 0 },
  expectedCost: 14_000,
  value: null,
  way: null,
  wholeJob: null,
  reasons: [],
  limit: null,
  turns: [],
  callOff: null,
  tooEarly: null,
  safeStarts: [],
  safeStartsNote: null,
  searched: 'full',
  rank: 1,
};

/** Half past two in Ireland, an hour ahead of UTC in May. */
const HALF_PAST_TWO_MS = Date.parse('2026-05-13T13:30:00Z');
const piece = (words: string, lastMs: number | null) => ({ words, lastMs });

const printed = (safeStarts: DayOption['safeStarts']): string =>
  dayDetail({ ...DAY, safeStarts, safeStartsNote: safeStartsNote(safeStarts) }, ZONE, 'EUR')
    .join('\n')
    .replace(/\s+/g, ' ');

describe('the last safe starts of a day', () => {
  it('are the pieces that have one, and no more is said where all have', () => {
    expect(printed([piece('Laps', HALF_PAST_TWO_MS), piece('Low edge', HALF_PAST_TWO_MS)])).toMatch(
      /last safe start: 14:30 Laps; 14:30 Low edge\.$/,
    );
  });

  it('are one plain sentence where none has', () => {
    const none = printed([piece('Laps', null), piece('Low edge', null)]);
    expect(none).toMatch(
      /last safe start: No last safe start to name: even as planned, the roof is not rain-safe in the share of forecasts asked for\.$/,
    );
    expect(none).not.toMatch(/Laps|none /);
  });

  it('name three at most of those that have none', () => {
    const names = ['Laps', 'Low edge', 'High edge', 'Outlet', 'Night seal'];
    const some = printed([
      piece('Field', HALF_PAST_TWO_MS),
      ...names.map((words) => piece(words, null)),
    ]);
    expect(some).toContain(
      'last safe start: 14:30 Field. None to name for “Laps”, “Low edge”, “High edge” and 2 more: even as planned',
    );
    expect(printed([piece('Field', HALF_PAST_TWO_MS), piece('Laps', null)])).toContain(
      'None to name for “Laps”: even as planned',
    );
  });

  it('are left out where no piece of work has to be finished in one go', () => {
    expect(printed([])).not.toContain('last safe start');
  });
});

describe('a sum of money', () => {
  it('has its currency before it and its thousands apart', () => {
    expect(printed([])).toContain('cost: EUR 14,000 expected.');
  });
});
