import { z } from 'zod';
import type { Job } from '../planner/index.ts';
import { EDGE_KINDS } from '../roof/index.ts';
import { DECK_KINDS, UNDER_KINDS } from '../stages/index.ts';
import { numberIn, wholeIn } from './numbers.ts';
import { layoutSchema, ratesSchema } from './practice.ts';
import { roofDrawingSchema } from './roof-drawing.ts';

/**
 * A job as people write it: JOB.json on the command line, the body of the jobs API, and what the
 * store keeps. Unknown fields are errors, so that a typing slip is seen.
 */

const wallTime = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be a 24-hour time such as 07:30');
/** A calendar date that exists. */
export const calendarDate = z.iso.date('must be a date such as 2026-05-14');
const productId = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,59}$/, 'must be a product id such as deck-adhesive-wet-lay');
const edge = z.enum(EDGE_KINDS);
const money = numberIn(0, 10_000_000);

const timeZone = z.string().refine(
  (zone) => {
    try {
      new Intl.DateTimeFormat('en', { timeZone: zone });
      return true;
    } catch {
      return false;
    }
  },
  { message: 'must be an IANA time zone such as Europe/Dublin' },
);

/** A rectangle by its sizes. */
const rectangleRoof = z.strictObject({
  lengthM: numberIn(0.5, 200),
  widthM: numberIn(0.5, 100),
  fallDeg: numberIn(0, 10).default(1.4),
  fallAzimuthDeg: numberIn(0, 360).default(180),
  edges: z.strictObject({ low: edge, high: edge, left: edge, right: edge }),
  upstandMm: numberIn(0, 1000).default(150),
  outlets: wholeIn(0, 50).default(0),
  pipes: wholeIn(0, 100).default(0),
  rooflights: wholeIn(0, 50).default(0),
});

/** Either a rectangle or a drawing; looked at as what it is, so that a fault is told where it stands. */
const roof = z.unknown().transform((value, ctx) => {
  const drawn = typeof value === 'object' && value !== null && 'areas' in value;
  const read = (drawn ? roofDrawingSchema : rectangleRoof).safeParse(value);
  if (read.success) return read.data;
  for (const issue of read.error.issues) ctx.issues.push({ ...issue, input: value } as never);
  return z.NEVER;
});

export const jobFileSchema = z.strictObject({
  format: z.literal('layfair-job-1'),
  id: z.uuid(),
  name: z.string().min(1).max(120),
  client: z.string().max(120).default(''),
  demo: z.boolean().default(false),
  site: z.strictObject({
    name: z.string().min(1).max(120),
    latitudeDeg: numberIn(-90, 90),
    longitudeDeg: numberIn(-180, 180),
    elevationM: numberIn(-450, 6000).default(0),
    timeZone,
    terrain: z.enum(['open', 'suburban', 'city']).default('suburban'),
    roofHeightM: numberIn(1, 200).default(4),
    wall: z
      .strictObject({
        heightM: numberIn(0.1, 100),
        azimuthDeg: numberIn(0, 360),
        distanceM: numberIn(0.1, 200),
      })
      .nullable()
      .default(null),
    skyline: z
      .array(z.strictObject({ azimuthDeg: numberIn(0, 360), elevationDeg: numberIn(0, 85) }))
      .max(72)
      .default([]),
    parapetHeightM: numberIn(0, 3).default(0),
  }),
  roof,
  buildUp: z.strictObject({
    deck: z.enum(DECK_KINDS),
    deckThicknessMm: numberIn(3, 300).default(18),
    under: z.enum(UNDER_KINDS),
    strip: z.boolean(),
    layDeck: z.boolean().default(false),
    insulation: z
      .strictObject({
        thicknessMm: numberIn(10, 500),
        vapourLayer: z
          .strictObject({ exposureDays: numberIn(0, 365) })
          .nullable()
          .default(null),
      })
      .nullable()
      .default(null),
    deckMoisturePct: numberIn(0, 100).nullable().default(null),
    sheet: z.enum(['plain', 'fleece']).default('plain'),
    products: z.strictObject({
      field: productId,
      perimeter: productId,
      primer: productId,
      lapTape: productId,
      patch: productId,
      sealant: productId,
      nightSeal: productId,
    }),
  }),
  crew: z.strictObject({
    name: z.string().min(1).max(80),
    people: wholeIn(1, 30),
    dayStart: wallTime.default('07:30'),
    dayEnd: wallTime.default('17:00'),
    breaks: z
      .array(z.strictObject({ from: wallTime, minutes: wholeIn(5, 120) }))
      .max(6)
      .default([]),
    workDays: z.array(wholeIn(1, 7)).min(1).max(7).default([1, 2, 3, 4, 5]),
    daysOff: z.array(calendarDate).max(400).default([]),
  }),
  costs: z.strictObject({
    currency: z.string().regex(/^[A-Z]{3}$/, 'must be a three-letter currency code such as EUR'),
    standDown: money,
    calledOff: money.exactOptional(),
    shortened: money,
    caughtOpen: money,
    waitPerDay: money,
  }),
  rates: ratesSchema.default({}),
  layout: layoutSchema.default({}),
  bayAreaM2: numberIn(4, 20_000).nullable().default(null),
  baysDone: wholeIn(0, 500).default(0),
  earliest: calendarDate.nullable().default(null),
  latest: calendarDate.nullable().default(null),
  confidence: numberIn(0.5, 0.99).default(0.8),
});

export type JobFile = z.infer<typeof jobFileSchema>;

/** The planner's job out of a checked file: the same fields without the format tag. */
export function toJob(file: JobFile): Job {
  const { format: _format, ...job } = file;
  return job;
}
