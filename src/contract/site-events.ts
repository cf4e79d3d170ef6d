import { z } from 'zod';
import { DAY_END_CAUSES, DAY_ENDS, type DayEnd } from '../planner/index.ts';

/** Ways a day ends that need a cause beside them: a roof is caught open by the weather only. */
const CUT_SHORT: ReadonlySet<string> = new Set<DayEnd>(['shortened', 'stood-down']);

const base = {
  id: z.uuid(),
  jobId: z.uuid(),
  atMs: z.number().int(),
  loggedMs: z.number().int(),
  actorId: z.string().min(1).max(100),
};
const activityId = z.string().min(1).max(100);
const productId = z.string().min(1).max(100);

/** One entry of the site log, as sent and as stored. */
export const siteEventSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    ...base,
    kind: z.enum(['opened', 'touch-dry', 'closed', 'finished']),
    activityId,
  }),
  z.strictObject({
    ...base,
    kind: z.literal('coated'),
    activityId,
    productId,
    areaM2: z.number().positive().max(10_000).nullable(),
  }),
  z.strictObject({
    ...base,
    kind: z.literal('reading'),
    what: z.enum(['surface-temp', 'air-temp', 'rel-hum', 'moisture', 'wind']),
    value: z.number().min(-60).max(120),
  }),
  z.strictObject({
    ...base,
    kind: z.literal('batch'),
    productId,
    batch: z.string().min(1).max(100),
    expires: z.iso.date().nullable(),
  }),
  z.strictObject({ ...base, kind: z.literal('stop'), reason: z.string().min(1).max(500) }),
  z.strictObject({ ...base, kind: z.enum(['thunder-heard', 'rain-safe']) }),
  z.strictObject({ ...base, kind: z.literal('note'), text: z.string().min(1).max(2000) }),
  z
    .strictObject({
      ...base,
      kind: z.literal('day-ended'),
      date: z.iso.date(),
      went: z.enum(DAY_ENDS),
      because: z.enum(DAY_END_CAUSES).nullable(),
    })
    .refine(({ went, because }) => CUT_SHORT.has(went) === (because !== null), {
      path: ['because'],
      message:
        'must be weather, forecast or other where the day was shortened or stood-down, and null where it was not',
    }),
  z.strictObject({ ...base, kind: z.literal('confirm'), confirms: z.uuid() }),
  z.strictObject({ ...base, kind: z.literal('undo'), undoes: z.uuid() }),
]);
export type SiteLogEvent = z.infer<typeof siteEventSchema>;
