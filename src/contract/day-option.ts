import { z } from 'zod';

/**
 * One laying day of an answer: the short line (verdict, chance, being caught open, start, rain-safe by) and
 * all that stands behind it. What a first answer has not worked out yet is null or empty.
 */

/** Film times come out of an integral and are not whole milliseconds. */
const ms = z.number();
/** Local calendar date of the site. */
const localDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const share = z.number().min(0).max(1);

/** How often, out of `of` forecasts; `tenths` is the headline ('about 7 in 10'), null = no chance can be given. */
export const chanceSchema = z.object({
  count: z.number().int(),
  of: z.number().int(),
  tenths: z.number().int().min(0).max(10).nullable(),
  /** After taking off for choosing the best start, for count and for lead time; null with a single forecast. */
  adjusted: share.nullable(),
  /** Before the firm's own record and the limit of the count had their say; what a record is fitted to. */
  shrunk: share.nullable().exactOptional(),
  words: z.string(),
  /** The forecasts counted were made from a single one. */
  made: z.literal(true).optional(),
  checked: z.union([
    z.literal('not yet checked against outcomes here'),
    z.templateLiteral(['checked against ', z.number().int(), ' outcomes here']),
  ]),
});
export type Chance = z.infer<typeof chanceSchema>;

export const outcomesSchema = z.object({
  finished: z.number().int(),
  shortened: z.number().int(),
  stoodDown: z.number().int(),
  caughtOpen: z.number().int(),
  /** Forecasts that end before the day's work does: counted as neither. */
  unknown: z.number().int(),
});
export type OutcomeCounts = z.infer<typeof outcomesSchema>;

const whose = z.enum(['data sheet', 'law', 'firm', 'visible moisture', 'safety', 'clock']);

export const reasonSchema = z.object({
  rule: z.string(),
  /** Plain sentence, e.g. 'rain between opening and rain-safe'. */
  words: z.string(),
  count: z.number().int(),
  /** Commonest hour it strikes, or null. */
  aroundMs: ms.nullable(),
  /** All but the earliest and latest tenth strike between these. */
  earlyMs: ms.nullable(),
  lateMs: ms.nullable(),
  /** Whose limit it is. */
  whose,
});
export type Reason = z.infer<typeof reasonSchema>;

export const baySchema = z.object({
  number: z.number().int(),
  of: z.number().int(),
  areaM2: z.number(),
});

/** How the day is laid: what to ask the order of work for so that list and chance belong together. */
export const laySchema = z.object({
  bay: baySchema,
  /** Area to ask `work`, `ahead` and `now` for; null = the job's own split. */
  askBayM2: z.number().nullable(),
  /** In words; null = as the order of work lists it. */
  order: z.string().nullable(),
  people: z.number().int(),
  /** The gang knocks off then. */
  offMs: ms,
  /** Where less is laid than the job's split has it: why, and what it costs in laying days; else null. */
  smallerBay: z.string().nullable(),
});
export type Lay = z.infer<typeof laySchema>;

/** Cost and loss behind the call: standing down pays once `chance` passes `threshold`. */
export const valueSchema = z.object({
  /** What standing down costs (C). */
  standDown: z.number(),
  /** What being caught open costs, which standing down avoids (L). */
  loss: z.number(),
  /** Share of forecasts caught open; null = one forecast only. */
  chance: share.nullable(),
  threshold: share,
  words: z.string(),
});
export type Value = z.infer<typeof valueSchema>;

/** All laying days still to do, this one among them. */
export const wholeJobSchema = z.object({
  layingDays: z.number().int(),
  count: z.number().int(),
  of: z.number().int(),
  chance: chanceSchema.nullable(),
  words: z.string(),
});
export type WholeJob = z.infer<typeof wholeJobSchema>;

/** The one limit that costs the day most; the chance without it only where it is the firm's to change. */
export const costingLimitSchema = z.object({
  rule: z.string(),
  /** A whole sentence. */
  words: z.string(),
  whose,
  finishedWithout: z.number().int().nullable(),
  without: chanceSchema.nullable(),
});
export type CostingLimit = z.infer<typeof costingLimitSchema>;

/** A change that would turn the day, best first. */
export const turnSchema = z.object({
  kind: z.enum(['later start', 'smaller bay', 'other adhesive', 'one more person']),
  /** A whole sentence, with the chance it turns the day to. */
  words: z.string(),
  startMs: ms.nullable(),
  /** The bay to ask the order of work for; null = the change is another one. */
  askBayM2: z.number().nullable(),
  chance: chanceSchema,
  expectedCost: z.number(),
  /** Less than the day as found is expected to cost; negative where it costs more. */
  gainCost: z.number(),
});
export type Turn = z.infer<typeof turnSchema>;

export const CALL_OFF_TIMES = ['now', 'evening before', 'on site', 'go whatever'] as const;

/** When to decide, with what each costs; calling later knows more and costs more where it is called off. */
export const callOffSchema = z.object({
  choices: z.array(
    z.object({
      when: z.enum(CALL_OFF_TIMES),
      atMs: ms.nullable(),
      /** What calling off costs at that moment. */
      callOffCost: z.number(),
      expectedCost: z.number(),
      /** Share of forecasts in which the day is then called off. */
      calledOffShare: share,
    }),
  ),
  best: z.enum(CALL_OFF_TIMES),
  words: z.string(),
});
export type CallOff = z.infer<typeof callOffSchema>;

/** A piece of work that must be finished in one go, and the last moment to begin it. */
export const safeStartSchema = z.object({ words: z.string(), lastMs: ms.nullable() });
export type SafeStart = z.infer<typeof safeStartSchema>;

export const dayOptionSchema = z.object({
  date: localDate,
  verdict: z.enum(['go', 'doubtful', 'no', 'unknown']),
  sentence: z.string(),
  startMs: ms.nullable(),
  finishMs: ms.nullable(),
  rainSafeByMs: ms.nullable(),
  lastAdhesiveMs: ms.nullable(),
  /** First strip or adhesive, the middle of the forecasts that finish; the roof is open until rain-safe. */
  openFromMs: ms.nullable(),
  /** Longest the roof is open in the share of finishing forecasts that the job asks for [min]. */
  openMin: z.number().nullable(),
  chance: chanceSchema.nullable(),
  outcomes: outcomesSchema,
  expectedCost: z.number().nullable(),
  value: valueSchema.nullable(),
  way: laySchema.nullable(),
  wholeJob: wholeJobSchema.nullable(),
  /** At most three, the commonest first. */
  reasons: z.array(reasonSchema),
  limit: costingLimitSchema.nullable(),
  turns: z.array(turnSchema),
  callOff: callOffSchema.nullable(),
  /** How far the chance moves with the timing of rain, where that is too far to call the day; else null. */
  tooEarly: z.object({ low: share, high: share }).nullable(),
  safeStarts: z.array(safeStartSchema),
  /** Why some of them, or all, have no time; null where all have one. */
  safeStartsNote: z.string().nullable(),
  /** 'quick' = one order and bay size; 'full' = starts, orders, bays, gang and knocking off. */
  searched: z.enum(['quick', 'full']),
  rank: z.number().int().nullable(),
});
export type DayOption = z.infer<typeof dayOptionSchema>;
