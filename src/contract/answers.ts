import { z } from 'zod';
import { STOP_KINDS } from '../stages/index.ts';
import { baySchema, dayOptionSchema } from './day-option.ts';
import { triedSchema } from './tried.ts';

/**
 * What the planner answers, as it crosses the wire and as `--json` prints it. Instants are epoch
 * milliseconds UTC; the job's site carries the time zone to show them in.
 */

/** Film times come out of an integral and are not whole milliseconds. */
const ms = z.number();
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

/** How far the search behind an answer got. */
export const searchSchema = z.object({
  /** 'quick' = first answer, one order and bay size; 'full' = all of it. */
  depth: z.enum(['quick', 'full']),
  state: z.enum(['running', 'done', 'stopped']),
  /** Days looked at in full, of those that can be worked. */
  daysDone: z.number().int(),
  daysOf: z.number().int(),
  words: z.string(),
});
export type SearchState = z.infer<typeof searchSchema>;

export const costsSchema = z.object({
  currency: z.string(),
  /** The crew is sent home on site. */
  standDown: z.number(),
  /** The day is called off the evening before; a share of standing down where the job does not say. */
  calledOff: z.number(),
  shortened: z.number(),
  caughtOpen: z.number(),
  waitPerDay: z.number(),
});

export const daysAnswerSchema = z.object({
  job: z.object({ id: z.string(), name: z.string(), timeZone: z.string(), demo: z.boolean() }),
  nowMs: ms,
  /** null = no current forecast: no chances are given. */
  weather: weatherLabelSchema.nullable(),
  noForecast: z.string().nullable(),
  /** The bay to lay next, as the job's own split has it. */
  bay: baySchema,
  days: z.array(dayOptionSchema),
  /** Why no day of the forecast can do, and the nearest change that was tried and does; null = some may. */
  neverFits: z.object({ rule: z.string(), words: z.string(), change: z.string() }).nullable(),
  search: searchSchema,
  /** The figures this answer was made with. */
  costs: costsSchema,
  /** Those of the job itself. */
  ownCosts: costsSchema,
  /** What of them was only tried; nothing of it is saved. */
  tried: triedSchema,
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
  /** What was only tried; nothing of it is saved. */
  tried: triedSchema,
  costs: costsSchema,
  threshold: z.number(),
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
