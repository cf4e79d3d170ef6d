import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readyJob } from '../../src/answers/index.ts';
import { decideByOthers } from '../../src/planner/explain/decide-by-others.ts';
import {
  anotherDay,
  bestStart,
  type CallOffTime,
  calledOffCost,
  callOff,
  type DayOption,
} from '../../src/planner/index.ts';
import { relativeValue } from '../../src/planner/verification/index.ts';
import { jobOf, planOn, type Setting, SHELF } from '../fixtures/planner/job.ts';
import { HOUR_MS } from '../fixtures/planner/weather.ts';

/**
 * Cost-loss rule: A. H. Murphy, Monthly Weather Review 105 (1977), 803-816: protect when the chance of
 * the event is above C / L. What that is worth: D. S. Richardson, Quarterly Journal of the Royal
 * Meteorological Society 126 (2000), 649-667: 0 = as whoever knows only how often it happens, 1 = as
 * whoever knows the future.
 */

/** Forecasts in groups that are wholly alike inside and not at all between. */
const alikeIn = (groups: readonly number[]): Float64Array =>
  Float64Array.from(groups.flatMap((a) => groups.map((b) => (a === b ? 1 : 0))));

describe('calling off by what the other forecasts say', () => {
  it('is as reckoned by hand for two pairs of forecasts', () => {
    // Of the first pair the other one costs 0 or 100, under 400: both go, and cost 50 on average.
    // Of the second pair the other one costs 900: both are called off, for 400 each.
    const found = decideByOthers([0, 100, 900, 900], alikeIn([1, 1, 2, 2]), 400);
    expect(found.calledOff).toEqual([false, false, true, true]);
    expect(found.calledOffShare).toBe(0.5);
    expect(found.expectedCost).toBeCloseTo((50 + 50 + 400 + 400) / 4, 6);
  });

  it('goes by closeness: the nearer forecast has more say', () => {
    // The first hears 1000 with weight 3 in 4 and 0 with 1 in 4: 750. The last two hear others.
    const weights = Float64Array.from([0, 0.9, 0.3, 0.9, 0, 0.1, 0.3, 0.1, 0]);
    const going = [0, 1000, 0];
    expect(decideByOthers(going, weights, 600).calledOff[0]).toBe(true);
    expect(decideByOthers(going, weights, 900).calledOff[0]).toBe(false);
  });

  it('without any skill is the choice of whoever knows only how often it happens (value 0)', () => {
    const loss = 1000;
    for (const [events, ratio] of [
      [1, 0.5],
      [2, 0.6],
      [5, 0.2],
      [8, 0.4],
    ] as const) {
      const going = Array.from({ length: 10 }, (_, n) => (n < events ? loss : 0));
      const found = decideByOthers(going, new Float64Array(100).fill(1), ratio * loss);
      const often = events / 10;
      expect(found.calledOffShare).toBe(often > ratio ? 1 : 0);
      expect(found.expectedCost).toBeCloseTo(loss * Math.min(ratio, often), 6);
      const acted = often > ratio ? 1 : 0;
      const rates = { hitRate: acted, falseAlarmRate: acted, baseRate: often };
      expect(relativeValue(rates, ratio)).toBeCloseTo(0, 12);
    }
  });

  it('with perfect knowledge calls off only where it must (value 1)', () => {
    const going = [1000, 0, 0, 1000, 1000, 0, 0, 0];
    const groups = going.map((cost) => (cost > 0 ? 1 : 2));
    const found = decideByOthers(going, alikeIn(groups), 300);
    expect(found.calledOff).toEqual(going.map((cost) => cost > 0));
    expect(found.expectedCost).toBeCloseTo((3 * 300) / 8, 6);
  });

  it('in between costs what Richardson’s hit and false-alarm rates say', () => {
    const group = fc.tuple(fc.integer({ min: 3, max: 9 }), fc.integer({ min: 0, max: 9 }));
    fc.assert(
      fc.property(
        fc.array(group, { minLength: 1, maxLength: 5 }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (sizes, ratio) => {
          const loss = 500;
          const going: number[] = [];
          const groups: number[] = [];
          sizes.forEach(([size, asked], g) => {
            for (let n = 0; n < size; n += 1) {
              going.push(n < Math.min(asked, size) ? loss : 0);
              groups.push(g);
            }
          });
          const { calledOff, expectedCost } = decideByOthers(going, alikeIn(groups), ratio * loss);
          // Where a group is of one mind, the cost is the one of its decisions on its own ends.
          const ofOneMind = sizes.every((_, g) => {
            const minds = calledOff.filter((_off, m) => groups[m] === g);
            return minds.every((off) => off === minds[0]);
          });
          fc.pre(ofOneMind);
          const events = going.filter((cost) => cost > 0).length;
          const often = events / going.length;
          const share = (event: boolean, of: number) =>
            of === 0
              ? 0
              : going.filter((cost, m) => cost > 0 === event && calledOff[m]).length / of;
          const hit = share(true, events);
          const alarm = share(false, going.length - events);
          // Richardson (2000), mean expense: F C (1 - s) - H s (L - C) + s L, over L.
          const expense = alarm * ratio * (1 - often) - hit * often * (1 - ratio) + often;
          expect(expectedCost / loss).toBeCloseTo(expense, 6);
        },
      ),
      { numRuns: 200, seed: 7 },
    );
  });

  it('takes a single forecast at its word', () => {
    const one = new Float64Array(1);
    expect(decideByOthers([700], one, 300)).toMatchObject({ expectedCost: 300, calledOffShare: 1 });
    expect(decideByOthers([200], one, 300)).toMatchObject({ expectedCost: 200, calledOffShare: 0 });
  });

  it('refuses costs that are none', () => {
    expect(() => decideByOthers([Number.NaN], new Float64Array(1), 1)).toThrow(/cost \(NaN\)/);
    expect(() => decideByOthers([1, 2], new Float64Array(1), 1)).toThrow(/2 x 2/);
  });
});

describe('when to decide about a day', () => {
  const THURSDAY = '2026-05-14';
  /** Rain from noon of Thursday in so many of eight forecasts, told by a warmer Wednesday. */
  const setting = (wet: number, told: boolean): Setting => ({
    job: 'parish-room',
    date: THURSDAY,
    changes: { costs: { standDown: 800, shortened: 300, caughtOpen: 3000, calledOff: 250 } },
    weather: {
      members: 8,
      hours: 66,
      airTempC: (h, m) => 14 + (told && h > 12 && m < wet ? 3 : 0) + (h % 24 > 8 ? 3 : 0),
      rainMm: (h, m) => (m < wet && h > 34 ? 2 : 0),
    },
  });
  const decide = (wet: number, told: boolean) => {
    const plan = planOn(setting(wet, told));
    return callOff(bestStart(plan, [plan.shift.startMs]));
  };
  const at = (found: ReturnType<typeof decide>, when: CallOffTime) =>
    found.choices.find((choice) => choice.when === when)!;

  it('tells what calling off costs then: cheap up to the day, dear on site', () => {
    const { choices } = decide(4, false);
    expect(choices.map(({ when, callOffCost }) => [when, callOffCost])).toEqual([
      ['now', 250],
      ['evening before', 250],
      ['on site', 800],
      ['go whatever', 800],
    ]);
    const hours = choices.map(({ atMs }) => (atMs === null ? null : new Date(atMs).toISOString()));
    // Five in the afternoon and half past seven in Ireland, an hour ahead of UTC in May.
    expect(hours.slice(1)).toEqual(['2026-05-13T16:00:00.000Z', '2026-05-14T06:30:00.000Z', null]);
  });

  it('waits for the evening where Wednesday will tell, and then only the wet days are called off', () => {
    const found = decide(3, true);
    expect(found.best).toBe('evening before');
    expect(at(found, 'evening before').calledOff).toEqual(
      Array.from({ length: 8 }, (_, m) => m < 3),
    );
    expect(at(found, 'evening before').expectedCost).toBeLessThan(at(found, 'now').expectedCost);
    expect(found.words).toMatch(/^Decide at 17:00 on Wednesday 13 May: in 3 of 8 forecasts/);
  });

  it('calls off at once what nothing will save', () => {
    const found = decide(8, false);
    expect(found.best).toBe('now');
    expect(at(found, 'now').calledOffShare).toBe(1);
    expect(found.words).toMatch(/^Call it off now, for EUR 250:/);
  });

  it('costs no more to look again than to go whatever where nothing is wrong', () => {
    const found = decide(0, false);
    expect(found.best).toBe('evening before');
    const costs = found.choices.map(({ expectedCost }) => expectedCost);
    for (const cost of costs) expect(cost).toBeCloseTo(costs[0]!, 6);
    expect(at(found, 'evening before').calledOffShare).toBe(0);
  });

  it('leaves out moments that are past', () => {
    const nowMs = Date.parse('2026-05-14T05:00:00Z');
    const plan = planOn({ ...setting(4, true), nowMs });
    const { choices } = callOff(bestStart(plan, [plan.shift.startMs + HOUR_MS]));
    expect(choices.map(({ when, callOffCost }) => [when, callOffCost])).toEqual([
      ['now', 800],
      ['on site', 800],
      ['go whatever', 800],
    ]);
  });
});

describe('the other day that a day called off leaves the job to', () => {
  const plan = planOn({
    job: 'parish-room',
    date: '2026-05-14',
    changes: { costs: { standDown: 800, caughtOpen: 3000, calledOff: 250, waitPerDay: 50 } },
    weather: { members: 8, hours: 66 },
  });
  const found = bestStart(plan, [plan.shift.startMs]);
  /** Of eight forecasts, all alike so far, four finish for nothing and four stand down for 800. */
  const thursday: DayOption = {
    ...found,
    runs: found.runs.map((run, m) => ({
      ...run,
      idleMs: 0,
      kind: m < 4 ? 'finished' : 'stoodDown',
    })),
    expectedCost: 400,
  };
  const daysOn = (days: number, expectedCost: number, verdict: DayOption['verdict'] = 'go') => ({
    ...thursday,
    day: { ...thursday.day, startMs: thursday.day.startMs + days * 24 * HOUR_MS },
    leadDays: thursday.leadDays + days,
    expectedCost,
    verdict,
  });

  it('is the cheapest later one, each day of waiting counted', () => {
    // Friday 100 + 50; Sunday 20 + 3 x 50 = 170; Saturday nobody can judge, Wednesday is past.
    const options = [
      daysOn(-1, 0),
      thursday,
      daysOn(1, 100),
      daysOn(2, 0, 'unknown'),
      daysOn(3, 20),
    ];
    expect(anotherDay(thursday, options)).toBeCloseTo(150, 9);
    // Friday at 121 + 50 is dearer than Sunday.
    expect(anotherDay(thursday, [thursday, daysOn(1, 121), daysOn(3, 20)])).toBeCloseTo(170, 9);
  });

  it('is one day’s wait where the forecast shows none', () => {
    expect(anotherDay(thursday, [daysOn(-1, 0), thursday])).toBe(50);
    expect(anotherDay(thursday, [thursday, daysOn(1, 10, 'unknown')])).toBe(50);
  });

  it('before a good day calls off what it would not before a bad week', () => {
    const now = (options: readonly DayOption[]) => {
      const call = callOff(thursday, anotherDay(thursday, options));
      return { ...call.choices.find(({ when }) => when === 'now')!, go: call.choices.at(-1)! };
    };
    // Another day costs 0 + 50: off is 250 + 50 = 300. Going is 0 or 800 + 50, as the other seven
    // forecasts have it 3/7 or 4/7 of 850: 364 or 486. All call off; who goes all the same pays 425.
    const good = now([thursday, daysOn(1, 0)]);
    expect(good.calledOffShare).toBe(1);
    expect(good.expectedCost).toBeCloseTo(300, 6);
    expect(good.go.expectedCost).toBeCloseTo(425, 6);
    // 850 + 50 at best: off is 1150. Going is 3/7 or 4/7 of 1700, 729 or 971: nobody calls off.
    const bad = now([thursday, daysOn(1, 850), daysOn(2, 850)]);
    expect(bad.calledOffShare).toBe(0);
    expect(bad.expectedCost).toBeCloseTo(850, 6);
    expect(bad.go.expectedCost).toBeCloseTo(850, 6);
  });
});

describe('what calling off the evening before costs', () => {
  const { job } = jobOf('parish-room');

  it('is the firm’s own figure, else 0.4 of an aborted day (common practice)', () => {
    expect(calledOffCost({ ...job.costs, standDown: 750 })).toBeCloseTo(300, 12);
    expect(calledOffCost({ ...job.costs, calledOff: 120 })).toBe(120);
    expect(calledOffCost({ ...job.costs, calledOff: 0 })).toBe(0);
  });

  it('is refused above what calling off on site costs', () => {
    const read = readyJob({ ...job, costs: { ...job.costs, calledOff: 751 } }, SHELF);
    expect(read).toMatchObject({ ok: false, issues: [{ path: 'costs.calledOff' }] });
    expect(readyJob({ ...job, costs: { ...job.costs, calledOff: 750 } }, SHELF).ok).toBe(true);
  });
});
