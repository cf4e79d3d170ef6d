import { z } from 'zod';
import { RATE_IDS } from '../stages/index.ts';
import { numberIn } from './numbers.ts';

/** How a firm works: what a job may set for itself, and what holds for the whole firm where it does not. */

const offer = {
  sheetWidthsM: z.array(numberIn(0.5, 20)).min(1).max(12).exactOptional(),
  rollLengthM: numberIn(5, 200).exactOptional(),
  lapM: numberIn(0.05, 0.3).exactOptional(),
};

/** Own typical output in the rate's own unit. */
export const ratesSchema = z.partialRecord(z.enum(RATE_IDS), numberIn(0.01, 10_000));

/** How the sheets are laid out; what is left out is searched for. */
export const layoutSchema = z.strictObject({
  ...offer,
  choices: z
    .record(
      z.string(),
      z.strictObject({
        rollsRunDeg: numberIn(-360, 360).exactOptional(),
        shiftM: numberIn(0, 20).exactOptional(),
        sheets: z
          .array(
            z.strictObject({
              startM: numberIn(-1000, 1000),
              widthM: numberIn(0.1, 20),
              rollWidthM: numberIn(0.5, 20),
              fromM: numberIn(-1000, 1000),
              toM: numberIn(-1000, 1000),
            }),
          )
          .max(200)
          .exactOptional(),
      }),
    )
    .exactOptional(),
});

export const practiceSchema = z.strictObject({
  rates: ratesSchema.default({}),
  layout: z.strictObject(offer).default({}),
});
export type Practice = z.infer<typeof practiceSchema>;

export const putPracticeSchema = z.strictObject({
  requestId: z.uuid(),
  /** The version seen; null = nothing had been set. */
  version: z.int().min(1).nullable(),
  practice: practiceSchema,
});

export const practiceAnswerSchema = z.object({
  version: z.number().int().nullable(),
  practice: practiceSchema,
});
export type PracticeAnswer = z.infer<typeof practiceAnswerSchema>;
