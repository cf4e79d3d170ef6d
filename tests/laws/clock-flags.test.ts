/** Permission, kept apart from speed: which limits of a sheet are broken when, by one look-up. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  breakAt,
  brokenLimits,
  buildDoseTable,
  buildSheetFlags,
  coldAfter,
  type Product,
  type SheetWeather,
  sheetBreaks,
  WEATHER_LIMITS,
} from '../../src/products/index.ts';
import { productById } from '../accuracy/clock-products.ts';
import { real } from '../fixtures/weather/any-weather.ts';
import { MINUTE } from '../fixtures/weather/films.ts';

const STEPS = 40;
const START = 1_000_000 * MINUTE;
const STEP = 5 * MINUTE;

const moment = fc
  .record({
    airTempC: real(-5, 45),
    surfaceTempC: real(-8, 60),
    dewSpreadK: real(-0.5, 15),
    rainMm: fc.constantFrom(0, 0, 0, 0.002, 0.2),
  })
  .map(({ dewSpreadK, ...rest }) => ({ ...rest, dewPointC: rest.airTempC - dewSpreadK }));
const forecasts = fc.array(fc.array(moment, { minLength: STEPS, maxLength: STEPS }), {
  minLength: 1,
  maxLength: 3,
});

type Moments = readonly (readonly {
  airTempC: number;
  surfaceTempC: number;
  dewPointC: number;
  rainMm: number;
}[])[];

function weatherOf(members: Moments, known = STEPS): SheetWeather {
  const flat = members.flat();
  return {
    startMs: START,
    stepMs: STEP,
    steps: STEPS,
    memberCount: members.length,
    knownSteps: Int32Array.from(members, () => known),
    airTempC: Float32Array.from(flat, (now) => now.airTempC),
    surfaceTempC: Float32Array.from(flat, (now) => now.surfaceTempC),
    dewPointC: Float32Array.from(flat, (now) => now.dewPointC),
    windMps: new Float32Array(flat.length).fill(1),
    rainMm: Float32Array.from(flat, (now) => now.rainMm),
    toFilm: 1,
    substrateWm2K: 10,
  };
}

const WATER = productById('deck-adhesive-two-side');
const fair = { airTempC: 20, surfaceTempC: 20, dewPointC: 8, rainMm: 0 };
const all = (now: typeof fair, count = 1): Moments =>
  Array.from({ length: count }, () => new Array<typeof fair>(STEPS).fill(now));
const once = (at: number, now: Partial<typeof fair>): Moments => [
  all(fair)[0]!.map((before, i) => (i === at ? { ...before, ...now } : before)),
];

describe('what is broken between two moments', () => {
  it('is what a walk through every step finds, limit by limit, and when it is first', () => {
    fc.assert(
      fc.property(forecasts, real(0, 199), real(0, 199), (members, a, b) => {
        const weather = weatherOf(members);
        const flags = buildSheetFlags(WATER, weather, 0.05);
        const [fromMs, toMs] = [START + Math.min(a, b) * MINUTE, START + Math.max(a, b) * MINUTE];
        members.forEach((_, m) => {
          const walked = new Map<string, number>();
          for (let i = 0; i < STEPS; i += 1) {
            const at = m * STEPS + i;
            const beginMs = START + i * STEP;
            if (beginMs > toMs || beginMs + STEP <= fromMs) continue;
            const now = {
              airTempC: weather.airTempC[at]!,
              surfaceTempC: weather.surfaceTempC[at]!,
              dewPointC: weather.dewPointC[at]!,
            };
            for (const { limit } of brokenLimits(WATER, now))
              if (!walked.has(limit)) walked.set(limit, Math.max(fromMs, beginMs));
          }
          const found = sheetBreaks(flags, m, fromMs, toMs);
          const order = WEATHER_LIMITS.filter((limit) => walked.has(limit));
          expect(found).toEqual(order.map((limit) => ({ limit, atMs: walked.get(limit) })));
          for (const { limit, atMs } of found)
            expect(breakAt(flags, limit, m, atMs).source).toBe(WATER.limits[limit]!.source);
        });
      }),
      { numRuns: 100 },
    );
  });

  it('only grows with a longer wait', () => {
    fc.assert(
      fc.property(
        forecasts,
        real(0, 100),
        real(0, 60),
        real(0, 60),
        (members, from, wait, more) => {
          const flags = buildSheetFlags(WATER, weatherOf(members), 0.05);
          const fromMs = START + from * MINUTE;
          const short = sheetBreaks(flags, 0, fromMs, fromMs + wait * MINUTE);
          const long = sheetBreaks(flags, 0, fromMs, fromMs + (wait + more) * MINUTE);
          for (const broken of short) expect(long).toContainEqual(broken);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('never touches the speed: a product without limits dries at the same times', () => {
    fc.assert(
      fc.property(forecasts, (members) => {
        const weather = weatherOf(members);
        const free: Product = { ...WATER, limits: {} };
        expect([...buildDoseTable(free, weather).total('touchDry')]).toEqual([
          ...buildDoseTable(WATER, weather).total('touchDry'),
        ]);
        expect(sheetBreaks(buildSheetFlags(free, weather, 0.05), 0, START, START + 1e9)).toEqual(
          [],
        );
      }),
      { numRuns: 20 },
    );
  });

  it('is nothing beyond what the forecast knows', () => {
    const cold = all({ ...fair, airTempC: 2, dewPointC: 0 });
    const flags = buildSheetFlags(WATER, weatherOf(cold, 10), 0.05);
    expect(sheetBreaks(flags, 0, START + 9 * STEP, START + 12 * STEP)).not.toEqual([]);
    expect(sheetBreaks(flags, 0, START + 10 * STEP, START + 12 * STEP)).toEqual([]);
  });

  it('a known step without a temperature is a bug, never a limit met', () => {
    for (const key of ['airTempC', 'surfaceTempC', 'dewPointC'] as const) {
      const members = once(7, { [key]: Number.NaN });
      expect(() => buildSheetFlags(WATER, weatherOf(members), 0.05)).toThrow(RangeError);
    }
  });
});

describe('rain', () => {
  it('counts from the rate asked, at the step it falls in', () => {
    // 0.05 mm/h is 0.00417 mm in five minutes.
    for (const [rainMm, counts] of [
      [0.004, false],
      [0.0042, true],
    ] as const) {
      const flags = buildSheetFlags(WATER, weatherOf(once(8, { rainMm })), 0.05);
      const got = flags.first('rain', 0, START, START + 100 * MINUTE);
      expect(got).toBe(counts ? START + 8 * STEP : null);
    }
  });
});

describe('cold in the hours after', () => {
  // 2 h at 5 °C or more.
  const WARM: Product = {
    ...WATER,
    limits: {
      afterMinC: { value: 5, source: 'user' },
      hoursAfter: { value: 2, source: 'user' },
    },
  };
  const at = (members: Moments, laidMin: number, known = STEPS) =>
    coldAfter(buildSheetFlags(WARM, weatherOf(members, known), 0.05), 0, START + laidMin * MINUTE);

  it('is cold where the air falls below within them, warm where it does not', () => {
    const dip = once(24, { airTempC: 4.9, dewPointC: 0 });
    expect(at(dip, 0)).toEqual({ kind: 'cold', atMs: START + 120 * MINUTE });
    expect(at(dip, 60)).toEqual({ kind: 'cold', atMs: START + 120 * MINUTE });
    expect(at(once(25, { airTempC: 4.9, dewPointC: 0 }), 0)).toEqual({ kind: 'warm' });
    expect(at(once(5, { airTempC: 5, dewPointC: 0 }), 0)).toEqual({ kind: 'warm' });
  });

  it('is unknown where the forecast ends first, unless it is cold before', () => {
    expect(at(all(fair), 90)).toEqual({ kind: 'unknown' });
    expect(at(once(36, { airTempC: 1, dewPointC: 0 }), 90)?.kind).toBe('cold');
  });

  it('is not asked where the sheet does not ask', () => {
    const flags = buildSheetFlags({ ...WARM, limits: {} }, weatherOf(all(fair)), 0.05);
    expect(coldAfter(flags, 0, START)).toBeNull();
  });
});
