import type { ProductJob } from '../products/index.ts';
import type { SafeStop } from './stop-types.ts';

export const DECK_KINDS = [
  'osb',
  'plywood',
  'faced-board',
  'paper-faced-board',
  'polystyrene',
  'existing-sheet',
] as const;
/**
 * What the sheet is bonded to. faced-board = insulation with a foil face: nothing can soak into it;
 * paper-faced-board = insulation whose face absorbs; polystyrene = insulation without a face.
 */
export type DeckKind = (typeof DECK_KINDS)[number];

export const UNDER_KINDS = [
  'occupied-room',
  'unoccupied-space',
  'sealed-vapour-layer',
  'sound-covering',
] as const;
/** What rain meets if it gets past the open work. */
export type UnderKind = (typeof UNDER_KINDS)[number];

export interface Insulation {
  readonly thicknessMm: number;
  /** Vapour layer under it, sealed at laps and edges; null = none is laid. */
  readonly vapourLayer: {
    /** Days its own sheet lets it lie open to the weather; 0 = it may not. */
    readonly exposureDays: number;
  } | null;
}

export interface BuildUp {
  readonly deck: DeckKind;
  readonly deckThicknessMm: number;
  readonly under: UnderKind;
  /** Old covering to strip first; false = the deck is already bare. */
  readonly strip: boolean;
  /** New boards are laid as part of the job; `deck` and its thickness are then theirs. */
  readonly layDeck: boolean;
  /** Insulation laid as part of the job, under new boards or as the deck itself; null = none. */
  readonly insulation: Insulation | null;
  /** Moisture of the deck from a reading or a core [% of dry mass]; null = not known until opened. */
  readonly deckMoisturePct: number | null;
  readonly sheet: 'plain' | 'fleece';
  /** Product ids by what they do. */
  readonly products: Readonly<
    Record<'field' | 'perimeter' | 'primer' | 'lapTape' | 'patch' | 'sealant' | 'nightSeal', string>
  >;
}

/** The stages of the trade that a laying day can hold, in order. Numbers are those of docs/stages.md. */
export const STAGE_KINDS = [
  'open-up',
  'dry-down',
  'vapour-layer',
  'insulation',
  'deck',
  'set-out',
  'relax',
  'fold-back',
  'field',
  'laps',
  'perimeter',
  'details',
  'edge-fixings',
  'sealant',
  'night-seal',
  'check',
] as const;
export type StageKind = (typeof STAGE_KINDS)[number];

/** What the weather has to be for an activity; the planner owns what each means. */
export const RULE_IDS = [
  'rain',
  'deck-dry',
  'dew-margin',
  'air-temp',
  'surface-temp',
  'humidity',
  'cold-night',
  'sheet-wind',
  'roof-wind',
  'lightning',
  'heat',
  'chill',
  'daylight',
] as const;
export type RuleId = (typeof RULE_IDS)[number];

/** What a build-up names a product for. */
export type BuildUpJob = Exclude<ProductJob, 'water-block' | 'sheet'>;

/** One piece of work the crew does without changing task. */
export interface Activity {
  readonly id: string;
  readonly stage: StageKind;
  readonly title: string;
  /** Work content [worker-minutes] and how many may share it. */
  readonly workerMin: number;
  readonly maxPeople: number;
  readonly minPeople: number;
  /** Ids that must be finished before. */
  readonly after: readonly string[];
  /** Waiting without weather (sheet relaxing) after the named activity's end [min]. */
  readonly restMin?: { readonly after: string; readonly minutes: number };
  /** Rules that must hold to start it. */
  readonly rules: readonly RuleId[];
  /** Coating: starts a clock of this product on this surface kind. */
  readonly coats?: {
    readonly productId: string;
    readonly surfaces: readonly ('deck' | 'folded-sheet' | 'sheet' | 'upstand')[];
    /** What the product has to cover, where that is not the quantity itself. */
    readonly covers?: { readonly value: number; readonly unit: 'm2' | 'm' };
  };
  /** Closing: must fall inside the clock started by that activity. */
  readonly closes?: string;
  /** First activity that lets rain in. */
  readonly opens: boolean;
  /** Never to be interrupted mid-way. */
  readonly oneGo: boolean;
  /** Cannot be undone: a point of no return. */
  readonly noReturn: boolean;
  /** Must be finished for the roof to be rain-safe. */
  readonly forRainSafe: boolean;
  readonly quantity: { readonly value: number; readonly unit: 'm2' | 'm' | 'no.' } | null;
  readonly productJob: BuildUpJob | null;
  /**
   * Spread and rolled in by turns, never more than one step ahead: each step is coated and closed
   * within `stepMin`. The pair that follows is the last such step, and its window stands for all.
   */
  readonly runningFront?: {
    readonly steps: number;
    readonly stepM2: number;
    readonly stepMin: number;
  };
  /** Checks a person must make before going on. */
  readonly holdPoints: readonly string[];
  readonly cautions: readonly string[];
  /** What to do if rain comes while at it. */
  readonly ifRain: string;
}

/** Everything for one laying day of one roof: the crew's list in priority order. */
export interface DayWork {
  readonly bay: { readonly number: number; readonly of: number; readonly areaM2: number };
  readonly activities: readonly Activity[];
  readonly sectionM2: number;
  readonly stops: readonly SafeStop[];
  /** Closing up for the night at any point: length of open edge and worker-minutes. */
  readonly nightSeal: { readonly lengthM: number; readonly workerMin: number };
}
