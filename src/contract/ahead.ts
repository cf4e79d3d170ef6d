import { z } from 'zod';
import { daysAnswerSchema, weatherLabelSchema } from './answers.ts';

/**
 * How far ahead to coat, as it crosses the wire: GET /api/jobs/:id/ahead?at=&what=&people= and
 * `layfair ahead --json`. Instants are epoch milliseconds UTC; film times are not whole ones.
 */

const ms = z.number();

/** What is coated and closed section by section; 'edges' takes in the upstands. */
export const AHEAD_WHATS = ['field', 'edges', 'laps'] as const;
export type AheadWhat = (typeof AHEAD_WHATS)[number];

export const FEWEST_PEOPLE = 2;
export const MOST_PEOPLE = 30;

const heldSchema = z.object({
  rule: z.string(),
  words: z.string(),
  whose: z.enum(['data sheet', 'law', 'firm', 'visible moisture', 'safety', 'clock']),
  count: z.number().int(),
  of: z.number().int(),
  made: z.literal(true).optional(),
});

export const aheadSpotSchema = z.object({
  atMs: ms,
  /** Largest section in the work's unit, not rounded; 0 = coat nothing then. */
  most: z.number().min(0),
  coatMin: z.number(),
  closeMin: z.number(),
  /** When the last metre may be closed, over the forecasts; null = nothing is coated. */
  ready: z.object({ earlyMs: ms.nullable(), midMs: ms.nullable(), lateMs: ms }).nullable(),
  /** Closing done by then, the margin kept; null = nothing is coated or nothing sets an end. */
  closeByMs: ms.nullable(),
  goesOffMs: ms.nullable(),
  /** What keeps it from being larger. */
  limit: z.enum([
    'open-time',
    'window-empty',
    'wont-dry',
    'largest',
    'rain',
    'day-end',
    'darkness',
    'held',
    'forecast-ends',
  ]),
  held: heldSchema.nullable(),
  /** Why nothing may be coated, in words; null = something may. */
  whyNone: z.string().nullable(),
});
export type AheadSpot = z.infer<typeof aheadSpotSchema>;

/** One moment in the open and in the shade; shade null = no sun in the sky. */
const bothSchema = z.object({ open: aheadSpotSchema, shade: aheadSpotSchema.nullable() });

export const aheadWorkSchema = z.object({
  kind: z.enum(['field', 'edges', 'upstands', 'laps']),
  unit: z.enum(['m2', 'm']),
  product: z.object({ id: z.string(), name: z.string(), closing: z.string() }),
  /** Faces coated. */
  surfaces: z.array(z.string()),
  /** Hands at it. */
  people: z.number().int(),
  largest: z.number(),
  sentence: z.string(),
  now: bothSchema,
  /** From when something may be coated where nothing may at `atMs`; null = not needed, or not that day. */
  openFromMs: ms.nullable(),
  shadeFromMs: ms.nullable(),
  /** Each half hour of the working day. */
  hours: z.array(bothSchema),
  holdPoints: z.array(z.string()),
});
export type AheadWork = z.infer<typeof aheadWorkSchema>;

export const aheadAnswerSchema = z.object({
  job: daysAnswerSchema.shape.job,
  nowMs: ms,
  atMs: ms,
  weather: weatherLabelSchema,
  bay: daysAnswerSchema.shape.bay,
  /** Crew asked about. */
  people: z.number().int(),
  works: z.array(aheadWorkSchema).min(1),
  /** How it was reckoned, and what it does not know. */
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
});
export type AheadAnswer = z.infer<typeof aheadAnswerSchema>;
