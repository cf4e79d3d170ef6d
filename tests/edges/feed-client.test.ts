import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createFeedClient, type FeedAnswer, type FeedFailureCode } from '../../src/feed/index.ts';
import { type FeedBench, feedBench, SITE, START_MS } from '../stand-in/bench-client.ts';
import type { Scenario } from '../stand-in/server.ts';

/**
 * The real client against the loopback stand-in. Parameters, statuses, reasons, limits and windows are
 * those of the provider's public documentation and reported behaviour (docs/feed.md).
 */

let bench: FeedBench;
beforeEach(async () => {
  bench = await feedBench();
});
afterEach(() => bench.close());

function failed(answer: FeedAnswer) {
  if (answer.ok) throw new Error('expected a failure');
  return answer;
}
function got(answer: FeedAnswer) {
  if (!answer.ok) throw new Error(answer.message);
  return answer;
}
const ensemble = (scenario: Scenario, spoil = Number.POSITIVE_INFINITY) => {
  bench.standIn.scenario = scenario;
  bench.standIn.spoil = spoil;
  return bench.client().ensemble(SITE);
};

describe('a good answer', () => {
  it('asks in UTC, unix times and m/s, for one model, with the site rounded to 0.01 degrees', async () => {
    await bench.client().ensemble({ ...SITE, latitudeDeg: 52.5239 });
    const [meta, ask] = bench.standIn.seen;
    expect(meta?.path).toBe('/data/ecmwf_ifs025_ensemble/static/meta.json');
    expect(ask?.path).toBe('/v1/ensemble');
    expect(Object.fromEntries(ask?.query ?? [])).toEqual({
      latitude: '52.52',
      longitude: '13.41',
      elevation: '40',
      hourly:
        'temperature_2m,dew_point_2m,wind_speed_10m,wind_gusts_10m,precipitation,cloud_cover,shortwave_radiation,cape',
      models: 'ecmwf_ifs025_ensemble',
      timezone: 'GMT',
      timeformat: 'unixtime',
      wind_speed_unit: 'ms',
      forecast_days: '7',
      past_days: '1',
    });
  });
  it('gives 51 forecasts with issue time, fetch time, model and credit', async () => {
    const { weather, from, ageMs } = got(await bench.client().ensemble(SITE));
    expect(weather.members).toHaveLength(51);
    expect(weather.hours).toBe(8 * 24);
    expect(weather.startMs).toBe(Date.parse('2026-05-11T00:00Z'));
    expect(weather.source).toMatchObject({
      kind: 'live',
      model: 'ecmwf_ifs025_ensemble',
      issuedMs: START_MS - 3_600_000,
      fetchedMs: START_MS,
      invented: false,
      notes: [],
    });
    expect(weather.source.attribution).toContain('Open-Meteo.com');
    expect([from, ageMs]).toEqual(['fetched', 0]);
  });
  it('asks for one forecast with two past days from the provider’s own choice of models', async () => {
    const { weather } = got(await bench.client().forecast(SITE));
    const ask = bench.standIn.forecasts()[0];
    expect(ask?.path).toBe('/v1/forecast');
    expect(ask?.query.get('past_days')).toBe('2');
    expect(ask?.query.has('models')).toBe(false);
    expect(weather.members).toHaveLength(1);
    expect(weather.startMs).toBe(Date.parse('2026-05-10T00:00Z'));
    expect(weather.source.issuedMs).toBeNull();
    expect(weather.source.notes.join()).toContain('did not say when this forecast was issued');
  });
  it('sends the key as a header only', async () => {
    bench.standIn.scenario = 'key-wrong';
    const answer = failed(await bench.client({ apiKey: 'secret-key-123' }).ensemble(SITE));
    for (const seen of bench.standIn.seen) {
      expect(seen.headers['x-api-key']).toBe('secret-key-123');
      expect(seen.query.toString()).not.toContain('secret');
    }
    expect(JSON.stringify(answer)).not.toContain('secret-key-123');
  });
  it('has one request in flight however many sites ask at once', async () => {
    const client = bench.client();
    const sites = [0, 1, 2, 3, 4, 5].map((i) => ({ ...SITE, latitudeDeg: 50 + i, days: 2 }));
    const answers = await Promise.all(sites.map((s) => client.ensemble(s)));
    expect(answers.every((a) => a.ok)).toBe(true);
    expect(bench.standIn.forecasts()).toHaveLength(6);
    expect(bench.standIn.mostAtOnce()).toBe(1);
  });
  it('goes on with the next site after one fails', async () => {
    bench.standIn.scenario = 'no-data';
    bench.standIn.spoil = 1;
    const client = bench.client();
    const [a, b] = await Promise.all([
      client.ensemble(SITE),
      client.ensemble({ ...SITE, latitudeDeg: 50 }),
    ]);
    expect([a.ok, b.ok]).toEqual([false, true]);
  });
  it('refuses a place or a length no forecast exists for', async () => {
    await expect(bench.client().ensemble({ ...SITE, latitudeDeg: Number.NaN })).rejects.toThrow(
      /latitudeDeg \(NaN\)/,
    );
    await expect(bench.client().ensemble({ ...SITE, days: 17 })).rejects.toThrow(/days \(17\)/);
    await expect(bench.client().ensemble({ ...SITE, days: 2.5 })).rejects.toThrow(/days \(2.5\)/);
  });
});

describe('failures', () => {
  // Each tried up to three times where trying again can help, once where it cannot.
  const cases: [Scenario, FeedFailureCode, number, RegExp][] = [
    ['limit-hour', 'limit-hour', 1, /Hourly API request limit exceeded/],
    ['limit-day', 'limit-day', 1, /Daily API request limit exceeded/],
    ['too-many', 'busy', 3, /Too many concurrent requests/],
    ['overloaded', 'busy', 3, /overloaded/],
    ['html-502', 'gateway', 3, /web page came instead of a forecast \(status 502\)/],
    ['html-200', 'gateway', 3, /web page came instead of a forecast \(status 200\)/],
    ['stream-error', 'broken-answer', 3, /broke off while sending/],
    ['cut-off', 'broken-answer', 3, /broke off/],
    ['slow-body', 'timeout', 3, /did not finish its answer in time/],
    ['silent', 'timeout', 3, /did not answer in time/],
    ['hang-up', 'unreachable', 3, /cannot be reached/],
    ['key-wrong', 'key', 1, /does not accept the key.*API key is invalid/],
    ['key-missing', 'key', 1, /asks for a key; set LAYFAIR_FEED_KEY/],
    ['plan', 'plan', 1, /Professional plan/],
    ['no-data', 'bad-request', 1, /does not cover this place/],
    ['error-200', 'bad-request', 1, /does not cover this place/],
    ['redirect', 'bad-request', 1, /does not follow/],
    ['nan-place', 'broken-answer', 1, /latitude is null.*service writes nan/],
    [
      'odd-unit',
      'broken-answer',
      1,
      /hourly_units\.wind_speed_10m is "furlong\/h"; accepted: .* 50 more columns/,
    ],
    [
      'wild-value',
      'broken-answer',
      1,
      /wind_gusts_10m_member03 at 2026-05-11T12:00Z is 900 m\/s; accepted: 0 to 120/,
    ],
    ['far-away', 'broken-answer', 1, /km from the site/],
  ];
  it.each(cases)('%s gives %s after %d tries', async (scenario, code, tries, words) => {
    const answer = failed(await ensemble(scenario));
    expect(answer.code).toBe(code);
    expect(answer.message).toMatch(words);
    expect(answer.lastGood).toBeNull();
    expect(bench.standIn.forecasts()).toHaveLength(tries);
  });
  it('cuts an answer that trickles on for ever when the whole time is up', async () => {
    // Three tries of 0.8 s; silence alone would let the stand-in trickle for 5 s each time.
    expect(failed(await ensemble('trickle')).code).toBe('timeout');
  }, 4_500);
  it('says unreachable when nothing listens', async () => {
    const url = bench.standIn.url;
    await bench.standIn.close();
    const client = bench.client({ baseUrls: { ensemble: url, forecast: url } });
    expect(failed(await client.ensemble(SITE))).toMatchObject({ code: 'unreachable' });
  });
  it('waits 1 s, then 2 s, each spread by the random passed in, and then succeeds', async () => {
    const answer = await ensemble('html-502', 2);
    expect(answer.ok).toBe(true);
    expect(bench.waits).toEqual([1_000, 2_000]);
    bench.waits.length = 0;
    bench.standIn.spoil = 1;
    got(await bench.client({ random: () => 0 }).ensemble({ ...SITE, latitudeDeg: 50 }));
    expect(bench.waits).toEqual([500]);
  });
  it('waits for the next clock minute on a minute limit, once', async () => {
    bench.nowMs = START_MS + 20_000;
    got(await ensemble('limit-minute', 1));
    // 40 s to the minute and half of the 2 s of spread.
    expect(bench.waits).toEqual([41_000]);
    bench.nowMs = START_MS;
    const again = bench.client({ cacheDir: `${bench.cacheDir}/other` });
    bench.standIn.spoil = Number.POSITIVE_INFINITY;
    const answer = failed(await again.ensemble(SITE));
    expect(answer).toMatchObject({ code: 'limit-minute', retryAtMs: START_MS + 120_000 });
    expect(bench.waits).toHaveLength(2);
  });
  it.each([
    ['limit-hour', '2026-05-12T05:00Z'],
    ['limit-day', '2026-05-13T00:00Z'],
  ] as const)('asks nothing more until the window of a %s ends', async (scenario, until) => {
    bench.standIn.scenario = scenario;
    const client = bench.client();
    expect(failed(await client.ensemble(SITE)).retryAtMs).toBe(Date.parse(until));
    const asked = bench.standIn.seen.length;
    expect(failed(await client.ensemble({ ...SITE, latitudeDeg: 50 })).code).toBe(scenario);
    expect(bench.standIn.seen).toHaveLength(asked);
    bench.standIn.scenario = 'well';
    bench.nowMs = Date.parse(until);
    expect((await client.ensemble(SITE)).ok).toBe(true);
  });
});

describe('answers that are odd but usable', () => {
  const notes = (answer: FeedAnswer) => got(answer).weather.source.notes.join('\n');

  it('mends a bare nan', async () => {
    expect(got(await ensemble('bare-nan')).weather.elevationM).toBeNull();
  });
  it('takes a list of one place', async () => {
    expect(got(await ensemble('list-of-one')).weather.members).toHaveLength(51);
  });
  it('says that one forecast is short', async () => {
    expect(notes(await ensemble('one-short'))).toContain(
      '1 of 51 forecasts end before the others, the first at 2026-05-13T11:00Z',
    );
  });
  it('says that the forecast without a number did not come', async () => {
    const answer = await ensemble('no-control');
    expect(got(answer).weather.members).toHaveLength(50);
    expect(notes(answer)).toContain('only 50 of 51 forecasts can be used');
    expect(notes(answer)).toContain('not in this answer: forecast 0');
  });
  it('keeps hours past the end unknown', async () => {
    const answer = await ensemble('null-tail');
    expect(notes(answer)).toContain(
      'the forecast ends at 2026-05-15T03:00Z; later hours are unknown',
    );
    expect(got(answer).weather.members[50]?.rainMm[100]).toBeNaN();
  });
  it('keeps a hole in the rain unknown and says where', async () => {
    const answer = await ensemble('holes');
    expect(got(answer).weather.members[7]?.rainMm[30]).toBeNaN();
    expect(notes(answer)).toContain(
      'precipitation is missing inside the forecast, first at 2026-05-12T06:00Z: 51 hours in 51 of 51 forecasts',
    );
  });
  it('lifts gusts to the mean wind', async () => {
    const { weather } = got(await ensemble('low-gusts'));
    expect(weather.members[9]?.gustMps?.[5]).toBe(weather.members[9]?.windMps[5]);
    expect(weather.source.notes.join()).toContain(
      'gusts below the mean wind raised to it: 51 hours',
    );
  });
  it('leaves gusts unknown for a model without them', async () => {
    const client = bench.client({ model: 'gem_global_ensemble' });
    const { weather } = got(await client.ensemble(SITE));
    expect(weather.members).toHaveLength(21);
    expect(weather.members.every((m) => m.gustMps === null)).toBe(true);
    expect(weather.source.notes.join()).toContain('estimated as 1.6 x mean wind (common practice)');
  });
  it('ends where the model ends', async () => {
    const client = bench.client({ model: 'icon_eu_eps' });
    const answer = await client.ensemble({ ...SITE, days: 7, pastDays: 0 });
    expect(notes(answer)).toContain('the forecast ends at 2026-05-17T00:00Z');
  });
});

describe('the model run', () => {
  it('gives issue time, and says late only past the update interval and 20 minutes', async () => {
    const client = bench.client();
    bench.nowMs = bench.standIn.runAvailableMs! + (6 * 60 + 20) * 60_000;
    expect(await client.modelRun('ecmwf_ifs025_ensemble')).toMatchObject({
      ok: true,
      run: { availableMs: START_MS - 3_600_000, late: false, settled: true },
    });
    bench.nowMs += 11 * 60_000;
    expect(await client.modelRun('ecmwf_ifs025_ensemble')).toMatchObject({
      ok: true,
      run: { late: true },
    });
  });
  it('is asked for at most every ten minutes', async () => {
    const client = bench.client();
    await client.modelRun('ecmwf_ifs025_ensemble');
    bench.nowMs += 9 * 60_000;
    await client.modelRun('ecmwf_ifs025_ensemble');
    expect(bench.standIn.seen).toHaveLength(1);
  });
  it('marks forecasts of a late run and of one that is minutes old', async () => {
    bench.standIn.runAvailableMs = START_MS - 9 * 3_600_000;
    const late = got(await bench.client().ensemble(SITE));
    expect(late.weather.source.notes[0]).toBe(
      'the model is late: its last run came 9 h ago, a new one is due every 6 h',
    );
    bench.standIn.runAvailableMs = START_MS - 5 * 60_000;
    const young = got(await bench.client().ensemble({ ...SITE, latitudeDeg: 50 }));
    expect(young.weather.source.notes[0]).toContain(
      'hours of the run before may still be mixed in',
    );
  });
  it('costs only the issue time when it is missing', async () => {
    bench.standIn.runAvailableMs = null;
    const { weather } = got(await bench.client().ensemble(SITE));
    expect(weather.source.issuedMs).toBeNull();
    expect(weather.members).toHaveLength(51);
  });
  it('is refused for unknown and for joined models', async () => {
    expect(await bench.client().modelRun('icon_seamless_eps')).toMatchObject({
      ok: false,
      code: 'bad-request',
    });
    expect(await bench.client().modelRun('../../etc')).toMatchObject({
      ok: false,
      code: 'bad-request',
    });
    expect(bench.standIn.seen).toHaveLength(0);
  });
  it('notes values that repeat the run before, for as long as they do', async () => {
    const client = bench.client();
    bench.standIn.frozenRunMs = bench.standIn.runAvailableMs;
    expect(got(await client.ensemble(SITE)).weather.source.notes).toEqual([]);
    const later = (hours: number) => {
      bench.nowMs += hours * 3_600_000;
      bench.standIn.nowMs = bench.nowMs;
    };
    later(24);
    bench.standIn.runAvailableMs = bench.nowMs - 3_600_000;
    expect(got(await client.ensemble(SITE)).weather.source.notes.join()).toContain(
      'repeating old data',
    );
    later(2);
    expect(got(await client.ensemble(SITE)).weather.source.notes.join()).toContain(
      'repeating old data',
    );
    bench.standIn.frozenRunMs = null;
    later(2);
    expect(got(await client.ensemble(SITE)).weather.source.notes.join()).not.toContain(
      'repeating old data',
    );
  });
});

describe('the free service', () => {
  it('is kept to 600 calls a minute by waiting, counting as the provider counts', async () => {
    const client = bench.client({ plan: 'free' });
    // 8 variables x 51 forecasts over 8 days weigh 40.8 calls: 14 fit into a minute, the 15th does not.
    for (let i = 0; i < 17; i++) got(await client.ensemble({ ...SITE, longitudeDeg: i }));
    const long = bench.waits.filter((ms) => ms > 1_000);
    expect(long).toHaveLength(1);
    expect(bench.nowMs).toBeGreaterThanOrEqual(START_MS + 60_000);
    expect(bench.standIn.forecasts()).toHaveLength(17);
  });
  it('is spaced a quarter of a second', async () => {
    got(await bench.client({ plan: 'free' }).ensemble(SITE));
    expect(bench.waits).toEqual([250]);
  });
  it('has no such limits with a key', async () => {
    const client = bench.client({ plan: 'paid', apiKey: 'abcd' });
    for (let i = 0; i < 17; i++) got(await client.ensemble({ ...SITE, longitudeDeg: i, days: 2 }));
    expect(bench.waits).toEqual([]);
  });
  it('opens and closes its own connection where none is handed in', async () => {
    const client = createFeedClient({
      baseUrls: { ensemble: bench.standIn.url, forecast: bench.standIn.url },
      now: () => START_MS,
      sleep: async () => {},
      random: () => 0,
    });
    expect((await client.ensemble(SITE)).ok).toBe(true);
    await client.close();
    expect((await client.ensemble(SITE)).ok).toBe(false);
  });
});
