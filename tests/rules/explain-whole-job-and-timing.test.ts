import { describe, expect, it } from 'vitest';
import {
  bestStart,
  type DayOption,
  lastSafeStart,
  optionFor,
  type Prepared,
  planFor,
  prepare,
  rainTimingSpread,
  rainTimingSpreads,
  reasonsOf,
  safeStartsOf,
  simulateDay,
  wholeJob,
  workOrder,
} from '../../src/planner/index.ts';
import { type LocalDay, localDayOn } from '../../src/time/index.ts';
import { earlyOn, jobOf, planOn, preparedFor, type Setting } from '../fixtures/planner/job.ts';
import { type HourlyFn, MINUTE_MS, weatherOf } from '../fixtures/planner/weather.ts';

/** The committee room is laid in two laying days; Wednesday 13 May 2026 is the first of the weather. */
const DATES = ['2026-05-13', '2026-05-14', '2026-05-15'];
const dayOn = (date: string): LocalDay => localDayOn(date, 'Europe/Dublin');

function search(setting: Setting, days: number): { prepared: Prepared; options: DayOption[] } {
  const prepared = preparedFor({ job: 'parish-room', changes: TIGHT, ...setting });
  const options = DATES.slice(0, days).flatMap(
    (date) => optionFor(prepared, dayOn(date), 'quick') ?? [],
  );
  return { prepared, options };
}

/** Rain from nine UTC on, on the days said, in the forecasts said; over a sealed layer it spoils the day only. */
const wetOn =
  (wet: (day: number, m: number) => boolean) =>
  (h: number, m: number): number =>
    h % 24 > 9 && h % 24 < 20 && wet(Math.floor(h / 24), m) ? 1 : 0;
const TIGHT = { buildUp: { under: 'sealed-vapour-layer' } } as const;

/** By the plainest reading: bay after bay and day after day, in one forecast's own weather. */
function doneByHand(prepared: Prepared, options: readonly DayOption[], m: number): boolean {
  const job = prepared.job;
  let bay = job.baysDone;
  for (const option of options) {
    const plan = planFor({ ...prepared, job: { ...job, baysDone: bay } }, option.day);
    const starts = [0, 150, 300]
      .map((minutes) => plan.shift.startMs + minutes * MINUTE_MS)
      .filter((ms) => ms + plan.steps[0]!.toRainSafeMs <= plan.shift.endMs);
    const found = bay === job.baysDone ? option : bestStart(plan, starts);
    if (found.startMs === null) continue;
    const { kind } = simulateDay(bay === job.baysDone ? option.plan : plan, m, {
      startMs: found.startMs,
    });
    if (kind === 'caughtOpen') return false;
    if (kind === 'finished') bay += 1;
    if (bay === 2) return true;
  }
  return false;
}

describe('the chance of the whole job', () => {
  it('is counted inside each forecast, never a product of days', () => {
    // Each forecast has one wet day of two: half of them lose Wednesday, the others Thursday.
    const either = search(
      { weather: { members: 6, hours: 72, rainMm: wetOn((d, m) => m % 2 === d) } },
      2,
    );
    for (const { chance } of either.options) expect(chance.count).toBe(3);
    const found = wholeJob(either.prepared, either.options, dayOn(DATES[0]!));
    // The product of the two days would be a quarter.
    expect(found).toMatchObject({ layingDays: 2, count: 0, of: 6 });
    expect(found.words).toBe(
      'The whole job, 2 laying days from Wednesday 13 May on: done by Thursday 14 May in none of 6 forecasts.',
    );
  });

  it('is as high as the days themselves where the same forecasts are dry on both', () => {
    const both = search(
      { weather: { members: 6, hours: 72, rainMm: wetOn((d, m) => m % 2 === 0 && d < 2) } },
      2,
    );
    const found = wholeJob(both.prepared, both.options, dayOn(DATES[0]!));
    expect(found).toMatchObject({ count: 3, of: 6 });
  });

  it('goes on as plain reading does: the next bay after one is finished, on the days there are', () => {
    const rainMm = wetOn((d, m) => (m * 7 + d * 3) % 5 < 2);
    const { prepared, options } = search({ weather: { members: 8, hours: 96, rainMm } }, 3);
    const found = wholeJob(prepared, options, dayOn(DATES[0]!));
    const byHand = Array.from({ length: 8 }, (_, m) => doneByHand(prepared, options, m));
    expect(found.count).toBe(byHand.filter(Boolean).length);
    expect(found.count).toBeGreaterThan(0);
    expect(found.count).toBeLessThan(8);
    expect(found.byDay?.date).toBe(DATES[2]);
    // From the second day on there is a day less to do it in.
    const later = wholeJob(prepared, options, dayOn(DATES[1]!));
    expect(later.count).toBeLessThanOrEqual(found.count);
  });

  it('counts what is still to do: with one bay laid one dry day is enough', () => {
    const rainMm = wetOn((d, m) => m % 2 === d);
    const setting = {
      changes: { ...TIGHT, baysDone: 1 },
      weather: { members: 6, hours: 72, rainMm },
    };
    const { prepared, options } = search(setting, 2);
    const found = wholeJob(prepared, options, dayOn(DATES[0]!));
    expect(found).toMatchObject({ layingDays: 1, count: 6, of: 6 });
    expect(found.words).toMatch(/one laying day from Wednesday 13 May on: about \d in 10 that/);
  });

  it('does not open up where the others say it is too likely to be caught, and whoever is caught is not done', () => {
    // Rain from ten UTC on in half of the forecasts on Wednesday, in none on Thursday and Friday.
    const rainMm = (h: number, m: number) => (h > 10 && h < 24 && m % 2 === 0 ? 1 : 0);
    const { prepared, options } = search(
      { changes: {}, weather: { members: 6, hours: 96, rainMm } },
      3,
    );
    const plan = planFor(prepared, options[0]!.day);
    const wednesday = bestStart(plan, [plan.shift.startMs]);
    expect(wednesday.outcomes).toMatchObject({ finished: 3, caughtOpen: 3 });
    const days = [wednesday, ...options.slice(1)];
    expect(wholeJob(prepared, days, dayOn(DATES[0]!))).toMatchObject({ count: 6, of: 6 });
    // Where being caught costs no more than standing down they do open up, and half are caught: not done.
    const { costs } = prepared.job;
    const bold = prepared.variant({ costs: { ...costs, caughtOpen: costs.standDown } });
    const boldPlan = planFor(bold, options[0]!.day);
    const boldDays = [bestStart(boldPlan, [boldPlan.shift.startMs]), ...options.slice(1)];
    expect(wholeJob(bold, boldDays, dayOn(DATES[0]!))).toMatchObject({ count: 3, of: 6 });
  });

  it('is not given where fewer days are left than the job takes', () => {
    const { prepared, options } = search({ weather: { members: 2, hours: 72 } }, 2);
    const found = wholeJob(prepared, options, dayOn(DATES[1]!));
    expect(found).toMatchObject({ layingDays: 2, chance: null });
    expect(found.words).toMatch(/leave one working day\.$/);
    expect(wholeJob(prepared, options, dayOn(DATES[2]!)).words).toMatch(/leave no working day\.$/);
  });

  it('does not take for dry what the forecast does not reach', () => {
    const { prepared, options } = search({ weather: { members: 2, hours: 36 } }, 2);
    expect(options[1]!.verdict).toBe('unknown');
    expect(wholeJob(prepared, options, dayOn(DATES[0]!)).chance).toBeNull();
  });
});

/** A forecast whose rain comes as sums over six hours, spread evenly by the feed, on Wednesday 13 May 2026. */

const WEDNESDAY = localDayOn('2026-05-13', 'Europe/Dublin');

function question(rainMm: HourlyFn) {
  const hourly = weatherOf({ members: 8, hours: 48, rainMm });
  const args = { ...jobOf('parish-room'), hourly, nowMs: earlyOn(hourly) };
  const plan = planFor(prepare(args), WEDNESDAY);
  return { args, option: bestStart(plan, [plan.shift.startMs]) };
}

/** One sum each six hours: hours 7 to 12 are those from six to noon UTC. */
const sixHourly =
  (mm: (block: number, m: number) => number): HourlyFn =>
  (h, m) =>
    mm(Math.ceil(h / 6) - 1, m) / 6;

describe('how far a day moves with the hours in which rain falls', () => {
  // A little rain in the morning of every forecast: before the roof is opened, or just after.
  const morning = question(
    sixHourly((block, m) => (block === 1 ? 0.3 + 0.1 * (m % 3) : block > 4 ? 1 : 0)),
  );

  it('is told as the lowest and the highest share, the one used among them', () => {
    const { args, option } = morning;
    const spread = rainTimingSpread(args, option)!;
    const used = option.outcomes.finished / 8;
    expect(spread.low).toBeLessThanOrEqual(used);
    expect(spread.high).toBeGreaterThanOrEqual(used);
    expect(spread.high).toBeGreaterThan(spread.low);
    expect(spread.tooEarly).toBe(spread.high - spread.low > 0.2);
    // By hand: the same list from the same start under one other draw.
    const other = prepare({ ...args, draw: 1 });
    const plan = planFor(other, WEDNESDAY);
    expect(plan.work.activities.map(({ id }) => id)).toEqual(
      option.plan.work.activities.map(({ id }) => id),
    );
    const share = bestStart(plan, [plan.shift.startMs]).outcomes.finished / 8;
    const two = rainTimingSpread(args, option, 1)!;
    expect([two.low, two.high]).toEqual([Math.min(used, share), Math.max(used, share)]);
  });

  it('never narrows with more draws, and is the same when asked again', () => {
    const { args, option } = morning;
    const few = rainTimingSpread(args, option, 1)!;
    const [more] = rainTimingSpreads(args, [option], 3);
    expect(more!.low).toBeLessThanOrEqual(few.low);
    expect(more!.high).toBeGreaterThanOrEqual(few.high);
    expect(rainTimingSpread(args, option, 1)).toEqual(few);
  });

  it('is not told where the feed has the hours itself', () => {
    const { args, option } = question((h, m) => (h > 14 + (m % 3) && h < 17 ? 0.3 : 0));
    expect(rainTimingSpread(args, option)).toBeNull();
  });

  it('draws no other rain for a draw of 0', () => {
    const { args, option } = morning;
    expect(prepare({ ...args, draw: 0 }).grid.rainMm).toEqual(option.plan.prepared.grid.rainMm);
    expect(prepare({ ...args, draw: 1 }).grid.rainMm).not.toEqual(option.plan.prepared.grid.rainMm);
  });
});

const from = (setting: Setting) => {
  const plan = planOn(setting);
  return bestStart(plan, [plan.shift.startMs]);
};

describe('the last safe starts of a day', () => {
  const option = from({ job: 'net-hall', weather: { members: 3 } });
  const pieces = safeStartsOf(option);
  const lines = workOrder(option);

  it('are one for every piece of work that is finished in one go, in order', () => {
    const words = pieces.map((piece) => piece.words);
    expect(new Set(words).size).toBe(words.length);
    expect(words.slice(0, 4)).toEqual([
      'Field, sheet 1, first half',
      'Field, sheet 1, second half',
      'Field, sheet 2, first half',
      'Field, sheet 2, second half',
    ]);
    for (const name of ['Laps', 'High edge', 'Night seal towards the next bay'])
      expect(words).toContain(name);
    const oneGo = option.plan.steps
      .filter(({ activity }) => activity.oneGo && activity.forRainSafe)
      .map(({ activity }) => activity.id);
    expect(pieces.flatMap(({ ids }) => ids).sort()).toEqual(oneGo.sort());
  });

  it('are those of the order of work for the first task of each piece', () => {
    for (const { ids, lastMs, words } of pieces) {
      const first = lines.find(({ step }) => ids.includes(step.activity.id))!;
      expect(lastMs, words).toBe(first.lastSafeStartMs);
      expect(lastMs, words).toBeGreaterThanOrEqual(first.startMs);
      const { confidence } = option.plan.prepared.job;
      const n = option.plan.steps.indexOf(first.step);
      expect(lastMs, words).toBe(lastSafeStart(option.plan, n, first.startMs, confidence));
    }
  });

  it('are none where no forecast finishes', () => {
    const wet = from({ job: 'net-hall', weather: { members: 2, rainMm: () => 1 } });
    const none = safeStartsOf(wet);
    expect(none.length).toBe(pieces.length);
    expect(none.every(({ lastMs }) => lastMs === null)).toBe(true);
  });
});

describe('the hours of a reason', () => {
  it('are the commonest one, and when it strikes early and late; not the middle of all', () => {
    const { plan, runs } = from({ job: 'parish-room', weather: { members: 1 } });
    const at = (hour: number, minute: number) =>
      plan.shift.day.startMs + (hour * 60 + minute) * MINUTE_MS;
    const hit = (causeMs: number) =>
      ({ ...runs[0]!, kind: 'caughtOpen', cause: 'rain', causeMs }) as const;
    const times = [at(9, 5), at(9, 10), at(9, 40), at(13, 0), at(14, 0), at(15, 30), at(16, 30)];
    const [reason] = reasonsOf(plan, times.map(hit));
    expect(reason).toMatchObject({ cause: 'rain', count: 7, aroundMs: at(9, 10) });
    expect(reason).toMatchObject({ earlyMs: at(9, 5), lateMs: at(16, 30) });
  });
});
