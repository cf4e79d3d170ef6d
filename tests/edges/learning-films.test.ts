import { describe, expect, it } from 'vitest';
import { siteEventSchema } from '../../src/contract/index.ts';
import type { SiteEvent } from '../../src/planner/index.ts';
import {
  effectiveLog,
  firmSpeed,
  hoursBetween,
  measureFilm,
  sheetScatter,
  updateNormal,
  weatherFromText,
  weatherToText,
} from '../../src/record/index.ts';
import { productById } from '../accuracy/clock-products.ts';
import {
  DAY_MS,
  entry,
  film,
  learnedFrom,
  MILD,
  NOW_MS,
  START_MS,
  uuid,
  weatherAround,
} from '../fixtures/record/site-log.ts';
import { MADE_UP } from '../fixtures/weather/by-hand.ts';

const GLUE = productById('contact-solvent');
const SHEET = { factor: 1, spread: 1 };

describe('a film that nothing can be learned from is set aside with its reason', () => {
  it.each([
    ['the weather is not known', { known: false }, /weather while it dried is not known/],
    ['it was rained on', { air: { ...MILD, rainMmPerHour: 1 } }, /rained on/],
    [
      'the deck was too cold',
      { air: { ...MILD, airTempC: 3, dewPointC: -8 } },
      /outside the data sheet.*3\.0 °C/,
    ],
    ['the deck was too near the dew point', { air: { ...MILD, dewPointC: 17 } }, /above dew point/],
  ] as const)('%s', (_, weather, why) => {
    const { setAside, used, asked, correction } = learnedFrom(GLUE, film(GLUE, 2, 16), weather);
    expect(setAside.map((aside) => aside.why)).toEqual([expect.stringMatching(why)]);
    expect([used, asked]).toEqual([[], []]);
    expect(correction).toEqual(SHEET);
  });

  it('a drizzle of hundredths over a long film is not rain on it, a shower is', () => {
    const drizzle = { ...MILD, rainMmPerHour: 0.01 };
    expect(learnedFrom(GLUE, film(GLUE, 2, 20), { air: drizzle }).used).toHaveLength(1);
  });

  it('no coating is logged', () => {
    const [, dry] = film(GLUE, 2, 16) as [SiteEvent, SiteEvent];
    expect(learnedFrom(GLUE, [dry]).setAside[0]!.why).toMatch(/no coating of this part is logged/);
  });

  it('it was logged as touch dry before: the first entry counts', () => {
    const twice = [...film(GLUE, 2, 16)];
    twice.push(entry(99, twice[1]!.atMs + 60_000, { kind: 'touch-dry', activityId: 'part-2' }));
    const { used, setAside } = learnedFrom(GLUE, twice);
    expect(used.map(({ tookMin }) => tookMin)).toEqual([16]);
    expect(setAside[0]!.why).toMatch(/first entry counts/);
  });

  it('the time is still to come', () => {
    const nowMs = START_MS + 2 * DAY_MS;
    const { setAside, used } = learnedFrom(GLUE, film(GLUE, 2, 16), {}, nowMs);
    expect(used).toEqual([]);
    expect(setAside[0]!.why).toMatch(/still to come/);
  });
});

describe('an old film', () => {
  it('is learned from to the 720th day, and set aside after it', () => {
    const events = film(GLUE, 2, 12);
    const lastMs = events[1]!.atMs + 720 * DAY_MS;
    const at = (nowMs: number) => learnedFrom(GLUE, events, {}, nowMs);
    expect(at(lastMs).used).toHaveLength(1);
    expect(at(lastMs).speed.effectiveFilms).toBeCloseTo(1 / 16, 9);
    expect(at(lastMs + 1).used).toEqual([]);
    expect(at(lastMs + 1).setAside[0]!.why).toBe('older than 720 days');
    expect(at(lastMs + 1).correction).toEqual(SHEET);
  });
});

describe('times that cannot both be right are asked about, and cannot be confirmed', () => {
  it.each([
    ['touch dry before it was coated', -5],
    ['touch dry the moment it was coated', 0],
  ])('%s', (_, tookMin) => {
    const events = film(GLUE, 2, tookMin);
    const confirm = entry(900, NOW_MS - 1, { kind: 'confirm', confirms: events[1]!.id });
    const { asked, correction } = learnedFrom(GLUE, [...events, confirm]);
    expect(asked).toHaveLength(1);
    expect(asked[0]!.canBeConfirmed).toBe(false);
    expect(asked[0]!.question).toMatch(/Which of the two times is wrong/);
    expect(correction).toEqual(SHEET);
  });

  it('dry though no water could leave the film', () => {
    const water = {
      ...productById('deck-adhesive-two-side'),
      // Without limits, so that physics alone speaks.
      limits: {},
    };
    const damp = { ...MILD, dewPointC: 20 };
    const { asked, used } = learnedFrom(water, film(water, 2, 40), { air: damp });
    expect(used).toEqual([]);
    expect(asked[0]!.question).toMatch(/could not dry at all/);
    expect(asked[0]!.canBeConfirmed).toBe(false);
  });
});

describe('a part coated again', () => {
  it('is a new film: the last coating before counts', () => {
    const [coated, dry] = film(GLUE, 2, 40) as [SiteEvent, SiteEvent];
    const again = entry(50, coated.atMs + 22 * 60_000, {
      kind: 'coated',
      activityId: 'part-2',
      productId: GLUE.id,
      areaM2: null,
    });
    expect(learnedFrom(GLUE, [coated, again, dry]).used.map(({ tookMin }) => tookMin)).toEqual([
      18,
    ]);
  });
});

describe('a log the store would not take is refused loudly', () => {
  it('two entries with one id', () => {
    const [coated] = film(GLUE, 2, 16) as [SiteEvent];
    expect(() => effectiveLog([coated, coated])).toThrow(/two entries with the id/);
  });

  it('undos that take each other back', () => {
    const a = entry(1, 0, { kind: 'undo', undoes: uuid(2) });
    const b = entry(2, 0, { kind: 'undo', undoes: uuid(1) });
    expect(() => effectiveLog([a, b])).toThrow(/take each other back/);
  });
});

describe('numbers out of range', () => {
  it('throw with name and value, NaN too', () => {
    expect(() => updateNormal({ mean: Number.NaN, sd: 1 }, [])).toThrow(/prior\.mean \(NaN\)/);
    expect(() => updateNormal({ mean: 0, sd: 0 }, [])).toThrow(/prior\.sd \(0\)/);
    const seen = { value: 0, variance: 0, weight: 1 };
    expect(() => updateNormal({ mean: 0, sd: 1 }, [seen])).toThrow(/variance \(0\)/);
    const bad = {
      id: 'x',
      logSpeed: Number.NaN,
      expectedMin: 20,
      forecastSd: 0,
      dayKey: 'a',
      dryMs: 0,
    };
    const scatter = sheetScatter(GLUE.touchDry!);
    expect(() => firmSpeed(scatter, [bad], 0)).toThrow(/logSpeed \(NaN\)/);
    expect(() => firmSpeed(scatter, [{ ...bad, logSpeed: 0, expectedMin: 0 }], 0)).toThrow(
      /expectedMin \(0\)/,
    );
    const weather = weatherAround(GLUE, START_MS);
    expect(() => measureFilm(GLUE, START_MS, START_MS, weather)).toThrow(/must lie after/);
  });
});

describe('a confirming entry', () => {
  const base = { id: uuid(1), jobId: uuid(2), atMs: 0, loggedMs: 0, actorId: 'foreman' };

  it('names the entry it confirms, and nothing else', () => {
    const good = { ...base, kind: 'confirm', confirms: uuid(3) };
    expect(siteEventSchema.safeParse(good).success).toBe(true);
    expect(siteEventSchema.safeParse({ ...base, kind: 'confirm' }).success).toBe(false);
    expect(siteEventSchema.safeParse({ ...good, confirms: 'that one' }).success).toBe(false);
    expect(siteEventSchema.safeParse({ ...good, undoes: uuid(3) }).success).toBe(false);
  });
});

describe('weather kept with a film', () => {
  const column = (from: number) =>
    Float64Array.from({ length: 48 }, (_, h) => (h === 30 ? Number.NaN : from + h / 10));
  const hourly = {
    latitudeDeg: 52,
    longitudeDeg: 0,
    elevationM: null,
    startMs: START_MS,
    hours: 48,
    members: [
      {
        airTempC: column(10),
        dewPointC: column(5),
        relHumPct: null,
        windMps: column(2),
        gustMps: null,
        rainMm: column(0),
        solarWm2: column(100),
        cloudPct: column(50),
      },
    ],
    source: MADE_UP,
  };
  const HOUR_MS = 3_600_000;
  const margin = { beforeMs: 3 * HOUR_MS, afterMs: HOUR_MS };

  it('comes back as it was, missing hours too', () => {
    expect(weatherFromText(weatherToText(hourly))).toEqual(hourly);
    const quarterRain = {
      model: 'ICON-D2',
      startMs: START_MS + HOUR_MS / 4,
      rainMm: Float64Array.of(0, 0.3, Number.NaN, 0),
      lightningJkg: Float64Array.of(0, 12, 0, Number.NaN),
      knownMs: START_MS,
    };
    const timed = { ...hourly, quarterRain };
    expect(weatherFromText(weatherToText(timed))).toEqual(timed);
    const calm = { ...hourly, quarterRain: { ...quarterRain, lightningJkg: null } };
    expect(weatherFromText(weatherToText(calm))).toEqual(calm);
    // What was kept before there were quarter hours reads as it did.
    expect(weatherToText(hourly)).not.toContain('quarterRain');
  });

  it('is cut to whole hours around the film, or nothing where the forecast does not reach', () => {
    const at = (hour: number) => START_MS + hour * HOUR_MS;
    const cut = hoursBetween(hourly, at(10.5), at(11.2), margin)!;
    expect([cut.startMs, cut.hours]).toEqual([at(7), 7]);
    expect(cut.members[0]!.airTempC[0]).toBe(hourly.members[0]!.airTempC[7]);
    expect(hoursBetween(hourly, at(1), at(46.5), margin)!.hours).toBe(48);
    expect(hoursBetween(hourly, at(-1), at(2), margin)).toBeNull();
    expect(hoursBetween(hourly, at(40), at(47.5), margin)).toBeNull();
  });

  it('of another format or with a short column is refused', () => {
    expect(() => weatherFromText('{"format":"other"}')).toThrow(/'other'/);
    const short = JSON.parse(weatherToText(hourly)) as { hours: number };
    expect(() => weatherFromText(JSON.stringify({ ...short, hours: 47 }))).toThrow(/47 hours/);
  });
});
