import { describe, expect, it } from 'vitest';
import { type DayPlan, lastSafeStart, simulateDay } from '../../src/planner/index.ts';
import { planOn, type Setting } from '../fixtures/planner/job.ts';
import { MINUTE_MS, rainBetween } from '../fixtures/planner/weather.ts';

const QUARTER_MS = 15 * MINUTE_MS;

/** By brute force: does a start then still get the roof rain-safe in time in enough forecasts? */
function good(plan: DayPlan, index: number, startMs: number, confidence: number): boolean {
  const { memberCount } = plan.prepared.grid;
  let safe = 0;
  for (let m = 0; m < memberCount; m += 1) {
    const { rainSafeMs } = simulateDay(plan, m, { startMs, fromIndex: index });
    if (rainSafeMs !== null && rainSafeMs <= plan.shift.endMs) safe += 1;
  }
  return safe / memberCount >= confidence - 1e-9;
}

/** Latest minute that is good, or null. */
function latestMinute(plan: DayPlan, index: number, fromMs: number, confidence: number) {
  for (let ms = plan.shift.endMs; ms >= fromMs; ms -= MINUTE_MS)
    if (good(plan, index, ms, confidence)) return ms;
  return null;
}

const indexOf = (plan: DayPlan, id: string) => plan.steps.findIndex((s) => s.activity.id === id);

const settings: readonly [string, Setting, string][] = [
  ['dry all day, bare deck', { job: 'boat-store', weather: { members: 2 } }, 'field-1-1-coat'],
  ['dry all day, stripped roof', { job: 'parish-room', weather: { members: 2 } }, 'strip'],
  [
    'rain from two in the afternoon, stripped roof',
    { job: 'parish-room', weather: { members: 2, rainMm: rainBetween(13, 24) } },
    'strip',
  ],
  [
    'rain at different hours',
    { job: 'boat-store', weather: { members: 5, rainMm: (h, m) => (h > 12 + m ? 1 : 0) } },
    'edge-high-1-coat',
  ],
];

describe('the last safe start', () => {
  it.each(settings)('is the latest quarter hour that brute force finds: %s', (_, setting, id) => {
    const plan = planOn(setting);
    const index = indexOf(plan, id);
    expect(index).toBeGreaterThan(0);
    const fromMs = plan.shift.startMs;
    const found = lastSafeStart(plan, index, fromMs, 0.8);
    const latest = latestMinute(plan, index, fromMs, 0.8);
    expect(found).not.toBeNull();
    expect(latest).not.toBeNull();
    expect(found! % MINUTE_MS).toBe(fromMs % MINUTE_MS);
    expect(good(plan, index, found!, 0.8)).toBe(true);
    expect(found!).toBeLessThanOrEqual(latest!);
    expect(latest! - found!).toBeLessThan(QUARTER_MS);
  });

  it('comes earlier when more confidence is asked', () => {
    const plan = planOn(settings[3]![1]);
    const index = indexOf(plan, 'edge-high-1-coat');
    const at = (confidence: number) => lastSafeStart(plan, index, plan.shift.startMs, confidence)!;
    expect(at(0.95)).toBeLessThan(at(0.6));
  });

  it('is never before the planned start', () => {
    const plan = planOn(settings[1]![1]);
    const index = indexOf(plan, 'strip');
    for (const hours of [0, 1, 2, 3]) {
      const fromMs = plan.shift.startMs + hours * 4 * QUARTER_MS;
      const found = lastSafeStart(plan, index, fromMs, 0.8);
      if (found !== null) expect(found).toBeGreaterThanOrEqual(fromMs);
    }
  });

  it('is none where no start gets there: rain from nine on, and a start planned too late', () => {
    const wet = planOn({ job: 'parish-room', weather: { rainMm: rainBetween(8, 24) } });
    expect(lastSafeStart(wet, indexOf(wet, 'strip'), wet.shift.startMs, 0.8)).toBeNull();
    const dry = planOn({ job: 'parish-room' });
    const lateMs = dry.shift.endMs - 8 * QUARTER_MS;
    expect(lastSafeStart(dry, indexOf(dry, 'strip'), lateMs, 0.8)).toBeNull();
    expect(latestMinute(dry, indexOf(dry, 'strip'), lateMs, 0.8)).toBeNull();
  });

  it('does not count a roof as rain-safe that gets there after the forecast ends', () => {
    const plan = planOn({ job: 'parish-room', weather: { hours: 9 } });
    expect(lastSafeStart(plan, indexOf(plan, 'strip'), plan.shift.startMs, 0.8)).toBeNull();
  });
});
