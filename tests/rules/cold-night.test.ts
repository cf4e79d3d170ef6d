import { describe, expect, it } from 'vitest';
import { optionFor, STARTER_LIMITS, simulateDay } from '../../src/planner/index.ts';
import { askedOf, coldNight, NIGHT } from '../../src/planner/rules/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import { buildGrid } from '../../src/weather/index.ts';
import { planOn, preparedFor } from '../fixtures/planner/job.ts';
import { breaks, momentView, productWith, sheet } from '../fixtures/planner/rule-view.ts';
import { type HourlyFn, weatherOf } from '../fixtures/planner/weather.ts';

const PRODUCT = productWith({ afterMinC: sheet(5), hoursAfter: sheet(24) });
const PLACE = { latitudeDeg: 52, longitudeDeg: -8 };

/** The rule under a forecast, asked at ten o'clock of its first day. */
function asked(airTempC: HourlyFn, members = 1, hours = 60) {
  const grid = buildGrid(weatherOf({ airTempC, members, hours }), PLACE);
  const made = coldNight(PRODUCT, STARTER_LIMITS, grid);
  if (made === null) throw new Error('no rule was made');
  const view = { ...momentView({}), grid };
  const step = 10 * 12;
  return {
    broken: (m: number) => breaks(made.rule, view, m, step),
    night: (m: number) => made.turnsCold[m * grid.steps + step],
  };
}

/** 10 °C throughout, and `lowC` for the one hour that ends at `hour`. */
const dip =
  (hour: number, lowC: number): HourlyFn =>
  (h) =>
    h === hour ? lowC : 10;

describe('the night after a water-borne film', () => {
  it('is met when the air stays at 10 °C, and broken by 2 °C at midnight', () => {
    expect(asked(() => 10).broken(0)).toBe(false);
    expect(asked(dip(24, 2)).broken(0)).toBe(true);
  });

  it('is met exactly on the limit, 5 °C', () => {
    expect(asked(() => 5).broken(0)).toBe(false);
    expect(asked(() => 4.99).broken(0)).toBe(true);
  });

  it('looks 24 hours ahead and no further', () => {
    expect(asked(dip(33, 0)).broken(0)).toBe(true);
    expect(asked(dip(36, 0)).broken(0)).toBe(false);
  });

  it('is no rule for a product that does not mind', () => {
    const grid = buildGrid(weatherOf(), PLACE);
    expect(coldNight(productWith({}), STARTER_LIMITS, grid)).toBeNull();
  });

  it('does not take a night the forecast does not reach for a warm one', () => {
    expect(asked(() => 10, 1, 30).night(0)).toBe(NIGHT.unknown);
    expect(asked(() => 10, 1, 36).night(0)).toBe(NIGHT.warm);
    expect(asked(dip(24, 2), 1, 30).night(0)).toBe(NIGHT.cold);
  });
});

describe('the night as one forecast of many can know it', () => {
  it('leaves its own future no say', () => {
    const onlyMine = asked((h, m) => (m === 3 ? dip(24, 0)(h, m) : 10), 11);
    expect(onlyMine.broken(3)).toBe(false);
    expect(onlyMine.night(3)).toBe(NIGHT.cold);
    const onlyOthers = asked((h, m) => (m === 3 ? 10 : dip(24, 0)(h, m)), 11);
    expect(onlyOthers.broken(3)).toBe(true);
    expect(onlyOthers.night(3)).toBe(NIGHT.warm);
  });

  it('lets one in five of the others be cold, and no more', () => {
    const cold = (count: number) =>
      asked((h, m) => (m >= 1 && m <= count ? dip(24, 0)(h, m) : 10), 11);
    expect(cold(2).broken(0)).toBe(false);
    expect(cold(3).broken(0)).toBe(true);
  });

  it('listens more to those whose past day was like its own', () => {
    // Member 0 had a morning of 10 °C. Of the others, five had the same and five had 16 °C.
    const past = (m: number) => (m <= 5 ? 10 : 16);
    const coldAre =
      (which: (m: number) => boolean): HourlyFn =>
      (h, m) => {
        if (h <= 10) return past(m);
        return h === 24 && which(m) ? 0 : 10;
      };
    const alikeCold = asked(
      coldAre((m) => m >= 1 && m <= 3),
      11,
    );
    const unlikeCold = asked(
      coldAre((m) => m >= 8),
      11,
    );
    expect(alikeCold.broken(0)).toBe(true);
    expect(unlikeCold.broken(0)).toBe(false);
  });

  it('is weighed anew as the day shows who is alike, though nobody says anything new of the night', () => {
    // Two of ten others are cold at midnight: one in five. From ten on the eight others grow warmer.
    const weather = weatherOf({
      members: 11,
      hours: 60,
      airTempC: (h, m) => {
        if (h === 24) return m === 1 || m === 2 ? 0 : 10;
        return h >= 10 && h < 24 && m >= 3 ? 13 + m : 10;
      },
    });
    const grid = buildGrid(weather, PLACE);
    const { rule } = coldNight(PRODUCT, STARTER_LIMITS, grid)!;
    const view = { ...momentView({}), grid };
    const broken = new Uint16Array(grid.steps * grid.memberCount);
    const [eight, thirteen] = [8 * 12, 13 * 12];
    rule.mark(view, { ...askedOf(grid, [{ from: eight, to: thirteen }]), broken, bit: 1 });
    expect([broken[eight], broken[thirteen - 1]]).toEqual([0, 1]);
    // Asked in one go or at each moment alone, the answer is the same.
    for (let step = eight; step < thirteen; step += 6)
      expect(broken[step] === 1, `step ${step}`).toBe(breaks(rule, view, 0, step));
  });

  it('does not count others whose forecast ends before the night as warm', () => {
    // Of ten others two are cold and four end at hour 20: two of the six known is over one in five.
    const shown = asked((h, m) => {
      if (m >= 7 && h > 20) return Number.NaN;
      return m >= 1 && m <= 2 && h === 24 ? 0 : 10;
    }, 11);
    expect(shown.broken(0)).toBe(true);
  });
});

describe('a day before a night nobody can see', () => {
  it('is unknown, though the work itself ends well inside the forecast', () => {
    const run = (hours: number) => {
      const plan = planOn({ job: 'boat-store', weather: { hours } });
      return simulateDay(plan, 0, { startMs: plan.shift.startMs });
    };
    expect(run(40).kind).toBe('finished');
    const short = run(20);
    expect(short).toMatchObject({ kind: 'unknown', cause: 'forecast-ends' });
    expect(short.rainSafeMs).not.toBeNull();
  });

  it('is unknown at its best start too: starting late to run out of day is no way round it', () => {
    const prepared = preparedFor({ job: 'boat-store', weather: { members: 5, hours: 22 } });
    const option = optionFor(prepared, localDayOn('2026-05-13', 'Europe/Dublin'));
    expect(option).toMatchObject({ verdict: 'unknown' });
    expect(option!.outcomes.unknown).toBe(5);
  });

  it('is not called cold for the few whose forecast happens to show the cold before it ends', () => {
    // All end at hour 30; two of eleven show a cold midnight, the others cannot show a warm night.
    const shown = asked((h, m) => {
      if (h > 30) return Number.NaN;
      return m >= 1 && m <= 2 && h === 24 ? 0 : 10;
    }, 11);
    expect(shown.broken(0)).toBe(false);
  });
});
