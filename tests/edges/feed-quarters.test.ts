import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { bestAtHand, type FeedAnswer, type FeedClientOptions } from '../../src/feed/index.ts';
import { onHrrrGrid, QUARTER_MODELS, quarterModelFor } from '../../src/feed/quarter-models.ts';
import { type FeedBench, feedBench, SITE, START_MS } from '../stand-in/bench-client.ts';
import { quarterMm } from '../stand-in/quarters.ts';

/**
 * Rain by the quarter hour through the real client and the loopback stand-in. Parameters, models, regions and
 * traps are those of the provider's public documentation and reported behaviour (docs/feed.md). The site is in
 * the middle of Europe, where one model has quarter hours.
 */

const HOUR_MS = 3_600_000;
const QUARTER_MS = HOUR_MS / 4;
let bench: FeedBench;
beforeEach(async () => {
  bench = await feedBench();
});
afterEach(() => bench.close());

const got = (answer: FeedAnswer) => {
  if (!answer.ok) throw new Error(answer.message);
  return answer.weather;
};
/** Few forecasts and hours: these tests are about what stands beside them. */
const SMALL = { model: 'gem_global_ensemble' };
const weather = async (site: Partial<typeof SITE> = {}, options: Partial<FeedClientOptions> = {}) =>
  got(await bestAtHand(bench.client({ ...SMALL, ...options }), { ...SITE, days: 1, ...site }));
const asked = () => bench.standIn.forecasts().filter(({ query }) => query.has('minutely_15'));

describe('where a model has quarter hours', () => {
  it('they are asked for by that model alone, in UTC and unix times, as one call more', async () => {
    const { quarterRain } = await weather();
    expect(asked()).toHaveLength(1);
    expect(asked()[0]!.path).toBe('/v1/forecast');
    expect(Object.fromEntries(asked()[0]!.query)).toEqual({
      latitude: '52.52',
      longitude: '13.41',
      elevation: '40',
      timezone: 'GMT',
      timeformat: 'unixtime',
      wind_speed_unit: 'ms',
      minutely_15: 'precipitation,lightning_potential',
      models: 'dwd_icon_d2_15min',
      forecast_days: '3',
    });
    expect(bench.standIn.seen.map(({ path }) => path)).toContain(
      '/data/dwd_icon_d2_15min/static/meta.json',
    );
    expect(bench.standIn.mostAtOnce()).toBe(1);
    expect(quarterRain).toMatchObject({
      model: 'ICON-D2',
      startMs: Date.parse('2026-05-12T00:00Z'),
      knownMs: START_MS - HOUR_MS,
    });
    const { rainMm, lightningJkg, startMs } = quarterRain!;
    expect(rainMm).toHaveLength(3 * 96);
    rainMm.forEach((mm, q) => {
      const atMs = startMs + q * QUARTER_MS;
      // Two days of values, then none: unknown and not dry.
      expect(mm).toEqual(atMs > START_MS + 48 * HOUR_MS ? Number.NaN : quarterMm(atMs));
    });
    expect(lightningJkg![34]).toBe(8);
  });

  it('in North America the other model, without lightning and 18 h ahead', async () => {
    const { quarterRain } = await weather({ latitudeDeg: 41.9, longitudeDeg: -87.6 });
    expect(asked()[0]!.query.get('models')).toBe('ncep_hrrr_conus_15min');
    expect(asked()[0]!.query.get('minutely_15')).toBe('precipitation');
    expect(quarterRain).toMatchObject({ model: 'HRRR', lightningJkg: null });
    const known = quarterRain!.rainMm.filter((mm) => !Number.isNaN(mm)).length;
    expect(known).toBe(
      Math.floor((START_MS + 18 * HOUR_MS - quarterRain!.startMs) / QUARTER_MS) + 1,
    );
  });

  it('they are kept for half an hour, beside the hours and without touching them', async () => {
    const first = await weather();
    bench.nowMs += 29 * 60_000;
    const again = await weather();
    expect(asked()).toHaveLength(1);
    expect(again.quarterRain).toEqual(first.quarterRain);
    bench.nowMs += 60_000;
    await weather();
    expect(asked()).toHaveLength(2);
    expect(bench.standIn.forecasts()).toHaveLength(3);
    expect(again.members).toHaveLength(21);
    expect(again.source.notes.join()).not.toMatch(/15-minute/);
  });

  it('a run whose issue is not stated may be as old as its rhythm', async () => {
    bench.standIn.runAvailableMs = null;
    const { quarterRain } = await weather();
    expect(quarterRain!.knownMs).toBe(START_MS - 3 * HOUR_MS);
  });

  it('a run that is late is said to be so', async () => {
    bench.standIn.runAvailableMs = START_MS - 10 * HOUR_MS;
    expect((await weather()).source.notes.join()).toContain('ICON-D2: the model is late');
  });
});

describe('where no model has quarter hours', () => {
  it.each([
    ['Ireland', 52.05, -8.35],
    ['Spain', 40.4, -3.7],
    ['Alaska', 61.2, -149.9],
    ['Japan', 35.7, 139.7],
    ['Turkey', 39.9, 32.9],
  ])('nothing is asked and nothing said: %s', async (_where, latitudeDeg, longitudeDeg) => {
    const { quarterRain, source } = await weather({ latitudeDeg, longitudeDeg });
    expect(asked()).toHaveLength(0);
    expect(quarterRain).toBeUndefined();
    expect(source.notes.join()).not.toMatch(/15-minute/);
  });

  it('the grid of HRRR ends at the corners its centre gives', () => {
    // Corners as NOAA's grid description and the provider's code give them; the last two from memory.
    for (const [latitudeDeg, longitudeDeg, xKm, yKm] of [
      [21.138, -122.72, 0, 0],
      [47.8424, -60.918, 5394, 3174],
      [47.8386, -134.0955, 0, 3174],
      [21.1405, -72.2897, 5394, 0],
    ] as const) {
      const at = onHrrrGrid({ latitudeDeg, longitudeDeg });
      expect(Math.abs(at.xKm - xKm), `x at ${latitudeDeg}, ${longitudeDeg}`).toBeLessThan(0.5);
      expect(Math.abs(at.yKm - yKm), `y at ${latitudeDeg}, ${longitudeDeg}`).toBeLessThan(0.5);
    }
    // Across the date line and on the other side of the globe nothing is taken for America.
    for (const longitudeDeg of [179.9, -179.9, 82.5, 0]) {
      for (const latitudeDeg of [40, -40, 89, -89])
        expect(QUARTER_MODELS[1]!.covers({ latitudeDeg, longitudeDeg })).toBe(false);
    }
    expect(quarterModelFor({ latitudeDeg: 49.3, longitudeDeg: -123.1 })?.name).toBe('HRRR');
  });
});

describe('what is wrong with quarter hours costs the hours nothing', () => {
  const cases: [FeedBench['standIn']['quarters'], RegExp][] = [
    ['all-null', /it has no value for this place/],
    ['even', /it is hours spread over their quarters/],
    ['no-block', /minutely_15_units is missing/],
    ['between-quarters', /starts at 2026-05-12T00:05Z, between two quarter hours/],
    [
      'gap',
      /minutely_15\.time goes from 2026-05-12T12:15Z to 2026-05-12T12:45Z; it must rise by 15/,
    ],
    ['odd-unit', /minutely_15_units\.precipitation is "cubits"/],
    ['negative', /minutely_15\.precipitation at 2026-05-12T10:00Z is -0\.1; accepted: 0 to 250 mm/],
    ['short-column', /minutely_15\.precipitation has 287 values for 288 times/],
    ['far-away', /it is for a place 56 km away; up to 15 km/],
    ['limit-minute', /Minutely API request limit exceeded/],
    ['limit-hour', /Hourly API request limit exceeded/],
    ['html-502', /web page came instead/],
    ['cut-off', /broke off/],
    ['silent', /did not answer in time/],
    ['error-200', /No data is available/],
    ['plan', /Professional/],
  ];
  it.each(cases)('%s: left out, once asked, and said', async (scenario, words) => {
    bench.standIn.quarters = scenario;
    const found = await weather();
    expect(found.members).toHaveLength(21);
    expect(found.quarterRain).toBeUndefined();
    const note = found.source.notes.find((text) => text.includes('15-minute'));
    expect(note).toMatch(
      /^no 15-minute rain of ICON-D2 \(.*\): rain is spread evenly over each hour$/,
    );
    expect(note).toMatch(words);
    expect(note).not.toContain('..');
    expect(asked()).toHaveLength(1);
    expect(bench.waits).toEqual([]);
  });

  it('after trouble nobody waits for them again for ten minutes', async () => {
    const client = bench.client(SMALL);
    bench.standIn.quarters = 'html-502';
    const ask = async () => got(await bestAtHand(client, { ...SITE, days: 1 }));
    await ask();
    bench.standIn.quarters = 'well';
    bench.nowMs += 9 * 60_000;
    expect((await ask()).source.notes.join()).toMatch(/no 15-minute rain of ICON-D2/);
    expect(asked()).toHaveLength(1);
    bench.nowMs += 60_000;
    expect((await ask()).quarterRain).toBeDefined();
  });

  it('some hours old they still time, with their age told; older ones do not', async () => {
    const first = await weather();
    bench.standIn.quarters = 'html-502';
    bench.nowMs += 2 * HOUR_MS;
    const later = await weather();
    expect(later.quarterRain).toEqual(first.quarterRain);
    expect(later.source.notes).toContain(
      '15-minute rain of ICON-D2: fetched 2 h ago, no newer could be had',
    );
    bench.nowMs += HOUR_MS;
    expect((await weather()).quarterRain).toBeUndefined();
  });

  it('inches are read, another start is read, lightning may be lacking', async () => {
    bench.standIn.quarters = 'inch';
    expect((await weather()).quarterRain!.rainMm[34]).toBeCloseTo(0.4, 9);
    bench.nowMs += HOUR_MS;
    bench.standIn.quarters = 'later-start';
    const late = (await weather()).quarterRain!;
    expect(late.startMs).toBe(Date.parse('2026-05-12T06:00Z'));
    expect(late.rainMm[10]).toBe(0.4);
    bench.nowMs += HOUR_MS;
    bench.standIn.quarters = 'no-lightning';
    expect((await weather()).quarterRain!.lightningJkg).toBeNull();
  });

  it('a service that has no hours is not asked for quarters', async () => {
    bench.standIn.scenario = 'limit-hour';
    const answer = await bestAtHand(bench.client(), SITE);
    expect(answer.ok).toBe(false);
    expect(asked()).toHaveLength(0);
  });

  it('an impossible place is refused as for hours', async () => {
    await expect(bench.client().quarterRain({ ...SITE, latitudeDeg: 91 })).rejects.toThrow(
      /latitudeDeg \(91\)/,
    );
  });
});
