import { describe, expect, it } from 'vitest';
import { presentHindsight } from '../../src/answers/index.ts';
import {
  adjustChance,
  CASES_NEEDED,
  type FirmRecord,
  firmRecord,
  mostFor,
  NOT_YET_CHECKED,
  type SiteEvent,
} from '../../src/planner/index.ts';
import { adjustByRecord, ownRecord } from '../../src/planner/verification/index.ts';
import {
  calledDays,
  countingCalls,
  type DayCall,
  dayEnds,
  leadClassOf,
  pastCalls,
  whyNoCase,
} from '../../src/record/index.ts';
import { seededRandom } from '../../src/units/index.ts';
import { dayCall, sampleJob, undo, uuid } from '../kill/samples.ts';

/* Laws of docs/verification.md; the simulated firms' true chances are known, since we draw them. */

const DAY_MS = 86_400_000;
const JOB = 'job';
const dateOf = (day: number): string =>
  new Date(Date.UTC(2024, 0, 1) + day * DAY_MS).toISOString().slice(0, 10);

type Ended = Extract<SiteEvent, { kind: 'day-ended' }>;
function ended(date: string, more: Partial<Ended> = {}): Ended {
  const atMs = Date.parse(`${date}T16:00:00Z`);
  return {
    id: uuid(),
    jobId: JOB,
    atMs,
    loggedMs: atMs,
    actorId: 'anna',
    kind: 'day-ended',
    date,
    went: 'finished',
    because: null,
    ...more,
  };
}

const OF = 51;
/** True chances from 0.1 to 0.9, and counts of forecasts that make three times as much of the log odds. */
function drawDay(random: () => number): { truth: number; count: number; happened: boolean } {
  const truth = 0.1 + 0.8 * random();
  const odds = (truth / (1 - truth)) ** 3;
  return { truth, count: Math.round((OF * odds) / (1 + odds)), happened: random() < truth };
}

/** A firm whose forecasts are too sure: three answers of each day, on three mornings. */
function boldFirm(days: number, seed: number) {
  const random = seededRandom(seed);
  const calls: DayCall[] = [];
  const events: SiteEvent[] = [];
  for (let day = 0; day < days; day += 1) {
    const date = dateOf(day);
    const { count, happened } = drawDay(random);
    for (const leadDays of [0.1, 1.1, 3.1]) {
      const { adjusted, shrunk } = adjustChance({ count, of: OF, crossFit: 1, leadDays });
      const saidMs = Date.parse(`${date}T07:00:00Z`) - leadDays * DAY_MS;
      const forecastMs = saidMs - 3_600_000;
      const said = { saidMs, leadDays, forecastMs, count, of: OF };
      calls.push(dayCall(JOB, date, { ...said, shrunk: shrunk!, shown: adjusted! }));
    }
    events.push(
      ended(
        date,
        happened ? {} : { went: day % 2 ? 'shortened' : 'stood-down', because: 'weather' },
      ),
    );
  }
  return { calls, events };
}

const recordOf = (calls: readonly DayCall[], events: readonly SiteEvent[]): FirmRecord =>
  firmRecord(pastCalls(calledDays(JOB, calls, events)));

/** Root mean square of chance shown less true chance, over days not seen before. */
function offBy(record: FirmRecord | null): number {
  const random = seededRandom(7);
  let sum = 0;
  for (let day = 0; day < 2000; day += 1) {
    const { truth, count } = drawDay(random);
    const leadDays = [0, 1, 3][day % 3]!;
    const { adjusted } = adjustChance({ count, of: OF, crossFit: 1, leadDays, record });
    sum += (adjusted! - truth) ** 2;
  }
  return Math.sqrt(sum / 2000);
}

describe('a firm whose forecasts are too sure', () => {
  it('sees chances nearer to what happens once 150 days are known, and nearer with 400', () => {
    const without = offBy(null);
    const left = { some: 0, many: 0 };
    for (const seed of [1, 2, 3]) {
      const { calls, events } = boldFirm(400, seed);
      const some = recordOf(calls, events.slice(0, 150));
      const many = recordOf(calls, events);
      expect([some.cases, many.cases]).toEqual([150, 400]);
      expect(some.checked).toBe('checked against 150 outcomes here');
      // Luck may have it that 150 days show no gain: then nothing changes.
      expect(offBy(some)).toBeLessThanOrEqual(without);
      left.some += offBy(some) / without / 3;
      left.many += offBy(many) / without / 3;
    }
    expect(left.some).toBeLessThan(0.75);
    expect(left.many).toBeLessThan(0.5);
  });

  it('sees no change below 100 days, however many answers each day had', () => {
    const { calls, events } = boldFirm(CASES_NEEDED, 4);
    const few = recordOf(calls, events.slice(1));
    expect(few).toMatchObject({ cases: 99, weight: 0, curve: null, checked: NOT_YET_CHECKED });
    for (let count = 0; count <= OF; count += 1) {
      const args = { count, of: OF, crossFit: 1, leadDays: 1 };
      expect(adjustChance({ ...args, record: few })).toEqual(adjustChance(args));
    }
    expect(recordOf(calls, events)).toMatchObject({ cases: 100, weight: 0.5 });
  });

  it('loses an outcome that is taken back', () => {
    const { calls, events } = boldFirm(CASES_NEEDED, 4);
    const back = undo(JOB, events[40]!.id, events[40]!.loggedMs + 1);
    expect(recordOf(calls, [...events, back])).toEqual(
      recordOf(
        calls,
        events.filter((event) => event !== events[40]),
      ),
    );
    expect(recordOf(calls, [...events, back]).cases).toBe(99);
  });

  it('never makes a chance surer than the count allows, and keeps the order of days', () => {
    // Every day finished: the record would have it that all days do.
    const { calls, events } = boldFirm(300, 5);
    const always = events.map((event) => ({ ...event, went: 'finished', because: null }) as Ended);
    const record = recordOf(calls, always);
    expect(record.weight).toBe(0.75);
    let before = 0;
    for (let count = 1; count <= OF; count += 1) {
      const args = { count, of: OF, crossFit: 1, leadDays: 2 };
      const { adjusted, checked } = adjustChance({ ...args, record });
      expect(adjusted!).toBeGreaterThanOrEqual(before);
      expect(adjusted!).toBeLessThanOrEqual(mostFor(OF));
      expect(checked).toBe('checked against 300 outcomes here');
      before = adjusted!;
    }
    expect(before).toBe(mostFor(OF));
    const none = adjustChance({ count: 0, of: OF, crossFit: 0, leadDays: 2, record });
    expect(none).toMatchObject({ tenths: 0, words: 'none of 51 forecasts' });
  });
});

describe('the record drawn as a curve', () => {
  it('lies within 0.001 of the map between 0.02 and 0.98, and never falls', () => {
    const { calls, events } = boldFirm(200, 6);
    const past = pastCalls(calledDays(JOB, calls, events));
    const record = firmRecord(past);
    const { adjust } = ownRecord(past);
    let before = 0;
    for (let chance = 0.001; chance < 1; chance += 0.0013) {
      const drawn = adjustByRecord(record, chance);
      expect(drawn).toBeGreaterThan(before);
      before = drawn;
      if (chance < 0.02 || chance > 0.98) continue;
      expect(Math.abs(drawn - adjust(chance))).toBeLessThan(0.001);
    }
    expect(() => adjustByRecord(record, 1)).toThrow('shrunk (1)');
    expect(() => adjustByRecord(record, Number.NaN)).toThrow('shrunk (NaN)');
  });
});

describe('which calls of a day count', () => {
  const date = '2026-06-09';
  const at = (leadDays: number, minutes = 0): DayCall => {
    const saidMs = Date.parse(`${date}T07:00:00Z`) - leadDays * DAY_MS + minutes * 60_000;
    return dayCall(JOB, date, { leadDays, saidMs, forecastMs: saidMs });
  };

  it('of ten answers on one morning only the last', () => {
    const ten = Array.from({ length: 10 }, (_, n) => at(0.1 - n / 1000));
    expect(countingCalls([...ten].reverse(), null)).toEqual([ten[9]]);
  });

  it('one of each class of days ahead, the nearest first', () => {
    const calls = [9, 8.2, 6, 4, 3, 2.5, 1.9, 1, 0.9, 0].map((leadDays) => at(leadDays));
    expect(countingCalls(calls, null).map(({ leadDays }) => leadDays)).toEqual([
      0, 1, 2.5, 3, 6, 8.2,
    ]);
    expect([0, 0.99, 1, 4.99, 5, 30].map(leadClassOf)).toEqual([0, 0, 1, 3, 4, 5]);
    expect(() => leadClassOf(-0.1)).toThrow('leadDays (-0.1)');
  });

  it('none that was said once the crew’s day had begun, or after the day was over', () => {
    expect(countingCalls([at(-0.01)], null)).toEqual([]);
    const early = at(1);
    const off = ended(date, { atMs: early.saidMs + 1, went: 'stood-down', because: 'other' });
    expect(countingCalls([early, at(0.5)], off)).toEqual([early]);
  });
});

describe('what a day says of its chance', () => {
  const date = '2026-06-09';
  const call = dayCall(JOB, date);
  const day = (...events: SiteEvent[]) => calledDays(JOB, [call], events)[0]!;
  const outcome = (...events: SiteEvent[]) => pastCalls([day(...events)])[0]!.outcome;

  it('finished or not, where it was tried or stood down for its own weather', () => {
    expect(outcome(ended(date))).toBe('finished');
    expect(outcome(ended(date, { went: 'caught-open' }))).toBe('not finished');
    for (const went of ['shortened', 'stood-down'] as const)
      expect(outcome(ended(date, { went, because: 'weather' }))).toBe('not finished');
    expect(whyNoCase(day(ended(date)))).toBeNull();
  });

  it('nothing where nobody said, called it off unseen, or it was not the weather', () => {
    expect(outcome()).toBeNull();
    expect(outcome(ended('2026-06-10'))).toBeNull();
    const finishedList: SiteEvent = { ...ended(date), kind: 'finished', activityId: 'check' };
    expect(outcome(finishedList)).toBeNull();
    expect(whyNoCase(day())).toMatch(/nobody has said/);
    for (const went of ['shortened', 'stood-down'] as const) {
      for (const because of ['forecast', 'other'] as const) {
        const end = ended(date, { went, because });
        expect(outcome(end)).toBeNull();
        expect(whyNoCase(day(end))).toMatch(
          because === 'forecast' ? /nobody saw/ : /not the weather/,
        );
      }
    }
  });

  it('by the entry written down last; taken back, by the one before', () => {
    const first = ended(date);
    const second = ended(date, {
      went: 'caught-open',
      atMs: first.atMs - 1,
      loggedMs: first.loggedMs + 5,
    });
    expect(dayEnds([first, second]).get(date)).toEqual(second);
    expect(outcome(first, second)).toBe('not finished');
    expect(outcome(first, second, undo(JOB, second.id, second.loggedMs + 1))).toBe('finished');
  });
});

describe('the firm’s hindsight', () => {
  const { calls, events } = boldFirm(30, 8);
  const job = { ...sampleJob(), id: JOB };
  const told = (log: readonly SiteEvent[], nowMs = Date.parse('2024-02-20T05:00:00Z')) => {
    const days = calledDays(JOB, calls, log);
    return presentHindsight({ jobs: [{ job, days }], record: recordOf(calls, log), nowMs });
  };

  it('scores the last call of each day, and each class of days ahead, by what came', () => {
    const { score, byLead, called, days, sentence } = told(events);
    const ended = dayEnds(events);
    // Brier 1950: mean square of chance less outcome.
    const brier = (lead: number) =>
      calls
        .filter(({ leadDays }) => leadDays === lead)
        .map(({ date, shown }) => (shown - (ended.get(date)!.went === 'finished' ? 1 : 0)) ** 2)
        .reduce((sum, square) => sum + square / 30, 0);
    expect(score!.brier).toBeCloseTo(brier(0.1), 12);
    expect(byLead.map(({ lead }) => lead)).toEqual([
      'within a day of it',
      '1 day ahead',
      '3 or 4 days ahead',
    ]);
    expect(byLead[2]!.score.brier).toBeCloseTo(brier(3.1), 12);
    expect(byLead.every((of) => of.score.days === 30)).toBe(true);
    expect(called.reduce((sum, of) => sum + of.days, 0)).toBe(30);
    expect(called.reduce((sum, of) => sum + of.finished, 0)).toBe(score!.finished);
    expect(days).toHaveLength(30);
    expect(days[0]!.date > days[29]!.date).toBe(true);
    expect(sentence).toBe(
      '30 days with a known outcome; from 100 on they correct the chances here.',
    );
  });

  it('lists days that are over without an end, and none that are still to come', () => {
    const { days, score, called } = told([], Date.parse('2024-01-11T05:00:00Z'));
    expect(days).toHaveLength(10);
    expect(days.every(({ went, whyNot }) => went === null && /nobody/.test(whyNot!))).toBe(true);
    expect([score, called]).toEqual([null, []]);
  });
});
