/** What must hold of learning a firm's speed of drying, whatever is logged. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  correctionOf,
  firmSpeed,
  HALF_LIFE_DAYS,
  LOOK_SD_MIN,
  nextFilmSd,
  SD_PER_80_PCT,
  type Sighting,
  sheetScatter,
  WEATHER_SD,
} from '../../src/record/index.ts';
import { seededRandom } from '../../src/units/index.ts';
import { productById } from '../accuracy/clock-products.ts';

const DAY_MS = 86_400_000;
const NOW_MS = Date.parse('2026-06-08T12:00:00Z');
const SHEET = productById('contact-solvent').touchDry!;
const SCATTER = sheetScatter(SHEET);

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const sighting = fc.record({
  id: fc.uuid(),
  logSpeed: real(-1.5, 1.5),
  expectedMin: real(2, 600),
  forecastSd: real(0, 0.5),
  dayKey: fc.constantFrom('a', 'b', 'c', 'd'),
  dryMs: fc.integer({ min: 0, max: 900 }).map((days) => NOW_MS - days * DAY_MS),
});
const sightings = fc.uniqueArray(sighting, { selector: ({ id }) => id, maxLength: 12 });

describe('the sheet', () => {
  it('holds exactly where nothing was logged', () => {
    const speed = firmSpeed(SCATTER, [], NOW_MS);
    expect(speed.logSpeed).toEqual({ mean: 0, sd: SCATTER.lastingSd });
    expect(correctionOf(speed)).toEqual({ factor: 1, spread: 1 });
  });

  it('has 8 films in 10 between its low and its high', () => {
    const sd = Math.hypot(SCATTER.lastingSd, SCATTER.filmSd);
    expect(2 * SD_PER_80_PCT * sd).toBeCloseTo(Math.log(SHEET.highMin / SHEET.lowMin), 12);
  });

  it('that prints one number has scatter all the same', () => {
    const { lastingSd, filmSd } = sheetScatter({
      ...SHEET,
      lowMin: 15,
      typicalMin: 15,
      highMin: 15,
    });
    expect(Math.min(lastingSd, filmSd)).toBeGreaterThan(0.1);
  });
});

describe('what was logged', () => {
  it('gives the same to the last bit in whatever order it comes', () => {
    fc.assert(
      fc.property(sightings, fc.integer(), (films, seed) => {
        const random = seededRandom(seed);
        const shuffled = films
          .map((film) => ({ film, key: random() }))
          .sort((a, b) => a.key - b.key)
          .map(({ film }) => film);
        expect(firmSpeed(SCATTER, shuffled, NOW_MS)).toEqual(firmSpeed(SCATTER, films, NOW_MS));
      }),
    );
  });

  it('never widens the range by one film more, of the same day or another', () => {
    fc.assert(
      fc.property(sightings, sighting, (films, more) => {
        fc.pre(films.every(({ id }) => id !== more.id));
        const before = firmSpeed(SCATTER, films, NOW_MS);
        const after = firmSpeed(SCATTER, [...films, more], NOW_MS);
        expect(after.logSpeed.sd).toBeLessThanOrEqual(before.logSpeed.sd * (1 + 1e-12));
        expect(correctionOf(after).spread).toBeLessThanOrEqual(
          correctionOf(before).spread * (1 + 1e-12),
        );
      }),
    );
  });

  it('lies between the sheet and the films', () => {
    fc.assert(
      fc.property(sightings, (films) => {
        const { mean } = firmSpeed(SCATTER, films, NOW_MS).logSpeed;
        const all = [0, ...films.map(({ logSpeed }) => logSpeed)];
        expect(mean).toBeGreaterThanOrEqual(Math.min(...all) - 1e-12);
        expect(mean).toBeLessThanOrEqual(Math.max(...all) + 1e-12);
      }),
    );
  });

  it('weighs less the older it is: the pull of one film falls with every day, to half its information', () => {
    const pull = (ageDays: number): number => {
      const film = plain('x', 0.5, 'a', NOW_MS - ageDays * DAY_MS);
      return firmSpeed(SCATTER, [film], NOW_MS).logSpeed.mean;
    };
    for (let age = 1; age <= 720; age += 1) expect(pull(age)).toBeLessThan(pull(age - 1));
    const information = (ageDays: number): number => {
      const film = plain('x', 0.5, 'a', NOW_MS - ageDays * DAY_MS);
      return 1 / firmSpeed(SCATTER, [film], NOW_MS).logSpeed.sd ** 2 - 1 / SCATTER.lastingSd ** 2;
    };
    expect(information(HALF_LIFE_DAYS) / information(0)).toBeCloseTo(0.5, 9);
  });

  it('counts less on one day than on as many days: they share that day’s weather', () => {
    const oneDay = ['1', '2', '3', '4'].map((id) => plain(id, 0.4, 'a', NOW_MS));
    const fourDays = ['1', '2', '3', '4'].map((id) => plain(id, 0.4, id, NOW_MS));
    const one = firmSpeed(SCATTER, oneDay, NOW_MS).logSpeed;
    const four = firmSpeed(SCATTER, fourDays, NOW_MS).logSpeed;
    expect(one.sd).toBeGreaterThan(four.sd);
    expect(one.mean).toBeLessThan(four.mean);
    // However many there are, one day is never surer than its weather.
    const many = Array.from({ length: 500 }, (_, i) => plain(`${i}`, 0.4, 'a', NOW_MS));
    const least = 1 / Math.sqrt(1 / SCATTER.lastingSd ** 2 + 1 / WEATHER_SD ** 2);
    expect(firmSpeed(SCATTER, many, NOW_MS).logSpeed.sd).toBeGreaterThan(least);
  });
});

describe('the closed form', () => {
  it('is what numerical integration over the firm’s speed and each day’s weather gives', () => {
    const films = [
      plain('1', 0.3, 'a', NOW_MS),
      plain('2', 0.5, 'a', NOW_MS),
      { ...plain('3', -0.1, 'b', NOW_MS), expectedMin: 6, forecastSd: 0.1 },
    ];
    const found = firmSpeed(SCATTER, films, NOW_MS).logSpeed;
    const integrated = integrate(films);
    expect(found.mean).toBeCloseTo(integrated.mean, 6);
    expect(found.sd).toBeCloseTo(integrated.sd, 6);
  });
});

describe('a firm whose films dry at a speed of its own', () => {
  it('is found: with more and more days the factor closes in on the true one', () => {
    const truth = Math.log(1.35);
    const random = normals(7);
    const films: Sighting[] = [];
    const miss: number[] = [];
    for (let day = 0; day < 400; day += 1) {
      films.push(seen(`${day}`, truth, 20, random));
      if (day === 24 || day === 399) {
        miss.push(Math.abs(firmSpeed(SCATTER, films, NOW_MS).logSpeed.mean - truth));
      }
    }
    expect(miss[1]).toBeLessThan(0.04);
    expect(firmSpeed(SCATTER, films, NOW_MS).logSpeed.sd).toBeLessThan(0.03);
  });

  it.each([0, 1, 3, 10])('lies inside the 80 %% range 8 times in 10 after %i days', (days) => {
    const random = normals(100 + days);
    const firms = 4000;
    let insideFirm = 0;
    let insideFilm = 0;
    for (let n = 0; n < firms; n += 1) {
      const truth = SCATTER.lastingSd * random();
      const films = Array.from({ length: days }, (_, d) => seen(`${n}-${d}`, truth, 15, random));
      const speed = firmSpeed(SCATTER, films, NOW_MS);
      const { mean, sd } = speed.logSpeed;
      if (Math.abs(truth - mean) <= SD_PER_80_PCT * sd) insideFirm += 1;
      const next = truth + SCATTER.filmSd * random();
      if (Math.abs(next - mean) <= SD_PER_80_PCT * nextFilmSd(speed)) insideFilm += 1;
    }
    // Four standard errors of a share of 0.8 in 4000.
    const slack = 4 * Math.sqrt((0.8 * 0.2) / firms);
    expect(Math.abs(insideFirm / firms - 0.8)).toBeLessThan(slack);
    expect(Math.abs(insideFilm / firms - 0.8)).toBeLessThan(slack);
  });
});

function plain(id: string, logSpeed: number, dayKey: string, dryMs: number): Sighting {
  return { id, logSpeed, expectedMin: 20, forecastSd: 0, dayKey, dryMs };
}

/** One film on a day of its own, with all that can be wrong about it. */
function seen(id: string, truth: number, expectedMin: number, random: () => number): Sighting {
  const logSpeed =
    truth +
    SCATTER.filmSd * random() +
    WEATHER_SD * random() +
    (LOOK_SD_MIN / expectedMin) * random();
  return { id, logSpeed, expectedMin, forecastSd: 0, dayKey: id, dryMs: NOW_MS };
}

/** Standard normal numbers from a seed (Box & Muller 1958). */
function normals(seed: number): () => number {
  const random = seededRandom(seed);
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** Mean and sd of the firm's speed by summing over a grid of it and of each day's weather error. */
function integrate(films: readonly Sighting[]): { mean: number; sd: number } {
  const density = (x: number, sd: number) => Math.exp(-0.5 * (x / sd) ** 2) / sd;
  const grid = (sd: number) => Array.from({ length: 801 }, (_, i) => ((i - 400) / 50) * sd);
  const days = [...new Set(films.map(({ dayKey }) => dayKey))];
  let mass = 0;
  let first = 0;
  let second = 0;
  for (const theta of grid(SCATTER.lastingSd)) {
    let weight = density(theta, SCATTER.lastingSd);
    for (const day of days) {
      let ofDay = 0;
      for (const weather of grid(WEATHER_SD)) {
        let product = density(weather, WEATHER_SD);
        for (const film of films.filter(({ dayKey }) => dayKey === day)) {
          const sd = Math.hypot(SCATTER.filmSd, LOOK_SD_MIN / film.expectedMin, film.forecastSd);
          product *= density(film.logSpeed - theta - weather, sd);
        }
        ofDay += product;
      }
      weight *= ofDay;
    }
    mass += weight;
    first += weight * theta;
    second += weight * theta ** 2;
  }
  const mean = first / mass;
  return { mean, sd: Math.sqrt(second / mass - mean ** 2) };
}
