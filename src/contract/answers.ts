import { z } from 'zod';
import { STOP_KINDS } from '../stages/index.ts';

/**
 * What the planner answers, as it crosses the wire and as `--json` prints it. Instants are epoch
 * milliseconds UTC; the job's site carries the time zone to show them in.
 */

/** Film times come out of an integral and are not whole milliseconds. */
const ms = z.number();
/** Local calendar date of the site. */
const localDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

/** Where the weather came from; shown wherever a number made from it is shown. */
export const weatherLabelSchema = z.object({
  kind: z.enum(['live', 'file', 'demo']),
  model: z.string().nullable(),
  issuedMs: ms.nullable(),
  fetchedMs: ms.nullable(),
  invented: z.boolean(),
  attribution: z.string().nullable(),
  notes: z.array(z.string()),
  /** Number of forecasts (members). */
  count: z.number().int(),
  /** They were made from a single forecast: never to be shown as a weather centre's ensemble. */
  made: z.literal(true).optional(),
  startMs: ms,
  endMs: ms,
});
export type WeatherLabel = z.infer<typeof weatherLabelSchema>;

/** How often, out of `of` forecasts; `tenths` is the headline ('about 7 in 10'), null = no chance can be given. */
export const chanceSchema = z.object({
  count: z.number().int(),
  of: z.number().int(),
  tenths: z.number().int().min(0).max(10).nullable(),
  /** After taking off for choosing the best start, for count and for lead time; null with a single forecast. */
  adjusted: z.number().min(0).max(1).nullable(),
  words: z.string(),
  /** The forecasts counted were made from a single one. */
  made: z.literal(true).optional(),
  checked: z.literal('not yet checked against outcomes here'),
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

export const reasonSchema = z.object({
  rule: z.string(),
  /** Plain sentence, e.g. 'rain between opening and rain-safe'. */
  words: z.string(),
  count: z.number().int(),
  /** Commonest hour it strikes, or null. */
  aroundMs: ms.nullable(),
  /** Whose limit it is. */
  whose: z.enum(['data sheet', 'law', 'firm', 'visible moisture', 'safety', 'clock']),
});
export type Reason = z.infer<typeof reasonSchema>;

export const dayOptionSchema = z.object({
  date: localDate,
  verdict: z.enum(['go', 'doubtful', 'no', 'unknown']),
  sentence: z.string(),
  startMs: ms.nullable(),
  finishMs: ms.nullable(),
  rainSafeByMs: ms.nullable(),
  lastAdhesiveMs: ms.nullable(),
  chance: chanceSchema.nullable(),
  outcomes: outcomesSchema,
  expectedCost: z.number().nullable(),
  reasons: z.array(reasonSchema),
  rank: z.number().int().nullable(),
});
export type DayOption = z.infer<typeof dayOptionSchema>;

export const daysAnswerSchema = z.object({
  job: z.object({ id: z.string(), name: z.string(), timeZone: z.string(), demo: z.boolean() }),
  nowMs: ms,
  /** null = no current forecast: no chances are given. */
  weather: weatherLabelSchema.nullable(),
  noForecast: z.string().nullable(),
  bay: z.object({ number: z.number().int(), of: z.number().int(), areaM2: z.number() }),
  days: z.array(dayOptionSchema),
  costs: z.object({
    currency: z.string(),
    standDown: z.number(),
    shortened: z.number(),
    caughtOpen: z.number(),
    waitPerDay: z.number(),
  }),
  /** Stand down when the chance of being caught open passes this (cost of standing down / loss). */
  threshold: z.number(),
  cautions: z.array(z.string()),
});
export type DaysAnswer = z.infer<typeof daysAnswerSchema>;

/** Early, middle and late over product scatter and forecasts; null = not in the time looked at. */
export const clockRangeSchema = z.object({
  earlyMs: ms.nullable(),
  midMs: ms.nullable(),
  lateMs: ms.nullable(),
});

/** Surfaces that are coated; the clock pack has a clock for each. */
export const COATED_SURFACES = ['deck', 'folded-sheet', 'sheet', 'upstand'] as const;

export const workItemSchema = z.object({
  id: z.string(),
  /** Id of the coating this brings together, or null. */
  closes: z.string().nullable(),
  stage: z.string(),
  title: z.string(),
  startMs: ms,
  endMs: ms,
  /** Early-late range of the start over forecasts. */
  earlyMs: ms,
  lateMs: ms,
  people: z.number().int(),
  quantity: z.object({ value: z.number(), unit: z.string() }).nullable(),
  product: z.object({ id: z.string(), name: z.string(), amount: z.string().nullable() }).nullable(),
  /** What this coats, and on which faces: the film a 'coated' entry of the site log starts; null = nothing. */
  coats: z.object({ productId: z.string(), surfaces: z.array(z.enum(COATED_SURFACES)) }).nullable(),
  /** Idle wait before this item, with what is waited for. */
  wait: z.object({ minutes: z.number(), why: z.string() }).nullable(),
  clock: z
    .object({
      touchDryMs: ms.nullable(),
      touchDryEarlyMs: ms.nullable(),
      touchDryLateMs: ms.nullable(),
      usableUntilMs: ms.nullable(),
      closeWhileWet: z.boolean(),
    })
    .nullable(),
  /** Sealant: when rain no longer harms it. */
  rainAfter: clockRangeSchema.nullable(),
  lastSafeStartMs: ms.nullable(),
  holdPoints: z.array(z.string()),
  cautions: z.array(z.string()),
  ifRain: z.string(),
  noReturn: z.boolean(),
  oneGo: z.boolean(),
});
export type WorkItem = z.infer<typeof workItemSchema>;

/** Hourly picture of the day for the chart; arrays share one length, null = unknown. */
export const hoursSchema = z.object({
  startMs: z.array(ms),
  rainChancePct: z.array(z.number().nullable()),
  rainMmMean: z.array(z.number().nullable()),
  surfaceTempC: z.object({
    low: z.array(z.number().nullable()),
    mid: z.array(z.number().nullable()),
    high: z.array(z.number().nullable()),
  }),
  dewMarginK: z.object({
    low: z.array(z.number().nullable()),
    mid: z.array(z.number().nullable()),
    high: z.array(z.number().nullable()),
  }),
  airTempC: z.array(z.number().nullable()),
  windMps: z.array(z.number().nullable()),
  gustMps: z.array(z.number().nullable()),
  deckWetPct: z.array(z.number().nullable()),
});
export type Hours = z.infer<typeof hoursSchema>;

/** A place to leave the roof until the next shift, or why it is none, and what the weather does meanwhile. */
export const stopSchema = z.object({
  kind: z.enum(STOP_KINDS),
  title: z.string(),
  allowed: z.boolean(),
  why: z.string(),
  /** When the work before it ends as listed. */
  fromMs: ms,
  untilMs: ms,
  sealM: z.number(),
  /** What the seal takes, 'Water-block mastic, 2 tubes'; null = nothing to seal. */
  sealWith: z.string().nullable(),
  minutes: z.number(),
  looseM2: z.number(),
  actions: z.array(z.string()),
  rain: z.object({ count: z.number().int(), of: z.number().int() }),
  /** Strongest gust meanwhile, middle and high; null = the forecast does not reach. */
  gustMps: z.object({ middle: z.number(), high: z.number() }).nullable(),
  ballast: z.object({ fieldKgM2: z.number(), edgeKgM2: z.number() }).nullable(),
  words: z.string(),
});
export type StopAnswer = z.infer<typeof stopSchema>;

export const workAnswerSchema = z.object({
  job: daysAnswerSchema.shape.job,
  nowMs: ms,
  weather: weatherLabelSchema,
  bay: daysAnswerSchema.shape.bay,
  day: dayOptionSchema,
  sectionM2: z.number(),
  evening: z.array(z.string()),
  items: z.array(workItemSchema),
  rainSafeMs: ms.nullable(),
  /** From when the deck is dry enough and stays so; or why that cannot be said. */
  deckDry: z.discriminatedUnion('known', [
    z.object({
      known: z.literal(true),
      earlyMs: ms.nullable(),
      midMs: ms.nullable(),
      lateMs: ms.nullable(),
    }),
    z.object({ known: z.literal(false), why: z.string() }),
  ]),
  nightSeal: z.object({ lengthM: z.number(), minutes: z.number() }),
  stops: z.array(stopSchema),
  sunriseMs: ms.nullable(),
  sunsetMs: ms.nullable(),
  limits: z.object({
    dewMarginMinK: z.number(),
    surfaceMinC: z.number().nullable(),
    surfaceMaxC: z.number().nullable(),
    sheetWindMps: z.number(),
    gustMps: z.number(),
  }),
  hours: hoursSchema,
  cautions: z.array(z.string()),
  confidence: z.number(),
});
export type WorkAnswer = z.infer<typeof workAnswerSchema>;
