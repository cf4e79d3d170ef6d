import { describe, expect, it } from 'vitest';
import { answerClockForecast, answerNow } from '../../src/answers/index.ts';
import { NOTHING_DONE } from '../../src/planner/index.ts';
import type { QuarterRain } from '../../src/weather/index.ts';
import { jobOf, SHELF } from '../fixtures/planner/job.ts';
import { type WeatherOptions, weatherOf } from '../fixtures/planner/weather.ts';

/**
 * The way on where a short-range run knows the quarter hour of the rain. The site keeps Irish time, an hour
 * ahead of UTC: the forecasts' rain falls from 10:00 to 11:00 there, at an unknown minute.
 */
const RAIN_IN_THE_HOUR: WeatherOptions = { members: 5, rainMm: (h) => (h === 10 ? 1 : 0) };
const DRY: WeatherOptions = { members: 5 };

/** Quarters from 09:00 to 12:00 site time, of which those from 10:00 on are given. */
const run = (rainMm: readonly number[], changes: Partial<QuarterRain> = {}): QuarterRain => ({
  model: 'ICON-D2',
  startMs: Date.parse('2026-05-13T08:15:00Z'),
  rainMm: Float64Array.of(0, 0, 0, 0, ...rainMm),
  lightningJkg: null,
  knownMs: Date.parse('2026-05-13T08:00:00Z'),
  ...changes,
});
const AT_10_15 = run([0, 1.2, 0, 0, 0, 0, 0, 0]);

const asked = (time: string, weather: WeatherOptions, quarterRain?: QuarterRain) => {
  const atMs = Date.parse(`2026-05-13T${time}:00+01:00`);
  const hourly = weatherOf(weather);
  const done = [{ name: '..field-2-1', atMs: null }];
  const result = answerNow({
    ready: jobOf('net-hall', { confidence: 0.8 }),
    hourly: quarterRain === undefined ? hourly : { ...hourly, quarterRain },
    nowMs: atMs,
    atMs,
    work: { kind: 'told', state: { ...NOTHING_DONE, done } },
  });
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join(' '));
  return result.answer;
};
const outcomes = (answer: ReturnType<typeof asked>, id: string) =>
  answer.ways.find((way) => way.id === id)!.outcomes;

describe('rain at 10:15 instead of at any minute from 10:00 on', () => {
  const evenly = asked('09:15', RAIN_IN_THE_HOUR);
  const timed = asked('09:15', RAIN_IN_THE_HOUR, AT_10_15);

  it('changes the way on: there is time to finish what is bonded', () => {
    expect(evenly.call).toBe('close-up');
    expect(outcomes(evenly, 'open-no-more')).toMatchObject({ caughtOpen: 5, shortened: 0 });
    expect(timed.call).toBe('open-no-more');
    expect(outcomes(timed, 'open-no-more')).toMatchObject({ caughtOpen: 0, shortened: 5 });
    expect(evenly.rain.foreseenMs).toBe(Date.parse('2026-05-13T10:00:00+01:00'));
    expect(timed.rain.foreseenMs).toBe(Date.parse('2026-05-13T10:15:00+01:00'));
  });

  it('is labelled with the model and how far it reaches; without it nothing is said', () => {
    expect(timed.weather.notes).toContain(
      'rain of the next 2 h timed by 15-minute data of ICON-D2, in fewer forecasts the further ahead',
    );
    expect(timed.notes).toContain(
      'ICON-D2 by the quarter hour has rain from 10:15; 5 of 5 forecasts have some by 11:15. It times their rain and is not counted among them. Look at the sky.',
    );
    expect(`${evenly.weather.notes} ${evenly.notes}`).not.toMatch(/15-minute|ICON|quarter/);
  });

  it('once the hour is past, nothing says it is timed', () => {
    expect(asked('11:30', RAIN_IN_THE_HOUR, AT_10_15).weather.notes.join()).not.toMatch(/timed/);
  });
});

describe('the run is not one more forecast', () => {
  const dry = asked('09:15', DRY);

  it('where the forecasts are dry its rain changes no number and is told beside them', () => {
    const told = asked('09:15', DRY, AT_10_15);
    expect({ ...told, notes: [] }).toEqual({ ...dry, notes: [] });
    expect(told.notes.join()).toContain(
      'ICON-D2 by the quarter hour has rain from 10:15; 0 of 5 forecasts have some by 11:15.',
    );
  });

  it('where it is dry and forecasts are not, both are told', () => {
    const told = asked('09:30', RAIN_IN_THE_HOUR, run([0, 0, 0, 0, 0, 0, 0, 0]));
    expect(told.notes.join()).toContain(
      'ICON-D2 by the quarter hour has no rain for 2 h; 5 of 5 forecasts have some by 11:30.',
    );
    expect(told.rain.foreseenMs).toBe(Date.parse('2026-05-13T10:00:00+01:00'));
  });

  it('nothing is told of two hours it does not know whole, nor by an old run', () => {
    for (const quarters of [
      run([0, 1.2, 0, 0]),
      run([0, 1.2, Number.NaN, 0, 0, 0, 0, 0]),
      run([0, 1.2, 0, 0, 0, 0, 0, 0], { knownMs: Date.parse('2026-05-13T01:00:00Z') }),
    ])
      expect(asked('09:15', DRY, quarters).notes).toEqual(dry.notes);
  });
});

describe('lightning', () => {
  const withPotential = (jkg: number) =>
    asked('09:15', DRY, {
      ...run(new Array(8).fill(0)),
      lightningJkg: Float64Array.of(0, 0, Number.NaN, 0, 0, 0, 0, 0, 0, 0.2, jkg, 4),
    }).notes.join();

  it('is told from when it is possible, with the rule for thunder; that there is none is never told', () => {
    expect(withPotential(35)).toContain(
      'ICON-D2 has lightning possible from about 11:30: plan to be off the roof, and off it at the first thunder until 30 minutes after the last.',
    );
    expect(withPotential(0.2)).toContain('from about 11:45');
    expect(asked('09:15', DRY, run(new Array(8).fill(0))).notes.join()).not.toMatch(/lightning/);
  });
});

describe('weather notes', () => {
  it('speak in the site’s own time, of whatever was kept with the forecast', () => {
    const hourly = weatherOf(DRY);
    const kept = 'the forecast ends at 2026-05-15T00:30Z; later hours are unknown';
    const source = { ...hourly.source, notes: [kept, 'first at 2026-12-01T06:00:00Z'] };
    const coatedMs = Date.parse('2026-05-13T10:00:00Z');
    const answer = answerClockForecast({
      product: [...SHELF.values()].find(({ touchDry }) => touchDry !== null)!,
      hourly: { ...hourly, source },
      coatedMs,
      job: null,
      timeZone: 'Europe/Dublin',
    });
    if (!answer.ok) throw new Error(answer.issues[0]!.message);
    expect(answer.answer.weather!.notes).toEqual([
      'the forecast ends at Fri 15 May 01:30; later hours are unknown',
      'first at Tue 1 Dec 06:00',
    ]);
  });
});
