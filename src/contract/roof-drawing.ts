import { z } from 'zod';
import { CUT_CORNERS, FEATURE_KINDS, OUTLINE_EDGE_KINDS } from '../roof/index.ts';
import { numberIn } from './numbers.ts';

/**
 * A roof of any plan as people write it. What only a look at the drawing can tell (an edge without a type,
 * an outline that crosses itself, a feature off the roof) is left to the geometry, which names the place.
 */

const FARTHEST_M = 1000;
const coordinateM = numberIn(-FARTHEST_M, FARTHEST_M);
const point = z.tuple([coordinateM, coordinateM]);
const id = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,39}$/, 'must be 1 to 40 letters, digits and hyphens');

const edge = z.strictObject({
  kind: z.enum(OUTLINE_EDGE_KINDS).nullable().default(null),
  upstandMm: numberIn(0, 1000).nullable().default(null),
});
const sideEdges = z.strictObject({
  low: edge.optional(),
  right: edge.optional(),
  high: edge.optional(),
  left: edge.optional(),
  cutLength: edge.optional(),
  cutWidth: edge.optional(),
});

/** By list or by side; looked at as what it is, so that a fault inside is told where it stands. */
const edges = z.unknown().transform((value, ctx) => {
  const read = (Array.isArray(value) ? z.array(edge).max(200) : sideEdges).safeParse(value);
  if (read.success) return read.data;
  for (const issue of read.error.issues) ctx.issues.push({ ...issue, input: value } as never);
  return z.NEVER;
});

const placed = { at: point.default([0, 0]), turnDeg: numberIn(-360, 360).default(0) };
const sizeM = numberIn(0, 500);
const shape = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('rectangle'), lengthM: sizeM, widthM: sizeM, ...placed }),
  z.strictObject({
    kind: z.literal('l-shape'),
    lengthM: sizeM,
    widthM: sizeM,
    cutLengthM: sizeM,
    cutWidthM: sizeM,
    cutCorner: z.enum(CUT_CORNERS),
    ...placed,
  }),
  z.strictObject({ kind: z.literal('polygon'), points: z.array(point).max(200) }),
]);

const feature = z.strictObject({
  id,
  kind: z.enum(FEATURE_KINDS),
  at: point,
  sizeM: z.tuple([numberIn(0, 50), numberIn(0, 50)]),
  upstandMm: numberIn(0, 1000).nullable().default(null),
  turnDeg: numberIn(-360, 360).default(0),
});

const area = z.strictObject({
  id,
  name: z.string().max(80).default(''),
  shape,
  fallDeg: numberIn(0, 10).default(1.4),
  fallPlanDeg: numberIn(0, 360).default(180),
  edges,
  features: z.array(feature).max(200).default([]),
});

export const roofDrawingSchema = z.strictObject({
  areas: z.array(area).max(40),
  northDeg: numberIn(0, 360).default(0),
  access: point.nullable().default(null),
});

/** What a checked file holds: the geometry's `DrawnRoof`, whose faults are looked for on the drawing. */
export type RoofDrawing = z.infer<typeof roofDrawingSchema>;

/** The roof as drawn so far, and what is wrong with it, where. */
export const roofDrawingAnswerSchema = z.object({
  drawing: z.string().nullable(),
  issues: z.array(
    z.object({
      path: z.string(),
      message: z.string(),
      /** 'warn' = kept as given. */
      level: z.enum(['refuse', 'warn']),
      at: z.tuple([z.number(), z.number()]).readonly().nullable(),
    }),
  ),
});
export type RoofDrawingAnswer = z.infer<typeof roofDrawingAnswerSchema>;
