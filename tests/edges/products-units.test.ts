import { describe, expect, it } from 'vitest';
import {
  convertCoverage,
  convertPrinted,
  type Quantity,
  standsFor,
} from '../../src/products/printed-units.ts';

/**
 * Printed units. Expected values from NIST SP 811 (2008), appendix B.8 and B.9: 1 ft = 0.3048 m,
 * 1 lb = 0.453 592 37 kg, 1 US gallon = 3.785 412 L, 1 imperial gallon = 4.546 09 L, 1 mph = 0.447 04 m/s,
 * 1 knot = 0.514 444 m/s, °C = (°F - 32)/1.8, a difference of 1 °F = 1/1.8 K.
 */

const read = (quantity: Quantity, value: number, unit: string): number => {
  const converted = convertPrinted(quantity, value, unit);
  if (!converted.ok) throw new Error(converted.accepted);
  return converted.value;
};
const covers = (value: number, unit: string) => {
  const converted = convertCoverage(value, unit);
  if (!converted.ok) throw new Error(converted.accepted);
  return converted;
};

describe('printed figures', () => {
  it.each([
    ['temperature', 212, '°F', 100],
    ['temperature', 40, '°F', 40 / 1.8 - 32 / 1.8],
    ['temperature', -40, 'F', -40],
    ['temperature', 23, '°C', 23],
    ['difference', 5, '°F', 5 / 1.8],
    ['difference', 3, '°C', 3],
    ['humidity', 85, '%', 85],
    ['time', 1.5, 'h', 90],
    ['time', 90, 's', 1.5],
    ['time', 3, 'days', 4320],
    ['hours', 2, 'd', 48],
    ['hours', 30, 'min', 0.5],
    ['speed', 10, 'mph', 4.4704],
    ['speed', 10, 'kn', 5.14444],
    ['speed', 36, 'km/h', 10],
    ['speed', 100, 'ft/min', 0.508],
    ['length', 10, 'ft', 3.048],
    ['length', 120, 'in', 3.048],
    ['weight', 0.4, 'lb/ft2', (0.4 * 0.45359237) / 0.09290304],
  ] as const)('%s %d %s', (quantity, value, unit, ours) => {
    expect(read(quantity, value, unit)).toBeCloseTo(ours, 5);
  });

  it.each([
    [100, 'ft2/gal US', 'm2/L', 2.4542],
    [100, 'ft2/gal imp', 'm2/L', 2.0436],
    // 1 US gallon on 100 ft2 is 40.746 mils wet: 0.4075 L on a square metre.
    [1, 'gal US/100 ft2', 'm2/L', 1 / 0.40746],
    [0.4, 'L/m2', 'm2/L', 2.5],
    [400, 'ml/m2', 'm2/L', 2.5],
    [225, 'g/m2', 'm2/kg', 4.4444],
    [0.25, 'kg/m2', 'm2/kg', 4],
    [20, 'ft2/lb', 'm2/kg', 4.0963],
    [5, 'lb/100 ft2', 'm2/kg', 4.0963],
    [300, 'mm apart', 'm2/m', 0.3],
    [12, 'in apart', 'm2/m', 0.3048],
    [40, 'ml/m', 'm/L', 25],
    [100, 'ft/gal US', 'm/L', 8.052],
    [20, 'ft/tube', 'm/tube', 6.096],
    [50, 'ft/roll', 'm/roll', 15.24],
  ] as const)('coverage %d %s', (value, unit, ourUnit, ours) => {
    const converted = covers(value, unit);
    expect(converted.unit).toBe(ourUnit);
    expect(converted.value).toBeCloseTo(ours, 3);
  });

  it('are read however the unit is spelled', () => {
    for (const unit of [
      'ft²/gal US',
      'sq ft per US gallon',
      'sq. ft./US gal',
      'square feet/gal US',
    ])
      expect(covers(100, unit).value).toBeCloseTo(2.4542, 3);
    for (const unit of ['m²/l', 'm2 per litre', 'sq m/liter'])
      expect(covers(2, unit).value).toBe(2);
    for (const unit of ['hours', 'hrs', 'Hour', 'h']) expect(read('time', 1, unit)).toBe(60);
    for (const unit of ['°f', 'deg F', 'F', 'degrees f'])
      expect(read('temperature', 50, unit)).toBe(10);
  });

  it('in a unit nobody reads are told with those that are', () => {
    expect(convertPrinted('temperature', 4, 'K')).toEqual({
      ok: false,
      accepted: 'accepted are °C, °F.',
    });
    const gallon = convertCoverage(100, 'ft2/gal');
    expect(gallon).toMatchObject({ ok: false });
    expect(!gallon.ok && gallon.accepted).toMatch(/A gallon must say which: US or imp\.$/);
    expect(convertCoverage(1, '__proto__').ok).toBe(false);
    expect(convertPrinted('time', 1, 'constructor').ok).toBe(false);
  });
});

describe('ours beside a printed figure', () => {
  it('may be it rounded to the decimals it has, no further off', () => {
    // 40 °F is 4.444... °C.
    for (const ours of [4, 4.4, 4.44, 4.444])
      expect([ours, standsFor(ours, 40 / 9)]).toEqual([ours, true]);
    for (const ours of [5, 4.5, 4.3, 4.45])
      expect([ours, standsFor(ours, 40 / 9)]).toEqual([ours, false]);
  });
});
