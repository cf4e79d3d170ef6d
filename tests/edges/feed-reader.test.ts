import { describe, expect, it } from 'vitest';
import { ATTRIBUTION, NO_GUSTS_NOTE, readWeatherResponse } from '../../src/feed/index.ts';
import { changed, fixture, sentences, weatherOf } from '../stand-in/read-fixture.ts';

/**
 * Reading forecast answers. Expected values come from the provider's public documentation (shapes,
 * fixed offset, units), from NIST SP 811 (2008) appendix B.8 (unit factors) and from ISO 8601 times
 * as the JavaScript standard reads them, never from the reader itself.
 */

describe('a single forecast with local labels', () => {
  const weather = weatherOf(fixture('plain.json'));
  const member = weather.members[0];

  it('takes the offset of the answer off the labels', () => {
    expect(weather.startMs).toBe(Date.parse('2026-05-12T00:00+02:00'));
    expect(weather.hours).toBe(4);
    expect(weather.elevationM).toBe(38);
  });
  it('turns km/h into m/s', () => {
    expect([...(member?.windMps ?? [])]).toEqual([5, 4, 3, 2]);
  });
  it('turns null into not known', () => {
    expect(member?.airTempC[2]).toBeNaN();
    expect(weather.source.notes.join('\n')).toContain(
      'temperature_2m is missing inside the forecast, first at 2026-05-12T00:00Z: 1 hour in 1 of 1 forecasts',
    );
  });
  it('raises gusts below the mean wind to the mean wind and says so', () => {
    expect([...(member?.gustMps ?? [])]).toEqual([10, 4, 5, 4]);
    expect(weather.source.notes).toContain(
      'gusts below the mean wind raised to it: 1 hour over all forecasts',
    );
  });
  it('takes relative humidity of 103 % as 100 % and says so', () => {
    expect(member?.relHumPct?.[1]).toBe(100);
    expect(weather.source.notes).toContain(
      'relative humidity over 100 % taken as 100 %: 1 hour over all forecasts',
    );
  });
  it('reads total cloud, not low cloud', () => {
    expect([...(member?.cloudPct ?? [])]).toEqual([100, 90, 40, 0]);
  });
  it('credits the provider and states the licence and the change', () => {
    expect(weather.source.attribution).toBe(ATTRIBUTION);
    expect(ATTRIBUTION).toMatch(
      /Open-Meteo\.com \(CC BY 4\.0\), https:\/\/open-meteo\.com\/.*changed: /,
    );
    expect(weather.source).toMatchObject({ kind: 'file', invented: false, issuedMs: null });
  });
});

describe('an ensemble with unix times', () => {
  it('reads both forecasts in order, the one without a number first', () => {
    const weather = weatherOf(fixture('two-forecasts.json'));
    expect(weather.startMs).toBe(Date.parse('2026-05-12T00:00Z'));
    expect(weather.members.map((m) => m.airTempC[0])).toEqual([9.1, 9.4]);
    expect(weather.members[0]?.relHumPct).toBeNull();
    expect(weather.members[1]?.dewPointC?.[2]).toBe(6.7);
  });
  it('leaves gusts unknown where the model has none, with the note', () => {
    const weather = weatherOf(fixture('two-forecasts.json'));
    expect(weather.members.map((m) => m.gustMps)).toEqual([null, null]);
    expect(weather.source.notes).toContain(NO_GUSTS_NOTE);
  });
  it('does not read unix times with the local offset', () => {
    const local = changed('two-forecasts.json', (a) => {
      a['utc_offset_seconds'] = -18_000;
      a['timezone'] = 'America/Chicago';
    });
    expect(weatherOf(local).startMs).toBe(Date.parse('2026-05-12T00:00Z'));
  });
  it('reads keys that carry the model, and names it', () => {
    const renamed = changed('two-forecasts.json', (a) => {
      for (const block of [a.hourly, a.hourly_units] as Record<string, unknown>[]) {
        for (const key of Object.keys(block).filter((k) => k !== 'time')) {
          block[`${key}_ecmwf_ifs025_ensemble`] = block[key];
          delete block[key];
        }
      }
    });
    const weather = weatherOf(renamed);
    expect(weather.members.map((m) => m.airTempC[0])).toEqual([9.1, 9.4]);
    expect(weather.source.model).toBe('ecmwf_ifs025_ensemble');
  });
  it('counts forecasts of two models alike and says so', () => {
    const two = changed('two-forecasts.json', (a) => {
      for (const block of [a.hourly, a.hourly_units] as Record<string, unknown>[]) {
        for (const key of Object.keys(block).filter((k) => k !== 'time')) {
          block[`${key}_model_a`] = block[key];
          block[`${key}_model_b`] = block[key];
          delete block[key];
        }
      }
    });
    const weather = weatherOf(two);
    expect(weather.members).toHaveLength(4);
    expect(weather.source.model).toBe('model_a + model_b');
    expect(weather.source.notes).toContain(
      'forecasts of 2 models, each counted alike: model_a, model_b',
    );
  });
  it('does not take a spread for a model', () => {
    const withSpread = changed('two-forecasts.json', (a) => {
      for (const key of ['temperature_2m', 'precipitation']) {
        a.hourly[`${key}_spread`] = [1, 1, 1];
        a.hourly_units[`${key}_spread`] = 'K';
      }
    });
    expect(weatherOf(withSpread).members).toHaveLength(2);
  });
  it('does not take a variable of its own for a forecast of its own', () => {
    const other = changed('two-forecasts.json', (a) => {
      a.hourly['temperature_2m_anomaly'] = [1, 1, 1];
      a.hourly_units['temperature_2m_anomaly'] = 'K';
    });
    const weather = weatherOf(other);
    expect(weather.members).toHaveLength(2);
    expect(weather.source.notes.join()).not.toContain('anomaly');
  });
  it('leaves a forecast out whose rain is all null, and names it', () => {
    const lacking = changed('two-forecasts.json', (a) => {
      a.hourly['precipitation_member01'] = [null, null, null];
      a.hourly_units['precipitation_member01'] = 'undefined';
    });
    const weather = weatherOf(lacking);
    expect(weather.members).toHaveLength(1);
    expect(weather.source.notes).toContain('left out for want of precipitation: forecast 1');
  });
  it('says which forecast never came', () => {
    const gap = changed('two-forecasts.json', (a) => {
      for (const block of [a.hourly, a.hourly_units] as Record<string, unknown>[]) {
        for (const key of Object.keys(block).filter((k) => k.endsWith('_member01'))) {
          block[key.replace('01', '03')] = block[key];
          delete block[key];
        }
      }
    });
    expect(weatherOf(gap).source.notes).toContain('not in this answer: forecast 1, 2');
  });
  it('says when a forecast ends early', () => {
    const short = changed('two-forecasts.json', (a) => {
      a.hourly['cloud_cover_member01'] = [20, 25, null];
    });
    expect(weatherOf(short).source.notes).toContain(
      '1 of 2 forecasts end before the others, the first at 2026-05-12T01:00Z',
    );
  });
  it('uses relative humidity where dew point has gaps', () => {
    const gaps = changed('two-forecasts.json', (a) => {
      a.hourly['dew_point_2m'] = [6, null, 6.2];
      a.hourly['relative_humidity_2m'] = [80, 81, 82];
      a.hourly_units['relative_humidity_2m'] = '%';
    });
    const weather = weatherOf(gaps);
    expect(weather.members[0]?.dewPointC).toBeNull();
    expect([...(weather.members[0]?.relHumPct ?? [])]).toEqual([80, 81, 82]);
    expect(weather.source.notes.join()).toContain('dew point has gaps');
  });
});

describe('units', () => {
  // NIST SP 811 (2008), appendix B.8: mile per hour 4.4704 E-01 m/s (exact), knot 5.144 444 E-01 m/s,
  // inch 2.54 E-02 m (exact), (°F - 32)/1.8 °C (exact). A kilometre per hour is 2.777 778 E-01 m/s.
  const windIn = (unit: string) =>
    weatherOf(
      changed('two-forecasts.json', (a) => {
        a.hourly['wind_speed_10m'] = [10, 10, 10];
        a.hourly_units['wind_speed_10m'] = unit;
      }),
    ).members[0]?.windMps[0];
  it.each([
    ['m/s', 10],
    ['km/h', 2.777778],
    ['mp/h', 4.4704],
    ['kn', 5.144444],
  ])('reads 10 %s of wind', (unit, mps) => expect(windIn(unit)).toBeCloseTo(mps, 6));
  it('reads °F and inches', () => {
    const us = changed('two-forecasts.json', (a) => {
      a.hourly['temperature_2m'] = [41, 50, 14];
      a.hourly_units['temperature_2m'] = '°F';
      a.hourly['precipitation'] = [0, 0.5, 1];
      a.hourly_units['precipitation'] = 'inch';
    });
    const member = weatherOf(us).members[0];
    expect([...(member?.airTempC ?? [])]).toEqual([5, 10, -10]);
    expect([...(member?.rainMm ?? [])]).toEqual([0, 12.7, 25.4]);
  });
  it('refuses a unit it does not know, naming key, unit and what it accepts', () => {
    const odd = changed('plain.json', (a) => {
      a.hourly_units['wind_speed_10m'] = 'furlong/h';
    });
    expect(sentences(odd)).toEqual([
      'hourly_units.wind_speed_10m is "furlong/h"; accepted: m/s, km/h, mp/h, mph, kn.',
    ]);
  });
  it('refuses a column without a unit, and a unit named like a property of every object', () => {
    const none = changed('plain.json', (a) => delete a.hourly_units['precipitation']);
    expect(sentences(none)).toEqual(['hourly_units.precipitation is missing; accepted: mm, inch.']);
    const odd = changed('plain.json', (a) => {
      a.hourly_units['precipitation'] = 'constructor';
    });
    expect(sentences(odd)).toEqual([
      'hourly_units.precipitation is "constructor"; accepted: mm, inch.',
    ]);
  });
});

describe('time', () => {
  const labels = (times: unknown[], offset: number | undefined, zone = 'Europe/Berlin') =>
    changed('plain.json', (a) => {
      a.hourly['time'] = times;
      if (offset === undefined) delete a['utc_offset_seconds'];
      else a['utc_offset_seconds'] = offset;
      a['timezone'] = zone;
    });

  it('runs evenly through the autumn change on the offset of the answer', () => {
    const autumn = labels(
      ['2026-10-25T01:00', '2026-10-25T02:00', '2026-10-25T03:00', '2026-10-25T04:00'],
      7200,
    );
    expect(weatherOf(autumn).startMs).toBe(Date.parse('2026-10-24T23:00Z'));
  });
  it('accepts the spring hour that no clock shows', () => {
    const spring = labels(
      ['2026-03-29T01:00', '2026-03-29T02:00', '2026-03-29T03:00', '2026-03-29T04:00'],
      3600,
    );
    expect(weatherOf(spring).startMs).toBe(Date.parse('2026-03-29T00:00Z'));
  });
  it.each([
    [
      'a gap',
      ['2026-05-12T00:00', '2026-05-12T01:00', '2026-05-12T03:00', '2026-05-12T04:00'],
      'from 2026-05-11T23:00Z to 2026-05-12T01:00Z',
    ],
    [
      'a doubled hour',
      ['2026-05-12T00:00', '2026-05-12T01:00', '2026-05-12T01:00', '2026-05-12T02:00'],
      'from 2026-05-11T23:00Z back to 2026-05-11T23:00Z',
    ],
    [
      'falling times',
      ['2026-05-12T03:00', '2026-05-12T02:00', '2026-05-12T01:00', '2026-05-12T00:00'],
      'back to',
    ],
  ])('refuses %s and names it', (_what, times, words) => {
    expect(sentences(labels(times, 7200)).join()).toContain(words);
  });
  it.each([
    '2026-05-32T00:00',
    '2026-02-29T00:00',
    '2026-05-12T24:00',
    '2026-05-12',
    '2026-05-12T00:00Z',
    7,
    null,
  ])('refuses %s as a label', (label) => {
    const said = sentences(
      labels([label, '2026-05-12T01:00', '2026-05-12T02:00', '2026-05-12T03:00'], 7200),
    );
    expect(said.join()).toContain('hourly.time[0] is ');
  });
  it('refuses local labels without an offset, but not GMT ones', () => {
    const times = ['2026-05-12T00:00', '2026-05-12T01:00', '2026-05-12T02:00', '2026-05-12T03:00'];
    expect(sentences(labels(times, undefined)).join()).toContain('utc_offset_seconds is missing');
    expect(weatherOf(labels(times, undefined, 'GMT')).startMs).toBe(
      Date.parse('2026-05-12T00:00Z'),
    );
  });
  it('says so where the zone is not whole hours from UTC', () => {
    const times = ['2026-05-12T00:00', '2026-05-12T01:00', '2026-05-12T02:00', '2026-05-12T03:00'];
    const weather = weatherOf(labels(times, 19_800, 'Asia/Kolkata'));
    expect(weather.startMs).toBe(Date.parse('2026-05-12T00:00+05:30'));
    expect(weather.source.notes.join()).toContain('not whole hours from UTC');
  });
  it('refuses unix times in milliseconds', () => {
    const ms = changed('two-forecasts.json', (a) => {
      a.hourly['time'] = (a.hourly['time'] ?? []).map((s) => Number(s) * 1000);
    });
    expect(sentences(ms).join()).toContain('accepted: whole unix seconds, 1940 to 2100');
  });
});

describe('invented weather', () => {
  it('is marked as the demo, with its issue time and without credit', () => {
    const weather = weatherOf(fixture('invented.json'));
    expect(weather.source).toMatchObject({
      kind: 'demo',
      invented: true,
      attribution: null,
      issuedMs: Date.parse('2026-05-12T04:40:00Z'),
    });
    expect(weather.source.notes[0]).toBe('Invented weather for a demonstration.');
  });
  it('is never taken from a live service', () => {
    const result = readWeatherResponse(fixture('invented.json'), { fetchedMs: 1, kind: 'live' });
    expect(result.ok).toBe(false);
  });
  it('is refused when its mark is incomplete or misspelt', () => {
    const bad = changed('invented.json', (a) => {
      a['layfair'] = { invented: false, issued_at: '2026-05-12 04:40', note: 3, extra: 1 };
    });
    expect(sentences(bad).join('\n')).toMatch(
      /layfair\.invented is false[\s\S]*issued_at is "2026-05-12 04:40"/,
    );
    expect(sentences(bad).join('\n')).toContain('extra');
  });
});
