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
  'water-block',
  'night-seal',
  'sheet',
] as const;
export type ProductJob = (typeof PRODUCT_JOBS)[number];

/**
 * m2/L, m2/kg = finished roof per litre or kilogram; m2/m = roof per metre of ribbon; m/L, m/tube,
 * m/roll = length of lap or joint; m/m = lap per metre of tape; m2/m2 = roof per square metre of sheet;
 * each = one piece per detail.
 */
export const COVERAGE_UNITS = [
  'm2/L',
  'm2/kg',
  'm2/m',
  'm/L',
  'm/tube',
  'm/roll',
  'm/m',
  'm2/m2',
  'each',
] as const;
export type CoverageUnit = (typeof COVERAGE_UNITS)[number];

/** A number as the sheet prints it, kept beside ours. */
export interface Printed {
  readonly value: number | readonly number[];
  readonly unit: string;
}

/** A time at the product's reference conditions with its scatter [min]. */
export interface RefTime {
  readonly lowMin: number;
  readonly typicalMin: number;
  readonly highMin: number;
  readonly source: NumberSource;
  readonly printed?: Printed;
}

/** What a clock can be asked for. 'rainAfter' is the film's own; a roof is rain-safe by other rules. */
export const CLOCK_EVENTS = [
  'touchDry',
  'openUntil',
  'rainAfter',
  'footTraffic',
  'fullCure',
] as const;
export type ClockEvent = (typeof CLOCK_EVENTS)[number];

/** A sheet's table as it prints it: the axis of temperatures and the times; humidity is always in %. */
export interface PrintedTable {
  readonly tempUnit: string;
  readonly temps: readonly number[];
  readonly timeUnit: string;
  readonly times: readonly (readonly number[])[];
}

/**
 * A sheet's own times of one event against temperature and humidity, film and air alike in both; rows
 * by temperature, columns by humidity. Inside its range it rules over the physics.
 */
export interface TimesTable {
  readonly event: ClockEvent;
  /** Rising [°C], 1 or more. */
  readonly tempC: readonly number[];
  /** Rising [%]; empty = the sheet names no humidity, and each row has one time. */
  readonly relHumPct: readonly number[];
  /** [min], above 0. */
  readonly minutes: readonly (readonly number[])[];
  readonly source: NumberSource;
  readonly printed?: PrintedTable;
}

export interface Limit {
  readonly value: number;
  readonly source: NumberSource;
  readonly printed?: Printed;
}

export const SUBSTRATES = [
  'osb',
  'plywood',
  'faced-board',
  'existing-sheet',
  'concrete',
  'fleece',
] as const;
/** What a film is spread on, where that changes how far it goes. */
export type Substrate = (typeof SUBSTRATES)[number];

/** A limit that both the class and the firm's sheet name. */
export interface LimitChoice {
  readonly limit: keyof ProductLimits;
  readonly fromClass: Limit;
  readonly fromSheet: Limit;
  readonly wins: 'class' | 'sheet';
  /** Both numbers, and which wins and why, in a sentence. */
  readonly words: string;
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

/** What handling the membrane itself needs; only on products that do 'sheet'. */
export interface SheetFacts {
  /** [kg/m2] */
  readonly weightKgM2: {
    readonly low: number;
    readonly high: number;
    readonly source: NumberSource;
    readonly printed?: Printed;
  };
  /** Widths it is rolled in, rising [m]. */
  readonly rollWidthsM: {
    readonly values: readonly number[];
    readonly source: NumberSource;
    readonly printed?: Printed;
  };
  /** Lying flat before the first fold, at least [min]. */
  readonly relaxMin: Limit;
  /** The same for a sheet that came folded, or in the cold [min]. */
  readonly relaxColdMin: Limit;
}

export const LIMIT_KEYS = [
  'airMinC',
  'airMaxC',
  'surfaceMinC',
  'surfaceMaxC',
  'dewMarginMinK',
  'relHumMaxPct',
  'afterMinC',
  'hoursAfter',
] as const satisfies readonly (keyof ProductLimits)[];

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
  /** Closed wet: from when the sheet may be laid in, cream time of a foam say; null = at once. */
  readonly closeFrom: RefTime | null;
  /** Coating to light foot traffic on the closed sheet; null = not known. */
  readonly footTraffic: RefTime | null;
  readonly fullCure: RefTime | null;
  /** The sheet's own tables, each event at most once; [] = none. */
  readonly tables: readonly TimesTable[];
  /** Finished area per litre with all faces coated [m2/L], or per unit of the product's own. */
  readonly coverage: {
    readonly value: number;
    readonly unit: CoverageUnit;
    readonly source: NumberSource;
    readonly printed?: Printed;
    /** The same on a substrate that drinks or spares; the value above where it is not named. */
    readonly on?: Partial<
      Record<
        Substrate,
        { readonly value: number; readonly source: NumberSource; readonly printed?: Printed }
      >
    >;
  };
  /** Temperature of the material itself before use [°C]; null = none named. */
  readonly materialTempC: {
    readonly low: number;
    readonly high: number;
    readonly source: NumberSource;
    readonly printed?: Printed;
  } | null;
  /** The membrane's own facts, on products that do 'sheet'. */
  readonly sheet?: SheetFacts;
  readonly limits: ProductLimits;
  /** Plain sentences shown where the hazard is. */
  readonly hazards: readonly string[];
  /** How to use it well: what it wants under it, how to judge it by hand. */
  readonly advice?: readonly string[];
  /** A firm's own product: the class it starts from. */
  readonly basedOn?: string;
  /**
   * Never in a file: the times above are the firm's own, from its site logs, and these the sheet's.
   * See `withSpeed`.
   */
  readonly learned?: {
    readonly factor: number;
    readonly spread: number;
    readonly sheet: Pick<Product, 'touchDry' | 'openUntil' | 'rainAfter' | 'tables'>;
  };
  /** A firm's own product: limits that class and sheet name differently. */
  readonly limitChoices?: readonly LimitChoice[];
}
