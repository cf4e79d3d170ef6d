import { fDiffToK, fToC, inchToMm, kmhToMps, knotsToMps, mphToMps } from '../units/index.ts';
import type { CoverageUnit } from './types.ts';

/**
 * The units data sheets print, turned exactly into the ones used inside. Foot, pound and both gallons
 * are exact by definition (NIST SP 811, appendix B; UK Units of Measurement Regulations 1995).
 */

const FOOT_M = 0.3048;
const POUND_KG = 0.45359237;
const GALLON_US_L = 3.785411784;
const GALLON_IMP_L = 4.54609;
const FOOT2_M2 = FOOT_M * FOOT_M;

export type Quantity =
  | 'temperature'
  | 'difference'
  | 'humidity'
  | 'time'
  | 'hours'
  | 'speed'
  | 'length'
  | 'weight';

type Convert = (value: number) => number;
const times =
  (factor: number): Convert =>
  (value) =>
    value * factor;
const same: Convert = (value) => value;

/** Ours first: °C, K, %, min, h, m/s, m, kg/m2. */
const UNITS: Readonly<Record<Quantity, Readonly<Record<string, Convert>>>> = {
  temperature: { '°C': same, '°F': fToC },
  difference: { K: same, '°C': same, '°F': fDiffToK },
  humidity: { '%': same },
  time: { min: same, s: (v) => v / 60, h: times(60), d: times(1440) },
  hours: { h: same, min: (v) => v / 60, d: times(24) },
  speed: {
    'm/s': same,
    'km/h': kmhToMps,
    mph: mphToMps,
    kn: knotsToMps,
    'ft/min': (v) => (v * FOOT_M) / 60,
  },
  length: { m: same, mm: (v) => v / 1000, ft: times(FOOT_M), in: (v) => inchToMm(v) / 1000 },
  weight: { 'kg/m2': same, 'g/m2': (v) => v / 1000, 'lb/ft2': times(POUND_KG / FOOT2_M2) },
};

interface CoverageConvert {
  readonly unit: CoverageUnit;
  readonly to: Convert;
}
const per = (unit: CoverageUnit, factor: number): CoverageConvert => ({ unit, to: times(factor) });
/** Printed as an amount on an area or length, which is the coverage turned over. */
const over = (unit: CoverageUnit, factor: number): CoverageConvert => ({
  unit,
  to: (value) => factor / value,
});

const COVERAGES: Readonly<Record<string, CoverageConvert>> = {
  'm2/L': per('m2/L', 1),
  'L/m2': over('m2/L', 1),
  'ml/m2': over('m2/L', 1000),
  'ft2/gal US': per('m2/L', FOOT2_M2 / GALLON_US_L),
  'ft2/gal imp': per('m2/L', FOOT2_M2 / GALLON_IMP_L),
  'gal US/100 ft2': over('m2/L', (100 * FOOT2_M2) / GALLON_US_L),
  'm2/kg': per('m2/kg', 1),
  'kg/m2': over('m2/kg', 1),
  'g/m2': over('m2/kg', 1000),
  'ft2/lb': per('m2/kg', FOOT2_M2 / POUND_KG),
  'lb/100 ft2': over('m2/kg', (100 * FOOT2_M2) / POUND_KG),
  'm2/m': per('m2/m', 1),
  'mm apart': per('m2/m', 0.001),
  'in apart': { unit: 'm2/m', to: (value) => inchToMm(value) / 1000 },
  'm/L': per('m/L', 1),
  'L/m': over('m/L', 1),
  'ml/m': over('m/L', 1000),
  'ft/gal US': per('m/L', FOOT_M / GALLON_US_L),
  'ft/gal imp': per('m/L', FOOT_M / GALLON_IMP_L),
  'm/tube': per('m/tube', 1),
  'ft/tube': per('m/tube', FOOT_M),
  'm/roll': per('m/roll', 1),
  'ft/roll': per('m/roll', FOOT_M),
  'm/m': per('m/m', 1),
  'm2/m2': per('m2/m2', 1),
  each: per('each', 1),
};

/** Spellings of one unit: superscripts, blanks, words for the same thing. */
function plain(unit: string): string {
  return unit
    .toLowerCase()
    .replace(/²/g, '2')
    .replace(/\b(sq\.? ?ft\.?|square f(ee|oo)t)/g, 'ft2')
    .replace(/\b(sq\.? ?m\.?|square met(re|er)s?)/g, 'm2')
    .replace(/\b(litres?|liters?|ltr)\b/g, 'l')
    .replace(/\b(minutes?|mins)\b/g, 'min')
    .replace(/\b(hours?|hrs?)\b/g, 'h')
    .replace(/\bdays?\b/g, 'd')
    .replace(/\b(us|imp) gal(lons?)?\b/g, 'gal $1')
    .replace(/\bgallons?\b/g, 'gal')
    .replace(/\bper\b/g, '/')
    .replace(/^(°|deg(rees?)?)?\s*([cf])$/, '°$3')
    .replace(/\s*\/\s*/g, '/')
    .replace(/\s+/g, ' ')
    .trim();
}

function find<T>(table: Readonly<Record<string, T>>, unit: string): T | undefined {
  const asked = plain(unit);
  const name = Object.keys(table).find((known) => plain(known) === asked);
  return name === undefined ? undefined : table[name];
}

/** The end of a sentence that says which units are read. */
const accepted = (table: Readonly<Record<string, unknown>>, unit: string): string =>
  `accepted are ${Object.keys(table).join(', ')}.${
    /gal/i.test(unit) && !/us|imp/i.test(unit) ? ' A gallon must say which: US or imp.' : ''
  }`;

export type Converted =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly accepted: string };

/**
 * A printed figure in our unit: °C, K, %, min, h, m/s, m or kg/m2.
 * @returns the exact value, or the units that are read; never throws
 */
export function convertPrinted(quantity: Quantity, value: number, unit: string): Converted {
  const convert = find(UNITS[quantity], unit);
  return convert === undefined
    ? { ok: false, accepted: accepted(UNITS[quantity], unit) }
    : { ok: true, value: tidy(convert(value)) };
}

/** The same for a coverage, which also says what it is measured by. */
export function convertCoverage(
  value: number,
  unit: string,
):
  | { readonly ok: true; readonly value: number; readonly unit: CoverageUnit }
  | { readonly ok: false; readonly accepted: string } {
  const convert = find(COVERAGES, unit);
  return convert === undefined
    ? { ok: false, accepted: accepted(COVERAGES, unit) }
    : { ok: true, value: tidy(convert.to(value)), unit: convert.unit };
}

/** Takes off what binary fractions add to an exact conversion: 0.3, not 0.30000000000000004. */
const tidy = (value: number): number =>
  Number.isFinite(value) ? Number(value.toPrecision(12)) : value;

/**
 * Whether a figure in our unit can stand for the exact one: it is that, rounded to the decimals it is
 * written with (4.4 or 4 for 40 °F, but not 5).
 */
export function standsFor(ours: number, exact: number): boolean {
  const [, decimals = ''] = /\.(\d+)$/.exec(String(ours)) ?? [];
  const half = 0.5 * 10 ** -decimals.length;
  return Math.abs(ours - exact) <= half + 1e-9 * Math.abs(exact);
}

/** Short enough for a sentence, long enough to tell two figures apart. */
export const brief = (value: number): string => String(Number(value.toPrecision(4)));
