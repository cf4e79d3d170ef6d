import { describe, expect, it } from 'vitest';
import { changed, sentences } from '../stand-in/read-fixture.ts';

/** What the reader of forecast answers refuses, and the sentence it gives. Ranges: docs/feed.md. */

describe('refusals', () => {
  it('names a missing variable and all that is needed', () => {
    const none = changed('plain.json', (a) => delete a.hourly['shortwave_radiation']);
    expect(sentences(none)).toEqual([
      'hourly.shortwave_radiation is missing; Layfair needs temperature_2m, wind_speed_10m, precipitation, ' +
        'cloud_cover, shortwave_radiation and dew_point_2m or relative_humidity_2m.',
    ]);
  });
  it('does not take low cloud for the missing total cloud', () => {
    const none = changed('plain.json', (a) => delete a.hourly['cloud_cover']);
    expect(sentences(none)[0]).toMatch(/^hourly\.cloud_cover is missing/);
  });
  it('names a variable that has no value in any forecast', () => {
    const none = changed('two-forecasts.json', (a) => {
      for (const key of ['shortwave_radiation', 'shortwave_radiation_member01']) {
        a.hourly[key] = [null, null, null];
        a.hourly_units[key] = 'undefined';
      }
    });
    expect(sentences(none)[0]).toMatch(
      /^shortwave_radiation: no values in any forecast; Layfair needs/,
    );
  });
  it('refuses when each forecast lacks something else', () => {
    const none = changed('two-forecasts.json', (a) => {
      a.hourly['precipitation'] = [null, null, null];
      a.hourly['cloud_cover_member01'] = [null, null, null];
    });
    expect(sentences(none)[0]).toContain(
      'precipitation, cloud_cover: no values in one forecast or another',
    );
  });
  it.each([
    ['temperature_2m', -90.1, '-90 to 60 °C'],
    ['temperature_2m', 60.1, '-90 to 60 °C'],
    ['relative_humidity_2m', 110.5, '0 to 110 %'],
    ['relative_humidity_2m', -1, '0 to 110 %'],
    ['wind_speed_10m', -0.1, '0 to 120 m/s'],
    ['wind_gusts_10m', 433, '0 to 120 m/s'],
    ['precipitation', 501, '0 to 500 mm'],
    ['precipitation', -9999, '0 to 500 mm'],
    ['cloud_cover', 101, '0 to 100 %'],
    ['shortwave_radiation', 1501, '-20 to 1500 W/m²'],
    ['shortwave_radiation', -21, '-20 to 1500 W/m²'],
  ])('refuses %s of %d with key, hour, value and range', (key, value, range) => {
    const wild = changed('plain.json', (a) => {
      const column = a.hourly[key];
      if (column) column[1] = value;
    });
    const said = sentences(wild);
    expect(said).toHaveLength(1);
    expect(said[0]).toContain(`hourly.${key} at 2026-05-11T23:00Z is ${value} `);
    expect(said[0]).toContain(range);
  });
  it.each(['9.1', true, {}, []])('refuses %j as a value', (value) => {
    const odd = changed('plain.json', (a) => {
      const column = a.hourly['temperature_2m'];
      if (column) column[0] = value;
    });
    expect(sentences(odd)[0]).toContain(
      `hourly.temperature_2m at 2026-05-11T22:00Z is ${JSON.stringify(value)}; accepted`,
    );
  });
  it('refuses a column of another length', () => {
    const short = changed('plain.json', (a) => a.hourly['precipitation']?.pop());
    expect(sentences(short)).toEqual(['hourly.precipitation has 3 values; hourly.time has 4.']);
  });
  it('tells everything wrong at once, the same thing in many columns once', () => {
    const bad = changed('two-forecasts.json', (a) => {
      a.hourly_units['temperature_2m'] = 'K';
      a.hourly_units['temperature_2m_member01'] = 'K';
      a.hourly['precipitation'] = [0, -1, 0];
    });
    expect(sentences(bad)).toHaveLength(2);
    expect(sentences(bad)[0]).toContain('The same is wrong in 1 more column.');
  });
  it('refuses latitude 122 with value and range, and every other wrong field beside it', () => {
    const bad = changed('plain.json', (a) => {
      a['latitude'] = 122;
      a['longitude'] = 'east';
    });
    expect(sentences(bad)).toEqual([
      'latitude is 122; it must be a number from -90 to 90.',
      'longitude is "east"; it must be a number from -180 to 180.',
    ]);
  });
  it('refuses an answer without an hourly block', () => {
    const daily = changed('plain.json', (a) => delete (a as Record<string, unknown>)['hourly']);
    expect(sentences(daily)).toEqual([
      'hourly is missing; Layfair needs the hourly block of a forecast response.',
    ]);
  });
  it.each([null, 3, 'text', true, [], [1, 2]])('refuses %j', (value) => {
    expect(sentences(value)[0]).toContain('it must be one object with an hourly block');
  });
  it('quotes the reason of an error answer', () => {
    const said = sentences({ reason: 'Invalid timezone', error: true });
    expect(said).toEqual([
      'This is an error answer of the weather service, not a forecast: "Invalid timezone".',
    ]);
  });
});
