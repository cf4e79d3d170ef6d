/** Limits of a product: met, broken, and exactly on them; and the sentences a clock answers with. */
import { describe, expect, it } from 'vitest';
import { dewPointC } from '../../src/physics/index.ts';
import { askClock } from '../../src/planner/index.ts';
import {
  brokenLimits,
  buildDoseTable,
  type Conditions,
  constantFilm,
  type Product,
} from '../../src/products/index.ts';
import { productById } from '../accuracy/clock-products.ts';

const from = (value: number) => ({ value, source: 'user' as const });
const LIMITED: Product = {
  ...productById('contact-solvent'),
  limits: {
    airMinC: from(5),
    airMaxC: from(35),
    surfaceMinC: from(6),
    surfaceMaxC: from(50),
    dewMarginMinK: from(3),
    relHumMaxPct: from(80),
    afterMinC: from(5),
    hoursAfter: from(24),
  },
};
const GOOD: Conditions = { airTempC: 20, surfaceTempC: 22, dewPointC: 9 };

describe('the limits of a product', () => {
  it('are all met in fair weather', () => {
    expect(brokenLimits(LIMITED, GOOD)).toEqual([]);
  });

  it.each([
    [
      'airMinC',
      { airTempC: 5, dewPointC: 0 },
      { airTempC: 4.9, dewPointC: 0 },
      'air 4.9 °C, at least 5.0 °C asked',
    ],
    ['airMaxC', { airTempC: 35 }, { airTempC: 35.1 }, 'air 35.1 °C, at most 35.0 °C allowed'],
    [
      'surfaceMinC',
      { surfaceTempC: 6, dewPointC: 0 },
      { surfaceTempC: 5.9, dewPointC: 0 },
      'surface 5.9 °C, at least 6.0 °C asked',
    ],
    [
      'surfaceMaxC',
      { surfaceTempC: 50 },
      { surfaceTempC: 50.1 },
      'surface 50.1 °C, at most 50.0 °C allowed',
    ],
    [
      'dewMarginMinK',
      { surfaceTempC: 12.1, dewPointC: 9.1 },
      { surfaceTempC: 12, dewPointC: 9.1 },
      'surface 2.9 K above dew point, at least 3 K asked',
    ],
    [
      'relHumMaxPct',
      { dewPointC: dewPointC({ airTempC: 20, relHumPct: 80 }) },
      { dewPointC: dewPointC({ airTempC: 20, relHumPct: 82 }) },
      'humidity 82 %, at most 80 % allowed',
    ],
  ] as const)(
    '%s: on the limit is inside, past it is named with what is and what is asked',
    (key, on, past, words) => {
      expect(brokenLimits(LIMITED, { ...GOOD, ...on })).toEqual([]);
      const broken = brokenLimits(LIMITED, { ...GOOD, ...past });
      expect(broken.map((b) => b.limit)).toEqual([key]);
      expect(broken[0]).toMatchObject({ words, source: 'user', need: LIMITED.limits[key]!.value });
    },
  );

  it('on the dew margin is inside at any temperature, though differences round', () => {
    for (let tenths = -50; tenths < 200; tenths += 1) {
      const now = {
        airTempC: 20,
        surfaceTempC: Math.fround((tenths + 30) / 10),
        dewPointC: Math.fround(tenths / 10),
      };
      const broken = brokenLimits({ ...LIMITED, limits: { dewMarginMinK: from(3) } }, now);
      expect(broken, `dew point ${tenths / 10}`).toEqual([]);
    }
  });

  it('several are named at once, and a minus sign is a minus sign', () => {
    const broken = brokenLimits(LIMITED, { airTempC: -2, surfaceTempC: -3.5, dewPointC: -2 });
    expect(broken.map((b) => b.limit)).toEqual([
      'airMinC',
      'surfaceMinC',
      'dewMarginMinK',
      'relHumMaxPct',
    ]);
    expect(broken[1]!.words).toBe('surface −3.5 °C, at least 6.0 °C asked');
  });

  it('a limit the sheet does not have cannot be broken', () => {
    const free: Product = { ...LIMITED, limits: {} };
    expect(brokenLimits(free, { airTempC: -20, surfaceTempC: 80, dewPointC: -20 })).toEqual([]);
  });

  it('an unknown temperature is an error, never a limit met', () => {
    for (const key of ['airTempC', 'surfaceTempC', 'dewPointC'] as const)
      expect(() => brokenLimits(LIMITED, { ...GOOD, [key]: Number.NaN })).toThrow(RangeError);
  });

  it('air that forecasts print a hair below its dew point counts as 100 %', () => {
    const broken = brokenLimits(LIMITED, { airTempC: 12, surfaceTempC: 20, dewPointC: 12.3 });
    expect(broken.map((b) => b.words)).toEqual(['humidity 100 %, at most 80 % allowed']);
  });
});

describe('what a clock answers', () => {
  const COATED = Date.UTC(2026, 4, 12, 8);
  const ask = (
    id: string,
    air: { airTempC: number; relHumPct: number; surfaceTempC?: number },
    hours = 72,
  ) => {
    const product = productById(id);
    const surfaceTempC = air.surfaceTempC ?? air.airTempC;
    const dew = dewPointC(air);
    const film = constantFilm({ startMs: COATED, hours, surfaceTempC, dewPointC: dew, windMps: 1 });
    return askClock({
      product,
      doses: buildDoseTable(product, film),
      coatedMs: COATED,
      conditions: [{ airTempC: air.airTempC, surfaceTempC, dewPointC: dew }],
      timeZone: 'Europe/Dublin',
    });
  };

  it('touch dry: about when, from when to when, until when usable, and who decides', () => {
    const { sentence, wontDry, outside } = ask('contact-solvent', { airTempC: 20, relHumPct: 50 });
    // Coated 09:00 local; 17.5 min (10 to 25), open 90 min by the sheet.
    expect(sentence).toBe(
      'Touch dry about 09:17 (09:10 to 09:25); usable until 10:30. The finger test decides.',
    );
    expect(wontDry).toBeNull();
    expect(outside).toEqual([]);
  });

  it('laid wet: at once, and until when at the earliest', () => {
    const { sentence } = ask('deck-adhesive-wet-lay', { airTempC: 20, relHumPct: 50 });
    expect(sentence).toBe('Close it wet, at once: usable until 09:10, 09:05 at the earliest.');
  });

  it('tape: holds once rolled', () => {
    const { sentence, clock } = ask('seam-tape', { airTempC: 20, relHumPct: 50 });
    expect(sentence).toContain('has no drying time: it holds once rolled.');
    expect(clock).toEqual({ touchDry: null, usableUntil: null, rainAfter: null });
  });

  it('sealant: skinned about when', () => {
    const { sentence } = ask('lap-sealant', { airTempC: 20, relHumPct: 50 });
    // 40 min (20 to 60); clock times drop the seconds, so a rounding below 40 min reads 39.
    expect(sentence).toMatch(
      /^Skinned, and rain no longer harms it, about 09:(39|40) \(09:(19|20) to (09:59|10:00)\)\.$/,
    );
  });

  it('frozen water-borne film: will not dry, and why; the broken limits come with it', () => {
    const { sentence, wontDry, outside } = ask('deck-adhesive-two-side', {
      airTempC: 1,
      relHumPct: 70,
      surfaceTempC: -2,
    });
    expect(wontDry).toMatch(/^It will not dry: the surface is frozen or at the dew point/);
    expect(sentence).toContain(wontDry!);
    expect(sentence).toContain(
      'Outside the data sheet: air 1.0 °C, at least 10.0 °C asked; surface −2.0 °C',
    );
    expect(outside.length).toBeGreaterThanOrEqual(2);
  });

  it('saturated air: will not dry either', () => {
    const { wontDry, sentence } = ask('deck-adhesive-two-side', { airTempC: 15, relHumPct: 100 });
    expect(wontDry).toMatch(/^It will not dry/);
    expect(sentence).not.toMatch(/touch dry about/i);
  });

  it('frozen sealant: will not cure', () => {
    expect(ask('lap-sealant', { airTempC: -3, relHumPct: 80 }).wontDry).toMatch(
      /^It will not cure: the film is frozen/,
    );
  });

  it('too slow for the hours looked at is said as that, not as never', () => {
    const { wontDry } = ask('deck-adhesive-two-side', { airTempC: 11, relHumPct: 85 }, 1);
    expect(wontDry).toBe('It does not get touch dry in the 1 h looked at.');
  });

  it('outside the data sheet nothing is called ready, and open time is counted on the fast side', () => {
    const { sentence, clock, outside } = ask('contact-solvent', { airTempC: 3, relHumPct: 60 });
    expect(outside).toEqual([
      'air 3.0 °C, at least 5.0 °C asked',
      'surface 3.0 °C, at least 5.0 °C asked',
    ]);
    expect(sentence).toMatch(/^Not to be called ready\. Outside the data sheet: air 3\.0/);
    expect(sentence).not.toContain('Touch dry about');
    const early = new Date(clock.usableUntil!.earlyMs! + 3_600_000).toISOString().slice(11, 16);
    expect(sentence).toContain(`usable until ${early} at most`);
    // The clock itself has not stopped.
    expect(clock.touchDry!.midMs).not.toBeNull();
  });

  it('half the forecasts outside are enough, fewer are not', () => {
    const product = productById('contact-solvent');
    const film = constantFilm({
      startMs: COATED,
      hours: 12,
      surfaceTempC: 20,
      dewPointC: 9,
      windMps: 1,
    });
    const outsideOf = (cold: number): readonly string[] =>
      askClock({
        product,
        doses: buildDoseTable(product, film),
        coatedMs: COATED,
        conditions: Array.from({ length: 10 }, (_, k) =>
          k < cold
            ? { airTempC: 4, surfaceTempC: 20, dewPointC: 0 }
            : { airTempC: 15, surfaceTempC: 20, dewPointC: 0 },
        ),
        timeZone: 'UTC',
      }).outside;
    expect(outsideOf(4)).toEqual([]);
    expect(outsideOf(5)).toEqual(['air 4.0 °C, at least 5.0 °C asked']);
  });

  it('coated after the forecast ends: there is no saying', () => {
    const product = productById('contact-solvent');
    const film = constantFilm({
      startMs: COATED,
      hours: 2,
      surfaceTempC: 20,
      dewPointC: 9,
      windMps: 1,
    });
    const { wontDry } = askClock({
      product,
      doses: buildDoseTable(product, film),
      coatedMs: COATED + 5 * 3_600_000,
      conditions: [GOOD],
      timeZone: 'UTC',
    });
    expect(wontDry).toContain('The forecast does not reach the time it was coated');
  });
});
