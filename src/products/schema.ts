import { z } from 'zod';
import { fToC } from '../units/index.ts';
import { printedSchema, printedTableSchema } from './schema-printed.ts';
import { type Hint, object, oneOf, says, sentences, source, text } from './schema-words.ts';
import type { CoverageUnit } from './types.ts';
import {
  CLOCK_EVENTS,
  CLOSINGS,
  COVERAGE_UNITS,
  MECHANISMS,
  PRODUCT_JOBS,
  SUBSTRATES,
} from './types.ts';

/**
 * A product as people write it: one JSON file each, the bundled classes and a firm's own alike.
 * Unknown fields are errors, so that a typing slip is seen. Each message ends a sentence that
 * `parseProduct` starts with the name of the field.
 */

/** Solvents whose vapour pressure the drying physics knows. */
export const SOLVENT_NAMES = [
  'toluene',
  'n-heptane',
  'n-hexane',
  'acetone',
  'cyclohexane',
  'mek',
] as const;

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
  'm2/m2': { low: 0.5, high: 1 },
  each: { low: 0.1, high: 10 },
};

function numberIn(low: number, high: number, unit: string, hint?: Hint) {
  const error = says(`a number in ${low}..${high}${unit === '' ? '' : ` ${unit}`}`, hint);
  return z.number({ error }).min(low, { error }).max(high, { error });
}

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

const printed = printedSchema.exactOptional();

/** Longest time that is a slip of the pen rather than a product: two days to be ready, a month to cure. */
const refTime = (mostMin: number) => {
  const minutes = numberIn(0.1, mostMin, 'minutes');
  return z.strictObject(
    { lowMin: minutes, typicalMin: minutes, highMin: minutes, source, printed },
    object('null or an object with lowMin, typicalMin, highMin and source'),
  );
};
export const refTimeSchema = refTime(2880);
const cureTimeSchema = refTime(43_200);

const limit = (value: z.ZodNumber) =>
  z
    .strictObject({ value, source, printed }, object('an object with value and source'))
    .exactOptional();

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

const rising = (low: number, high: number, unit: string, least: number, hint?: Hint) => {
  const error = says(`a list of ${least} to 40 numbers in ${low}..${high} ${unit}`);
  return z
    .array(numberIn(low, high, unit, hint), { error })
    .min(least, { error })
    .max(40, { error });
};
const tableTimes = z.array(
  z.array(numberIn(0.1, 43_200, 'minutes'), { error: says('a row of times in minutes') }),
  { error: says('a list of rows, one for each temperature') },
);
const tableSchema = z.strictObject(
  {
    event: oneOf(CLOCK_EVENTS),
    tempC: rising(-20, 60, '°C', 1, fahrenheit(-20, 60)),
    relHumPct: rising(1, 100, '%', 0, fraction),
    minutes: tableTimes,
    source,
    printed: printedTableSchema.exactOptional(),
  },
  object('a table, an object with event, tempC, relHumPct, minutes and source'),
);

const coverageOn = z.strictObject(
  { value: z.number({ error: says('a number') }), source, printed },
  object('an object with value and source'),
);
export const substratesOf = <T extends z.ZodType>(each: T) =>
  z.partialRecord(z.enum(SUBSTRATES, { error: says(`one of ${SUBSTRATES.join(', ')}`) }), each, {
    error: says(`an object by substrate: ${SUBSTRATES.join(', ')}`),
  });

export const materialTempSchema = z.strictObject(
  { low: tempC(-20, 60), high: tempC(-20, 60), source, printed },
  object('null or an object with low, high and source'),
);

const plainLimit = (low: number, high: number, unit: string) =>
  z.strictObject(
    { value: numberIn(low, high, unit), source, printed },
    object('an object with value and source'),
  );
const weight = numberIn(0.5, 6, 'kg/m2');
export const sheetSchema = z.strictObject(
  {
    weightKgM2: z.strictObject(
      { low: weight, high: weight, source, printed },
      object('an object with low, high and source'),
    ),
    rollWidthsM: z.strictObject(
      { values: rising(0.1, 20, 'm', 1), source, printed },
      object('an object with values and source'),
    ),
    relaxMin: plainLimit(0, 1440, 'minutes'),
    relaxColdMin: plainLimit(0, 1440, 'minutes'),
  },
  object('an object with weightKgM2, rollWidthsM, relaxMin and relaxColdMin'),
);

export const idSays = says(
  'small letters, digits and hyphens, 1 to 60, such as deck-adhesive-wet-lay',
);

export const productFileSchema = z.strictObject(
  {
    format: z.literal('layfair-product-1', { error: says("'layfair-product-1'") }),
    id: z.string({ error: idSays }).regex(/^[a-z0-9][a-z0-9-]{0,59}$/, { error: idSays }),
    name: text(120),
    does: z
      .array(oneOf(PRODUCT_JOBS), { error: says(`a list out of ${PRODUCT_JOBS.join(', ')}`) })
      .min(1, { error: says(`at least one of ${PRODUCT_JOBS.join(', ')}`) })
      .max(PRODUCT_JOBS.length, { error: says(`at most ${PRODUCT_JOBS.length} entries`) }),
    mechanism: oneOf(MECHANISMS),
    closing: oneOf(CLOSINGS),
    faces: z.literal([1, 2], { error: says('1 or 2') }),
    solvent: z
      .enum(SOLVENT_NAMES, { error: says(`null or one of ${SOLVENT_NAMES.join(', ')}`) })
      .nullable(),
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
    fullCure: cureTimeSchema.nullable().default(null),
    tables: z
      .array(tableSchema, { error: says('a list of tables, empty if the sheet has none') })
      .max(CLOCK_EVENTS.length, { error: says('one table for each time at most') })
      .default([]),
    materialTempC: materialTempSchema.nullable().default(null),
    coverage: z.strictObject(
      {
        value: z.number({ error: says('a number') }),
        unit: oneOf(COVERAGE_UNITS),
        source,
        printed,
        on: substratesOf(coverageOn).exactOptional(),
      },
      object('an object with value, unit and source'),
    ),
    sheet: sheetSchema.exactOptional(),
    limits: limitsSchema,
    hazards: sentences(1, 24),
    advice: sentences(1, 24).exactOptional(),
  },
  object('a product, written as an object with format, id, name and the rest'),
);

export type ProductFile = z.infer<typeof productFileSchema>;
