import { z } from 'zod';
import { fToC } from '../units/index.ts';
import type { CoverageUnit } from './types.ts';
import { CLOSINGS, COVERAGE_UNITS, MECHANISMS, NUMBER_SOURCES, PRODUCT_JOBS } from './types.ts';

/**
 * A product as people write it: one JSON file each, the bundled classes and a firm's own alike.
 * Unknown fields are errors, so that a typing slip is seen. Each message ends a sentence that
 * `parseProduct` starts with the name of the field.
 */

/** Solvents whose vapour pressure the drying physics knows. */
const SOLVENTS = ['toluene', 'n-heptane', 'n-hexane', 'acetone', 'cyclohexane', 'mek'] as const;

/** What a coverage can be, by its unit; wide enough for any product, narrow enough to catch another unit. */
export const COVERAGE_RANGES: Readonly<
  Record<CoverageUnit, { readonly low: number; readonly high: number }>
> = {
  'm2/L': { low: 0.5, high: 12 },
  'm2/kg': { low: 0.5, high: 20 },
  'm2/m': { low: 0.05, high: 1 },
  'm/L': { low: 5, high: 200 },
  'm/tube': { low: 0.5, high: 30 },
  'm/roll': { low: 1, high: 200 },
  'm/m': { low: 0.1, high: 1 },
  each: { low: 0.1, high: 10 },
};

/** A value as a reader would write it, short enough for a sentence. */
export function show(value: unknown): string {
  if (typeof value === 'string')
    return `'${value.length > 40 ? `${value.slice(0, 40)}...` : value}'`;
  if (typeof value === 'number' || typeof value === 'boolean' || value === null)
    return String(value);
  return Array.isArray(value) ? `a list of ${value.length}` : 'an object';
}

type Hint = (value: number) => string;

const says =
  (accepted: string, hint: Hint = () => '') =>
  ({ input }: { readonly input?: unknown }): string => {
    const got = input === undefined ? 'is missing' : `is ${show(input)}`;
    return `${got}; accepted is ${accepted}.${typeof input === 'number' ? hint(input) : ''}`;
  };

function numberIn(low: number, high: number, unit: string, hint?: Hint) {
  const error = says(`a number in ${low}..${high}${unit === '' ? '' : ` ${unit}`}`, hint);
  return z.number({ error }).min(low, { error }).max(high, { error });
}

const oneOf = <const T extends readonly string[]>(values: T) =>
  z.enum(values, { error: says(`one of ${values.join(', ')}`) });

const text = (max: number) => {
  const error = says(`a text of 1 to ${max} letters`);
  return z.string({ error }).regex(/\S/, { error }).max(max, { error });
};

const sentences = (least: number) => {
  const error = says(`a list of ${least} to 12 sentences`);
  return z.array(text(300), { error }).min(least, { error }).max(12, { error });
};

/** Temperatures printed in °F land outside the range in °C; say so where that explains the number. */
const fahrenheit =
  (low: number, high: number): Hint =>
  (value) => {
    const asC = fToC(value);
    return asC >= low && asC <= high
      ? ` Maybe it was printed in °F: ${value} °F is ${asC.toFixed(1)} °C.`
      : '';
  };

const fraction: Hint = (value) =>
  value > 0 && value <= 1
    ? ` Maybe it was written as a fraction: ${value} is ${Math.round(value * 1000) / 10} %.`
    : '';

const tempC = (low: number, high: number) => numberIn(low, high, '°C', fahrenheit(low, high));

const source = oneOf(NUMBER_SOURCES);
const object = (what: string) => ({ error: says(what) });

const minutes = numberIn(0.1, 2880, 'minutes');
export const refTimeSchema = z.strictObject(
  { lowMin: minutes, typicalMin: minutes, highMin: minutes, source },
  object('null or an object with lowMin, typicalMin, highMin and source'),
);

const limit = (value: z.ZodNumber) =>
  z.strictObject({ value, source }, object('an object with value and source')).exactOptional();

export const limitsSchema = z.strictObject(
  {
    airMinC: limit(tempC(-20, 30)),
    airMaxC: limit(tempC(10, 60)),
    surfaceMinC: limit(tempC(-20, 30)),
    surfaceMaxC: limit(tempC(10, 90)),
    dewMarginMinK: limit(numberIn(0, 15, 'K')),
    relHumMaxPct: limit(numberIn(30, 100, '%', fraction)),
    afterMinC: limit(tempC(-20, 30)),
    hoursAfter: limit(numberIn(1, 240, 'hours')),
  },
  object('an object of limits, empty if the sheet names none'),
);

const id = says('small letters, digits and hyphens, 1 to 60, such as deck-adhesive-wet-lay');

export const productFileSchema = z.strictObject(
  {
    format: z.literal('layfair-product-1', { error: says("'layfair-product-1'") }),
    id: z.string({ error: id }).regex(/^[a-z0-9][a-z0-9-]{0,59}$/, { error: id }),
    name: text(120),
    does: z
      .array(oneOf(PRODUCT_JOBS), { error: says(`a list out of ${PRODUCT_JOBS.join(', ')}`) })
      .min(1, { error: says(`at least one of ${PRODUCT_JOBS.join(', ')}`) })
      .max(PRODUCT_JOBS.length, { error: says(`at most ${PRODUCT_JOBS.length} entries`) }),
    mechanism: oneOf(MECHANISMS),
    closing: oneOf(CLOSINGS),
    faces: z.literal([1, 2], { error: says('1 or 2') }),
    solvent: z.enum(SOLVENTS, { error: says(`null or one of ${SOLVENTS.join(', ')}`) }).nullable(),
    reference: z.strictObject(
      {
        airTempC: tempC(0, 40),
        relHumPct: numberIn(5, 95, '%', fraction),
        windMps: numberIn(0, 10, 'm/s'),
      },
      object('an object with airTempC, relHumPct and windMps'),
    ),
    touchDry: refTimeSchema.nullable(),
    openUntil: refTimeSchema.nullable(),
    openEndsBy: oneOf(['drying', 'time']),
    rainAfter: refTimeSchema.nullable(),
    closeFrom: refTimeSchema.nullable().default(null),
    footTraffic: refTimeSchema.nullable().default(null),
    fullCure: refTimeSchema.nullable().default(null),
    tables: z.array(z.never()).max(0).default([]),
    materialTempC: z.null().default(null),
    coverage: z.strictObject(
      {
        value: z.number({ error: says('a number') }),
        unit: oneOf(COVERAGE_UNITS),
        source,
      },
      object('an object with value, unit and source'),
    ),
    limits: limitsSchema,
    hazards: sentences(1),
    advice: sentences(1).exactOptional(),
  },
  object('a product, written as an object with format, id, name and the rest'),
);

export type ProductFile = z.infer<typeof productFileSchema>;
