import { describe, expect, it } from 'vitest';
import { readyJob } from '../../src/answers/index.ts';
import { type BestMoment, bestMoment } from '../../src/planner/fit/best-moment.ts';
import { looserLimits } from '../../src/planner/fit/looser-limit.ts';
import { neverMet } from '../../src/planner/fit/never-met.ts';
import { workHours } from '../../src/planner/fit/work-hours.ts';
import { workKinds } from '../../src/planner/fit/work-kinds.ts';
import {
  neverFits,
  type Prepared,
  planFor,
  prepare,
  STARTER_LIMITS,
  simulateDay,
} from '../../src/planner/index.ts';
import type { Limit, Product, ProductLimits } from '../../src/products/index.ts';
import { clockText, localDayOn } from '../../src/time/index.ts';
import { earlyOn, type JobName, jobOf, SHELF } from '../fixtures/planner/job.ts';
import { practice, sheet } from '../fixtures/planner/rule-view.ts';
import { type WeatherOptions, weatherOf } from '../fixtures/planner/weather.ts';

/** How far a limit that is the firm's own would have to move: the nearest value that is true when tried. */

const firm = (value: number): Limit => ({ value, source: 'user' });

type LimitsOf = (product: Product) => ProductLimits;

/** A job with products whose limits are these and no others. */
function preparedWith(
  limitsOf: LimitsOf,
  weather: WeatherOptions,
  dewMarginMinK = 0,
  name: JobName = 'boat-store',
): Prepared {
  const shelf = [...SHELF.values()].map((product) => ({ ...product, limits: limitsOf(product) }));
  const read = readyJob(jobOf(name).job, new Map(shelf.map((p) => [p.id, p])));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const hourly = weatherOf(weather);
  const limits = { ...STARTER_LIMITS, dewMarginMinK };
  return prepare({ ...read, hourly, nowMs: earlyOn(hourly), limits });
}

const changeOf = (prepared: Prepared) => neverFits(prepared, { options: [] }, [])!.change;
const changeFor = (...args: Parameters<typeof preparedWith>) => changeOf(preparedWith(...args));

/** Starts on the hour from which the job is finished on Wednesday 13 May, tried one by one. */
function finishingStarts(prepared: Prepared): string[] {
  const plan = planFor(prepared, localDayOn('2026-05-13', prepared.job.site.timeZone));
  const found: string[] = [];
  for (let ms = plan.shift.startMs; ms < plan.shift.endMs; ms += 3_600_000)
    if (simulateDay(plan, 0, { startMs: ms }).kind === 'finished')
      found.push(clockText(ms, prepared.job.site.timeZone));
  return found;
}
const told = (change: string, what: RegExp): number => Number(what.exec(change)?.[1]);
const toldStart = (change: string) => /from a (\d\d:\d\d) start/.exec(change)?.[1];

const DULL: WeatherOptions = { hours: 42, solarWm2: () => 0, dewPointC: () => -6 };
/** Warmest at three in the afternoon by the sun, so many degrees colder each hour before and after. */
const peak = (warmestC: number, perHourK: number): WeatherOptions => ({
  ...DULL,
  airTempC: (h) => warmestC - perHourK * Math.abs((h % 24) - 14),
});

describe('a firm’s own limit on the air', () => {
  /** The hall's bay takes hours to bond. */
  const hall = (airMinC: number, weather: WeatherOptions) =>
    preparedWith(() => ({ airMinC: firm(airMinC) }), weather, 0, 'net-hall');

  it('moves by whole degrees to the first that leaves hours enough, not just the warmest', () => {
    const weather = peak(15, 1.5);
    const change = changeOf(hall(20, weather));
    const value = told(change, /^The firm's own limit would have to be air at least (\d+) °C;/);
    expect(value).toBeLessThan(14);
    expect(finishingStarts(hall(value, weather))).toContain(toldStart(change));
    expect(finishingStarts(hall(value + 1, weather))).toEqual([]);
  });

  it('is told in the same words when the same roof is asked again', () => {
    const prepared = hall(20, peak(15, 1.5));
    const first = changeOf(prepared);
    expect(changeOf(prepared)).toBe(first);
    expect(changeOf(prepared.variant({ costs: { ...prepared.job.costs, standDown: 1 } }))).toBe(
      first,
    );
  });

  it('is not named where it would have to move further than six steps', () => {
    const { airTempC } = peak(15, 8);
    const weather: WeatherOptions = { ...DULL, airTempC: (h, m) => Math.max(4, airTempC!(h, m)) };
    expect(changeOf(hall(20, weather))).toBe('Plan it for later dates.');
    // It would be laid with a limit of 4 °C: that is no small change any more.
    expect(finishingStarts(hall(4, weather))).not.toEqual([]);
  });

  it('moves up where it is too hot', () => {
    const weather: WeatherOptions = {
      ...DULL,
      airTempC: (h) => 24.3 + 0.8 * Math.abs((h % 24) - 9),
    };
    const change = changeFor(() => ({ airMaxC: firm(20) }), weather);
    const value = told(change, /air at most (\d+) °C;/);
    expect(value).toBeGreaterThanOrEqual(25);
    const tried = (airMaxC: number) =>
      finishingStarts(preparedWith(() => ({ airMaxC: firm(airMaxC) }), weather));
    expect(tried(value)).toContain(toldStart(change));
    expect(tried(value - 1)).toEqual([]);
  });
});

describe('whose limit it is said to be', () => {
  const weather = { ...DULL, airTempC: () => 10 };
  it('is the firm’s as soon as one of them is, and common practice where all are', () => {
    const mixed = changeFor(
      ({ id }) => ({ airMinC: id === 'contact-solvent' ? firm(12) : practice(12) }),
      weather,
    );
    const all = changeFor(() => ({ airMinC: practice(12) }), weather);
    const own = changeFor(() => ({ airMinC: firm(12) }), weather);
    expect(own).toMatch(/^The firm's own limit would have to be air at least 10 °C; /);
    expect(all).toMatch(
      /^The limit is common practice, not off a data sheet: where .* at least 10 °C/,
    );
    expect(mixed).toMatch(/^The firm's own limit would have to be/);
  });

  it('is never moved where one of them is off a data sheet', () => {
    const change = changeFor(
      ({ id }) => ({ airMinC: id === 'contact-solvent' ? firm(12) : sheet(12) }),
      weather,
    );
    expect(change).toBe('Plan it for later dates.');
  });
});

describe('a margin over the dew point', () => {
  const humid = (dewPointC: number): WeatherOptions => ({
    hours: 42,
    airTempC: () => 15,
    dewPointC: () => dewPointC,
    solarWm2: () => 60,
  });

  it('is the firm’s own where no product has one', () => {
    const change = changeFor(() => ({}), humid(12), 6);
    const value = told(change, /^The firm's own limit .* the dew point of at least ([\d.]+) K;/);
    expect(value % 0.5).toBe(0);
    expect(finishingStarts(preparedWith(() => ({}), humid(12), value))).toContain(
      toldStart(change),
    );
    expect(finishingStarts(preparedWith(() => ({}), humid(12), value + 0.5))).toEqual([]);
  });

  it('is not moved under half a kelvin, where nobody bonds', () => {
    const dull = (dewPointC: number): WeatherOptions => ({
      ...humid(dewPointC),
      solarWm2: () => 0,
      cloudPct: () => 100,
    });
    expect(changeFor(() => ({}), dull(13.5), 6)).toMatch(/the dew point of at least 0\.5 K;/);
    expect(changeFor(() => ({}), dull(14), 6)).toBe('Plan it for later dates.');
    // With no margin at all it would be laid.
    expect(finishingStarts(preparedWith(() => ({}), dull(14), 0))).not.toEqual([]);
  });

  it('moved, leaves every product the rest of its own limits', () => {
    // The field's adhesive goes down from ten UTC on, that of the edges, which come later, only before
    // that: each has its hours, and no margin over the dew point lays both.
    const { field, perimeter } = jobOf('boat-store').products;
    expect(field.id).not.toBe(perimeter.id);
    const weather: WeatherOptions = {
      ...humid(12),
      airTempC: (h) => (h % 24 >= 10 ? 16 : 15),
      dewPointC: (h) => (h % 24 >= 10 ? 13 : 12),
    };
    const either: LimitsOf = ({ id }) => (id === field.id ? { airMinC: sheet(15.9) } : {});
    const both: LimitsOf = (product) =>
      product.id === perimeter.id ? { airMaxC: sheet(15.1) } : either(product);
    const change = changeFor(either, weather, 6);
    const value = told(change, /the dew point of at least ([\d.]+) K;/);
    expect(finishingStarts(preparedWith(either, weather, value))).toContain(toldStart(change));
    expect(changeFor(both, weather, 6)).toBe('Plan it for later dates.');
  });
});

describe('a limit that several pieces of work miss', () => {
  /** As it comes out where the last moment is another than found. */
  const valueWith = (change: Partial<BestMoment>): number | undefined => {
    const prepared = preparedWith(() => ({ airMinC: firm(12) }), { ...DULL, airTempC: () => 10 });
    const hours = workHours(prepared)!;
    const unmet = workKinds(prepared).flatMap((kind) => neverMet(prepared, hours, kind));
    const moments = unmet.map(({ kind, rules }) => bestMoment(prepared, hours, kind, rules[0]!)!);
    expect(moments.length).toBeGreaterThan(1);
    const last = { ...moments.at(-1)!, ...change };
    return looserLimits(prepared, unmet, [...moments.slice(0, -1), last])?.limits[0]?.value;
  };

  it('moves as far as the one that misses it by most', () => {
    expect(valueWith({})).toBe(10);
    expect(valueWith({ got: 3.5, short: 8.5 })).toBe(3);
    expect(valueWith({ got: 11, short: 1 })).toBe(10);
  });

  it('does not move where one is too cold for it and another too hot', () => {
    expect(valueWith({ side: 'at most' })).toBeUndefined();
  });
});
