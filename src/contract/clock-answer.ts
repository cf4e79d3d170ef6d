import { z } from 'zod';
import { clockRangeSchema, weatherLabelSchema } from './answers.ts';

/** A clock as it crosses the wire and as `--json` prints it. Instants are epoch milliseconds UTC. */

/** Film times come out of an integral and are not whole milliseconds. */
const ms = z.number();

/**
 * Faces of a joint: the deck, the sheet folded back on it, an upstand, the top of a lap (its underside,
 * folded back) and its bottom (the sheet already laid).
 */
export const CLOCK_FACES = ['deck', 'sheet', 'upstand', 'lap-top', 'lap-bottom'] as const;
export const clockFaceSchema = z.enum(CLOCK_FACES);
export type ClockFace = z.infer<typeof clockFaceSchema>;

const clockSpanSchema = z.object({ fromMs: ms, untilMs: ms.nullable() });

/** A limit broken while the film lies open, in `count` of `of` forecasts, first about `atMs`. */
const clockReasonSchema = z.object({
  limit: z.string(),
  words: z.string(),
  /** 'data sheet', 'common practice', 'starter value' or "the firm's own". */
  whose: z.string(),
  face: clockFaceSchema,
  atMs: ms,
  count: z.number().int(),
  of: z.number().int(),
});
export type ClockReason = z.infer<typeof clockReasonSchema>;

/** `count` of `of` forecasts that reach far enough; `unknown` more do not. */
const clockSpoiltSchema = z.object({
  count: z.number().int(),
  of: z.number().int(),
  unknown: z.number().int(),
  atMs: ms.nullable(),
});

export const clockAnswerSchema = z.object({
  product: z.object({
    id: z.string(),
    name: z.string(),
    mechanism: z.string(),
    closing: z.string(),
  }),
  /** First and last square metre coated. */
  coatedMs: ms,
  coatedUntilMs: ms,
  weather: weatherLabelSchema.nullable(),
  /**
   * Of all coated faces together: ready when the last is, usable until the first goes off. null = the
   * product has no such moment, or it is `withheld`; null inside = not in the time looked at.
   */
  touchDry: clockRangeSchema.nullable(),
  usableUntil: clockRangeSchema.nullable(),
  rainAfter: clockRangeSchema.nullable(),
  footTraffic: clockRangeSchema.nullable(),
  fullCure: clockRangeSchema.nullable(),
  faces: z.array(
    z.object({
      face: clockFaceSchema,
      touchDry: clockRangeSchema.nullable(),
      usableUntil: clockRangeSchema.nullable(),
    }),
  ),
  /**
   * When to bring it together. 'any-tin': from `sure.fromMs` to `sure.untilMs` a slow tin is ready and a
   * quick one has not gone off. 'finger': no such time; once the finger finds it ready, `leastOpenMs` are
   * left at least. 'none': the early face goes off before the late one is ready.
   */
  window: z
    .discriminatedUnion('kind', [
      z.object({ kind: z.literal('any-tin'), sure: clockSpanSchema, likely: clockSpanSchema }),
      z.object({ kind: z.literal('finger'), likely: clockSpanSchema, leastOpenMs: ms.nullable() }),
      z.object({
        kind: z.literal('none'),
        lateFace: clockFaceSchema,
        earlyFace: clockFaceSchema,
        readyMs: ms.nullable(),
        expiresMs: ms,
      }),
    ])
    .nullable(),
  /** Why it will not dry in the time looked at, or null. */
  wontDry: z.string().nullable(),
  /** True = outside the data sheet: nothing is called ready, open time is counted at its shortest. */
  withheld: z.boolean(),
  outside: z.array(z.string()),
  outsideReasons: z.array(clockReasonSchema),
  /** Broken later, while it is still usable: it must be together by then. */
  laterReasons: z.array(clockReasonSchema),
  /** Rain before it goes off (or skins): what lies open then is done again. */
  rain: clockSpoiltSchema.nullable(),
  /** Colder than the sheet asks in the hours after; null where it asks nothing. */
  coldNight: clockSpoiltSchema.nullable(),
  sentence: z.string(),
  cautions: z.array(z.string()),
});
export type ClockAnswer = z.infer<typeof clockAnswerSchema>;
