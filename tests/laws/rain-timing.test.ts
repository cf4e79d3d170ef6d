/** What holds for every split: sums kept, draws fixed by their key, unknown stays unknown. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  coarseBlocks,
  type HourlyWeather,
  RAIN_TIMING_NOTE,
  splitCoarseRain,
} from '../../src/weather/index.ts';
import { asWeather, DE_BILT, readYear2020 } from '../accuracy/rain-timing-rows.ts';

const HOUR_MS = 3_600_000;
const START_MS = Date.UTC(2026, 4, 1, 1);
const opts = { seed: 7, guide: null, place: DE_BILT };

/** Columns of native sums [mm], spread evenly, from 00 UTC on. */
const spread = (sums: readonly number[], step: number): Float64Array =>
  Float64Array.from({ length: sums.length * step }, (_, h) => sums[Math.floor(h / step)]! / step);

/** Two sums in turn: equal neighbours would read as one sum of a longer step. */
const varied = (n: number, a: number, b: number): number[] =>
  Array.from({ length: n }, (_, i) => (i % 2 === 0 ? a : b));

const sumMm = fc.oneof(
  { weight: 3, arbitrary: fc.constant(0) },
  { weight: 5, arbitrary: fc.double({ min: 0.001, max: 60, noNaN: true }) },
  { weight: 1, arbitrary: fc.double({ min: 1e-300, max: 0.02, noNaN: true }) },
);
const feed = fc.record({
  step: fc.constantFrom(3, 6, 12),
  sums: fc.array(fc.array(sumMm, { minLength: 12, maxLength: 12 }), { minLength: 4, maxLength: 4 }),
  seed: fc.integer(),
});
const weatherOf = (sums: readonly (readonly number[])[], step: number): HourlyWeather =>
  asWeather(
    START_MS,
    sums.map((s) => spread(s, step)),
  );
const rainOf = (w: HourlyWeather): Float64Array[] => w.members.map((m) => m.rainMm);
const total = (r: Float64Array): number => r.reduce((a, b) => a + b, 0);

describe('a coarse sum split into hours', () => {
  it('adds up to the last bit, in either order, without a negative hour', () => {
    fc.assert(
      fc.property(feed, ({ step, sums, seed }) => {
        const before = weatherOf(sums, step);
        const after = splitCoarseRain(before, { ...opts, seed });
        const blocks = coarseBlocks(before);
        before.members.forEach((member, m) => {
          for (const { firstHour, hours } of blocks) {
            const old = member.rainMm.subarray(firstHour, firstHour + hours);
            const hourly = after.members[m]!.rainMm.slice(firstHour, firstHour + hours);
            expect(total(hourly)).toBe(total(old));
            expect(total(hourly.slice().reverse())).toBe(total(old));
            expect(Math.min(...hourly)).toBeGreaterThanOrEqual(0);
          }
        });
      }),
    );
  });

  it('has no wet hour under 0.1 mm unless the sum itself is', () => {
    fc.assert(
      fc.property(feed, ({ step, sums, seed }) => {
        const before = weatherOf(sums, step);
        const after = splitCoarseRain(before, { ...opts, seed });
        for (const { firstHour, hours } of coarseBlocks(before)) {
          for (const rainMm of rainOf(after)) {
            const wet = rainMm.slice(firstHour, firstHour + hours).filter((mm) => mm > 0);
            if (total(wet) < 0.1) expect(wet.length).toBeLessThanOrEqual(1);
            else expect(Math.min(...wet)).toBeGreaterThan(0.1 - 1e-6);
          }
        }
      }),
    );
  });

  it('really moves: 3-hour sums of half a millimetre get dry hours, and not only one wet one', () => {
    const [rainMm] = rainOf(splitCoarseRain(weatherOf([varied(80, 0.5, 0.6)], 3), opts));
    const dry = rainMm!.filter((mm) => mm === 0).length;
    expect(dry).toBeGreaterThan(20);
    expect(dry).toBeLessThan(160);
  });
});

describe('the draws', () => {
  it('are the same for the same seed and others for another', () => {
    const weather = weatherOf([varied(40, 2, 3)], 6);
    expect(rainOf(splitCoarseRain(weather, opts))).toEqual(rainOf(splitCoarseRain(weather, opts)));
    expect(rainOf(splitCoarseRain(weather, { ...opts, seed: 8 }))).not.toEqual(
      rainOf(splitCoarseRain(weather, opts)),
    );
  });

  it('differ between members of equal sums', () => {
    const sums = varied(40, 2, 3);
    const [first, second] = rainOf(splitCoarseRain(weatherOf([sums, sums], 6), opts));
    expect(first).not.toEqual(second);
  });

  it('of one member do not hang on how many others there are', () => {
    const sums = [varied(40, 2, 3), varied(40, 3, 4)];
    const both = rainOf(splitCoarseRain(weatherOf(sums, 3), opts));
    expect(rainOf(splitCoarseRain(weatherOf(sums.slice(0, 1), 3), opts))[0]).toEqual(both[0]);
  });

  it('belong to clock time: a feed that begins a day later keeps the hours they share', () => {
    const sums = Array.from({ length: 40 }, (_, i) => (i % 3 === 0 ? 0 : 1 + (i % 5)));
    const [all] = rainOf(splitCoarseRain(weatherOf([sums], 3), opts));
    const later = asWeather(START_MS + 24 * HOUR_MS, [spread(sums.slice(8), 3)]);
    const [tail] = rainOf(splitCoarseRain(later, opts));
    // The first dry sum forgets what came before.
    const settled = 3 * 2;
    expect(tail!.slice(settled)).toEqual(all!.slice(24 + settled));
  });

  it('reach back no further than two steps when a later sum changes', () => {
    fc.assert(
      fc.property(feed, fc.integer({ min: 4, max: 11 }), ({ step, sums, seed }, at) => {
        // One more member proves the step, so that only the draws are compared.
        const proof = new Array(12).fill(1.7);
        const changed = sums.map((s) => s.map((mm, b) => (b >= at ? mm + 0.7 : mm)));
        const split = (s: readonly (readonly number[])[]) =>
          rainOf(splitCoarseRain(weatherOf([...s, proof], step), { ...opts, seed }));
        const a = split(sums);
        const b = split(changed);
        sums.forEach((_, m) => {
          const same = (at - 2) * step;
          expect(b[m]!.slice(0, same)).toEqual(a[m]!.slice(0, same));
        });
      }),
    );
  });
});

describe('what is not a coarse sum', () => {
  it('stays: an hourly feed comes back as it is, without a note', () => {
    const year = readYear2020();
    const weather = asWeather(year.startMs, [year.rainMm]);
    expect(splitCoarseRain(weather, opts)).toBe(weather);
  });

  it('stays: all other columns, and the answer says that timing is modelled, once', () => {
    const weather = weatherOf([varied(10, 2, 3)], 6);
    const split = splitCoarseRain(weather, opts);
    expect(split.source.notes).toEqual([RAIN_TIMING_NOTE]);
    expect(split.members[0]).toEqual({ ...weather.members[0], rainMm: rainOf(split)[0] });
    expect(splitCoarseRain(split, opts)).toBe(split);
  });

  it('stays: unknown hours are unknown, and so is the timing of a sum with one of them', () => {
    const weather = weatherOf([varied(20, 2, 3)], 6);
    const [rainMm] = rainOf(weather);
    rainMm!.fill(Number.NaN, 63);
    const [split] = rainOf(splitCoarseRain(weather, opts));
    expect(split!.subarray(60)).toEqual(rainMm!.subarray(60));
    expect(split!.subarray(63).every(Number.isNaN)).toBe(true);
    expect(total(split!.slice(0, 60))).toBeCloseTo(25, 10);
    expect(split!.subarray(0, 60)).not.toEqual(rainMm!.subarray(0, 60));
  });

  it('stays: an even stretch that no UTC boundary bounds', () => {
    const rainMm = new Float64Array(48);
    for (const from of [1, 10, 19, 28, 37]) rainMm.fill(0.4, from, from + 3);
    const weather = asWeather(START_MS, [rainMm]);
    expect(splitCoarseRain(weather, opts)).toBe(weather);
  });
});

describe('a guide', () => {
  const sums = varied(200, 0.4, 0.5);
  const guided = (hourInThree: number, issuedMs: number): number[] => {
    const weather = weatherOf([sums], 3);
    const rain = Float64Array.from({ length: 600 }, (_, h) => (h % 3 === hourInThree ? 1 : 0));
    const run = asWeather(START_MS, [rain]);
    const guide = { ...run, source: { ...run.source, issuedMs } };
    const [rainMm] = rainOf(splitCoarseRain(weather, { ...opts, guide }));
    return [0, 1, 2].map((i) => total(rainMm!.filter((_, h) => h % 3 === i)));
  };
  const [early] = [rainOf(splitCoarseRain(weatherOf([sums], 3), opts))[0]!];

  it.each([0, 1, 2])('draws rain towards its own wet hour, %i of three', (i) => {
    const unguided = total(early!.filter((_, h) => h % 3 === i));
    const fresh = guided(i, START_MS + 600 * HOUR_MS)[i]!;
    const stale = guided(i, START_MS - 600 * HOUR_MS)[i]!;
    expect(fresh).toBeGreaterThan(1.3 * unguided);
    // A run gone stale guides nothing.
    expect(stale).toBeCloseTo(unguided, 3);
  });

  it.each([
    ['even', 0.5],
    ['dry', 0],
    ['unknown', Number.NaN],
  ])('that is %s changes nothing', (_, mm) => {
    const weather = weatherOf([sums], 3);
    const guide = asWeather(START_MS, [new Float64Array(600).fill(mm)]);
    expect(rainOf(splitCoarseRain(weather, { ...opts, guide }))[0]).toEqual(early);
  });
});

describe('the door', () => {
  const weather = weatherOf([varied(10, 2, 3)], 6);

  it.each([Number.NaN, 1.5, Number.POSITIVE_INFINITY])('refuses the seed %d', (seed) => {
    expect(() => splitCoarseRain(weather, { ...opts, seed })).toThrow(/seed .* whole number/);
  });

  it('refuses a place off the globe and a guide between hours', () => {
    const place = { latitudeDeg: 91, longitudeDeg: 0 };
    expect(() => splitCoarseRain(weather, { ...opts, place })).toThrow(/latitudeDeg \(91\)/);
    const guide = { ...weather, startMs: weather.startMs + 1 };
    expect(() => splitCoarseRain(weather, { ...opts, guide })).toThrow(/guide startMs/);
  });

  it('knows summer on both halves of the globe: winter rain wets more hours of a sum', () => {
    const wetHours = (latitudeDeg: number): number => {
      const place = { latitudeDeg, longitudeDeg: 0 };
      const split = splitCoarseRain(weatherOf([varied(300, 1, 1.1)], 3), { ...opts, place });
      return rainOf(split)[0]!.filter((mm) => mm > 0).length;
    };
    expect(wetHours(-35)).toBeGreaterThan(1.1 * wetHours(35));
  });
});
