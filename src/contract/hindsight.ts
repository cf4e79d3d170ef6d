import { z } from 'zod';
import { DAY_END_CAUSES, DAY_ENDS } from '../planner/index.ts';

/** The firm's own hindsight, `GET /api/calls`: what each past call said and what came. */

const ms = z.number();
const count = z.number().int().nonnegative();
const share = z.number().min(0).max(1);

const dayCallSchema = z.object({
  saidMs: ms,
  /** From then to the start of the crew's day. */
  leadDays: z.number(),
  lead: z.string(),
  verdict: z.enum(['go', 'doubtful', 'no']),
  /** As shown: 'about 7 in 10'. */
  words: z.string(),
  shown: share,
  count,
  of: count,
  /** The forecasts counted were made from a single one. */
  made: z.boolean(),
  startMs: ms.nullable(),
  bay: z.number().int(),
  issuedMs: ms.nullable(),
  model: z.string().nullable(),
});

const calledDaySchema = z.object({
  jobId: z.string(),
  jobName: z.string(),
  timeZone: z.string(),
  date: z.string(),
  /** null = nobody has said. */
  went: z.enum(DAY_ENDS).nullable(),
  because: z.enum(DAY_END_CAUSES).nullable(),
  /** The 'day-ended' entry of the site log: what to undo. */
  entryId: z.string().nullable(),
  /** Why it says nothing of the chances; null = it counts. */
  whyNot: z.string().nullable(),
  /** The last one of each class of days ahead, the nearest first. */
  calls: z.array(dayCallSchema),
});

const scoreSchema = z.object({
  days: count,
  finished: count,
  /** Mean square of chance less outcome, 0 is best. */
  brier: z.number(),
  /** The same of always saying this record's own share of finished days. */
  usual: z.number(),
  /** 1 less brier over usual; null where all days went alike. */
  skill: z.number().nullable(),
  words: z.string(),
});

export const hindsightSchema = z.object({
  nowMs: ms,
  /** What stands beside every chance given now. */
  checked: z.string(),
  record: z.object({
    /** Days of jobs with a known outcome, and how many it takes to have a say. */
    days: count,
    needed: count,
    /** Share of the record in the chances shown, 0 to 1. */
    weight: share,
    /** Brier scores of days left out of the fit, without and with it. */
    before: z.number().nullable(),
    after: z.number().nullable(),
  }),
  sentence: z.string(),
  /** By what was said last before the day, the surest first. */
  called: z.array(z.object({ said: z.string(), days: count, finished: count, words: z.string() })),
  /** Of the last calls before the days; null without cases. */
  score: scoreSchema.nullable(),
  byLead: z.array(z.object({ lead: z.string(), score: scoreSchema })),
  /** Days that are over or have an end, the newest first. */
  days: z.array(calledDaySchema),
  /** Older days not listed; they count all the same. */
  daysLeftOut: count,
  notes: z.array(z.string()),
});
export type Hindsight = z.infer<typeof hindsightSchema>;
