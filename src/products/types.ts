/**
 * What Layfair knows about a material: how it dries, for how long it can be used, what it asks of the
 * weather, and where each number comes from.
 */

/** Who stands behind a number. 'data sheet' = read in print; 'user' = the firm's own entry. */
export const NUMBER_SOURCES = ['data sheet', 'common practice', 'from memory', 'user'] as const;
export type NumberSource = (typeof NUMBER_SOURCES)[number];

/** How a film gets ready. */
export const MECHANISMS = ['water', 'solvent', 'moisture-cure', 'chemical', 'none'] as const;
export type Mechanism = (typeof MECHANISMS)[number];

/** How two faces are brought together: wet (lay into it), touch dry on both faces, or neither (tape, sealant). */
export const CLOSINGS = ['wet', 'touch-dry', 'none'] as const;
export type Closing = (typeof CLOSINGS)[number];

export const PRODUCT_JOBS = [
  'field',
  'perimeter',
  'primer',
  'lap-tape',
  'patch',
  'sealant',
  'night-seal',
] as const;
export type ProductJob = (typeof PRODUCT_JOBS)[number];

/**
 * m2/L, m2/kg = finished roof per litre or kilogram; m2/m = roof per metre of ribbon; m/L, m/tube,
 * m/roll = length of lap or joint; m/m = lap per metre of tape; each = one piece per detail.
 */
export const COVERAGE_UNITS = [
  'm2/L',
  'm2/kg',
  'm2/m',
  'm/L',
  'm/tube',
  'm/roll',
  'm/m',
  'each',
] as const;
export type CoverageUnit = (typeof COVERAGE_UNITS)[number];

/** A time at the product's reference conditions with its scatter [min]. */
export interface RefTime {
  readonly lowMin: number;
  readonly typicalMin: number;
  readonly highMin: number;
  readonly source: NumberSource;
}

export interface Limit {
  readonly value: number;
  readonly source: NumberSource;
}

export interface ProductLimits {
  readonly airMinC?: Limit;
  readonly airMaxC?: Limit;
  readonly surfaceMinC?: Limit;
  readonly surfaceMaxC?: Limit;
  readonly dewMarginMinK?: Limit;
  readonly relHumMaxPct?: Limit;
  /** Air must stay at or above this for `hoursAfter` hours after laying. */
  readonly afterMinC?: Limit;
  readonly hoursAfter?: Limit;
}

export interface Product {
  readonly id: string;
  readonly name: string;
  readonly does: readonly ProductJob[];
  readonly mechanism: Mechanism;
  readonly closing: Closing;
  /** Faces that are coated: 1 = deck only, 2 = both. */
  readonly faces: 1 | 2;
  /** Solvent that sets the drying rate, for mechanism 'solvent'. */
  readonly solvent: 'toluene' | 'n-heptane' | 'n-hexane' | 'acetone' | 'cyclohexane' | 'mek' | null;
  readonly reference: {
    readonly airTempC: number;
    readonly relHumPct: number;
    readonly windMps: number;
  };
  /** Coating to touch dry; null where it is closed wet or has no such state. */
  readonly touchDry: RefTime | null;
  /** Coating to the end of open time; null where it has none. */
  readonly openUntil: RefTime | null;
  /**
   * What ends the open time: the film drying on (adhesive loses its tack), or plain time (a primer
   * gathers dust and must be renewed however slowly it dried).
   */
  readonly openEndsBy: 'drying' | 'time';
  /** Sealant: skin formed, rain no longer harms. Else null. */
  readonly rainAfter: RefTime | null;
  /** Finished area per litre with all faces coated [m2/L], or per unit of the product's own. */
  readonly coverage: {
    readonly value: number;
    readonly unit: CoverageUnit;
    readonly source: NumberSource;
  };
  readonly limits: ProductLimits;
  /** Plain sentences shown where the hazard is. */
  readonly hazards: readonly string[];
  /** How to use it well: what it wants under it, how to judge it by hand. */
  readonly advice?: readonly string[];
}
