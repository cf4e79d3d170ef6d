import { describe, expect, it } from 'vitest';
import { feedConfigFromEnv, NOT_SET_UP } from '../../src/feed/index.ts';

/** Settings of the forecast service. Hosts and plans are those of the provider's documentation. */

const KEY = 'abcDEF123456';
function refusals(env: Record<string, string>): string[] {
  const config = feedConfigFromEnv(env);
  if (config.live) throw new Error('was accepted');
  return config.issues.map((i) => i.message);
}

describe('feedConfigFromEnv', () => {
  it('is not live without settings, and says what to set and that a firm needs a paid key', () => {
    for (const env of [{}, { LAYFAIR_FEED_KEY: '', LAYFAIR_FEED: ' ' }, { PATH: '/bin' }]) {
      expect(feedConfigFromEnv(env)).toEqual({ live: false, why: NOT_SET_UP, issues: [] });
    }
    expect(NOT_SET_UP).toMatch(
      /^No forecast service is set up\. Set LAYFAIR_FEED_KEY .*commercial use.*Professional/,
    );
  });
  it('uses the customer hosts with a key', () => {
    expect(feedConfigFromEnv({ LAYFAIR_FEED_KEY: KEY })).toEqual({
      live: true,
      plan: 'paid',
      apiKey: KEY,
      model: 'ecmwf_ifs025_ensemble',
      baseUrls: {
        ensemble: 'https://customer-ensemble-api.open-meteo.com',
        forecast: 'https://customer-api.open-meteo.com',
      },
    });
  });
  it('uses the free hosts only when asked to', () => {
    expect(feedConfigFromEnv({ LAYFAIR_FEED: 'free' })).toMatchObject({
      live: true,
      plan: 'free',
      apiKey: null,
      baseUrls: {
        ensemble: 'https://ensemble-api.open-meteo.com',
        forecast: 'https://api.open-meteo.com',
      },
    });
    expect(refusals({ LAYFAIR_FEED_HOST: 'https://api.open-meteo.com' })[0]).toContain(
      'set LAYFAIR_FEED=free as well',
    );
  });
  it('takes an own server, with or without a path, and a model', () => {
    expect(
      feedConfigFromEnv({
        LAYFAIR_FEED_HOST: 'http://weather.lan:8080/om/',
        LAYFAIR_FEED_MODEL: 'icon_eu_eps',
      }),
    ).toMatchObject({
      live: true,
      plan: 'own',
      model: 'icon_eu_eps',
      baseUrls: { ensemble: 'http://weather.lan:8080/om', forecast: 'http://weather.lan:8080/om' },
    });
  });
  it.each([
    ['LAYFAIR_FEED', 'paid', 'LAYFAIR_FEED is "paid"; accepted: free, or leave it out.'],
    [
      'LAYFAIR_FEED_HOST',
      'weather.lan',
      'LAYFAIR_FEED_HOST is "weather.lan"; it must be an address such as',
    ],
    [
      'LAYFAIR_FEED_HOST',
      'file:///etc',
      'LAYFAIR_FEED_HOST is "file:///etc"; it must be an address such as',
    ],
    ['LAYFAIR_FEED_HOST', 'https://a:b@c.example', 'must not hold a user name or password'],
    ['LAYFAIR_FEED_HOST', 'https://c.example/?apikey=x', 'it must end before any ? or #'],
    [
      'LAYFAIR_FEED_MODEL',
      'best',
      'LAYFAIR_FEED_MODEL is "best"; accepted: one of ecmwf_ifs025_ensemble,',
    ],
  ])('refuses %s=%s', (name, value, words) => {
    expect(refusals({ LAYFAIR_FEED_KEY: KEY, [name]: value }).join(' ')).toContain(words);
  });
  it('never prints the key, and refuses one with blanks', () => {
    const said = refusals({ LAYFAIR_FEED_KEY: 'top secret' });
    expect(said).toEqual([
      'LAYFAIR_FEED_KEY (hidden, 10 characters) must be 4 to 200 letters, digits or signs without spaces.',
    ]);
  });
  it('refuses to send a key over plain http, except to this computer', () => {
    expect(
      refusals({ LAYFAIR_FEED_KEY: KEY, LAYFAIR_FEED_HOST: 'http://weather.lan' })[0],
    ).toContain('must start with https');
    for (const host of [
      'http://127.0.0.1:9000',
      'http://localhost:9000',
      'http://[::1]:9000',
      'https://w.example',
    ]) {
      expect(feedConfigFromEnv({ LAYFAIR_FEED_KEY: KEY, LAYFAIR_FEED_HOST: host }).live).toBe(true);
    }
  });
  it('refuses a key together with the free service', () => {
    expect(refusals({ LAYFAIR_FEED_KEY: KEY, LAYFAIR_FEED: 'free' })[0]).toContain(
      'set one of the two',
    );
  });
  it('tells everything wrong at once', () => {
    expect(
      refusals({ LAYFAIR_FEED: 'x', LAYFAIR_FEED_MODEL: 'y', LAYFAIR_FEED_HOST: 'z' }),
    ).toHaveLength(3);
  });
});
