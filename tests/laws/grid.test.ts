/** What must hold when hourly forecasts are put on the 5-minute grid. */
import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import { sunTimes } from '../../src/physics/index.ts';
import { buildGrid, stepAt, stepStartMs } from '../../src/weather/index.ts';
import { HOUR_MS, hourlyOf, hourSums, memberOf } from '../fixtures/weather/by-hand.ts';

const HOURS = 25;
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const column = (min: number, max: number) =>
  fc.array(real(min, max), { minLength: HOURS, maxLength: HOURS });
const places = fc.record({
  latitudeDeg: real(-70, 70),
  longitudeDeg: real(-180, 180),
  startMs: fc.integer({ min: 0, max: 365 * 24 }).map((h) => Date.UTC(2026, 0, 1) + h * HOUR_MS),
});

describe('sums and means of an hour', () => {
  it('rain and radiation come out as they went in, hour by hour, anywhere on earth', () => {
    fc.assert(
      fc.property(places, column(0, 20), column(0, 900), (place, rainMm, solarWm2) => {
        const grid = buildGrid(hourlyOf([memberOf(HOURS, { rainMm, solarWm2 })], place), place);
        expect(grid.steps).toBe((HOURS - 1) * 12);
        // The first stamp's sums belong to the hour before the grid.
        hourSums(grid.rainMm, 0, HOURS - 1).forEach((sum, h) => {
          expect(sum).toBeCloseTo(rainMm[h + 1]!, 4);
        });
        hourSums(grid.solarWm2, 0, HOURS - 1).forEach((sum, h) => {
          expect(Math.abs(sum / 12 - solarWm2[h + 1]!)).toBeLessThan(
            1e-5 * solarWm2[h + 1]! + 1e-3,
          );
        });
      }),
      { numRuns: 60 },
    );
  });

  it.each([
    ['polar night at 68 N', 68, Date.UTC(2026, 11, 21), 0],
    ['polar day at 68 N', 68, Date.UTC(2026, 5, 21), 24],
    ['a southern summer', -38, Date.UTC(2026, 11, 21), 15],
    ['a southern winter', -38, Date.UTC(2026, 5, 21), 9],
  ])('keep their totals through %s', (_name, latitudeDeg, startMs, hoursOfSun) => {
    const place = { latitudeDeg, longitudeDeg: 0 };
    const solarWm2 = Array.from({ length: HOURS }, (_, h) => 3 + h * 10);
    const grid = buildGrid(hourlyOf([memberOf(HOURS, { solarWm2 })], { ...place, startMs }), place);
    hourSums(grid.solarWm2, 0, HOURS - 1).forEach((sum, h) => {
      expect(sum / 12).toBeCloseTo(solarWm2[h + 1]!, 3);
    });
    const up = grid.sunElevationDeg.filter((deg) => deg > 0).length / 12;
    expect(Math.abs(up - hoursOfSun)).toBeLessThan(0.5);
  });

  it('light follows the sun: nothing before it is up, most when it stands highest', () => {
    const place = { latitudeDeg: 52, longitudeDeg: 0 };
    const startMs = Date.UTC(2026, 2, 20);
    const solarWm2 = new Array<number>(HOURS).fill(100);
    const grid = buildGrid(hourlyOf([memberOf(HOURS, { solarWm2 })], { ...place, startMs }), place);
    const { sunriseMs } = sunTimes({
      dayStartMs: startMs,
      dayEndMs: startMs + 24 * HOUR_MS,
      ...place,
    });
    const rise = stepAt(grid, sunriseMs!);
    const hour = Math.floor(rise / 12) * 12;
    for (let i = hour; i < rise - 1; i += 1) expect(grid.solarWm2[i]).toBe(0);
    for (let i = rise + 2; i < hour + 11; i += 1)
      expect(grid.solarWm2[i + 1]).toBeGreaterThan(grid.solarWm2[i]!);
  });

  it('a twilight hour spreads what little it has evenly', () => {
    const place = { latitudeDeg: 52, longitudeDeg: 0 };
    const startMs = Date.UTC(2026, 5, 21, 1);
    // Sunrise is at about 03:43 UTC: from 02 to 03 the disc is below the horizon all hour.
    const solarWm2 = [0, 0, 4, 40];
    const grid = buildGrid(hourlyOf([memberOf(4, { solarWm2 })], { ...place, startMs }), place);
    for (let i = 12; i < 24; i += 1) expect(grid.solarWm2[i]).toBeCloseTo(4, 5);
  });

  it('a rain total is never moved out of its hour', () => {
    const rainMm = [9, 0, 6, 0];
    const grid = buildGrid(hourlyOf([memberOf(4, { rainMm })]), {
      latitudeDeg: 52,
      longitudeDeg: 0,
    });
    expect(hourSums(grid.rainMm, 0, 3)).toEqual([0, 6, 0]);
  });
});

describe('instants', () => {
  it('run on straight lines through the stamps', () => {
    fc.assert(
      fc.property(column(-20, 35), column(0, 20), column(0, 100), (airTempC, windMps, cloudPct) => {
        const dewPointC = airTempC.map((t) => t - 3);
        const grid = buildGrid(
          hourlyOf([memberOf(HOURS, { airTempC, dewPointC, windMps, cloudPct })]),
          { latitudeDeg: 52, longitudeDeg: 0 },
        );
        // A step holds the value at its middle; two middles around a stamp give the stamp back
        // where the line does not bend, and every middle lies on its hour's line.
        for (let h = 0; h + 1 < HOURS; h += 1) {
          for (let j = 0; j < 12; j += 1) {
            const share = (j + 0.5) / 12;
            const at = h * 12 + j;
            const line = (v: readonly number[]) => v[h]! + share * (v[h + 1]! - v[h]!);
            expect(grid.airTempC[at]).toBeCloseTo(line(airTempC), 4);
            expect(grid.dewPointC[at]).toBeCloseTo(line(dewPointC), 4);
            expect(grid.windMps[at]).toBeCloseTo(line(windMps), 4);
            expect(grid.cloudPct[at]).toBeCloseTo(line(cloudPct), 3);
          }
        }
      }),
      { numRuns: 20 },
    );
  });

  it('meet at the stamp from both sides', () => {
    const airTempC = [10, 16, 12];
    const grid = buildGrid(hourlyOf([memberOf(3, { airTempC })]), {
      latitudeDeg: 52,
      longitudeDeg: 0,
    });
    const slopeBefore = grid.airTempC[11]! - grid.airTempC[10]!;
    const slopeAfter = grid.airTempC[13]! - grid.airTempC[12]!;
    expect(grid.airTempC[11]! + slopeBefore / 2).toBeCloseTo(16, 4);
    expect(grid.airTempC[12]! - slopeAfter / 2).toBeCloseTo(16, 4);
  });

  it('a step is found from its start and holds its whole five minutes', () => {
    const grid = { startMs: Date.UTC(2026, 2, 29), stepMs: 300_000 };
    for (const step of [-3, 0, 1, 4000]) {
      expect(stepAt(grid, stepStartMs(grid, step))).toBe(step);
      expect(stepAt(grid, stepStartMs(grid, step) + 299_999)).toBe(step);
    }
  });

  it('know nothing of summer time: the night the clocks change is twelve steps an hour like any', () => {
    const startMs = Date.UTC(2026, 2, 28, 20);
    const airTempC = Array.from({ length: HOURS }, (_, h) => h);
    const grid = buildGrid(hourlyOf([memberOf(HOURS, { airTempC })], { startMs }), {
      latitudeDeg: 52,
      longitudeDeg: 13,
    });
    for (let i = 1; i < grid.steps; i += 1)
      expect(grid.airTempC[i]! - grid.airTempC[i - 1]!).toBeCloseTo(1 / 12, 4);
    expect(stepStartMs(grid, grid.steps)).toBe(startMs + (HOURS - 1) * HOUR_MS);
  });
});

describe('gusts', () => {
  it('are never below the wind they come with, whatever the feed prints', () => {
    fc.assert(
      fc.property(column(0, 25), column(0, 30), (windMps, gustMps) => {
        const grid = buildGrid(hourlyOf([memberOf(HOURS, { windMps, gustMps })]), {
          latitudeDeg: 52,
          longitudeDeg: 0,
        });
        for (let i = 0; i < grid.steps; i += 1) {
          expect(grid.gustMps[i]).toBeGreaterThanOrEqual(grid.windMps[i]!);
          expect(grid.gustMps[i]).toBeGreaterThanOrEqual(
            Math.fround(gustMps[Math.floor(i / 12) + 1]!),
          );
        }
      }),
      { numRuns: 30 },
    );
  });

  it.each([
    ['the feed has none', null],
    ['an hour of them is missing', [Number.NaN, Number.NaN, Number.NaN]],
  ])('are 1.6 times the wind where %s (inland, common practice)', (_name, gustMps) => {
    const windMps = [2, 4, 10];
    const grid = buildGrid(hourlyOf([memberOf(3, { windMps, gustMps })]), {
      latitudeDeg: 52,
      longitudeDeg: 0,
    });
    expect(grid.steps).toBe(24);
    for (let i = 0; i < 24; i += 1) expect(grid.gustMps[i]! / grid.windMps[i]!).toBeCloseTo(1.6, 5);
  });
});

describe('what is missing', () => {
  const place = { latitudeDeg: 52, longitudeDeg: 0 };
  const withGap = (at: number): number[] =>
    Array.from({ length: 8 }, (_, h) => (h === at ? Number.NaN : 5));

  it.each([
    ['airTempC', 'temperature'],
    ['dewPointC', 'humidity'],
    ['windMps', 'wind'],
    ['rainMm', 'precipitation'],
    ['solarWm2', 'solar radiation'],
    ['cloudPct', 'cloud cover'],
  ] as const)('a gap in %s ends what is known at the stamp before, and is named', (key, words) => {
    const grid = buildGrid(hourlyOf([memberOf(8, { [key]: withGap(5) })]), place);
    expect([...grid.knownSteps]).toEqual([4 * 12]);
    expect(grid.endedBy).toEqual([words]);
    for (const col of [grid.airTempC, grid.windMps, grid.gustMps, grid.rainMm, grid.solarWm2]) {
      expect(Number.isFinite(col[47]!)).toBe(true);
      for (let i = 48; i < grid.steps; i += 1) expect(col[i]).toBeNaN();
    }
  });

  it('each member has its own end', () => {
    const grid = buildGrid(
      hourlyOf([
        memberOf(8),
        memberOf(8, { rainMm: withGap(3) }),
        memberOf(8, { cloudPct: withGap(7) }),
      ]),
      place,
    );
    expect([...grid.knownSteps]).toEqual([84, 24, 72]);
    expect(grid.endedBy).toEqual([null, 'precipitation', 'cloud cover']);
  });

  it('a missing gust is not a gap', () => {
    const grid = buildGrid(hourlyOf([memberOf(8, { gustMps: withGap(2) })]), place);
    expect([...grid.knownSteps]).toEqual([84]);
  });

  it('leading hours that no member knows are cut off; later ones are kept', () => {
    const airTempC = [Number.NaN, Number.NaN, 7, 8, 9, 10];
    const hourly = hourlyOf([memberOf(6, { airTempC })]);
    const grid = buildGrid(hourly, place);
    expect(grid.startMs).toBe(hourly.startMs + 2 * HOUR_MS);
    expect(grid.steps).toBe(36);
    expect(grid.airTempC[0]).toBeCloseTo(7 + 0.5 / 12, 5);
    expect([...grid.knownSteps]).toEqual([36]);
  });

  it('a member that starts late is unknown, not guessed, when another starts earlier', () => {
    const late = memberOf(6, { windMps: [Number.NaN, Number.NaN, 3, 3, 3, 3] });
    const grid = buildGrid(hourlyOf([memberOf(6), late]), place);
    expect([...grid.knownSteps]).toEqual([60, 0]);
    expect(grid.endedBy).toEqual([null, 'wind']);
  });

  it('nothing known at all gives an empty grid, not an error', () => {
    const grid = buildGrid(
      hourlyOf([memberOf(4, { rainMm: withGap(9).slice(0, 4).fill(Number.NaN) })]),
      place,
    );
    expect(grid.steps).toBe(0);
    expect([...grid.knownSteps]).toEqual([0]);
  });
});

describe('dew point from relative humidity', () => {
  psychrolib.SetUnitSystem(psychrolib.SI);

  it('agrees with PsychroLib within 0.1 K above freezing', () => {
    const pairs = [5, 12, 20, 28, 36].flatMap((t) =>
      [30, 50, 70, 85, 100].map((rh) => ({ t, rh })),
    );
    const grid = buildGrid(
      hourlyOf([
        memberOf(pairs.length, {
          airTempC: pairs.map((p) => p.t),
          dewPointC: null,
          relHumPct: pairs.map((p) => p.rh),
        }),
      ]),
      { latitudeDeg: 52, longitudeDeg: 0 },
    );
    // The stamp itself, from the two halves of the line around mid-hour.
    pairs.slice(0, -1).forEach((pair, h) => {
      const dew =
        grid.dewPointC[h * 12]! - (grid.dewPointC[h * 12 + 1]! - grid.dewPointC[h * 12]!) / 2;
      const theirs = psychrolib.GetTDewPointFromRelHum(pair.t, pair.rh / 100);
      if (theirs > 0.5)
        expect(Math.abs(dew - theirs), `${pair.t} °C ${pair.rh} %`).toBeLessThan(0.1);
    });
  });

  it('of a forecast of 0 % is that of 1 %', () => {
    const of = (rh: number): number =>
      buildGrid(
        hourlyOf([memberOf(2, { airTempC: [20, 20], dewPointC: null, relHumPct: [rh, rh] })]),
        { latitudeDeg: 52, longitudeDeg: 0 },
      ).dewPointC[0]!;
    expect(of(0)).toBe(of(1));
  });
});
