/** Limits of a product: met, broken, and exactly on them. */
import { describe, expect, it } from 'vitest';
import { dewPointC } from '../../src/physics/index.ts';
import { brokenLimits, type Conditions, type Product } from '../../src/products/index.ts';
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
