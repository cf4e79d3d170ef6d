/** A saved single forecast with an hourly chance of rain, from the file to what is printed. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clockAnswerSchema, daysAnswerSchema, workAnswerSchema } from '../../src/contract/index.ts';
import { readWeatherResponse } from '../../src/feed/index.ts';
import { adjustChance } from '../../src/planner/index.ts';
import { REAL_JOB, run } from '../fixtures/cli/run-cli.ts';

const NOW_MS = Date.parse('2026-06-08T04:30:00Z');
const HOUR_MS = 3_600_000;
const LABEL = 'made from one forecast; spread by common error growth, not by the weather centre';
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'layfair-one-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** As the provider documents a /v1/forecast answer: five mild days, its chance of rain by the hour. */
function answer(chancePct: number | 'none' | 'empty', hours = 5 * 24) {
  const list = <T>(fn: (h: number) => T) => Array.from({ length: hours }, (_, h) => fn(h));
  const wave = (h: number) => Math.sin((((h % 24) - 9) / 12) * Math.PI);
  const chance =
    chancePct === 'none'
      ? {}
      : { precipitation_probability: list(() => (chancePct === 'empty' ? null : chancePct)) };
  const unit = chancePct === 'empty' ? 'undefined' : '%';
  return {
    latitude: 52.05,
    longitude: -8.35,
    utc_offset_seconds: 0,
    timezone: 'GMT',
    elevation: 40,
    hourly_units: {
      time: 'unixtime',
      temperature_2m: '°C',
      dew_point_2m: '°C',
      wind_speed_10m: 'm/s',
      wind_gusts_10m: 'm/s',
      precipitation: 'mm',
      cloud_cover: '%',
      shortwave_radiation: 'W/m²',
      ...(chancePct === 'none' ? {} : { precipitation_probability: unit }),
    },
    hourly: {
      time: list((h) => (Date.parse('2026-06-08T00:00:00Z') + h * HOUR_MS) / 1000),
      temperature_2m: list((h) => 17 + 4 * wave(h)),
      dew_point_2m: list(() => 6),
      wind_speed_10m: list(() => 3),
      wind_gusts_10m: list(() => 5),
      precipitation: list(() => 0),
      cloud_cover: list(() => 40),
      shortwave_radiation: list((h) => Math.max(0, 500 * wave(h - 3))),
      ...chance,
    },
  };
}

const saved = (name: string, of: unknown): string => {
  const file = join(folder, name);
  writeFileSync(file, JSON.stringify(of));
  return file;
};
const flat = (text: string): string => text.replace(/\s+/g, ' ');
const daysOf = async (file: string) => {
  const args = ['days', REAL_JOB, '--quick', '--weather', file];
  const plain = await run(args, { nowMs: NOW_MS });
  const json = await run([...args, '--json'], { nowMs: NOW_MS });
  expect([plain.code, plain.err, json.code]).toEqual([0, '', 0]);
  return { text: flat(plain.out), answer: daysAnswerSchema.parse(JSON.parse(json.out)) };
};

describe('the reader of saved answers', () => {
  const read = (of: unknown) => {
    const found = readWeatherResponse(of, { kind: 'file', fetchedMs: null });
    if (!found.ok) throw new Error(found.issues.map((issue) => issue.message).join(' '));
    return found.weather;
  };

  it('takes the chance of rain of a single forecast, null as not known', () => {
    const of = answer(35);
    const chances = of.hourly.precipitation_probability as (number | null)[];
    chances[3] = null;
    const { rainChancePct, members } = read(of);
    expect(members).toHaveLength(1);
    expect([...rainChancePct!.slice(2, 5)]).toEqual([35, Number.NaN, 35]);
  });

  it.each(['none', 'empty'] as const)('takes %s for none given', (kind) => {
    expect(read(answer(kind)).rainChancePct).toBeNull();
  });

  it('counts an ensemble’s own forecasts instead, and a chance alone is no forecast', () => {
    const of = answer(35);
    const numbered = (block: object) =>
      Object.fromEntries(
        Object.entries(block).flatMap(([key, value]) =>
          key === 'time' || key === 'precipitation_probability'
            ? [[key, value]]
            : [1, 2].map((n) => [`${key}_member0${n}`, value]),
        ),
      );
    const two = read({
      ...of,
      hourly: numbered(of.hourly),
      hourly_units: numbered(of.hourly_units),
    });
    expect(two.members).toHaveLength(2);
    expect(two.rainChancePct).toBeUndefined();
    expect(two.source.notes.join('\n')).not.toContain('left out');
  });

  it('refuses a chance over 100 %, naming hour and value', () => {
    const found = readWeatherResponse(answer(130), { kind: 'file', fetchedMs: null });
    expect(found.ok).toBe(false);
    expect(JSON.stringify(found)).toContain(
      'hourly.precipitation_probability at 2026-06-08T00:00Z is 130 %; accepted: 0 to 100 %, or null.',
    );
  });
});

describe('days on a single forecast', () => {
  it('say that the forecasts are made, count them as such, and call them nowhere else forecasts', async () => {
    const { text, answer: found } = await daysOf(saved('fair.json', answer(2)));
    expect(text).toContain(LABEL);
    expect(text).toContain('; 31 made from one forecast.');
    expect(text).toContain('how many of the 31 made from one forecast catch');
    expect(text).not.toMatch(/\d+ of \d+ forecasts|forecasts of \d|\b31 forecasts/);
    expect(text).not.toContain('no rain probability');
    expect(found.weather).toMatchObject({ count: 31, made: true });
    const chances = found.days.flatMap(({ chance }) => (chance === null ? [] : [chance]));
    expect(chances.length).toBeGreaterThan(2);
    for (const chance of chances) expect(chance).toMatchObject({ made: true });
    // So fair a day goes through in most of them; the words stay under what a real ensemble would get.
    const best = found.days.find(({ rank }) => rank === 1)!;
    expect(best.outcomes.finished).toBeGreaterThan(20);
    expect(best.chance!.adjusted!).toBeLessThan(0.9);
  });

  it('follow the chance of rain given: dry and likely wet are told apart', async () => {
    const finished = async (pct: number) => {
      const { answer: found } = await daysOf(saved(`p${pct}.json`, answer(pct)));
      return Math.max(...found.days.map(({ outcomes }) => outcomes.finished));
    };
    const [dry, unsure, wet] = [await finished(0), await finished(25), await finished(95)];
    expect(dry).toBeGreaterThan(unsure);
    expect(unsure).toBeGreaterThan(wet);
    // 95 % in every hour leave one forecast in twenty an hour dry; two of 31 is what that can come to.
    expect(wet).toBeLessThanOrEqual(2);
  });

  it('where none finishes say so of those made, never of forecasts', async () => {
    const { text, answer: found } = await daysOf(saved('wet.json', answer(97)));
    expect(text).toMatch(/none of \d+ made from one forecast|in \d+ of \d+ made from one forecast/);
    expect(text).not.toMatch(/of \d+ forecasts/);
    expect(found.days.every(({ verdict }) => verdict !== 'go')).toBe(true);
  });

  it('say where no chance of rain is given', async () => {
    const { text } = await daysOf(saved('none.json', answer('none')));
    expect(text).toContain('no rain probability in this forecast');
    expect(text).toContain(LABEL);
  });

  it('end where the forecast ends: nothing is made up beyond it', async () => {
    const { answer: found } = await daysOf(saved('short.json', answer(2, 34)));
    expect(found.weather!.endMs).toBe(Date.parse('2026-06-09T09:00:00Z'));
    const tuesday = found.days.find(({ date }) => date === '2026-06-09')!;
    expect(tuesday.verdict).toBe('unknown');
    expect(tuesday.sentence).toContain('the forecast ends before the work does');
    expect(tuesday.sentence).not.toMatch(/\d+ forecasts/);
  });
});

describe('work and clock on a single forecast', () => {
  it('carry the label too', async () => {
    const file = saved('work.json', answer(2));
    const { answer: found } = await daysOf(file);
    const { date } = found.days.find(({ rank }) => rank === 1)!;
    const work = await run(['work', REAL_JOB, '--weather', file, '--day', date], { nowMs: NOW_MS });
    expect(work.code).toBe(0);
    expect(flat(work.out)).toContain(LABEL);
    expect(flat(work.out)).not.toMatch(/of \d+ forecasts|% of forecasts/);
    const json = await run(['work', REAL_JOB, '--weather', file, '--day', date, '--json'], {
      nowMs: NOW_MS,
    });
    expect(workAnswerSchema.parse(JSON.parse(json.out)).weather.made).toBe(true);
    const clock = ['clock', 'contact-solvent', '--coated', `${date}T11:00`, '--job', REAL_JOB];
    const told = await run([...clock, '--weather', file, '--json'], { nowMs: NOW_MS });
    const { weather, touchDry } = clockAnswerSchema.parse(JSON.parse(told.out));
    expect(weather).toMatchObject({ made: true, count: 31 });
    expect(touchDry!.earlyMs!).toBeLessThan(touchDry!.lateMs!);
  });
});

describe('the chance from made forecasts', () => {
  it('lies between even and that of as many real ones, and gives none its due', () => {
    for (const leadDays of [0, 1, 3, 7]) {
      for (const count of [1, 10, 20, 31]) {
        const args = { count, of: 31, crossFit: count / 31, leadDays };
        const real = adjustChance(args).adjusted!;
        const made = adjustChance({ ...args, made: true }).adjusted!;
        // A clean count of either is no surer than the count allows, which may be the same for both.
        expect(made === real || Math.abs(made - 0.5) < Math.abs(real - 0.5)).toBe(true);
        expect(made === real).toBe(count === 31 && leadDays === 0);
        expect(Math.sign(made - 0.5)).toBe(Math.sign(real - 0.5));
      }
    }
    const none = adjustChance({ count: 0, of: 31, crossFit: 0, leadDays: 1, made: true });
    expect(none).toMatchObject({ tenths: 0, words: 'none of 31 made from one forecast' });
  });

  it('never says over 9 in 10, not even today with all of them', () => {
    const { words } = adjustChance({ count: 31, of: 31, crossFit: 1, leadDays: 0, made: true });
    expect(words).toBe('about 9 in 10');
  });
});
