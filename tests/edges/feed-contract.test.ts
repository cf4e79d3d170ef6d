import { existsSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askUrl, makeAsk } from '../../src/feed/ask.ts';
import { readWeatherResponse } from '../../src/feed/index.ts';
import { ENSEMBLE_MODELS } from '../../src/feed/models.ts';
import { SITE, START_MS } from '../stand-in/bench-client.ts';
import { type StandIn, startStandIn } from '../stand-in/server.ts';

/**
 * What we ask and what the stand-in answers, held against the provider's published API descriptions
 * where they are at hand (reference only, not part of this project) and against its documented shapes.
 */

const described = (name: string) =>
  new URL(`../../../shared/reference/open-meteo-openapi-${name}.yml`, import.meta.url);

describe.each(['ensemble', 'forecast'] as const)(
  'the %s request against the API description',
  (endpoint) => {
    const file = described(endpoint);
    const here = existsSync(file);
    const skipped = here ? '' : ' (skipped: data set not here)';
    const yaml = here ? readFileSync(file, 'utf8') : '';
    const names = new Set([...yaml.matchAll(/^\s*- name: (\S+)$/gm)].map((m) => m[1]));
    const values = new Set([...yaml.matchAll(/^\s*- ([a-z][a-z0-9_]*)$/gm)].map((m) => m[1]));
    const url = askUrl(makeAsk(endpoint, 'ecmwf_ifs025_ensemble', SITE), 'http://127.0.0.1');

    it.skipIf(!here)(`asks only for parameters it lists${skipped}`, () => {
      expect(names.size).toBeGreaterThan(10);
      for (const name of url.searchParams.keys()) expect([...names]).toContain(name);
    });
    it.skipIf(!here)(`asks only for variables it lists${skipped}`, () => {
      for (const variable of (url.searchParams.get('hourly') ?? '').split(',')) {
        expect([...values]).toContain(variable);
      }
    });
    it.skipIf(!here)(`asks for units and times it lists${skipped}`, () => {
      expect(yaml).toMatch(/enum: \[kmh, ms, mph, kn\]/);
      expect(yaml).toMatch(/enum: \[iso8601, unixtime\]/);
      expect(yaml).toContain(`/v1/${endpoint}:`);
    });
  },
);

describe('the table of models', () => {
  // Member counts of the provider's ensemble documentation.
  it.each([
    ['ecmwf_ifs025_ensemble', 51],
    ['icon_eu_eps', 40],
    ['ncep_gefs025', 31],
    ['gem_global_ensemble', 21],
    ['bom_access_global_ensemble', 18],
  ])('has %s with %d forecasts', (id, count) => {
    expect(ENSEMBLE_MODELS.find((m) => m.id === id)?.count).toBe(count);
  });
});

describe('the stand-in speaks as documented', () => {
  let standIn: StandIn;
  beforeAll(async () => {
    standIn = await startStandIn(START_MS);
  });
  afterAll(() => standIn.close());
  const HOURLY =
    'temperature_2m,relative_humidity_2m,wind_speed_10m,precipitation,cloud_cover,shortwave_radiation,no_such_name';
  const ask = async (query: string) => {
    const answer = await fetch(`${standIn.url}${query}`);
    return {
      status: answer.status,
      body: (await answer.json()) as Record<string, unknown> & unknown[],
    };
  };

  it('gives an object for one place and a list for several, the first without location_id', async () => {
    const one = await ask(`/v1/forecast?latitude=52.5&longitude=13.5&hourly=${HOURLY}`);
    expect(Array.isArray(one.body)).toBe(false);
    const two = await ask(`/v1/forecast?latitude=52.5,53&longitude=13.5,14&hourly=${HOURLY}`);
    expect(two.body.map((p) => (p as { location_id?: number }).location_id)).toEqual([
      undefined,
      1,
    ]);
  });
  it('leaves out unknown names, refuses unknown values and latitudes', async () => {
    const one = await ask(`/v1/forecast?latitude=52.5&longitude=13.5&hourly=${HOURLY}`);
    expect(JSON.stringify(one.body)).not.toContain('no_such_name');
    expect((await ask('/v1/ensemble?latitude=1&longitude=1&models=xyz')).status).toBe(400);
    expect((await ask('/v1/forecast?latitude=122&longitude=1')).body['reason']).toContain(
      'Given: 122.00.',
    );
  });
  it('leaves results out where a place search finds nothing', async () => {
    expect((await ask('/v1/search?name=zzzz')).body).not.toHaveProperty('results');
  });
  // The same hours asked for in three zones, two time forms and four wind units are the same weather.
  it.each([
    'timezone=GMT&timeformat=unixtime&wind_speed_unit=ms',
    'timezone=Europe/Berlin',
    'timezone=America/Chicago&wind_speed_unit=kn&temperature_unit=fahrenheit&precipitation_unit=inch',
    'timezone=Asia/Kolkata&timeformat=unixtime&wind_speed_unit=mph',
  ])('gives the reader the same weather at the same instant with %s', async (form) => {
    const at = `/v1/ensemble?latitude=52.5&longitude=13.5&forecast_days=2&hourly=${HOURLY}`;
    const plain = readWeatherResponse((await ask(at)).body, { fetchedMs: null, kind: 'file' });
    const other = readWeatherResponse((await ask(`${at}&${form}`)).body, {
      fetchedMs: null,
      kind: 'file',
    });
    if (!plain.ok || !other.ok) throw new Error(JSON.stringify([plain, other]));
    expect(other.weather.members).toHaveLength(51);
    // A zone of half hours starts its day half an hour off: its stamps lie between ours, where the
    // stand-in's temperature is up to 0.65 K away; else only the rounding of the units remains.
    const shift = Math.round((other.weather.startMs - plain.weather.startMs) / 3_600_000);
    const toleranceK = form.includes('Kolkata') ? 0.8 : 0.1;
    const [a, b] = [plain.weather.members[9], other.weather.members[9]];
    for (let h = 12; h < 24; h++) {
      const offK = Math.abs((b?.airTempC[h - shift] ?? 99) - (a?.airTempC[h] ?? -99));
      expect(offK).toBeLessThan(toleranceK);
      expect(Math.abs((b?.windMps[h - shift] ?? 99) - (a?.windMps[h] ?? -99))).toBeLessThan(0.3);
    }
  });
  it('joins two models with their names in the keys, and one model without', async () => {
    const at = `/v1/ensemble?latitude=52.5&longitude=13.5&forecast_days=1&hourly=${HOURLY}`;
    const two = readWeatherResponse(
      (await ask(`${at}&models=icon_eu_eps,gem_global_ensemble`)).body,
      {
        fetchedMs: null,
        kind: 'file',
      },
    );
    expect(two.ok && two.weather.members.length).toBe(61);
    expect(two.ok && two.weather.source.model).toBe('gem_global_ensemble + icon_eu_eps');
    const one = await ask(`${at}&models=icon_eu_eps`);
    expect(Object.keys(one.body['hourly'] as object)).toContain('temperature_2m_member39');
  });
});
