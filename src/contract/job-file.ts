import { z } from 'zod';
import type { Job } from '../planner/index.ts';
import { EDGE_KINDS } from '../roof/index.ts';
import { DECK_KINDS, UNDER_KINDS } from '../stages/index.ts';

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
const money = z.number().min(0).max(10_000_000);

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

export const jobFileSchema = z.strictObject({
  format: z.literal('layfair-job-1'),
  id: z.uuid(),
  name: z.string().min(1).max(120),
  client: z.string().max(120).default(''),
  demo: z.boolean().default(false),
  site: z.strictObject({
    name: z.string().min(1).max(120),
    latitudeDeg: z.number().min(-90).max(90),
    longitudeDeg: z.number().min(-180).max(180),
    elevationM: z.number().min(-450).max(6000).default(0),
    timeZone,
    terrain: z.enum(['open', 'suburban', 'city']).default('suburban'),
    roofHeightM: z.number().min(1).max(200).default(4),
    wall: z
      .strictObject({
        heightM: z.number().positive().max(100),
        azimuthDeg: z.number().min(0).max(360),
        distanceM: z.number().positive().max(200),
      })
      .nullable()
      .default(null),
  }),
  roof: z.strictObject({
    lengthM: z.number().min(0.5).max(200),
    widthM: z.number().min(0.5).max(100),
    fallDeg: z.number().min(0).max(10).default(1.4),
    fallAzimuthDeg: z.number().min(0).max(360).default(180),
    edges: z.strictObject({ low: edge, high: edge, left: edge, right: edge }),
    upstandMm: z.number().min(0).max(1000).default(150),
    outlets: z.number().int().min(0).max(50).default(0),
    pipes: z.number().int().min(0).max(100).default(0),
    rooflights: z.number().int().min(0).max(50).default(0),
  }),
  buildUp: z.strictObject({
    deck: z.enum(DECK_KINDS),
    deckThicknessMm: z.number().min(3).max(300).default(18),
    under: z.enum(UNDER_KINDS),
    strip: z.boolean(),
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
    people: z.number().int().min(1).max(30),
    dayStart: wallTime.default('07:30'),
    dayEnd: wallTime.default('17:00'),
    breaks: z
      .array(z.strictObject({ from: wallTime, minutes: z.number().int().min(5).max(120) }))
      .max(6)
      .default([]),
    workDays: z.array(z.number().int().min(1).max(7)).min(1).max(7).default([1, 2, 3, 4, 5]),
  }),
  costs: z.strictObject({
    currency: z.string().regex(/^[A-Z]{3}$/, 'must be a three-letter currency code such as EUR'),
    standDown: money,
    shortened: money,
    caughtOpen: money,
    waitPerDay: money,
  }),
  baysDone: z.number().int().min(0).max(500).default(0),
  earliest: calendarDate.nullable().default(null),
  latest: calendarDate.nullable().default(null),
  confidence: z.number().min(0.5).max(0.99).default(0.8),
});

export type JobFile = z.infer<typeof jobFileSchema>;

/** The planner's job out of a checked file: the same fields without the format tag. */
export function toJob(file: JobFile): Job {
  const { format: _format, ...job } = file;
  return job;
}
