/** What a film had dried when somebody found it dry: several faces, several forecasts. */
import { describe, expect, it } from 'vitest';
import {
  buildDoseTable,
  constantFilm,
  type FilmWeather,
  rateLaw,
  withSpeed,
} from '../../src/products/index.ts';
import {
  type CoatedFace,
  type MeasuredFilm,
  measureFilm,
  minutesAlong,
  type WeatherOfFilm,
} from '../../src/record/index.ts';
import type { SurfaceWeather, WeatherGrid } from '../../src/weather/index.ts';
import { productById } from '../accuracy/clock-products.ts';
import { MILD, START_MS } from '../fixtures/record/site-log.ts';
import { gridOf, MINUTE_MS } from '../fixtures/weather/by-hand.ts';

const GLUE = productById('contact-solvent');
const HOURS = 24;
const COATED_MS = START_MS + 600 * MINUTE_MS;
const at = (minutes: number): number => COATED_MS + minutes * MINUTE_MS;

/** A face with one steady temperature in each forecast. */
function face(tempsC: readonly number[]): CoatedFace {
  const films = tempsC.map((surfaceTempC) =>
    constantFilm({ startMs: START_MS, hours: HOURS, surfaceTempC, dewPointC: 9.3, windMps: 1 }),
  );
  const one = films[0]!;
  const join = (of: (film: FilmWeather) => Float32Array): Float32Array =>
    Float32Array.from(films.flatMap((film) => [...of(film)]));
  const film: FilmWeather = {
    ...one,
    memberCount: films.length,
    knownSteps: Int32Array.from(films, () => one.steps),
    surfaceTempC: join(({ surfaceTempC }) => surfaceTempC),
    dewPointC: join(({ dewPointC }) => dewPointC),
    windMps: join(({ windMps }) => windMps),
  };
  const surface = { surfaceTempC: film.surfaceTempC } as unknown as SurfaceWeather;
  return { surface, doses: buildDoseTable(GLUE, film) };
}

function weather(
  faces: readonly CoatedFace[],
  memberCount: number,
  change: (grid: WeatherGrid, m: number) => void = () => undefined,
): WeatherOfFilm {
  const one = gridOf({ hours: HOURS, startMs: START_MS, at: () => MILD });
  const many = (column: Float32Array): Float32Array =>
    Float32Array.from(Array.from({ length: memberCount }, () => [...column]).flat());
  const grid: WeatherGrid = {
    ...one,
    memberCount,
    airTempC: many(one.airTempC),
    dewPointC: many(one.dewPointC),
    rainMm: many(one.rainMm),
    knownSteps: new Int32Array(memberCount).fill(one.steps),
  };
  for (let m = 0; m < memberCount; m += 1) change(grid, m);
  return { grid, faces };
}

/** The rate of the physics at these temperatures, the dose of a film in steady weather being rate x time. */
const rate = (surfaceTempC: number): number => {
  const film = constantFilm({ startMs: 0, hours: 1, surfaceTempC, dewPointC: 9.3, windMps: 1 });
  return rateLaw(
    GLUE,
    'touchDry',
  )({
    surfaceTempC,
    vapourHPa: 11.7,
    windMps: 1,
    substrateWm2K: film.substrateWm2K,
  });
};
const good = (film: MeasuredFilm): MeasuredFilm & { ok: true } => {
  if (!film.ok) throw new Error(film.why);
  return film;
};

describe('a joint of two faces', () => {
  it('is judged by its slower face, whichever of the two that is', () => {
    for (const faces of [
      [face([18]), face([35])],
      [face([35]), face([18])],
    ]) {
      const film = good(measureFilm(GLUE, COATED_MS, at(20), weather(faces, 1)));
      expect(film.doseMin).toBeCloseTo(20 * rate(18), 3);
      expect(minutesAlong(film, 17.5)).toBeCloseTo(17.5 / rate(18), 2);
    }
  });
});

describe('several forecasts', () => {
  it('give their middle and their scatter', () => {
    const tempsC = [16, 20, 28];
    const film = good(measureFilm(GLUE, COATED_MS, at(20), weather([face(tempsC)], 3)));
    expect(film.doseMin).toBeCloseTo(20 * rate(20), 3);
    const logs = tempsC.map((tempC) => Math.log(rate(tempC)));
    const mean = (logs[0]! + logs[1]! + logs[2]!) / 3;
    const variance = logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / 2;
    expect(film.forecastSd).toBeCloseTo(Math.sqrt(variance), 4);
  });

  it('an even number of them gives half way between the two in the middle', () => {
    const film = good(measureFilm(GLUE, COATED_MS, at(20), weather([face([16, 20, 24, 28])], 4)));
    expect(film.doseMin).toBeCloseTo((20 * (rate(20) + rate(24))) / 2, 3);
  });

  it.each([
    [1, true],
    [2, false],
  ])('with rain in %i of 4, learned from: %s', (wet, learned) => {
    const found = measureFilm(
      GLUE,
      COATED_MS,
      at(20),
      weather([face([20, 20, 20, 20])], 4, (grid, m) => {
        if (m < wet) grid.rainMm.fill(0.1, m * grid.steps, (m + 1) * grid.steps);
      }),
    );
    expect(found.ok).toBe(learned);
  });

  it.each([
    [1, true],
    [2, false],
  ])('below the air limit in %i of 4, learned from: %s', (cold, learned) => {
    const found = measureFilm(
      GLUE,
      COATED_MS,
      at(20),
      weather([face([20, 20, 20, 20])], 4, (grid, m) => {
        if (m < cold) grid.airTempC.fill(4, m * grid.steps, (m + 1) * grid.steps);
      }),
    );
    expect(found.ok).toBe(learned);
  });

  it.each([
    [2, true],
    [3, false],
  ])('that end too soon in %i of 4, learned from: %s', (short, learned) => {
    const found = measureFilm(
      GLUE,
      COATED_MS,
      at(20),
      weather([face([20, 20, 20, 20])], 4, (grid, m) => {
        // The film ends in step 124; 123 known steps are not enough, 124 are.
        grid.knownSteps[m] = m < short ? 123 : 124;
      }),
    );
    expect(found.ok).toBe(learned);
  });
});

describe('rain over a long film', () => {
  it.each([
    ['a drizzle of two hundredths an hour is none', 0.02, true],
    ['six hundredths an hour is', 0.06, false],
  ])('is judged by the hour: %s', (_, rainMmPerHour, learned) => {
    const found = measureFilm(
      GLUE,
      COATED_MS,
      at(180),
      weather([face([20])], 1, (grid) => {
        grid.rainMm.fill((rainMmPerHour * grid.stepMs) / 3_600_000);
      }),
    );
    expect(found.ok).toBe(learned);
  });
});

describe('the minutes along a film’s curve', () => {
  const film = good(measureFilm(GLUE, COATED_MS, at(20), weather([face([24])], 1)));

  it('are refMin over the rate in steady weather, between its points and beyond them', () => {
    for (const refMin of [1, 3, 10, 17.5, 21, 60, 139, 300]) {
      expect(minutesAlong(film, refMin)).toBeCloseTo(refMin / rate(24), 1);
    }
  });
});

describe('a sheet and its corrected copy', () => {
  it('are measured alike: the dose is by the sheet’s own rate', () => {
    const learned = withSpeed(GLUE, { factor: 1.4, spread: 0.8 });
    const dose = (product: typeof GLUE) =>
      good(measureFilm(product, COATED_MS, at(20), weather([face([22])], 1))).doseMin;
    expect(dose(learned)).toBe(dose(GLUE));
  });
});
