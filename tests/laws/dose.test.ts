/** What must hold of the running total of drying and of the times read off it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { magnusWaterHPa } from '../../src/physics/index.ts';
import { buildDoseTable, rateAt, rateLaw, whenReached } from '../../src/products/index.ts';
import { productById } from '../accuracy/clock-products.ts';
import { real } from '../fixtures/weather/any-weather.ts';
import {
  clocks,
  days,
  fair,
  filmFrom,
  MINUTE,
  type Now,
  repeat,
} from '../fixtures/weather/films.ts';

describe('the running total', () => {
  it('never falls, starts at nothing and grows by the speed of each step', () => {
    fc.assert(
      fc.property(clocks, days, ({ product, event }, weather) => {
        const film = filmFrom([weather], { toFilm: 0.7 });
        const totalMin = buildDoseTable(product, film).total(event);
        const rate = rateLaw(product, event);
        expect(totalMin[0]).toBe(0);
        for (let i = 0; i < film.steps; i += 1) {
          const gained = totalMin[i + 1]! - totalMin[i]!;
          expect(gained).toBeGreaterThanOrEqual(0);
          const speed = rate({
            surfaceTempC: film.surfaceTempC[i]!,
            vapourHPa: magnusWaterHPa(film.dewPointC[i]!),
            windMps: film.windMps[i]! * 0.7,
            substrateWm2K: 10,
          });
          // A whole column runs the arithmetic of one moment: not a bit apart.
          expect(totalMin[i + 1]).toBe(totalMin[i]! + 5 * speed);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('is of the wind over its own film, though films of one roof share what the wind brings', () => {
    const windy = repeat(24, { surfaceTempC: 20, dewPointC: 8, windMps: 8 });
    const product = productById('contact-solvent');
    const open = filmFrom([windy], { toFilm: 0.9 });
    const sheltered = { ...open, toFilm: 0.4 };
    buildDoseTable(product, open).total('touchDry');
    expect([...buildDoseTable(product, sheltered).total('touchDry')]).toEqual([
      ...buildDoseTable(product, filmFrom([windy], { toFilm: 0.4 })).total('touchDry'),
    ]);
  });

  it('members do not touch each other', () => {
    const cold = repeat(24, { surfaceTempC: 5, dewPointC: 1, windMps: 1 });
    const warm = repeat(24, { surfaceTempC: 30, dewPointC: 10, windMps: 1 });
    const product = productById('contact-solvent');
    const both = buildDoseTable(product, filmFrom([cold, warm]));
    const alone = buildDoseTable(product, filmFrom([warm]));
    expect([...both.total('openUntil').subarray(25)]).toEqual([...alone.total('openUntil')]);
  });
});

describe('when it is reached', () => {
  it("is where the total has gained what was asked, to the millisecond's worth", () => {
    fc.assert(
      fc.property(
        clocks,
        days,
        real(0, 1),
        real(0.5, 60),
        ({ product, event }, weather, share, refMin) => {
          const film = filmFrom([weather]);
          const table = buildDoseTable(product, film);
          const fromMs = film.startMs + share * (film.steps - 1) * film.stepMs;
          const at = whenReached(table, event, 0, fromMs, refMin);
          /** Total at any instant, read slowly. */
          const total = (ms: number): number => {
            let sum = 0;
            for (let i = 0; i < film.steps; i += 1) {
              const inStep = Math.min(1, Math.max(0, (ms - film.startMs) / film.stepMs - i));
              sum += inStep * (table.total(event)[i + 1]! - table.total(event)[i]!);
            }
            return sum;
          };
          const whole = total(film.startMs + film.steps * film.stepMs) - total(fromMs);
          if (at === null) expect(whole).toBeLessThan(refMin + 1e-9);
          else {
            expect(at).toBeGreaterThan(fromMs);
            expect(total(at) - total(fromMs)).toBeCloseTo(refMin, 5);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it('in weather that does not change is minutes over speed, whenever it starts', () => {
    fc.assert(
      fc.property(
        clocks,
        fair,
        real(1, 60),
        real(0, 600),
        ({ product, event }, what, refMin, laterMin) => {
          const film = filmFrom([repeat(4000, what)]);
          const table = buildDoseTable(product, film);
          const speed = rateLaw(
            product,
            event,
          )({
            surfaceTempC: film.surfaceTempC[0]!,
            vapourHPa: magnusWaterHPa(film.dewPointC[0]!),
            windMps: film.windMps[0]!,
            substrateWm2K: 10,
          });
          fc.pre(refMin / speed < 10_000);
          const fromMs = film.startMs + laterMin * MINUTE;
          const at = whenReached(table, event, 0, fromMs, refMin)!;
          expect((at - fromMs) / MINUTE / (refMin / speed)).toBeCloseTo(1, 6);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('changes with nothing when forecast and coating are both moved by the same time', () => {
    fc.assert(
      fc.property(
        clocks,
        days,
        real(1, 40),
        fc.integer({ min: -1e6, max: 1e6 }),
        ({ product, event }, weather, refMin, moveMin) => {
          const here = filmFrom([weather]);
          const there = filmFrom([weather], { startMs: here.startMs + moveMin * MINUTE });
          const one = whenReached(
            buildDoseTable(product, here),
            event,
            0,
            here.startMs + 7 * MINUTE,
            refMin,
          );
          const two = whenReached(
            buildDoseTable(product, there),
            event,
            0,
            there.startMs + 7 * MINUTE,
            refMin,
          );
          if (one === null || two === null) expect(one).toBe(two);
          else expect(Math.abs(two - one - moveMin * MINUTE)).toBeLessThan(1);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('does not mind into how many steps the weather is cut', () => {
    fc.assert(
      fc.property(
        clocks,
        fc.array(fair, { minLength: 12, maxLength: 30 }),
        real(1, 30),
        ({ product, event }, weather, refMin) => {
          const whole = filmFrom([weather]);
          const cut = filmFrom([weather.flatMap((w) => repeat(5, w))], { stepMs: MINUTE });
          const one = whenReached(
            buildDoseTable(product, whole),
            event,
            0,
            whole.startMs + 2 * MINUTE,
            refMin,
          );
          const two = whenReached(
            buildDoseTable(product, cut),
            event,
            0,
            cut.startMs + 2 * MINUTE,
            refMin,
          );
          if (one === null || two === null) expect(one).toBe(two);
          else expect(Math.abs(one - two)).toBeLessThan(1);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('with a change half-way, the shares of both times add up to one', () => {
    fc.assert(
      fc.property(
        clocks,
        fair,
        fair,
        real(0.1, 0.9),
        ({ product, event }, first, second, share) => {
          const refMin = 20;
          const alone = (what: Now): number => {
            const film = filmFrom([repeat(6000, what)]);
            const at = whenReached(buildDoseTable(product, film), event, 0, film.startMs, refMin);
            return at === null ? Number.POSITIVE_INFINITY : (at - film.startMs) / MINUTE;
          };
          const [t1, t2] = [alone(first), alone(second)];
          fc.pre(Number.isFinite(t1) && Number.isFinite(t2) && t1 > 10);
          const steps = Math.max(1, Math.floor((share * t1) / 5));
          const film = filmFrom([[...repeat(steps, first), ...repeat(6000, second)]]);
          const at = whenReached(buildDoseTable(product, film), event, 0, film.startMs, refMin)!;
          const inSecond = (at - film.startMs) / MINUTE - steps * 5;
          expect((steps * 5) / t1 + inSecond / t2).toBeCloseTo(1, 5);
        },
      ),
      { numRuns: 80 },
    );
  });

  it('is never earlier for a later coating or for more minutes', () => {
    fc.assert(
      fc.property(
        clocks,
        days,
        real(0, 50),
        real(0, 50),
        real(1, 30),
        real(0, 30),
        ({ product, event }, weather, a, b, refMin, more) => {
          const film = filmFrom([weather]);
          const table = buildDoseTable(product, film);
          const late = Number.POSITIVE_INFINITY;
          const at = (fromMin: number, needMin: number): number =>
            whenReached(table, event, 0, film.startMs + fromMin * MINUTE, needMin) ?? late;
          expect(at(Math.max(a, b), refMin)).toBeGreaterThanOrEqual(
            at(Math.min(a, b), refMin) - 1e-3,
          );
          expect(at(a, refMin + more)).toBeGreaterThanOrEqual(at(a, refMin));
        },
      ),
      { numRuns: 100 },
    );
  });

  it('is not known before the forecast, past its known part, or where it ends first', () => {
    const product = productById('contact-solvent');
    const film = filmFrom([repeat(24, { surfaceTempC: 20, dewPointC: 9, windMps: 1 })], {
      knownSteps: Int32Array.of(12),
    });
    const table = buildDoseTable(product, film);
    const end = film.startMs + 60 * MINUTE;
    expect(whenReached(table, 'openUntil', 0, film.startMs - 1, 5)).toBeNull();
    expect(whenReached(table, 'openUntil', 0, end + 1, 5)).toBeNull();
    expect(whenReached(table, 'openUntil', 0, end + 1, 0)).toBeNull();
    expect(whenReached(table, 'openUntil', 0, end - 10 * MINUTE, 30)).toBeNull();
    expect(whenReached(table, 'openUntil', 0, film.startMs, 30)).not.toBeNull();
    expect(rateAt(table, 'openUntil', 0, end)).toBeNaN();
    expect(rateAt(table, 'openUntil', 0, film.startMs - 1)).toBeNaN();
    expect(rateAt(table, 'openUntil', 0, end - 1)).toBeGreaterThan(0);
  });

  it('nothing asked is reached at once, standing still or at the very end too', () => {
    const frozen = repeat(12, { surfaceTempC: -4, dewPointC: -8, windMps: 1 });
    const film = filmFrom([frozen]);
    const table = buildDoseTable(productById('deck-adhesive-two-side'), film);
    for (const minutes of [0, 7, 30, 58, 60])
      expect(whenReached(table, 'openUntil', 0, film.startMs + minutes * MINUTE, 0)).toBe(
        film.startMs + minutes * MINUTE,
      );
  });

  it('waits out a frost and goes on from where it stopped', () => {
    const fairNow = { surfaceTempC: 20, dewPointC: 9, windMps: 1 };
    const frost = { surfaceTempC: -2, dewPointC: -6, windMps: 1 };
    const product = productById('deck-adhesive-two-side');
    const through = filmFrom([repeat(60, fairNow)]);
    const held = filmFrom([[...repeat(2, fairNow), ...repeat(24, frost), ...repeat(60, fairNow)]]);
    const one = whenReached(buildDoseTable(product, through), 'openUntil', 0, through.startMs, 25)!;
    const two = whenReached(buildDoseTable(product, held), 'openUntil', 0, held.startMs, 25)!;
    expect(two - one).toBeCloseTo(24 * 5 * MINUTE, -1);
  });
});
