import { z } from 'zod';
import { parseInstant } from '../time/index.ts';

/** A value as it is printed inside a sentence: short, and quoted where it is text. */
export function show(value: unknown): string {
  if (value === undefined) return 'missing';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** A number in a closed range, or a sentence naming field, value and range. */
function numberField(name: string, low: number, high: number, hint = '') {
  return z.unknown().transform((value, ctx): number => {
    if (typeof value === 'number' && value >= low && value <= high) return value;
    const what = value === undefined ? `${name} is missing` : `${name} is ${show(value)}`;
    const extra = value === null ? hint : '';
    ctx.addIssue({
      code: 'custom',
      message: `${what}; it must be a number from ${low} to ${high}.${extra}`,
    });
    return z.NEVER;
  });
}

function objectField(name: string, hint: string) {
  return z.unknown().transform((value, ctx): Record<string, unknown> => {
    if (isRecord(value)) return value;
    const what = value === undefined ? `${name} is missing` : `${name} is ${show(value)}`;
    ctx.addIssue({ code: 'custom', message: `${what}; ${hint}.` });
    return z.NEVER;
  });
}

const NAN_HINT = ' The service writes nan here for a place its model does not cover.';

const issuedAt = z.unknown().transform((value, ctx): number => {
  const form = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?Z$/;
  const read = typeof value === 'string' && form.test(value) ? parseInstant(value, null) : null;
  if (read?.ok) return read.ms;
  ctx.addIssue({
    code: 'custom',
    message: `layfair.issued_at is ${show(value)}; it must be a UTC time such as 2026-05-12T04:40:00Z.`,
  });
  return z.NEVER;
});

const layfairBlock = z.strictObject(
  {
    invented: z.literal(true, {
      error: (i) => `layfair.invented is ${show(i.input)}; it must be true.`,
    }),
    issued_at: issuedAt,
    note: z
      .string({ error: (i) => `layfair.note is ${show(i.input)}; it must be text.` })
      .max(300, { error: 'layfair.note is longer than 300 characters.' }),
  },
  {
    error: (i) =>
      i.code === 'unrecognized_keys'
        ? `layfair has ${show(i.keys)}; it holds only invented, issued_at and note.`
        : `layfair is ${show(i.input)}; it must hold invented, issued_at and note.`,
  },
);

/** The outside of a /v1/forecast or /v1/ensemble response; columns are checked by their readers. */
export const answerShape = z.looseObject({
  latitude: numberField('latitude', -90, 90, NAN_HINT),
  longitude: numberField('longitude', -180, 180, NAN_HINT),
  elevation: numberField('elevation', -500, 9000).nullish(),
  utc_offset_seconds: numberField('utc_offset_seconds', -43_200, 50_400).optional(),
  timezone: z.string({ error: (i) => `timezone is ${show(i.input)}; it must be text.` }).optional(),
  hourly_units: objectField('hourly_units', 'it must name the unit of every hourly column'),
  hourly: objectField('hourly', 'Layfair needs the hourly block of a forecast response'),
  layfair: layfairBlock.optional(),
});
export type AnswerShape = z.infer<typeof answerShape>;

/** The outside of an answer by the quarter hour, asked for alone or beside hours. */
export const quarterShape = answerShape
  .pick({ latitude: true, longitude: true, utc_offset_seconds: true, timezone: true })
  .extend({
    minutely_15_units: objectField('minutely_15_units', 'it must name the unit of every column'),
    minutely_15: objectField('minutely_15', 'it must hold values by the quarter hour'),
  });

/** The provider's error answer, in any key order. */
export const errorAnswer = z.looseObject({ error: z.literal(true), reason: z.string() });

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
