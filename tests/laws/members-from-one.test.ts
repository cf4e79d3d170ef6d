/** What holds for every set of members made from a single forecast, whatever its seed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  buildGrid,
  type HourlyMember,
  type HourlyWeather,
  MADE_NOTE,
  membersFromOne,
} from '../../src/weather/index.ts';
import {
  clearAt,
  HOUR_MS,
  ISSUED_MS,
  PLACE,
  singleForecast,
} from '../fixtures/weather/single-forecast.ts';

const opts = { seed: 11, place: PLACE };
const make = (one: HourlyWeather, seed = opts.seed): HourlyWeather =>
  membersFromOne(one, { ...opts, seed });
type Column = Exclude<keyof HourlyMember, 'relHumPct'>;
const at = (w: HourlyWeather, key: Column, h: number): number[] =>
  w.members.map((m) => m[key]![h]!);
const sorted = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
const middle = (values: readonly number[]): number => sorted(values)[(values.length - 1) / 2]!;
const mean = (values: readonly number[]): number =>
  values.reduce((a, b) => a + b, 0) / values.length;
const spread = (values: readonly number[]): number => {
  const m = mean(values);
  return Math.sqrt(values.reduce((a, b) => a + (b - m) ** 2, 0) / (values.length - 1));
};
const WEEK = 7 * 24;
const seeds = fc.integer();

describe('members made from one forecast', () => {
  it('are the same for the same seed and others for another', () => {
    const one = singleForecast({ hours: 96, rainChancePct: () => 30 });
    expect(make(one)).toEqual(make(one));
    expect(make(one, 12).members[1]).not.toEqual(make(one).members[1]);
  });

  it('are 31, marked, with the note first and the notes of the feed kept', () => {
    const made = make(singleForecast({ rainChancePct: () => 30 }));
    expect(made.members).toHaveLength(31);
    expect(made.source.madeFromOne).toBe(true);
    expect(made.source.notes).toEqual([MADE_NOTE, 'as given']);
    expect(MADE_NOTE).toBe(
      'made from one forecast; spread by common error growth, not by the weather centre',
    );
  });

  it('say so where no chance of rain and no issue time is given', () => {
    const { notes } = make(singleForecast({ source: { issuedMs: null } })).source;
    expect(notes.join('\n')).toMatch(/no rain probability/);
    expect(notes.join('\n')).toMatch(/issue time not stated/);
  });

  it('are not made of an ensemble, nor of the demo’s invented weather', () => {
    const one = singleForecast();
    const two = { ...one, members: [one.members[0]!, one.members[0]!] };
    const demo = singleForecast({ source: { invented: true } });
    expect(make(two)).toBe(two);
    expect(make(demo)).toBe(demo);
    const made = make(one);
    expect(make(made)).toBe(made);
  });

  it('leave the forecast handed in as it was', () => {
    const one = singleForecast({ hours: 50 });
    make(one);
    expect(one).toEqual(singleForecast({ hours: 50 }));
  });

  it.each([Number.NaN, 0.5, Number.POSITIVE_INFINITY])('refuse the seed %d', (seed) => {
    expect(() => make(singleForecast({ hours: 2 }), seed)).toThrow(/seed .* whole number/);
  });

  it('refuse a place off the globe', () => {
    const place = { latitudeDeg: 52, longitudeDeg: 181 };
    expect(() => membersFromOne(singleForecast(), { seed: 1, place })).toThrow(/longitudeDeg/);
  });
});

describe('at every hour', () => {
  it('air, wind and dry cloud have the forecast as their exact middle, the air as its mean too', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const one = singleForecast({ hours: WEEK, rainChancePct: () => 0 });
        const made = make(one, seed);
        for (let h = 0; h < WEEK; h += 5) {
          for (const key of ['airTempC', 'windMps', 'cloudPct'] as const) {
            expect(middle(at(made, key, h))).toBeCloseTo(one.members[0]![key][h]!, 9);
          }
          expect(mean(at(made, 'airTempC', h))).toBeCloseTo(one.members[0]!.airTempC[h]!, 9);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('dew point in dry air has the forecast as its middle; near the air’s it is held down a little', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const middles = (dewC: number): number[] => {
          const dewPointC = new Float64Array(WEEK).fill(dewC);
          const columns = { dewPointC };
          const one = singleForecast({ hours: WEEK, rainChancePct: () => 0, columns });
          const made = make(one, seed);
          return Array.from({ length: WEEK }, (_, h) => middle(at(made, 'dewPointC', h)) - dewC);
        };
        for (const offK of middles(-15)) expect(offK).toBeCloseTo(0, 9);
        // Nights of 8 °C over a dew point of 3 °C.
        for (const offK of middles(3)) {
          expect(offK).toBeLessThanOrEqual(1e-9);
          expect(offK).toBeGreaterThan(-1.5);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('dew point is at or below the air, wind not below 0, gust at or above wind', () => {
    fc.assert(
      fc.property(seeds, fc.double({ min: 0, max: 20, noNaN: true }), (seed, depressionK) => {
        const bare = singleForecast({ hours: WEEK, rainChancePct: () => 40 });
        const air = bare.members[0]!.airTempC;
        const flat = (x: number) => new Float64Array(WEEK).fill(x);
        const one = singleForecast({
          hours: WEEK,
          rainChancePct: () => 40,
          columns: {
            dewPointC: air.map((t) => t - depressionK),
            windMps: flat(0.4),
            gustMps: flat(0.5),
          },
        });
        for (const m of make(one, seed).members) {
          for (let h = 0; h < WEEK; h += 1) {
            expect(m.dewPointC![h]).toBeLessThanOrEqual(m.airTempC[h]!);
            expect(m.windMps[h]).toBeGreaterThanOrEqual(0);
            expect(m.gustMps![h]).toBeGreaterThanOrEqual(m.windMps[h]!);
          }
        }
      }),
      { numRuns: 10 },
    );
  });

  it('cloud is 0..100 %, sunlight no more than a clear sky’s and as forecast by night', () => {
    // Bright for so much cloud: where the cloud goes there is more to come than a clear sky has.
    const bright = singleForecast({ hours: WEEK }).members[0]!.solarWm2.map((sun) => 1.8 * sun);
    const columns = { solarWm2: bright, cloudPct: new Float64Array(WEEK).fill(90) };
    const one = singleForecast({ hours: WEEK, rainChancePct: () => 20, columns });
    const given = one.members[0]!.solarWm2;
    for (const { cloudPct, solarWm2 } of make(one).members) {
      for (let h = 1; h < WEEK; h += 1) {
        expect(cloudPct[h]).toBeGreaterThanOrEqual(0);
        expect(cloudPct[h]).toBeLessThanOrEqual(100);
        expect(solarWm2[h]).toBeGreaterThanOrEqual(0);
        // The hour by its ends and middle (Simpson); near sunrise by the higher end.
        const [a, b, c] = [1, 0.5, 0].map((ago) => clearAt(one.startMs + (h - ago) * HOUR_MS));
        const most = Math.max(given[h]!, (a! + 4 * b! + c!) / 6 + 8);
        expect(solarWm2[h]).toBeLessThanOrEqual(most);
        if (given[h] === 0) expect(solarWm2[h]).toBe(0);
      }
    }
  });

  it('a member in rain has cloud and moist air, and less sun than when it is dry', () => {
    const one = singleForecast({ hours: WEEK, rainChancePct: () => 50 });
    const sun = { wet: [0], dry: [0] };
    for (const m of make(one).members) {
      for (let h = 0; h < WEEK; h += 1) {
        const wet = m.rainMm[h]! > 0;
        if (wet) {
          expect(m.rainMm[h]).toBeGreaterThanOrEqual(0.1);
          expect(m.cloudPct[h]).toBeGreaterThanOrEqual(90);
          expect(m.airTempC[h]! - m.dewPointC![h]!).toBeLessThanOrEqual(3 + 1e-9);
        }
        sun[wet ? 'wet' : 'dry'].push(m.solarWm2[h]!);
      }
    }
    expect(mean(sun.wet)).toBeLessThan(0.7 * mean(sun.dry));
  });
});

describe('the spread', () => {
  const made = make(singleForecast({ rainChancePct: () => 0 }));
  const day = (key: Column, n: number) =>
    mean(Array.from({ length: 24 }, (_, h) => spread(at(made, key, n * 24 + h))));

  it.each(['airTempC', 'dewPointC', 'windMps', 'gustMps', 'cloudPct'] as const)(
    'of %s grows with lead time',
    (key) => {
      expect(day(key, 3)).toBeGreaterThan(1.08 * day(key, 0));
      expect(day(key, 8)).toBeGreaterThan(1.08 * day(key, 3));
    },
  );

  it('of air temperature is 1.5 K at a day and 3 to 4 K at ten (common practice)', () => {
    expect(spread(at(made, 'airTempC', 24))).toBeGreaterThan(1.4);
    expect(spread(at(made, 'airTempC', 24))).toBeLessThan(1.8);
    expect(spread(at(made, 'airTempC', 240))).toBeGreaterThan(3);
    expect(spread(at(made, 'airTempC', 240))).toBeLessThan(4);
  });

  it('of wind is 1.2 to 2.5 m/s over ten days (from memory)', () => {
    expect(spread(at(made, 'windMps', 6))).toBeGreaterThan(1);
    expect(spread(at(made, 'windMps', 240))).toBeLessThan(2.6);
  });

  it('counts from issue: hours before it err as today, and the later the issue the less', () => {
    const late = { issuedMs: ISSUED_MS + 48 * HOUR_MS };
    const later = make(singleForecast({ rainChancePct: () => 0, source: late }));
    expect(spread(at(later, 'airTempC', 24))).toBeCloseTo(spread(at(later, 'airTempC', 2)), 9);
    expect(spread(at(later, 'airTempC', 148))).toBeCloseTo(spread(at(made, 'airTempC', 100)), 9);
  });
});

describe('the errors', () => {
  it('hang together: alike after an hour, hardly after two days, without a trend', () => {
    const one = singleForecast({ rainChancePct: () => 0 });
    const made = make(one);
    const errors = made.members
      .slice(1)
      .map((m) => m.airTempC.map((t, h) => t - one.members[0]!.airTempC[h]!));
    const correlation = (lag: number): number => {
      let [both, a2, b2] = [0, 0, 0];
      for (const e of errors) {
        for (let h = 100; h + lag < e.length; h += 1) {
          both += e[h]! * e[h + lag]!;
          a2 += e[h]! ** 2;
          b2 += e[h + lag]! ** 2;
        }
      }
      return both / Math.sqrt(a2 * b2);
    };
    expect(correlation(1)).toBeGreaterThan(0.9);
    expect(correlation(6)).toBeGreaterThan(0.6);
    expect(correlation(6)).toBeLessThan(correlation(1));
    expect(Math.abs(correlation(96))).toBeLessThan(0.25);
  });

  it('reach back for nothing but rain: hours cut off later change none before', () => {
    const long = make(singleForecast({ hours: 120, rainChancePct: () => 0 }));
    const short = make(singleForecast({ hours: 60, rainChancePct: () => 0 }));
    long.members.forEach((m, n) => {
      for (const key of ['airTempC', 'dewPointC', 'windMps', 'gustMps', 'solarWm2'] as const) {
        expect(short.members[n]![key]).toEqual(m[key]!.slice(0, 60));
      }
    });
  });

  it('know no local time: the same hours of UTC, whatever zone the computer is in', () => {
    const zone = process.env['TZ'];
    const one = singleForecast({ hours: 72, rainChancePct: () => 30 });
    const here = make(one);
    try {
      // The clocks change inside these hours in Berlin.
      for (const other of ['Europe/Berlin', 'Asia/Kolkata', 'America/Chicago']) {
        process.env['TZ'] = other;
        expect(make(one)).toEqual(here);
      }
    } finally {
      if (zone === undefined) delete process.env['TZ'];
      else process.env['TZ'] = zone;
    }
  });
});

describe('what the forecast does not know', () => {
  it('stays unknown in every member: a hole, and all after the end', () => {
    const one = singleForecast({ hours: 100, rainChancePct: () => 30 });
    for (const key of [
      'airTempC',
      'dewPointC',
      'windMps',
      'rainMm',
      'solarWm2',
      'cloudPct',
    ] as const) {
      one.members[0]![key]!.fill(Number.NaN, 80);
    }
    one.members[0]!.rainMm[40] = Number.NaN;
    const made = make(one);
    for (const m of made.members) {
      expect(m.rainMm[40]).toBeNaN();
      expect(m.airTempC[40]).not.toBeNaN();
      for (const key of [
        'airTempC',
        'dewPointC',
        'windMps',
        'rainMm',
        'solarWm2',
        'cloudPct',
      ] as const) {
        expect(m[key]!.subarray(80).every(Number.isNaN)).toBe(true);
        expect(m[key]!.subarray(41, 80).some(Number.isNaN)).toBe(false);
      }
    }
    const { knownSteps } = buildGrid(made, PLACE);
    expect(new Set(knownSteps)).toEqual(new Set([39 * 12]));
  });

  it('stays out: no gusts of its own where the forecast has none; humidity gives the dew point', () => {
    const relHumPct = new Float64Array(24).fill(70);
    const one = singleForecast({
      hours: 24,
      columns: { gustMps: null, dewPointC: null, relHumPct },
    });
    for (const m of make(one).members) {
      expect(m.gustMps).toBeNull();
      expect(m.relHumPct).toBeNull();
      expect(m.dewPointC!.some(Number.isNaN)).toBe(false);
    }
  });

  it('is most of it in a forecast of one hour or none, which is no trouble', () => {
    const made = make(singleForecast({ hours: 1, rainChancePct: () => 100, rainMm: () => 2 }));
    expect(made.members.map((m) => m.rainMm.length)).toEqual(new Array(31).fill(1));
    expect(Math.min(...at(made, 'rainMm', 0))).toBeGreaterThanOrEqual(0.1);
    expect(make(singleForecast({ hours: 0 })).members).toHaveLength(31);
  });
});
