import { z } from 'zod';
import { clockRangeSchema, daysAnswerSchema, weatherLabelSchema } from './answers.ts';
import { chanceSchema, outcomesSchema } from './day-option.ts';

/** The best way on from a minute, as it crosses the wire and as `--json` prints it. */

const ms = z.number();

/** Ways on, the one that gets most done first. */
export const NOW_WAYS = ['go-on', 'open-no-more', 'close-coated', 'wait', 'close-up'] as const;

export const nowWaySchema = z.object({
  id: z.enum(NOW_WAYS),
  words: z.string(),
  outcomes: outcomesSchema,
  /** In the job's own stated costs, a forecast. */
  expectedCost: z.number(),
  chosen: z.boolean(),
});
export type NowWay = z.infer<typeof nowWaySchema>;

export const nowTaskSchema = z.object({
  id: z.string(),
  title: z.string(),
  startMs: ms,
  endMs: ms,
  people: z.number().int(),
  /** Id of the coating this brings together, or null. */
  closes: z.string().nullable(),
  holdPoints: z.array(z.string()),
});
export type NowTask = z.infer<typeof nowTaskSchema>;

export const nowFilmSchema = z.object({
  /** Id of its coating. */
  id: z.string(),
  name: z.string(),
  product: z.string(),
  firstMs: ms,
  lastMs: ms,
  /** When a finger found it touch dry; null = not said. */
  feltDryMs: ms.nullable(),
  /** By the clock; null = closed wet, at once. */
  touchDry: clockRangeSchema.nullable(),
  usableUntil: clockRangeSchema,
  state: z.enum(['drying', 'ready', 'gone-off']),
  /** Latest start of closing it that ends before the quick end of its open time. */
  closeFromMs: ms.nullable(),
});
export type NowFilm = z.infer<typeof nowFilmSchema>;

export const closeUpActionSchema = z.object({
  what: z.enum([
    'close-film',
    'cover-film',
    'turn-down',
    'sheet-deck',
    'cover-details',
    'close-laps',
    'seal-edges',
    'outlets',
    'look-below',
    'photo',
  ]),
  words: z.string(),
  minutes: z.number(),
  usableUntilMs: ms.nullable(),
  ifRain: z.string().nullable(),
});
export type CloseUpStep = z.infer<typeof closeUpActionSchema>;

export const nowAnswerSchema = z.object({
  job: daysAnswerSchema.shape.job,
  nowMs: ms,
  /** The minute asked about. */
  atMs: ms,
  weather: weatherLabelSchema,
  bay: daysAnswerSchema.shape.bay,
  sectionM2: z.number(),
  people: z.number().int(),
  /** One line to read: what to do from this minute. */
  sentence: z.string(),
  /** The same as a word; 'off-roof' comes before any way, which then begins when it is over. */
  call: z.enum([...NOW_WAYS, 'off-roof', 'finished']),
  offRoof: z
    .object({
      why: z.enum(['thunder', 'lightning', 'roof-wind', 'daylight']),
      words: z.string(),
      untilMs: ms.nullable(),
    })
    .nullable(),
  opened: z.boolean(),
  rainSafe: z.boolean(),
  /** Of finishing the list today on the way chosen. */
  chance: chanceSchema,
  inHand: z.object({ id: z.string(), title: z.string(), startMs: ms, endMs: ms }).nullable(),
  /** At most five. */
  next: z.array(nowTaskSchema),
  /** Films that lie open, the one that goes off first before the others. */
  films: z.array(nowFilmSchema),
  /** From here, in this order; no minutes where nothing is open. */
  closeUp: z.object({
    minutes: z.number(),
    startByMs: ms.nullable(),
    actions: z.array(closeUpActionSchema),
  }),
  /** No new section is begun after this; null where none is left. */
  stopOpeningMs: ms.nullable(),
  /** By the foreman's eye, and by as many forecasts as the job's confidence does not let pass; null = none. */
  rain: z.object({ seenMs: ms.nullable(), foreseenMs: ms.nullable() }),
  /** Empty where everything is done. */
  ways: z.array(nowWaySchema),
  costs: daysAnswerSchema.shape.costs,
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
});
export type NowAnswer = z.infer<typeof nowAnswerSchema>;
