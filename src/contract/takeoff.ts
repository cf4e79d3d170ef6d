import { z } from 'zod';
import { OUTLINE_EDGE_KINDS } from '../roof/index.ts';
import { RATE_IDS, STOP_KINDS } from '../stages/index.ts';

/**
 * What a roof asks for, without any weather: GET /api/jobs/:id/takeoff, POST /api/takeoff and
 * `layfair takeoff --json`. Areas and lengths as they lie on the roof, net before losses unless said.
 */

const count = z.number().int();
const quantity = z.object({ value: z.number(), unit: z.enum(['m2', 'm', 'no.']) });

export const takeoffEdgeSchema = z.object({
  area: z.string(),
  number: count,
  name: z.string(),
  kind: z.enum(OUTLINE_EDGE_KINDS),
  lengthM: z.number(),
  upstandMm: z.number(),
});

export const stageRowSchema = z.object({
  number: count,
  title: z.string(),
  applies: z.boolean(),
  whyNot: z.string(),
  days: z.array(count),
  quantity: quantity.nullable(),
  workerMin: z.number(),
  crewMin: z.number(),
  people: z.object({ least: count, most: count }),
  /** The rates it is reckoned from, and where they come from. */
  from: z.array(
    z.object({
      rate: z.enum(RATE_IDS),
      typical: z.number(),
      low: z.number(),
      high: z.number(),
      unit: z.string(),
      source: z.string(),
    }),
  ),
  lag: z
    .object({ product: z.string(), leastMin: z.number(), mostMin: z.number().nullable() })
    .nullable(),
  rules: z.array(z.string()),
  neverInterrupt: z.boolean(),
  noReturn: z.boolean(),
  beforeRain: z.boolean(),
  safeStopAfter: z.boolean(),
  holdPoints: z.array(z.string()),
  cautions: z.array(z.string()),
});

const productChoice = z.object({
  id: z.string(),
  name: z.string(),
  chosen: z.boolean(),
  /** Why it cannot be used on this roof; [] = it can. */
  refused: z.array(z.string()),
});

/** What a change to the layout does against the layout that is searched for; above 0 = more. */
const layoutChange = z.object({
  lapM: z.number(),
  sheets: count,
  tJoints: count,
  boughtM2: z.number(),
  wastePct: z.number(),
});

export const takeoffAnswerSchema = z.object({
  job: z.object({ id: z.string(), name: z.string() }),
  roof: z.object({
    planM2: z.number(),
    /** Net of rooflight openings, on the fall. */
    surfaceM2: z.number(),
    fieldM2: z.number(),
    perimeterStripM2: z.number(),
    perimeterM: z.number(),
    turnUpM2: z.number(),
    turnDownM2: z.number(),
    edges: z.array(takeoffEdgeSchema),
    corners: z.object({ internal: count, external: count, upstandEnds: count }),
    outlets: count,
    pipes: count,
    rooflights: count,
  }),
  sheets: z.object({
    pieces: z.array(
      z.object({
        number: count,
        bay: count,
        lengthM: z.number(),
        widthM: z.number(),
        rollWidthM: z.number(),
      }),
    ),
    laps: z.object({ sideM: z.number(), endM: z.number(), joinM: z.number() }),
    tJoints: count,
    rolls: z.array(
      z.object({
        number: count,
        widthM: z.number(),
        lengthM: z.number(),
        cuts: z.array(
          z.object({
            sheet: count,
            atM: z.number(),
            acrossM: z.number(),
            lengthM: z.number(),
            widthM: z.number(),
          }),
        ),
        restM: z.number(),
      }),
    ),
    orders: z.array(z.object({ widthM: z.number(), lengthM: z.number(), count })),
    boughtM2: z.number(),
    cutM2: z.number(),
    wastePct: z.number(),
    rollsRunDeg: z.array(z.number()),
    /** Null where nothing is turned, shifted or fixed. */
    change: layoutChange.nullable(),
    notes: z.array(z.string()),
  }),
  materials: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      net: z.number(),
      unit: z.string(),
      lossPct: z.number(),
      withLoss: z.number(),
      container: z.number(),
      containers: count,
      coverage: z.object({ value: z.number(), unit: z.string(), source: z.string() }),
    }),
  ),
  choices: z.record(z.string(), z.array(productChoice)),
  stages: z.array(stageRowSchema),
  days: z.array(
    z.object({
      number: count,
      areaM2: z.number(),
      nightSealM: z.number(),
      sectionM2: z.number(),
      workerMin: z.number(),
      /** In fair weather, from the start of the list [min]. */
      rainSafeMin: z.number(),
      finishMin: z.number(),
      stops: z.array(
        z.object({
          kind: z.enum(STOP_KINDS),
          title: z.string(),
          allowed: z.boolean(),
          why: z.string(),
          sealM: z.number(),
          workerMin: z.number(),
          looseM2: z.number(),
        }),
      ),
    }),
  ),
  people: count,
  /** What a roofer would question; kept as given. */
  warnings: z.array(z.string()),
  /** The roof with its sheets and bays, as SVG. */
  drawing: z.string(),
  cautions: z.array(z.string()),
});
export type TakeoffAnswer = z.infer<typeof takeoffAnswerSchema>;
export type StageRowAnswer = z.infer<typeof stageRowSchema>;
