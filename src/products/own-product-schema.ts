import { z } from 'zod';
import { idSays, SOLVENT_NAMES, substratesOf } from './schema.ts';
import { printedSchema, printedTableSchema } from './schema-printed.ts';
import { object, oneOf, says, sentences, source, text } from './schema-words.ts';
import { CLOCK_EVENTS, COVERAGE_UNITS, LIMIT_KEYS, PRODUCT_JOBS } from './types.ts';

/**
 * A firm's own product as people write it: the class it starts from and what its data sheet prints,
 * nothing else. Only the shape is judged here; ranges and contradictions once it stands on its class.
 */

const number = z.number({ error: says('a number') }).exactOptional();
const printed = printedSchema.exactOptional();
const PRINTED_OR = 'printed and source, or with';

const figure = z
  .strictObject(
    { value: number, printed, source },
    object(`an object with ${PRINTED_OR} value and source`),
  )
  .exactOptional();

const time = z
  .strictObject(
    { lowMin: number, typicalMin: number, highMin: number, printed, source },
    object(`an object with ${PRINTED_OR} lowMin, highMin and source`),
  )
  .exactOptional();

const pair = z
  .strictObject(
    { low: number, high: number, printed, source },
    object(`an object with ${PRINTED_OR} low, high and source`),
  )
  .exactOptional();

const numbers = (most: number) => {
  const error = says(`a list of 0 to ${most} numbers`);
  return z.array(z.number({ error: says('a number') }), { error }).max(most, { error });
};

const table = z.strictObject(
  {
    event: oneOf(CLOCK_EVENTS),
    tempC: numbers(40).exactOptional(),
    relHumPct: numbers(40).exactOptional(),
    minutes: z
      .array(numbers(40), { error: says('a list of rows, one for each temperature') })
      .max(40, { error: says('a list of at most 40 rows') })
      .exactOptional(),
    printed: printedTableSchema.exactOptional(),
    source,
  },
  object('a table, an object with event, relHumPct, printed and source'),
);

/** Reference conditions are what the sheet says its times are for: a number in our unit, or printed. */
const condition = z
  .union([z.number(), z.strictObject({ printed: printedSchema })], {
    error: says('a number, or an object with printed'),
  })
  .exactOptional();

const limitShape = Object.fromEntries(LIMIT_KEYS.map((key) => [key, figure])) as Record<
  (typeof LIMIT_KEYS)[number],
  typeof figure
>;

export const ownProductFileSchema = z.strictObject(
  {
    format: z.literal('layfair-own-product-1', { error: says("'layfair-own-product-1'") }),
    id: z.string({ error: idSays }).regex(/^[a-z0-9][a-z0-9-]{0,59}$/, { error: idSays }),
    name: text(120),
    basedOn: text(60),
    does: z
      .array(oneOf(PRODUCT_JOBS), { error: says(`a list out of ${PRODUCT_JOBS.join(', ')}`) })
      .min(1, { error: says(`at least one of ${PRODUCT_JOBS.join(', ')}`) })
      .max(PRODUCT_JOBS.length, { error: says(`at most ${PRODUCT_JOBS.length} entries`) })
      .exactOptional(),
    solvent: z
      .enum(SOLVENT_NAMES, { error: says(`one of ${SOLVENT_NAMES.join(', ')}`) })
      .exactOptional(),
    reference: z
      .strictObject(
        { airTempC: condition, relHumPct: condition, windMps: condition },
        object('an object with airTempC, relHumPct and windMps, as far as they are printed'),
      )
      .exactOptional(),
    touchDry: time,
    openUntil: time,
    rainAfter: time,
    closeFrom: time,
    footTraffic: time,
    fullCure: time,
    tables: z
      .array(table, { error: says('a list of tables') })
      .max(CLOCK_EVENTS.length, { error: says('one table for each time at most') })
      .exactOptional(),
    materialTempC: pair,
    coverage: z
      .strictObject(
        {
          value: number,
          unit: oneOf(COVERAGE_UNITS).exactOptional(),
          printed,
          source,
          on: substratesOf(
            z.strictObject(
              { value: number, printed, source },
              object(`an object with ${PRINTED_OR} value and source`),
            ),
          ).exactOptional(),
        },
        object(`an object with ${PRINTED_OR} value, unit and source`),
      )
      .exactOptional(),
    sheet: z
      .strictObject(
        {
          weightKgM2: pair,
          rollWidthsM: z
            .strictObject(
              { values: numbers(20).exactOptional(), printed, source },
              object(`an object with ${PRINTED_OR} values and source`),
            )
            .exactOptional(),
          relaxMin: figure,
          relaxColdMin: figure,
        },
        object('an object with weightKgM2, rollWidthsM, relaxMin, relaxColdMin as far as printed'),
      )
      .exactOptional(),
    limits: z
      .strictObject(limitShape, object('an object of limits, those the sheet names'))
      .exactOptional(),
    takesSheetLimits: z
      .array(oneOf(LIMIT_KEYS), { error: says(`a list out of ${LIMIT_KEYS.join(', ')}`) })
      .max(LIMIT_KEYS.length, { error: says(`each of ${LIMIT_KEYS.join(', ')} once`) })
      .exactOptional(),
    hazards: sentences(1, 12).exactOptional(),
    advice: sentences(1, 12).exactOptional(),
  },
  object('a product of your own, written as an object with format, id, name, basedOn and the rest'),
);

/** What a firm wrote, in shape; kept as written. */
export type OwnProduct = Omit<z.infer<typeof ownProductFileSchema>, 'format'>;
