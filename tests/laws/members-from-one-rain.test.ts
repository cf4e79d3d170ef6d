/** Rain in members made from one forecast: as often as its chance says, at about its time. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type HourlyWeather, membersFromOne } from '../../src/weather/index.ts';
import { PLACE, type SingleOptions, singleForecast } from '../fixtures/weather/single-forecast.ts';

const COUNT = 31;
const make = (options: SingleOptions, seed = 5): HourlyWeather =>
  membersFromOne(singleForecast(options), { seed, place: PLACE });
const wetAt = (w: HourlyWeather, h: number): number =>
  w.members.filter((m) => m.rainMm[h]! > 0).length;
const mean = (values: readonly number[]): number =>
  values.reduce((a, b) => a + b, 0) / values.length;
const shares = (w: HourlyWeather): number[] =>
  Array.from({ length: w.hours }, (_, h) => wetAt(w, h) / COUNT);
const seeds = fc.integer();

describe('an hour with a chance of rain given', () => {
  it('is wet in just that share of the members, to the one that a share of them leaves', () => {
    const pct = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 48, maxLength: 48 });
    fc.assert(
      fc.property(seeds, pct, fc.boolean(), (seed, chances, raining) => {
        const rainMm = () => (raining ? 1.5 : 0);
        const made = make({ hours: 48, rainChancePct: (h) => chances[h]!, rainMm }, seed);
        chances.forEach((chance, h) => {
          expect(Math.abs(wetAt(made, h) - (chance / 100) * COUNT)).toBeLessThan(1);
        });
        chances.forEach((chance, h) => {
          if (chance === 0) expect(wetAt(made, h)).toBe(0);
          if (chance === 100) expect(wetAt(made, h)).toBe(COUNT);
        });
      }),
      { numRuns: 30 },
    );
  });

  it.each([1, 3, 12, 50, 95])('is wet in %i %% of members and hours over many hours', (pct) => {
    const made = [1, 2, 3].flatMap((seed) => shares(make({ rainChancePct: () => pct }, seed)));
    // Each hour is rounded to a whole member by an even draw of its own: 3 standard errors.
    const error = (3 * 0.5) / COUNT / Math.sqrt(made.length);
    expect(Math.abs(mean(made) - pct / 100)).toBeLessThan(error);
  });

  it('falls back on its amount where its own chance is missing', () => {
    const chance = (h: number) => (h < 24 ? 100 : Number.NaN);
    const made = shares(make({ hours: 48, rainChancePct: chance }));
    expect(mean(made.slice(0, 24))).toBe(1);
    expect(mean(made.slice(24))).toBeLessThan(0.15);
  });

  it('brings the forecast’s own amounts, on average, to those it wets', () => {
    const made = [1, 2, 3].map((seed) => make({ rainChancePct: () => 40, rainMm: () => 3 }, seed));
    const amounts = made.flatMap((w) =>
      w.members.flatMap((m) => [...m.rainMm].filter((x) => x > 0)),
    );
    expect(Math.abs(mean(amounts) - 3)).toBeLessThan(0.2);
    expect(Math.max(...amounts)).toBeGreaterThan(6);
    expect(Math.min(...amounts)).toBeLessThan(1);
  });

  it('hangs together: a member stays wet more often than its chance alone would have it', () => {
    const { members } = make({ rainChancePct: () => 20 });
    let [stays, wet] = [0, 0];
    for (const { rainMm } of members) {
      for (let h = 1; h < rainMm.length; h += 1) {
        if (!(rainMm[h - 1]! > 0)) continue;
        wet += 1;
        if (rainMm[h]! > 0) stays += 1;
      }
    }
    expect(stays / wet).toBeGreaterThan(0.6);
    expect(stays / wet).toBeLessThan(0.85);
  });
});

describe('a forecast without a chance of rain', () => {
  /** Six hours of downpour that end at a stamp, so that nothing else is taken for it. */
  const front = (end: number) => (h: number) => (h > end - 6 && h <= end ? 40 : 0);
  /** How far the middle of what a member has of it lies from the forecast's [h]. */
  const strays = (end: number): number => {
    const made = [1, 2, 3, 4, 5, 6].map((seed) => make({ rainMm: front(end) }, seed));
    const offs = made.flatMap((w) =>
      w.members.flatMap(({ rainMm }) => {
        const hours = [...rainMm.keys()].filter((h) => rainMm[h]! > 12);
        return hours.length >= 2 ? [mean(hours) - (end - 2.5)] : [];
      }),
    );
    expect(offs.length).toBeGreaterThan(60);
    return Math.sqrt(mean(offs.map((x) => x * x)));
  };

  it('comes earlier or later, the more so with lead: about 1 h at a day, about 6 h from five days on', () => {
    // Hours of it that stay away move its middle by an hour, at six days by two.
    expect(strays(27)).toBeGreaterThan(0.8);
    expect(strays(27)).toBeLessThan(2.2);
    expect(strays(147)).toBeGreaterThan(4.5);
    expect(strays(147)).toBeLessThan(8);
  });

  it('is believed less the further off: fewer members wet in the rain, more outside it', () => {
    const allWet = shares(make({ rainMm: () => 2 }));
    const allDry = shares(make({ rainMm: () => 0 }));
    const day = (of: number[], n: number) => mean(of.slice(24 * n, 24 * n + 24));
    expect(day(allWet, 0)).toBeGreaterThan(0.75);
    expect(day(allWet, 4)).toBeLessThan(day(allWet, 0) - 0.15);
    expect(day(allWet, 12)).toBeLessThan(day(allWet, 4));
    expect(day(allDry, 0)).toBeLessThan(0.06);
    expect(day(allDry, 12)).toBeGreaterThan(day(allDry, 0) + 0.04);
    expect(day(allDry, 12)).toBeLessThan(0.16);
  });

  it('has heavy rain likelier than light, and a trace likelier than none', () => {
    const [heavy, light, trace, none] = [2, 0.3, 0.05, 0].map((mm) =>
      mean(shares(make({ hours: 24, rainMm: () => mm }))),
    );
    expect(heavy).toBeGreaterThan(light!);
    expect(light).toBeGreaterThan(trace!);
    expect(trace).toBeGreaterThan(none!);
    expect(none).toBeGreaterThan(0);
  });
});
