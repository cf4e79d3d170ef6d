import { describe, expect, it } from 'vitest';
import { type DayPlan, simulateDay } from '../../src/planner/index.ts';
import { DayBounds } from '../../src/planner/search/bounds.ts';
import { until } from '../../src/planner/search/light.ts';
import { planOn } from '../fixtures/planner/job.ts';
import { HOUR_MS, type HourlyFn, MINUTE_MS } from '../fixtures/planner/weather.ts';

/**
 * The least a run can cost, to the minute: a looser figure would be as true, and the search would run
 * what it need not. The hall's first bay has one row of tasks: seven before the first coat opens the deck,
 * then what gets it rain-safe, then the rest. Expected values are added up from that row.
 */

const COSTS = { standDown: 1800, shortened: 700, caughtOpen: 14_000 };
const GRID_MS = 5 * MINUTE_MS;
const OPENS = 7;

function hall(rainMm: HourlyFn = () => 0, hours = 48) {
  const plan = planOn({ job: 'net-hall', changes: { costs: COSTS }, weather: { rainMm, hours } });
  const { steps } = plan;
  const sum = (of: DayPlan['steps']) => of.reduce((all, { durationMs }) => all + durationMs, 0);
  return {
    plan,
    leadMs: sum(steps.slice(0, OPENS)),
    openMs: sum(steps.slice(OPENS).filter(({ activity }) => activity.forRainSafe)),
    allMs: sum(steps),
  };
}
/** Hours of `weatherOf` end on the stamp: rain from ten UTC on, until sixteen where it ends at all. */
const from =
  (hour: number, to = 48): HourlyFn =>
  (h) =>
    h > hour && h <= to ? 2 : 0;

const endingAt = (plan: DayPlan, endMs: number): DayBounds =>
  new DayBounds({ ...plan, shift: until(plan.shift, endMs) });

describe('the least a run can cost', () => {
  const dry = hall();
  const { shift, prepared } = dry.plan;

  it('is asked of a row of tasks, the first coat being what opens', () => {
    const { steps } = dry.plan;
    expect(steps.findIndex(({ activity }) => activity.opens)).toBe(OPENS);
    for (const [n, step] of steps.slice(0, OPENS).entries())
      expect(step.after.concat(-1), step.activity.id).toContain(n - 1);
    expect(dry.leadMs).toBeGreaterThan(30 * MINUTE_MS);
    expect(dry.allMs).toBeGreaterThan(dry.leadMs + dry.openMs);
  });

  it('is nothing on a dry day as long as the work itself fits, and an end cut short after that', () => {
    const bounds = new DayBounds(dry.plan);
    const lastMs = Math.floor(shift.endMs - dry.allMs);
    expect(bounds.least(shift.startMs, 0)).toBe(0);
    expect(bounds.least(lastMs, 0)).toBe(0);
    expect(bounds.least(lastMs + 1, 0)).toBe(COSTS.shortened);
    const toTheMinute = endingAt(dry.plan, shift.startMs + dry.allMs);
    expect(toTheMinute.least(shift.startMs, 0)).toBe(0);
  });

  it('counts from when the deck may be opened, where that is later than the crew is ready', () => {
    const wet = hall(from(2, 9));
    const { mask, bits } = wet.plan.steps[OPENS]!;
    const opensAt = (ms: number) => {
      const step = Math.floor((ms - prepared.grid.startMs) / GRID_MS);
      return mask.broken.findIndex((broken, i) => i >= step && (broken & bits) === 0);
    };
    const step = opensAt(shift.startMs);
    const openMs = prepared.grid.startMs + step * GRID_MS;
    expect(openMs).toBeGreaterThan(shift.startMs + wet.leadMs + HOUR_MS);
    const inTime = Math.ceil(openMs + wet.openMs);
    expect(endingAt(wet.plan, inTime).least(shift.startMs, 0)).toBe(0);
    expect(endingAt(wet.plan, inTime - 2).least(shift.startMs, 0)).toBe(COSTS.shortened);
  });

  it('asks for as long a dry spell as the work to rain-safe takes, from the moment it can be opened', () => {
    const rainMs = prepared.grid.startMs + 14 * HOUR_MS;
    const wet = hall(from(14));
    const bounds = new DayBounds(wet.plan);
    // The last step of the grid from which the roof is rain-safe in time.
    const lastOpenMs = rainMs - Math.ceil(wet.openMs / GRID_MS) * GRID_MS;
    const endOfStepMs = lastOpenMs + GRID_MS - 1;
    expect(bounds.least(endOfStepMs - wet.leadMs, 0)).toBe(0);
    expect(bounds.least(endOfStepMs + 2 - wet.leadMs, 0)).toBe(COSTS.shortened);
    // A shower between, and the deck may be opened before it: not to be finished all the same.
    const shower = hall(from(10, 11));
    const readyMs = prepared.grid.startMs + 10 * HOUR_MS - MINUTE_MS;
    expect(new DayBounds(shower.plan).opens(readyMs - shower.leadMs, 0)).toBe(true);
    const soon = endingAt(shower.plan, readyMs - shower.leadMs + shower.allMs + MINUTE_MS);
    expect(soon.least(readyMs - shower.leadMs, 0)).toBe(COSTS.shortened);
  });

  it('is standing down with the crew’s idle hours where the deck may never be opened, as the run has it', () => {
    const wet = hall(() => 1);
    const bounds = new DayBounds(wet.plan);
    // They go once not even the longest way to rain-safe fits, having set up and had their breaks.
    const breaksMs = shift.breaks.reduce((all, { lengthMs }) => all + lengthMs, 0);
    const goesMs = shift.endMs - wet.plan.steps[0]!.toRainSafeMs;
    const beforehandMs = wet.leadMs;
    for (const startMs of [shift.startMs, shift.startMs + 2 * HOUR_MS]) {
      const idleMs = Math.max(0, goesMs - startMs - beforehandMs - breaksMs);
      const share = idleMs / (shift.endMs - shift.startMs);
      expect(bounds.least(startMs, 0)).toBeCloseTo(COSTS.standDown * (1 + share), 6);
      expect(simulateDay(wet.plan, 0, { startMs }).kind).toBe('stoodDown');
    }
    expect(bounds.least(shift.startMs, 0)).toBeGreaterThan(1.2 * COSTS.standDown);
  });

  it('is no more than standing down where the forecast ends before the day does', () => {
    const ends = hall(() => 1, 12);
    expect(new DayBounds(ends.plan).least(ends.plan.shift.startMs, 0)).toBe(COSTS.standDown);
  });

  it.each(['standDown', 'shortened', 'caughtOpen'] as const)(
    'is that of the cheapest way to fail, also where that is %s',
    (cheapest) => {
      const costs = { standDown: 900, shortened: 900, caughtOpen: 900, [cheapest]: 400 };
      const plan = planOn({ job: 'net-hall', changes: { costs }, weather: { rainMm: from(10) } });
      expect(new DayBounds(plan).least(plan.shift.startMs + HOUR_MS, 0)).toBe(400);
    },
  );
});
