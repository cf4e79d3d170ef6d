import { describe, expect, it } from 'vitest';
import { type DayOption, optionFor, planFor, simulateDay } from '../../src/planner/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import { planOn, preparedFor, type Setting, samePlan } from '../fixtures/planner/job.ts';
import { HOUR_MS, MINUTE_MS, rainBetween } from '../fixtures/planner/weather.ts';

/** What plain weather does to a day. Irish summer time is an hour ahead of the hours counted here. */

const DAY = localDayOn('2026-05-13', 'Europe/Dublin');
const JOBS = ['boat-store', 'parish-room', 'seed-workshop', 'net-hall'] as const;

function dayUnder(setting: Setting): DayOption {
  const option = optionFor(preparedFor(setting), DAY);
  if (option === null) throw new Error('no start fits this day');
  return option;
}

describe('a day of even, mild, dry weather', () => {
  it.each(JOBS)('is finished: %s', (job) => {
    const option = dayUnder({ job, weather: { members: 2, airTempC: () => 16 } });
    expect(option.outcomes.finished).toBe(2);
    expect(option.reasons).toEqual([]);
  });
});

describe('rain', () => {
  it('all day has the crew stand down, for the rain', () => {
    const option = dayUnder({ weather: { members: 3, rainMm: () => 1 } });
    expect(option).toMatchObject({ verdict: 'no', startMs: null });
    expect(option.outcomes.stoodDown).toBe(3);
    expect(option.reasons[0]).toMatchObject({ cause: 'rain', count: 3 });
  });

  it('on a stripped roof catches it open', () => {
    const plan = planOn({ job: 'parish-room', weather: { rainMm: rainBetween(9, 10) } });
    const run = simulateDay(plan, 0, { startMs: plan.shift.startMs });
    expect(run).toMatchObject({ kind: 'caughtOpen', cause: 'rain' });
    expect(run.causeMs).toBe(plan.prepared.grid.startMs + 9 * HOUR_MS);
    expect(run.openedMs).toBeLessThan(run.causeMs!);
  });

  it('just before the roof was to be opened has it left shut', () => {
    const plan = planOn({ job: 'parish-room', weather: { rainMm: rainBetween(6, 24) } });
    const run = simulateDay(plan, 0, { startMs: plan.shift.startMs });
    expect(run).toMatchObject({ kind: 'stoodDown', cause: 'rain', openedMs: null });
  });

  it('after the roof is rain-safe spoils nothing', () => {
    const plan = planOn({ weather: { rainMm: rainBetween(10, 11) } });
    const run = simulateDay(plan, 0, { startMs: plan.shift.startMs });
    expect(run.rainSafeMs).toBeLessThan(plan.prepared.grid.startMs + 10 * HOUR_MS);
    expect(run.kind).not.toBe('caughtOpen');
  });
});

describe('wind', () => {
  it('of a gale has the crew stand down, by a safety rule', () => {
    const option = dayUnder({ weather: { members: 2, windMps: () => 12, gustMps: () => 18 } });
    expect(option.outcomes.stoodDown).toBe(2);
    expect(option.reasons[0]).toMatchObject({ cause: 'roof-wind', whose: 'safety' });
  });

  it('in which sheet cannot be held stops the sheet, by a safety rule', () => {
    const option = dayUnder({ weather: { members: 2, windMps: () => 8, gustMps: () => 12 } });
    expect(option.outcomes.finished).toBe(0);
    expect(option.reasons[0]).toMatchObject({ cause: 'sheet-wind', whose: 'safety' });
  });
});

describe('dew until ten', () => {
  // Saturated, clear and still until nine by UTC, ten on the clock; then it dries quickly.
  const weather = {
    members: 2,
    dewPointC: (h: number) => (h <= 9 ? 8 : 2),
    airTempC: (h: number) => (h <= 9 ? 8 : 16),
    solarWm2: (h: number) => (h > 9 && h < 19 ? 500 : 0),
    cloudPct: () => 10,
    windMps: () => 1,
  };
  const tenMs = DAY.startMs + 10 * HOUR_MS;

  it('holds everything that is bonded until after ten, and the crew then gets on', () => {
    const plan = planOn({ weather });
    const run = simulateDay(plan, 0, { startMs: plan.shift.startMs });
    const coats = plan.steps.flatMap((s, n) => (s.film === null ? [] : [run.startMs[n]!]));
    expect(Math.min(...coats)).toBeGreaterThan(tenMs - HOUR_MS);
    expect(run.kind).toBe('finished');
  });

  it('moves the best start later than the crew’s usual hour', () => {
    const option = dayUnder({ weather });
    expect(option.startMs).toBeGreaterThan(option.plan.shift.startMs + HOUR_MS);
    expect(option.outcomes.finished).toBe(2);
  });
});

describe('a cold night after a water-borne film', () => {
  const frost = (h: number) => (h >= 22 && h <= 30 ? 1 : 14);

  it('is named as what stops the day, and is the data sheet’s', () => {
    const option = dayUnder({ weather: { members: 4, airTempC: frost, dewPointC: () => -3 } });
    expect(option.outcomes.finished).toBe(0);
    expect(option.reasons[0]).toMatchObject({ cause: 'cold-night', whose: 'data sheet', count: 4 });
  });

  it('that only a few forecasts show puts the bond in doubt in those few', () => {
    const airTempC = (h: number, m: number) => (m === 0 ? frost(h) : 14);
    const option = dayUnder({ weather: { members: 8, airTempC, dewPointC: () => -3 } });
    expect(option.outcomes).toMatchObject({ finished: 7, shortened: 1 });
    expect(option.reasons).toMatchObject([{ cause: 'cold-night', count: 1 }]);
  });

  it('does not trouble a solvent adhesive', () => {
    const weather = { members: 2, airTempC: frost, dewPointC: () => -3 };
    expect(dayUnder({ job: 'seed-workshop', weather }).outcomes.finished).toBe(2);
  });
});

describe('hot sun', () => {
  const at = (airC: number, sunWm2: number) =>
    planFor(
      preparedFor({
        job: 'boat-store',
        weather: { airTempC: () => airC, dewPointC: () => 4, solarWm2: (h) => dayLit(h, sunWm2) },
      }),
      DAY,
    ).work.sectionM2;
  const dayLit = (h: number, sunWm2: number) =>
    Math.max(0, sunWm2 * Math.sin((((h % 24) - 5) * Math.PI) / 15));

  it('makes the sections smaller than a cool dull day does', () => {
    const cool = at(10, 100);
    const mild = at(18, 400);
    const hot = at(28, 800);
    expect(mild).toBeLessThan(cool);
    expect(hot).toBeLessThan(mild);
    expect(hot).toBeGreaterThan(0);
  });
});

describe('a break', () => {
  it('does not start while a coated film waits, and is taken once it is closed', () => {
    const breaks = (from: string) => ({ crew: { breaks: [{ from, minutes: 30 }] } });
    const job = 'seed-workshop';
    // Without a break: which film waits, and from when?
    const free = planOn({ job, changes: { crew: { breaks: [] } } });
    const startMs = free.shift.startMs;
    const was = simulateDay(free, 0, { startMs });
    const close = free.steps.findIndex(
      (s, n) =>
        s.activity.stage === 'field' &&
        s.closes !== null &&
        was.startMs[n]! - was.doneMs[s.closes]! > 6 * MINUTE_MS,
    );
    expect(close).toBeGreaterThan(0);
    const waitsFromMs = was.doneMs[free.steps[close]!.closes!]! + MINUTE_MS;
    const wall = new Date(waitsFromMs + HOUR_MS).toISOString().slice(11, 16);
    // With one that falls due just then.
    const plan = samePlan(free, { job, changes: breaks(wall) });
    const run = simulateDay(plan, 0, { startMs });
    expect(plan.shift.breaks[0]!.fromMs).toBeLessThan(was.startMs[close]!);
    expect(run.startMs[close]).toBe(was.startMs[close]);
    expect(run.breakMs).toHaveLength(1);
    expect(run.breakMs[0]).toBeGreaterThanOrEqual(run.doneMs[close]!);
  });
});
