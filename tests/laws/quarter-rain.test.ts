/** What must hold when a short-range run's quarter hours time the rain that forecasts have. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  buildGrid,
  type HourlyWeather,
  hourlyOf as hoursOf,
  type QuarterRain,
  quartersOf,
  splitCoarseRain,
  takesTiming,
  timingOf,
} from '../../src/weather/index.ts';
import { HOUR_MS, hourlyOf, hourSums, memberOf } from '../fixtures/weather/by-hand.ts';

const PLACE = { latitudeDeg: 52, longitudeDeg: 0 };
const START_MS = Date.UTC(2026, 4, 12);
const QUARTER_MS = HOUR_MS / 4;
const HOURS = 13;

/** Quarters from 00:15 on, as the hours are from 01:00 on; known as the first of them begins. */
const run = (rainMm: readonly number[], changes: Partial<QuarterRain> = {}): QuarterRain => ({
  model: 'ICON-D2',
  startMs: START_MS + QUARTER_MS,
  rainMm: Float64Array.from(rainMm),
  lightningJkg: null,
  knownMs: START_MS,
  ...changes,
});
const weather = (
  rain: readonly (readonly number[])[],
  quarterRain?: QuarterRain,
  startMs = START_MS,
): HourlyWeather => ({
  ...hourlyOf(
    rain.map((rainMm) => memberOf(rainMm.length, { rainMm })),
    { ...PLACE, startMs },
  ),
  ...(quarterRain === undefined ? {} : { quarterRain }),
});
const total = (values: readonly number[]): number => values.reduce((sum, mm) => sum + mm, 0);
const stepsOf = (grid: ReturnType<typeof buildGrid>, m: number, h: number): number[] =>
  Array.from(grid.rainMm.subarray(m * grid.steps + h * 12, m * grid.steps + (h + 1) * 12));

const amount = fc.oneof(
  { weight: 3, arbitrary: fc.constant(0) },
  { weight: 4, arbitrary: fc.double({ min: 0.001, max: 30, noNaN: true }) },
  { weight: 1, arbitrary: fc.double({ min: 1e-300, max: 0.01, noNaN: true }) },
);
const quarter = fc.oneof(
  { weight: 6, arbitrary: amount },
  { weight: 1, arbitrary: fc.constant(Number.NaN) },
);
const days = fc.record({
  rain: fc.array(fc.array(amount, { minLength: HOURS, maxLength: HOURS }), {
    minLength: 3,
    maxLength: 3,
  }),
  quarters: fc.array(quarter, { minLength: 30, maxLength: 48 }),
});

describe('the four quarters of an hour', () => {
  it('add up to the last bit, in either order, none below 0, dry where the run is', () => {
    fc.assert(
      fc.property(
        amount,
        fc.array(amount, { minLength: 4, maxLength: 4 }).filter((four) => total(four) > 0),
        (sumMm, four) => {
          const parts = quartersOf(sumMm, { shares: four.map((mm) => mm / total(four)) });
          expect(total(parts)).toBe(sumMm);
          expect(total([...parts].reverse())).toBe(sumMm);
          expect(Math.min(...parts)).toBeGreaterThanOrEqual(0);
          four.forEach((mm, q) => {
            if (mm === 0) expect(parts[q]).toBe(0);
          });
        },
      ),
    );
    expect(quartersOf(2, { shares: [0, 0.25, 0.75, 0] })).toEqual([0, 0.5, 1.5, 0]);
    expect(() => quartersOf(Number.NaN, { shares: [1, 0, 0, 0] })).toThrow(/sumMm \(NaN\)/);
  });
});

describe('on the grid', () => {
  it('every hour keeps its sum and dry hours stay dry; nothing else changes', () => {
    let moved = 0;
    fc.assert(
      fc.property(days, ({ rain, quarters }) => {
        const plain = buildGrid(weather(rain), PLACE);
        const timed = buildGrid(weather(rain, run(quarters)), PLACE);
        const { rainTimedBy: _, ...columns } = timed;
        expect({ ...columns, rainMm: plain.rainMm }).toEqual(plain);
        rain.forEach((member, m) => {
          hourSums(timed.rainMm, m * timed.steps, HOURS - 1).forEach((sum, h) => {
            const mm = member[h + 1]!;
            expect(Math.abs(sum - mm)).toBeLessThanOrEqual(1e-6 * mm + 1e-36);
          });
          for (let h = 0; h < HOURS - 1; h += 1) {
            const four = quarters.slice(h * 4, h * 4 + 4);
            const says = four.length === 4 && total(four) > 0 && new Set(four).size > 1;
            const before = stepsOf(plain, m, h);
            const after = stepsOf(timed, m, h);
            if (!says) expect(after).toEqual(before);
            else if (after.some((mm, i) => mm !== before[i])) moved += 1;
          }
        });
      }),
      { numRuns: 40 },
    );
    expect(moved, 'the random hours did meet rain that is moved').toBeGreaterThan(60);
  });

  it('rain falls in the quarters of the run, in its shares', () => {
    const grid = buildGrid(weather([[0, 2, 2]], run([0, 0.1, 0.3, 0, 0, 0, 0, 5])), PLACE);
    const first = stepsOf(grid, 0, 0);
    expect(first.slice(0, 3)).toEqual([0, 0, 0]);
    expect(first[3]).toBeCloseTo(0.5 / 3, 6);
    expect(first[6]).toBeCloseTo(1.5 / 3, 6);
    expect(first.slice(9)).toEqual([0, 0, 0]);
    expect(stepsOf(grid, 0, 1).slice(0, 9)).toEqual(new Array(9).fill(0));
    expect(grid.rainTimedBy).toEqual({ model: 'ICON-D2', untilMs: START_MS + 2 * HOUR_MS });
  });

  it.each<[string, readonly number[], QuarterRain]>([
    ['the forecasts are dry', [0, 0, 0], run([0, 1, 0, 0, 0, 1, 0, 0])],
    ['the run is dry', [0, 2, 2], run([0, 0, 0, 0, 0, 0, 0, 0])],
    ['its quarters are even, as of an hour spread', [0, 2, 2], run(new Array(8).fill(0.3))],
    ['a quarter is missing', [0, 2, 0], run([0, 1, Number.NaN, 0, 0, 0, 0, 0])],
    ['it has no values', [0, 2, 2], run(new Array(8).fill(Number.NaN))],
    ['it begins too late', [0, 2, 0], run([1, 0, 0], { startMs: START_MS + 2 * QUARTER_MS })],
    ['it ended before', [0, 2, 2], run([0, 1, 0, 0], { startMs: START_MS - HOUR_MS })],
    ['it is old', [0, 2, 2], run([0, 1, 0, 0, 0, 1, 0, 0], { knownMs: START_MS - 30 * HOUR_MS })],
  ])('nothing is timed, and nothing said, where %s', (_, rain, quarters) => {
    const grid = buildGrid(weather([rain], quarters), PLACE);
    expect(grid).toEqual(buildGrid(weather([rain]), PLACE));
    expect(grid.rainTimedBy).toBeUndefined();
  });

  it('hours that end between whole hours, as in Kolkata, find their own quarters', () => {
    const half = START_MS + HOUR_MS / 2;
    const grid = buildGrid(weather([[0, 2]], run([9, 9, 0, 0, 1, 0, 9]), half), PLACE);
    expect(stepsOf(grid, 0, 0).map((mm) => mm > 0)).toEqual(
      Array.from({ length: 12 }, (_, i) => i >= 6 && i < 9),
    );
  });

  it('the day the clocks change has its rain at the same instants', () => {
    const startMs = Date.parse('2026-03-29T00:00Z');
    const quarters = run([0, 0, 0, 0, 0, 0, 2, 0], {
      startMs: startMs + QUARTER_MS,
      knownMs: startMs,
    });
    const grid = buildGrid(weather([[0, 0, 2]], quarters, startMs), PLACE);
    const first = grid.rainMm.findIndex((mm) => mm > 0);
    expect(new Date(startMs + first * 300_000).toISOString()).toBe('2026-03-29T01:30:00.000Z');
  });
});

describe('with lead', () => {
  const shower = [0, 1, 0, 0];
  const hours = 30;
  const quarters = run(Array.from({ length: hours }, () => shower).flat());
  const taken = Array.from(
    { length: hours },
    (_, h) => timingOf(quarters, START_MS + (h + 1) * HOUR_MS)?.taken ?? 0,
  );

  it('all forecasts take the timing for some hours, then fewer and fewer, at last none', () => {
    expect(taken.slice(0, 4)).toEqual([1, 1, 1, 1]);
    for (let h = 4; h < hours; h += 1) expect(taken[h]).toBeLessThan(taken[h - 1]! + 1e-12);
    expect(taken[9]).toBeCloseTo(Math.exp(-1), 9);
    expect(taken.at(-1)).toBe(0);
  });

  it('those that take it are about the right share, and the same ones for as long as any do', () => {
    for (const count of [20, 31, 51]) {
      let before = new Set(Array.from({ length: count }, (_, m) => m));
      for (const share of taken) {
        const now = new Set([...before].filter((m) => takesTiming(m, share)));
        const all = Array.from({ length: count }, (_, m) => m).filter((m) => takesTiming(m, share));
        expect(all).toEqual([...now]);
        expect(Math.abs(all.length / count - share)).toBeLessThan(0.08);
        before = now;
      }
    }
  });

  it('the others have their rain all hour', () => {
    const rain = Array.from({ length: 40 }, () => new Array(hours).fill(1) as number[]);
    const grid = buildGrid(weather(rain, quarters), PLACE);
    const dryQuarter = (h: number): number =>
      rain.filter((_, m) => stepsOf(grid, m, h)[0] === 0).length;
    expect(dryQuarter(0)).toBe(40);
    expect(dryQuarter(9)).toBe(rain.filter((_, m) => takesTiming(m, taken[9]!)).length);
    expect(dryQuarter(9)).toBeGreaterThan(5);
    expect(dryQuarter(9)).toBeLessThan(25);
    expect(dryQuarter(28)).toBe(0);
  });
});

describe('what a forecast has up to an hour', () => {
  it('hangs on nothing it has later, and on no other forecast', () => {
    fc.assert(
      fc.property(
        days,
        fc.array(amount, { minLength: HOURS, maxLength: HOURS }),
        fc.integer({ min: 1, max: HOURS - 2 }),
        ({ rain, quarters }, other, t) => {
          const changed = rain.map((member, m) =>
            m === 1 ? member.map((mm, h) => (h > t ? other[h]! : mm)) : member,
          );
          const before = buildGrid(weather(rain, run(quarters)), PLACE);
          const after = buildGrid(weather(changed, run(quarters)), PLACE);
          for (const [m, end] of [
            [0, before.steps],
            [1, t * 12],
            [2, before.steps],
          ] as const) {
            const part = (grid: typeof before) =>
              grid.rainMm.subarray(m * grid.steps, m * grid.steps + end);
            expect(part(after)).toEqual(part(before));
          }
        },
      ),
      { numRuns: 30 },
    );
  });
});

describe('coarse sums', () => {
  it('lean to the hours in which the run has its rain, and keep their sums', () => {
    const hours = 600;
    const sums = Array.from({ length: hours / 3 }, (_, i) => (i % 2 === 0 ? 0.4 : 0.5));
    const rain = [0, ...Array.from({ length: hours }, (_, h) => sums[Math.floor(h / 3)]! / 3)];
    // The second of every three hours is the run's wet one; it stays fresh for the sake of the count.
    const quarters = run(
      Array.from({ length: hours * 4 }, (_, q) => (Math.floor(q / 4) % 3 === 1 ? 0.25 : 0)),
      { knownMs: START_MS + hours * HOUR_MS },
    );
    const options = { seed: 7, guide: null, place: PLACE };
    const middle = (hourly: HourlyWeather): number =>
      total([...splitCoarseRain(hourly, options).members[0]!.rainMm].filter((_, h) => h % 3 === 2));
    expect(middle(weather([rain], quarters))).toBeGreaterThan(1.3 * middle(weather([rain])));
    const { rainMm } = splitCoarseRain(weather([rain], quarters), options).members[0]!;
    expect(total([...rainMm])).toBeCloseTo(total(rain), 9);
  });

  it('the run by hours is its quarters summed, unknown where one is missing', () => {
    const quarters = run([1, 2, 3, 4, 1, Number.NaN, 1, 1, 0.5, 0, 0, 0, 7], {
      startMs: START_MS + QUARTER_MS,
    });
    expect(hoursOf(quarters)).toEqual({
      startMs: START_MS + HOUR_MS,
      rainMm: Float64Array.of(10, Number.NaN, 0.5),
    });
    // From 00:45 on the first whole hour is the one that ends at 02:00.
    expect(hoursOf({ ...quarters, startMs: START_MS + 3 * QUARTER_MS }).startMs).toBe(
      START_MS + 2 * HOUR_MS,
    );
    expect(hoursOf({ ...quarters, startMs: START_MS + 3 * QUARTER_MS }).rainMm[0]).toBe(
      3 + 4 + 1 + Number.NaN,
    );
  });
});
