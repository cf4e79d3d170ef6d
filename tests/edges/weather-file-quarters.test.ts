import { describe, expect, it } from 'vitest';
import { readWeatherFile } from '../../src/feed/index.ts';
import { buildGrid } from '../../src/weather/index.ts';
import { type Answer, changed, weatherOf } from '../stand-in/read-fixture.ts';

/** A saved answer that holds quarter hours beside its hours, as the provider writes both. */

type Block = { time: unknown[]; precipitation: unknown[] };
/** `plain.json` has local hours at +02:00 with 0.2 mm in the hour that ends at 01:00 and 1.4 mm in the one at 03:00. */
const beside = (block: Partial<Block> & Record<string, unknown>, units = {}) =>
  changed('plain.json', (answer: Answer) => {
    answer['minutely_15'] = {
      time: Array.from({ length: 16 }, (_, q) => label(q)),
      precipitation: [0, 0, 0, 0.3, 0, 0, 0, 0, 0, 0, 0, 0.9, 0.1, 0, 0, 0],
      ...block,
    };
    answer['minutely_15_units'] = { time: 'iso8601', precipitation: 'mm', ...units };
  });
/** Local label of quarter q of 12 May. */
const label = (q: number): string =>
  `2026-05-12T${String(Math.floor(q / 4)).padStart(2, '0')}:${String((q % 4) * 15).padStart(2, '0')}`;

describe('quarter hours in a saved file', () => {
  it('are read by the offset of the whole answer, and time its rain', () => {
    const weather = weatherOf(beside({}));
    expect(weather.quarterRain).toEqual({
      model: 'the saved forecast',
      startMs: Date.parse('2026-05-11T22:00Z'),
      rainMm: Float64Array.of(0, 0, 0, 0.3, 0, 0, 0, 0, 0, 0, 0, 0.9, 0.1, 0, 0, 0),
      lightningJkg: null,
      knownMs: Date.parse('2026-05-11T22:00Z'),
    });
    const rainy = { ...weather.members[0]!, airTempC: new Float64Array(4).fill(9) };
    const grid = buildGrid({ ...weather, members: [rainy] }, { latitudeDeg: 52, longitudeDeg: 13 });
    const wet = Array.from(grid.rainMm, (mm, i) => (mm > 0 ? i : -1)).filter((i) => i >= 0);
    // 00:30 to 00:45, and 02:30 to 03:00 with nine tenths in the first quarter.
    expect(wet).toEqual([6, 7, 8, 30, 31, 32, 33, 34, 35]);
    expect(grid.rainMm[30]! / grid.rainMm[33]!).toBeCloseTo(9, 4);
    expect(weather.source.notes.join()).not.toMatch(/15-minute/);
  });

  it('under a model’s own key they carry its name', () => {
    const { precipitation, ...rest } = beside({})['minutely_15'] as Block & object;
    const file = beside({});
    file['minutely_15'] = { ...rest, precipitation_dwd_icon_d2_15min: precipitation };
    file['minutely_15_units'] = { time: 'iso8601', precipitation_dwd_icon_d2_15min: 'mm' };
    expect(weatherOf(file).quarterRain?.model).toBe('ICON-D2');
  });

  it.each([
    ['spread from hours', beside({ precipitation: SPREAD() }), /it is hours spread over their/],
    ['of the wrong length', beside({ precipitation: [0] }), /has 1 values for 16 times/],
    ['without times', beside({ time: [] }), /minutely_15\.time has 0 entries/],
    ['of words', beside({ precipitation: new Array(16).fill('wet') }), /at .*Z is "wet"/],
    ['without a unit', beside({}, { precipitation: 'undefined' }), /is "undefined"/],
    ['of another variable', withoutRain(), /precipitation is missing/],
  ])('%s are left out and named; the hours stay', (_, file, words) => {
    const weather = weatherOf(file);
    expect(weather.members).toHaveLength(1);
    expect(weather.quarterRain).toBeUndefined();
    const note = weather.source.notes.find((text) => text.includes('15-minute'));
    expect(note).toMatch(/^15-minute rain in this answer left out: /);
    expect(note).toMatch(words);
  });

  it('come through the reader of files, also gzipped lists and invented weather', () => {
    const bytes = new TextEncoder().encode(JSON.stringify([beside({})]));
    const read = readWeatherFile(bytes);
    expect(read.ok && read.weather.quarterRain?.rainMm[3]).toBe(0.3);
  });

  it('over a clock change stay on the one offset of the answer', () => {
    // Berlin, 29 March 2026: asked for at +01:00, labels run evenly through the hour that does not exist.
    const file = beside({
      time: Array.from({ length: 16 }, (_, q) => label(q).replace('05-12', '03-29')),
    });
    file['utc_offset_seconds'] = 3600;
    const { quarterRain } = weatherOf(file);
    const wet = quarterRain!.rainMm.indexOf(0.9);
    expect(new Date(quarterRain!.startMs + wet * 900_000).toISOString()).toBe(
      '2026-03-29T01:45:00.000Z',
    );
  });
});

function withoutRain(): Answer {
  const file = beside({});
  file['minutely_15'] = { time: [label(0), label(1)], wind_gusts_10m: [3, 4] };
  return file;
}

function SPREAD(): number[] {
  return [0, 0.05, 0.05, 0.05, 0.05, 0, 0, 0, 0, 0.35, 0.35, 0.35, 0.35, 0, 0, 0];
}
