import { inRange } from '../units/index.ts';

/** Labour rates: data with a range and a source, each to be overridden by the firm's own figure. */
export interface LabourRate {
  readonly low: number;
  readonly typical: number;
  readonly high: number;
  readonly unit: 'm2/worker-hour' | 'm/worker-hour' | 'min each';
  /** Most people the work is usually shared by. */
  readonly crew: number;
  readonly source: 'common practice' | 'from memory' | 'user';
}

const cp = (
  low: number,
  typical: number,
  high: number,
  unit: LabourRate['unit'],
  crew: number,
): LabourRate => ({ low, typical, high, unit, crew, source: 'common practice' });

/**
 * Net output per worker; set-up and breaks are not in it. Typical is the middle of the range.
 * Work split into two tasks keeps its published rate for both together, see `TASK_SHARES`.
 */
export const labourRates = {
  setUp: cp(30, 45, 60, 'min each', 4),
  strip: cp(4, 6, 8, 'm2/worker-hour', 4),
  dryDown: { ...cp(100, 150, 200, 'm2/worker-hour', 2), source: 'from memory' },
  moisturePoint: { ...cp(0.5, 1, 1.5, 'min each', 2), source: 'from memory' },
  layDeck: cp(3, 4, 5, 'm2/worker-hour', 2),
  insulate: cp(4, 6, 8, 'm2/worker-hour', 4),
  sheetOut: cp(25, 37.5, 50, 'm2/worker-hour', 4),
  fieldWet: cp(10, 12.5, 15, 'm2/worker-hour', 3),
  fieldContact: cp(5, 6.5, 8, 'm2/worker-hour', 4),
  fieldPolyurethane: cp(12, 18.5, 25, 'm2/worker-hour', 3),
  lap: cp(6, 9, 12, 'm/worker-hour', 2),
  perimeterStrip: { ...cp(20, 30, 40, 'm/worker-hour', 2), source: 'from memory' },
  upstand: cp(3, 4.5, 6, 'm/worker-hour', 2),
  corner: cp(20, 30, 40, 'min each', 1),
  pipe: cp(20, 30, 40, 'min each', 1),
  outlet: cp(40, 50, 60, 'min each', 1),
  tJoint: { ...cp(5, 10, 15, 'min each', 1), source: 'from memory' },
  bar: cp(8, 11.5, 15, 'm/worker-hour', 1),
  trim: cp(6, 9, 12, 'm/worker-hour', 1),
  sealant: cp(30, 45, 60, 'm/worker-hour', 1),
  nightSeal: { ...cp(10, 15, 20, 'm/worker-hour', 2), source: 'from memory' },
  sheeting: { ...cp(40, 60, 80, 'm2/worker-hour', 2), source: 'from memory' },
  survey: { ...cp(60, 90, 120, 'min each', 2), source: 'from memory' },
  coverFlashing: { ...cp(3, 4.5, 6, 'm/worker-hour', 1), source: 'from memory' },
  handOver: { ...cp(30, 60, 90, 'min each', 1), source: 'from memory' },
  inspection: { ...cp(75, 110, 150, 'm2/worker-hour', 2), source: 'from memory' },
} as const satisfies Readonly<Record<string, LabourRate>>;

export type RateId = keyof typeof labourRates;
export const RATE_IDS = Object.keys(labourRates) as [RateId, ...RateId[]];
export type LabourRates = Readonly<Record<RateId, LabourRate>>;

/** Share of a published rate's time that goes into the first of its tasks; the rest closes it. */
export const TASK_SHARES = {
  /** Sweep and set out; unroll; square up. Together the rate 'sheetOut'. */
  sheetOut: { sweep: 0.4, unroll: 0.4, relax: 0.2 },
  /** Vapour layer with sealed laps and edges, and boards bonded or fixed: together the rate 'insulate'. */
  insulate: { vapourLayer: 0.35, boards: 0.65 },
  fieldWetCoat: 0.6,
  fieldContactCoat: 0.7,
  lapPrime: 0.4,
  perimeterCoat: 0.5,
  upstandCoat: 0.4,
  /** Cut, clean and warm first; the rest after priming. */
  detail: { prepare: 0.6, prime: 0.1, patch: 0.3 },
  source: 'from memory',
} as const;

/** Upstand rates are for heights up to this [mm]; higher ones take longer in proportion. */
export const UPSTAND_RATE_HEIGHT_MM = 300;

/**
 * The table with the firm's own figures put in.
 * @param own typical values in the rate's own unit, above 0
 * @throws RangeError naming the rate
 */
export function withOwnRates(own: Readonly<Partial<Record<RateId, number>>>): LabourRates {
  const table: Record<string, LabourRate> = { ...labourRates };
  for (const [id, typical] of Object.entries(own)) {
    const known = table[id];
    if (known === undefined) throw new RangeError(`there is no labour rate '${id}'`);
    if (typical === undefined) continue;
    inRange(`labour rate ${id}`, typical, 0.01, 10_000);
    table[id] = { ...known, low: typical, typical, high: typical, source: 'user' };
  }
  return table as LabourRates;
}

/** Worker-minutes for a quantity at the typical rate. */
export function workerMin(rate: LabourRate, quantity: number): number {
  return rate.unit === 'min each' ? rate.typical * quantity : (quantity / rate.typical) * 60;
}
