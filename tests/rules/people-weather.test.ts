import { describe, expect, it } from 'vitest';
import {
  dayPlan,
  planFor,
  prepare,
  STARTER_LIMITS,
  shiftOn,
  simulateDay,
} from '../../src/planner/index.ts';
import { chill, heat, lightning, type RuleView } from '../../src/planner/rules/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import { fToC } from '../../src/units/index.ts';
import type { HourlyWeather } from '../../src/weather/index.ts';
import { earlyOn, jobOf } from '../fixtures/planner/job.ts';
import { breaks, type Moment, momentView } from '../fixtures/planner/rule-view.ts';
import { rainBetween, weatherOf } from '../fixtures/planner/weather.ts';

/** Dew point of air at a relative humidity (Magnus, WMO No. 8), to set a moment up by the charts' own columns. */
function dewOf(airTempC: number, relHumPct: number): number {
  const g = Math.log(relHumPct / 100) + (17.62 * airTempC) / (243.12 + airTempC);
  return (243.12 * g) / (17.62 - g);
}
const hot = (airF: number, relHumPct: number): boolean => {
  const airTempC = fToC(airF);
  return breaks(heat, momentView({ airTempC, dewPointC: dewOf(airTempC, relHumPct) }));
};
const cold = (now: Moment): boolean => breaks(chill, momentView(now));

/** US National Weather Service heat index chart: 'danger' from 103 °F. */
describe('heat on people', () => {
  it('stops at danger on the chart: 100 °F and 40 % (109) do, 90 °F and 60 % (100) do not', () => {
    expect(hot(100, 40)).toBe(true);
    expect(hot(96, 65)).toBe(true);
    expect(hot(90, 60)).toBe(false);
    expect(hot(80, 40)).toBe(false);
  });

  it('stops on the limit itself', () => {
    const airTempC = 38;
    const view = momentView({ airTempC, dewPointC: dewOf(airTempC, 30) });
    let [met, broken] = [30, 60];
    // The index itself is held to the chart in tests/published/worker.test.ts; here only which side counts.
    for (let n = 0; n < 60; n += 1) {
      const limit = (met + broken) / 2;
      const at = { ...view, limits: { ...STARTER_LIMITS, heatIndexMaxC: limit } };
      if (breaks(heat, at)) met = limit;
      else broken = limit;
    }
    expect(breaks(heat, { ...view, limits: { ...STARTER_LIMITS, heatIndexMaxC: met } })).toBe(true);
    expect(broken - met).toBeLessThan(1e-9);
  });

  it('says nothing of air that is not known', () => {
    expect(breaks(heat, momentView({ airTempC: Number.NaN }))).toBe(false);
  });
});

/** Environment Canada's wind chill hazards: from -28 bare skin freezes in 10 to 30 minutes. */
describe('cold on people', () => {
  it('stops at a wind chill of -28: -20 °C at 10 m/s does, at 1 m/s it does not', () => {
    // -20 °C at 35 km/h reads -33 in the printed table, at 5 km/h -24.
    expect(cold({ airTempC: -20, windMps: 10 })).toBe(true);
    expect(cold({ airTempC: -20, windMps: 1.4 })).toBe(false);
    expect(cold({ airTempC: -5, windMps: 10 })).toBe(false);
  });

  it('in a calm counts the air itself, stopping on the limit', () => {
    expect(cold({ airTempC: -27.9, windMps: 0 })).toBe(false);
    expect(cold({ airTempC: -28, windMps: 0 })).toBe(true);
  });

  it('is met in any wind above freezing, and says nothing of what is not known', () => {
    expect(cold({ airTempC: 1, windMps: 30 })).toBe(false);
    expect(cold({ airTempC: Number.NaN, windMps: 10 })).toBe(false);
  });
});

const STEPS = 24;

/** Rain and energy of the air over two hours in one forecast, by five-minute steps. */
function stormView(rainMmPerHour: (step: number) => number, capeJkg: number | null): RuleView {
  const { grid, ...rest } = momentView({});
  const column = (of: (step: number) => number) =>
    Float32Array.from({ length: STEPS }, (_, i) => of(i));
  return {
    ...rest,
    grid: {
      ...grid,
      steps: STEPS,
      knownSteps: Int32Array.of(STEPS),
      rainMm: column((i) => rainMmPerHour(i) / 12),
      ...(capeJkg === null ? {} : { capeJkg: column(() => capeJkg) }),
    },
  };
}
const stormy = (view: RuleView): number[] =>
  Array.from({ length: STEPS }, (_, i) => i).filter((i) => breaks(lightning, view, 0, i));
const shower = (step: number): number => (step >= 6 && step < 9 ? 2 : 0);

describe('lightning', () => {
  it('is likely in rain from air of enough energy, and keeps people off for 30 minutes after (NWS)', () => {
    const steps = stormy(stormView(shower, 900));
    expect(steps).toEqual([6, 7, 8, 9, 10, 11, 12, 13, 14]);
  });

  it('is not in rain from calm air, nor in dry air of much energy', () => {
    expect(stormy(stormView(shower, 499))).toEqual([]);
    expect(stormy(stormView(() => 0, 3000))).toEqual([]);
    expect(stormy(stormView(shower, STARTER_LIMITS.lightningCapeJkg))[0]).toBe(6);
  });

  it('is not claimed of a forecast without that column, nor of hours it lacks', () => {
    expect(stormy(stormView(shower, null))).toEqual([]);
    expect(stormy(stormView(shower, Number.NaN))).toEqual([]);
  });

  it('is a safety rule, as heat and cold on people are', () => {
    expect([lightning, heat, chill].map(({ whose }) => whose)).toEqual(Array(3).fill('safety'));
  });
});

describe('a morning with a thundery shower', () => {
  const calm: HourlyWeather = weatherOf({ members: 1, hours: 30, rainMm: rainBetween(6, 7, 2) });
  const runIn = (hourly: HourlyWeather) => {
    const ready = jobOf('seed-workshop');
    const prepared = prepare({ ...ready, hourly, nowMs: earlyOn(hourly) });
    const day = localDayOn('2026-05-13', ready.job.site.timeZone);
    const { work } = planFor(prepared, day);
    const plan = dayPlan(prepared, work, shiftOn(ready.job.crew, day, ready.job.site.timeZone));
    return simulateDay(plan, 0, { startMs: Date.parse('2026-05-13T06:30:00Z') });
  };
  const thundery: HourlyWeather = {
    ...calm,
    members: calm.members.map((member) => ({
      ...member,
      capeJkg: new Float64Array(calm.hours).fill(1200),
    })),
  };

  it('begins nothing until half an hour after it', () => {
    const first = (run: ReturnType<typeof runIn>) =>
      Math.min(...[...run.startMs].filter((ms) => !Number.isNaN(ms)));
    expect(first(runIn(thundery)) - first(runIn(calm))).toBeGreaterThanOrEqual(30 * 60_000);
  });
});
