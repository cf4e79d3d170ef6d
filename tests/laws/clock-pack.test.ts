/**
 * What must hold of a clock pack. It is held against the clock it was made from (`whenReached`,
 * `readClock`, which tests/published and tests/laws/clock.test.ts hold against sources) and against Math.exp.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answerClockPack } from '../../src/answers/index.ts';
import { prepare } from '../../src/planner/index.ts';
import {
  type ClockPack,
  type ClockRange,
  decodePack,
  encodePack,
  type PackTimes,
  readClock,
  readPack,
  whenReached,
} from '../../src/products/index.ts';
import { expExact } from '../../src/products/pack/exponential.ts';
import { progressAt, runningTotal, wholeSteps } from '../../src/products/pack/steps.ts';
import { packOf, randomQuestions } from '../fixtures/planner/clock-pack.ts';
import { earlyOn, jobOf } from '../fixtures/planner/job.ts';
import { HOUR_MS, MINUTE_MS, type WeatherOptions, weatherOf } from '../fixtures/planner/weather.ts';

const DATE = '2026-05-13';
const ready = jobOf('parish-room');
const spread: WeatherOptions = {
  members: 11,
  airTempC: (h, m) => 12 + 0.8 * m + 4 * Math.sin(((h - 9) * Math.PI) / 12),
  dewPointC: (_h, m) => 2 + 0.3 * m,
  windMps: (h, m) => 2 + ((h * 7 + m * 5) % 5),
};
const one = packOf(ready, weatherOf(), DATE);
const many = packOf(ready, weatherOf(spread), DATE);

function ask(
  productId: string,
  surface: 'deck' | 'sheet' | 'folded-sheet' | 'upstand',
  coatedMs: number,
  pack: ClockPack = many,
): PackTimes {
  const answer = readPack(pack, { productId, surfaces: [surface], coatedMs, shifts: [] });
  if (!answer.ok) throw new Error(answer.why);
  return answer;
}

const NAMES = ['touchDry', 'usableUntil', 'rainAfter', 'footTraffic', 'fullCure'] as const;
const ranges = (answer: PackTimes): ClockRange[] => NAMES.flatMap((name) => answer[name] ?? []);
const beyond = (ms: number | null): number => ms ?? Number.POSITIVE_INFINITY;
const knownEnd = (pack: ClockPack): number => pack.startMs + pack.knownSteps * pack.stepMs;
const moments = (pack: ClockPack) => fc.integer({ min: pack.startMs, max: knownEnd(pack) - 1 });
const clocks = fc.constantFrom(...many.clocks);

describe('a clock pack of one forecast', () => {
  const hourly = weatherOf();
  const prepared = prepare({ ...ready, hourly, nowMs: earlyOn(hourly) });

  it('gives the clock’s own times, to within a step', () => {
    let asked = 0;
    fc.assert(
      fc.property(fc.constantFrom(...one.clocks), moments(one), (clock, coatedMs) => {
        const product = prepared.productById.get(clock.productId)!;
        const table = prepared.doses(clock.productId, clock.surface);
        const answer = ask(clock.productId, clock.surface, coatedMs, one);
        for (const event of ['touchDry', 'rainAfter', 'footTraffic', 'fullCure'] as const) {
          const time = product[event];
          if (time === null) continue;
          const full = whenReached(table, event, 0, coatedMs, time.typicalMin);
          const within = full !== null && full < knownEnd(one) - one.stepMs ? full : null;
          if (within === null) continue;
          asked += 1;
          expect(Math.abs(answer[event]!.midMs! - within)).toBeLessThanOrEqual(one.stepMs);
        }
      }),
      { numRuns: 300 },
    );
    expect(asked).toBeGreaterThan(50);
  });
});

describe('a clock pack of many forecasts', () => {
  it('gives the ranges of the clock where each forecast keeps its place among the others', () => {
    const steady: WeatherOptions = {
      members: 11,
      airTempC: (_h, m) => 10 + m,
      windMps: () => 2,
      solarWm2: () => 0,
      cloudPct: () => 100,
    };
    const hourly = weatherOf(steady);
    const prepared = prepare({ ...ready, hourly, nowMs: earlyOn(hourly) });
    const pack = packOf(ready, hourly, DATE);
    const coatedMs = Date.parse(`${DATE}T09:07:13Z`);
    for (const surface of ['deck', 'sheet'] as const) {
      const product = prepared.productById.get('contact-solvent')!;
      const clock = readClock(product, prepared.doses(product.id, surface), coatedMs);
      const answer = ask(product.id, surface, coatedMs, pack);
      for (const end of ['earlyMs', 'midMs', 'lateMs'] as const) {
        expect(Math.abs(answer.touchDry![end]! - clock.touchDry![end]!)).toBeLessThan(2000);
        expect(Math.abs(answer.usableUntil![end]! - clock.usableUntil![end]!)).toBeLessThan(2000);
      }
    }
  });

  it('never has an early time after a middle one, nor a middle after a late one', () => {
    for (const question of randomQuestions(many, 3000, 1)) {
      const answer = readPack(many, question);
      if (!answer.ok) continue;
      for (const { earlyMs, midMs, lateMs } of ranges(answer)) {
        expect(beyond(earlyMs)).toBeLessThanOrEqual(beyond(midMs));
        expect(beyond(midMs)).toBeLessThanOrEqual(beyond(lateMs));
      }
    }
  });

  it('never has a film that was coated later ready sooner', () => {
    fc.assert(
      fc.property(clocks, moments(many), moments(many), (clock, a, b) => {
        const sooner = ranges(ask(clock.productId, clock.surface, Math.min(a, b)));
        const later = ranges(ask(clock.productId, clock.surface, Math.max(a, b)));
        sooner.forEach((range, n) => {
          for (const end of ['earlyMs', 'midMs', 'lateMs'] as const) {
            expect(beyond(range[end])).toBeLessThanOrEqual(beyond(later[n]![end]));
          }
        });
      }),
      { numRuns: 500 },
    );
  });

  it('survives being written out and read in, number by number', () => {
    const read = decodePack(JSON.stringify(encodePack(many)));
    expect(read).toEqual({ ok: true, pack: many });
  });

  it('joins faces by the latest touch dry from the last square metre and the earliest end from the first', () => {
    const firstMs = Date.parse(`${DATE}T09:00:00Z`);
    const lastMs = firstMs + 25 * MINUTE_MS;
    const both = readPack(many, {
      productId: 'contact-solvent',
      surfaces: ['deck', 'upstand'],
      coatedMs: firstMs,
      lastCoatedMs: lastMs,
      shifts: [],
    });
    if (!both.ok || both.window === null) throw new Error('no window');
    const at = (coatedMs: number) => [
      ask('contact-solvent', 'deck', coatedMs),
      ask('contact-solvent', 'upstand', coatedMs),
    ];
    expect(both.window.opens.midMs).toBe(
      Math.max(...at(lastMs).map((face) => face.touchDry!.midMs!)),
    );
    expect(both.window.shuts.earlyMs).toBe(
      Math.min(...at(firstMs).map((face) => face.usableUntil!.earlyMs!)),
    );
    const tooSlow = readPack(many, {
      productId: 'contact-solvent',
      surfaces: ['deck'],
      coatedMs: firstMs,
      lastCoatedMs: firstMs + 3 * HOUR_MS,
      shifts: [],
    });
    expect(tooSlow.ok && tooSlow.window?.state).toBe('empty');
  });
});

describe('whole numbers', () => {
  it('splitting an interval changes nothing, not by one', () => {
    const steps = fc.array(fc.nat(3000), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(steps, fc.array(fc.double({ min: 0, max: 1, noNaN: true })), (list, cuts) => {
        const track = {
          startMs: 1000,
          stepMs: 300_000,
          knownSteps: list.length,
          total: runningTotal(Int32Array.from(list)),
        };
        const endMs = track.startMs + list.length * track.stepMs;
        const at = [0, ...cuts, 1]
          .map((share) => Math.round(track.startMs + share * (endMs - track.startMs)))
          .sort((a, b) => a - b);
        // Each part added up by hand, step by step: rate times the milliseconds spent in it.
        const byHand = (fromMs: number, toMs: number): number =>
          list.reduce((sum, step, i) => {
            const stepMs = track.startMs + i * track.stepMs;
            const spentMs = Math.min(toMs, stepMs + track.stepMs) - Math.max(fromMs, stepMs);
            return sum + step * Math.max(0, spentMs);
          }, 0);
        let parts = 0;
        at.slice(1).forEach((ms, n) => {
          const part = progressAt(track, ms) - progressAt(track, at[n]!);
          expect(part).toBe(byHand(at[n]!, ms));
          parts += part;
        });
        expect(parts).toBe(byHand(track.startMs, endMs));
      }),
    );
  });

  it('round step by step without the rounding adding up', () => {
    const gains = fc.array(fc.double({ min: 0, max: 40, noNaN: true }), { maxLength: 300 });
    fc.assert(
      fc.property(gains, (list) => {
        let exact = 0;
        let whole = 0;
        wholeSteps(list).forEach((step, i) => {
          exact += list[i]!;
          whole += step;
          expect(Math.abs(whole - exact)).toBeLessThanOrEqual(0.5 + 1e-9);
        });
      }),
    );
  });

  it('the exponential of sums and products is that of the standard library', () => {
    for (let x = -30; x <= 30; x += 0.0137) {
      expect(Math.abs(expExact(x) / Math.exp(x) - 1)).toBeLessThan(1e-12);
    }
    expect(expExact(0)).toBe(1);
  });
});

describe('the time a clock pack covers', () => {
  const dayOf = (date: string, changes: Parameters<typeof jobOf>[1] = {}, hours = 24 * 4) => {
    const start = new Date(Date.parse(`${date}T00:00:00Z`) - 24 * HOUR_MS).toISOString();
    return packOf(jobOf('parish-room', changes), weatherOf({ start, hours }), date);
  };
  const hoursOf = (pack: ClockPack): number => (pack.steps * pack.stepMs) / HOUR_MS;

  it('is 20 hours from two before sunrise, on days of 23, 24 and 25 hours', () => {
    // Dublin: clocks go forward on 29 March 2026 and back on 25 October 2026 (IANA time zone database).
    for (const date of ['2026-03-28', '2026-03-29', '2026-05-13', '2026-10-25', '2026-10-26']) {
      const pack = dayOf(date);
      expect(hoursOf(pack)).toBeGreaterThanOrEqual(20);
      expect(hoursOf(pack)).toBeLessThan(20.2);
      expect(pack.knownSteps).toBe(pack.steps);
      const noonMs = Date.parse(`${date}T12:00:00Z`);
      const touchDry = ask('contact-solvent', 'deck', noonMs, pack).touchDry!;
      expect(touchDry.midMs! - noonMs).toBeGreaterThan(5 * MINUTE_MS);
      expect(touchDry.midMs! - noonMs).toBeLessThan(60 * MINUTE_MS);
    }
  });

  it('starts two hours before the crew where the sun is later, or stays up or away all day', () => {
    const north = { site: { latitudeDeg: 69.6, longitudeDeg: 18.9, timeZone: 'Europe/Oslo' } };
    const start = jobOf('parish-room').job.crew.dayStart;
    for (const date of ['2026-06-21', '2026-12-21']) {
      const zone = date.includes('-06-') ? '+02:00' : '+01:00';
      const crewMs = Date.parse(`${date}T${start}:00${zone}`);
      const pack = dayOf(date, { ...north, earliest: null, latest: null });
      expect(crewMs - pack.startMs).toBe(2 * HOUR_MS);
      expect(hoursOf(pack)).toBe(20);
    }
  });

  it('says so where the forecast ends in the middle of the day', () => {
    const pack = packOf(ready, weatherOf({ hours: 12 }), DATE);
    expect(knownEnd(pack)).toBe(Date.parse(`${DATE}T12:00:00Z`));
    const late = { productId: 'contact-solvent', surfaces: ['deck'] as const, shifts: [] };
    const atNoon = readPack(pack, { ...late, coatedMs: knownEnd(pack) });
    expect(atNoon).toEqual({ ok: false, why: 'The forecast ends before it was coated.' });
    const justBefore = ask('contact-solvent', 'deck', knownEnd(pack) - MINUTE_MS, pack);
    expect(justBefore.touchDry).toEqual({ earlyMs: null, midMs: null, lateMs: null });
    expect(justBefore.knownUntilMs).toBe(knownEnd(pack));
    expect(justBefore.window?.state).toBe('not known');
  });

  it('ends where fewer than half of the forecasts go on', () => {
    const ends = (h: number, m: number): number => (h > 8 + m ? Number.NaN : 15);
    const pack = packOf(ready, weatherOf({ members: 5, airTempC: ends }), DATE);
    // Forecasts 0 to 4 end after 8 to 12 hours: three of five, which is half and more, reach 10:00.
    expect(knownEnd(pack)).toBe(Date.parse(`${DATE}T10:00:00Z`));
  });

  it('says so where no forecast knows anything', () => {
    const nothing = weatherOf({ members: 3, airTempC: () => Number.NaN });
    const ask = (hourly: ReturnType<typeof weatherOf>, date: string) => {
      const result = answerClockPack(ready, hourly, Date.parse(`${DATE}T04:00:00Z`), date);
      return result.ok ? 'made' : result.issues[0]!.message;
    };
    expect(ask(nothing, DATE)).toBe(`day is ${DATE}; the forecast says nothing of any hour.`);
    const half = weatherOf({ airTempC: (h) => (h > 12 ? Number.NaN : 15) });
    expect(ask(half, '2026-05-14')).toBe(
      'day is 2026-05-14; the forecast runs from Wed 13 May 01:00 to Wed 13 May 13:00.',
    );
    const empty = { ...many, knownSteps: 0 };
    const coatedMs = empty.startMs;
    expect(
      readPack(empty, { productId: 'contact-solvent', surfaces: ['deck'], coatedMs, shifts: [] }),
    ).toEqual({ ok: false, why: 'The forecast says nothing of this day.' });
  });
});
