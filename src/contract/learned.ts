import { z } from 'zod';

/** What a firm's site logs teach of a product: `GET /api/products/:id/learned`. */

export const LEARNED_FIRMS = ['own', 'demo'] as const;
export const learnedQuerySchema = z.strictObject({ firm: z.enum(LEARNED_FIRMS).optional() });

const ms = z.number();
const minutes = z.number();

const timesSchema = z.object({
  lowMin: minutes,
  typicalMin: minutes,
  highMin: minutes,
  source: z.string(),
});

const filmSchema = z.object({
  /** The 'touch-dry' entry of the site log: what to undo or confirm. */
  eventId: z.string(),
  jobId: z.string(),
  jobName: z.string(),
  activityId: z.string(),
  /** null = no coating of this part is logged. */
  coatedMs: ms.nullable(),
  dryMs: ms,
  date: z.string(),
});

export const learnedAnswerSchema = z.object({
  product: z.object({ id: z.string(), name: z.string() }),
  firm: z.enum(LEARNED_FIRMS),
  nowMs: ms,
  /** Touch dry at the product's reference conditions: by the sheet, and as this firm's films dry. */
  sheet: timesSchema.nullable(),
  sees: timesSchema.nullable(),
  /** Speed over the sheet's with its middle 80 %, 1 = as the sheet says; null = nothing can be learned. */
  speed: z
    .object({
      factor: z.number(),
      lowFactor: z.number(),
      highFactor: z.number(),
      films: z.number().int(),
      days: z.number().int(),
      /** Films counted by age: 1 when new, 0.5 after the half-life. */
      effectiveFilms: z.number(),
    })
    .nullable(),
  sentence: z.string(),
  used: z.array(
    filmSchema.extend({
      tookMin: minutes,
      /** By the sheet under that weather. */
      expectedMin: minutes,
      speed: z.number(),
      confirmed: z.boolean(),
    }),
  ),
  setAside: z.array(filmSchema.extend({ why: z.string() })),
  asked: z.array(filmSchema.extend({ question: z.string(), canBeConfirmed: z.boolean() })),
  /** How it is reckoned, and on what assumptions. */
  notes: z.array(z.string()),
});
export type LearnedAnswer = z.infer<typeof learnedAnswerSchema>;
