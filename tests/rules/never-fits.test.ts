import { describe, expect, it } from 'vitest';
import { answerDays, readyJob, runThrough } from '../../src/answers/index.ts';
import { printDays } from '../../src/cli/print/days.ts';
import {
  type Job,
  neverFits,
  optionFor,
  type Prepared,
  prepare,
  STARTER_LIMITS,
  searchDays,
} from '../../src/planner/index.ts';
import type { Product, ProductLimits } from '../../src/products/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import {
  earlyOn,
  type JobName,
  jobOf,
  preparedFor,
  type Setting,
  SHELF,
} from '../fixtures/planner/job.ts';
import { type WeatherOptions, weatherOf } from '../fixtures/planner/weather.ts';

/** What keeps a job off every day of a forecast, by how much, and changes that were true when tried. */

const ALL = [...SHELF.values()];
const NOBODY_ASKED = { options: [] };
const WEEK: WeatherOptions = { members: 2, hours: 24 * 3 };

const found = (setting: Setting, shelf: readonly Product[] = ALL) =>
  neverFits(preparedFor(setting), NOBODY_ASKED, shelf);

/** A product of the firm's that goes down in the cold: the same but for its lower limits. */
function winter(id: string): Product {
  const product = SHELF.get(id)!;
  const limits: Record<string, unknown> = { ...product.limits };
  for (const key of ['airMinC', 'surfaceMinC', 'afterMinC'] as const)
    if (product.limits[key] !== undefined) limits[key] = { value: -5, source: 'data sheet' };
  const made = { ...product, id: `${id}-winter`, name: `${product.name}, winter grade` };
  return { ...made, limits: limits as ProductLimits };
}
const WINTER = ['contact-solvent', 'tape-primer', 'lap-sealant'].map(winter);

/** The job written anew with what a change names, under the same weather and another preparation. */
function written(
  name: JobName,
  weather: WeatherOptions,
  { products = {}, ...rest }: Partial<Omit<Job, 'buildUp'>> & { products?: Record<string, string> },
  shelf: readonly Product[],
): Prepared {
  const { job } = jobOf(name);
  const buildUp = { ...job.buildUp, products: { ...job.buildUp.products, ...products } };
  const read = readyJob({ ...job, ...rest, buildUp }, new Map(shelf.map((p) => [p.id, p])));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  const hourly = weatherOf(weather);
  return prepare({ ...read, hourly, nowMs: earlyOn(hourly) });
}

const finishedOn = (prepared: Prepared, date: string): number =>
  optionFor(prepared, localDayOn(date, prepared.job.site.timeZone), 'quick')?.outcomes.finished ??
  0;

/** 'contact-low-voc' by 'field', out of 'X (contact-low-voc) as buildUp.products.field and perimeter'. */
function productsIn(change: string): Record<string, string> {
  const named = [
    ...change.matchAll(/\(([a-z0-9-]+)\) as buildUp\.products\.([A-Za-z]+(?: and [A-Za-z]+)*)/g),
  ];
  return Object.fromEntries(
    named.flatMap(([, id, roles]) => roles!.split(' and ').map((role) => [role, id!])),
  );
}

describe('a forecast in which some day will do', () => {
  it('is told nothing of', () => {
    const prepared = preparedFor({ weather: WEEK });
    expect(neverFits(prepared, runThrough(searchDays(prepared, 'quick')), ALL)).toBeNull();
    expect(found({ weather: WEEK })).toBeNull();
  });

  it('is not judged where it reaches over no whole working day', () => {
    expect(found({ weather: { ...WEEK, hours: 6, airTempC: () => -3 } })).toBeNull();
  });
});

const COLD: WeatherOptions = {
  ...WEEK,
  airTempC: () => 3.2,
  dewPointC: () => -6,
  solarWm2: () => 0,
};

describe('a month too cold', () => {
  it('names the limit, whose it is, and by how much it is missed at best', () => {
    const cold = found({ weather: COLD })!;
    expect(cold.rule).toBe('air-temp');
    // The class's own sheet asks 5 °C (data/products/deck-adhesive-wet-lay.json).
    expect(cold.words).toContain(
      'the air is 3.2 °C at its warmest, 1.8 K short of the 5 °C that Water-borne deck adhesive, laid wet asks (data sheet)',
    );
    expect(cold.words).toContain('in any of 2 forecasts');
    expect(cold.words).toContain('the 3 working days of this forecast, to Friday 15 May');
  });

  it('offers later dates where no product on the shelf goes down in such cold', () => {
    // Read anew, the shelf's products are others by the same names.
    for (const shelf of [ALL, ALL.map((product) => ({ ...product }))]) {
      const { change } = found({ weather: COLD }, shelf)!;
      expect(change).toBe('No other product at hand does it. Plan it for later dates.');
    }
  });

  it('offers cold-weather products that are on the shelf, with the day; the job with them is laid', () => {
    const shelf = [...ALL, ...WINTER];
    const { change } = found({ weather: COLD }, shelf)!;
    expect(change).toMatch(/first on Wednesday 13 May, finished in 2 of 2 forecasts/);
    const products = productsIn(change);
    expect(products).toEqual({
      field: 'contact-solvent-winter',
      perimeter: 'contact-solvent-winter',
    });
    expect(finishedOn(written('boat-store', COLD, { products }, shelf), '2026-05-13')).toBe(2);
    expect(finishedOn(written('boat-store', COLD, {}, shelf), '2026-05-13')).toBe(0);
  });

  it('counts a stray warm forecast in twenty as none, and two of them as a chance', () => {
    const warm = (count: number): WeatherOptions => ({
      ...COLD,
      members: 20,
      hours: 42,
      airTempC: (_h, m) => (m < count ? 16 : 3.2),
      solarWm2: (_h, m) => (m < count ? 300 : 0),
    });
    const changes = { buildUp: SOLVENT };
    expect(found({ weather: warm(1), changes }, [])!.words).toContain('in 19 of 20 forecasts');
    expect(found({ weather: warm(2), changes }, [])).toBeNull();
  });
});

describe('nights too cold after a water-borne film', () => {
  const weather: WeatherOptions = {
    ...WEEK,
    hours: 24 * 4,
    airTempC: (h) => 8 + 5.5 * Math.sin(((h - 9) * Math.PI) / 12),
    dewPointC: () => 0,
  };

  it('are told with the warmest of them, and another adhesive is laid when tried', () => {
    const { rule, words, change } = found({ weather })!;
    expect(rule).toBe('cold-night');
    // 8 - 5.5 = 2.5 °C at three in the morning of every night.
    expect(words).toContain(
      'the air falls to 2.5 °C even on the warmest of the nights after, 2.5 K short of the 5 °C',
    );
    const products = productsIn(change);
    expect(SHELF.get(products['field']!)!.limits.afterMinC).toBeUndefined();
    expect(finishedOn(written('boat-store', weather, { products }, ALL), '2026-05-13')).toBe(2);
  });
});

describe('a humid fortnight', () => {
  it('is told with its driest hour against the sheet’s limit, which is never moved', () => {
    const dull: WeatherOptions = { ...WEEK, hours: 24 * 10, members: 1 };
    const weather = { ...dull, airTempC: () => 15, dewPointC: () => 14.2, solarWm2: () => 100 };
    const { words, change } = found({ weather })!;
    // Relative humidity by the Magnus form of Alduchov and Eskridge 1996: 17.625 t / (243.04 + t).
    const magnus = (t: number) => Math.exp((17.625 * t) / (243.04 + t));
    const told =
      /humidity is ([\d.]+) % at its lowest, ([\d.]+) points over the 90 % that .* allows \(data sheet\)/.exec(
        words,
      )!;
    const humidity = (100 * magnus(14.2)) / magnus(15);
    expect(Math.abs(Number(told[1]) - humidity)).toBeLessThan(0.2);
    expect(Number(told[2])).toBeCloseTo(Number(told[1]) - 90, 1);
    expect(change).not.toMatch(/would have to be|allows humidity/);
  });
});

describe('a limit that is no sheet’s', () => {
  const weather: WeatherOptions = {
    ...WEEK,
    airTempC: () => 15,
    dewPointC: () => 12,
    solarWm2: () => 60,
  };

  it('is named with what it would have to be, which is true when tried, and only just', () => {
    const { rule, change } = found({ weather })!;
    expect(rule).toBe('dew-margin');
    const value = Number(/a margin over the dew point of at least ([\d.]+) K/.exec(change)![1]);
    expect(value).toBeLessThan(3);
    expect(change).toMatch(/common practice, not off a data sheet/);
    const hourly = weatherOf(weather);
    const withMargin = (marginK: number): number => {
      const own = ALL.map((product): Product => {
        const limit = product.limits.dewMarginMinK;
        if (limit === undefined) return product;
        const dewMarginMinK = { ...limit, value: Math.min(limit.value, marginK) };
        return { ...product, limits: { ...product.limits, dewMarginMinK } };
      });
      const read = readyJob(jobOf('boat-store').job, new Map(own.map((p) => [p.id, p])));
      if (!read.ok) throw new Error('refused');
      const limits = { ...STARTER_LIMITS, dewMarginMinK: marginK };
      return finishedOn(prepare({ ...read, hourly, nowMs: earlyOn(hourly), limits }), '2026-05-13');
    };
    expect(withMargin(value)).toBeGreaterThan(0);
    expect(withMargin(value + 0.5)).toBe(0);
  });
});

describe('wind over what sheets are handled in', () => {
  it('is told with the calmest hour, and the limit is never offered to be moved', () => {
    const weather = { ...WEEK, windMps: () => 9, gustMps: () => 11 };
    const { rule, words, change } = found({ weather })!;
    expect(rule).toBe('sheet-wind');
    expect(words).toContain('the wind is 9.0 m/s at the calmest, 1.4 m/s over the 7.6 m/s');
    expect(words).toContain('a safety limit, not to be loosened');
    expect(change).toBe('Plan it for later dates.');
  });

  it('comes before what a product might change', () => {
    const weather = { ...COLD, windMps: () => 12, gustMps: () => 14 };
    const { rule, change } = found({ weather }, [...ALL, ...WINTER])!;
    expect(rule).toBe('roof-wind');
    expect(change).not.toMatch(/winter/);
  });
});

describe('two limits that are never met together', () => {
  it('are told together, each with how near it comes while the other is met', () => {
    // Cold and dry until noon, mild and damp after: each limit is met for half of the day.
    const weather: WeatherOptions = {
      ...WEEK,
      airTempC: (h) => (h % 24 <= 12 ? 3 : 12),
      dewPointC: (h) => (h % 24 <= 12 ? -8 : 11.6),
      solarWm2: () => 0,
    };
    const changes = { buildUp: SOLVENT };
    const { words } = found({ weather, changes })!;
    expect(words).toMatch(/are each met at times, never both in the same hour/);
    expect(words).toMatch(/While the other is met, .* short of .*; or .* (short of|over) /);
    for (const half of [weather.airTempC!, () => 12]) {
      const dry: WeatherOptions = { ...weather, airTempC: half, dewPointC: () => -8 };
      expect(found({ weather: dry, changes }, [])?.words ?? '').not.toMatch(/never both/);
    }
  });
});

describe('the dates of the job', () => {
  it('are moved before anything else is, where a day outside them will do', () => {
    const weather: WeatherOptions = {
      ...WEEK,
      hours: 24 * 4,
      airTempC: (h) => (h < 44 ? 2 : 15),
      dewPointC: () => -6,
    };
    const { change } = found({ weather, changes: { latest: '2026-05-14', buildUp: SOLVENT } })!;
    expect(change).toMatch(/latest moved to 2026-05-15: first on Friday 15 May/);
    const prepared = preparedFor({ weather, changes: { latest: '2026-05-15', buildUp: SOLVENT } });
    expect(finishedOn(prepared, '2026-05-15')).toBe(2);
  });
});

/** No water-borne film: the night after has no say. */
const SOLVENT = (() => {
  const { buildUp } = jobOf('boat-store').job;
  return { products: { ...buildUp.products, field: 'contact-solvent' } };
})();

type Angles = [number, number, number];

describe('days without enough light', () => {
  const north = (latitudeDeg: number): Setting => ({
    job: 'seed-workshop',
    changes: {
      site: { latitudeDeg, longitudeDeg: 20, timeZone: 'Europe/Oslo' },
      earliest: null,
      latest: null,
    },
    weather: {
      ...WEEK,
      members: 1,
      start: '2026-12-01T00:00:00Z',
      latitudeDeg,
      longitudeDeg: 20,
      airTempC: () => 12,
      solarWm2: () => 0,
    },
  });

  it('are none at all in the polar night', () => {
    // At 74° N the sun stays below the horizon from early November to early February.
    const { rule, words, change } = found(north(74))!;
    expect(rule).toBe('daylight');
    expect(words).toContain('0 min of daylight on the lightest');
    expect(change).toBe('Plan it for later dates, once there is daylight.');
  });

  it('are told with the lightest day and the minutes it misses', () => {
    // Hour angle of rise and set at 66° N on 1 December (declination -21.8°, zenith 90.833°; NOAA).
    const [lat, decl, zenith] = [66, -21.8, 90.833].map((deg) => (deg * Math.PI) / 180) as Angles;
    const cosH =
      Math.cos(zenith) / (Math.cos(lat) * Math.cos(decl)) - Math.tan(lat) * Math.tan(decl);
    const dayMin = ((2 * Math.acos(cosH)) / (2 * Math.PI)) * 24 * 60;
    const { rule, words } = found(north(66))!;
    expect(rule).toBe('daylight');
    const told = /takes (\d+) min, (\d+) min more than the (\d+) min of daylight/.exec(words)!;
    const [need, over, light] = told.slice(1).map(Number) as [number, number, number];
    expect(Math.abs(light - dayMin)).toBeLessThan(10);
    expect(Math.abs(need - light - over)).toBeLessThanOrEqual(1);
  });
});

describe('hands too slow for the day', () => {
  const weather: WeatherOptions = { ...COLD, airTempC: () => 2.2, members: 1, hours: 42 };

  it('go with the product that its limits allow: a smaller bay beside it, true when tried', () => {
    const shelf = [...ALL, ...WINTER];
    const { change } = found({ job: 'parish-room', weather }, shelf)!;
    const bayAreaM2 = Number(/bays of at most ([\d.]+) m²/.exec(change)![1]);
    const products = productsIn(change);
    const smaller = written('parish-room', weather, { products, bayAreaM2 }, shelf);
    expect(finishedOn(smaller, '2026-05-13')).toBe(1);
  });
});

describe('the answer on laying days', () => {
  const weather: WeatherOptions = { ...COLD, members: 1, hours: 42 };
  const asked = (depth: 'quick' | 'full') => {
    const hourly = weatherOf(weather);
    const ready = jobOf('boat-store');
    return runThrough(answerDays(ready, hourly, earlyOn(hourly), { depth, shelf: ALL }));
  };

  it('says it once the search is through, and prints it before the days', () => {
    const answer = asked('full');
    expect(answer.neverFits?.rule).toBe('air-temp');
    const printed = printDays(answer).replace(/\s+/g, ' ');
    expect(printed).toContain('It fits no day: Bonding the field cannot begin');
    expect(printed).toContain('No other product at hand does it. Plan it for later dates.');
    expect(printed.indexOf('It fits no day')).toBeLessThan(printed.indexOf('Wed 13 May'));
  });

  it('does not say it at first sight, when only one bay size was looked at', () => {
    expect(asked('quick').neverFits).toBeNull();
  });
});
