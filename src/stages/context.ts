import type { Product } from '../products/index.ts';
import type { BayTakeOff, LayingBay } from '../roof/index.ts';
import type { LabourRates } from './rates.ts';
import { CAUTION } from './texts.ts';
import type { Activity, BuildUp, RuleId, StageKind } from './types.ts';

/** A build-up's products by what they do. */
export type BuildUpProducts = Readonly<Record<keyof BuildUp['products'], Product>>;

/** What every part of the day's list is made from. */
export interface DayContext {
  readonly bay: LayingBay;
  readonly takeOff: BayTakeOff;
  readonly buildUp: BuildUp;
  readonly products: BuildUpProducts;
  readonly people: number;
  readonly rates: LabourRates;
  /** Minutes from usable to no longer usable, by what is closed. */
  readonly usable: {
    readonly fieldMin: number;
    readonly perimeterMin: number;
    readonly primerMin: number;
  };
}

/** Half a sheet as folded back and bonded, with the last activity that closes it. */
export interface LaidHalf {
  readonly sheet: number;
  readonly half: 1 | 2;
  /** Ids of the edges it reaches. */
  readonly touches: readonly string[];
  readonly closedBy: string;
}

/** Share of the usable minutes that a section may take; the rest is margin. Common practice. */
export const USABLE_SHARE = 2 / 3;

const ALWAYS: readonly RuleId[] = ['roof-wind', 'lightning', 'heat', 'chill', 'daylight'];

/** Rules for work that only needs people to be able to stand on the roof. */
export const workRules = (...more: readonly RuleId[]): readonly RuleId[] => [...more, ...ALWAYS];

/** Rules for laying down a material; `onDeck` where one of the faces is the deck. */
export function bondRules(product: Product, onDeck: boolean): readonly RuleId[] {
  return [
    'rain',
    ...(onDeck ? (['deck-dry'] as const) : []),
    'dew-margin',
    'air-temp',
    'surface-temp',
    'humidity',
    ...(product.mechanism === 'water' ? (['cold-night'] as const) : []),
    ...ALWAYS,
  ];
}

/** Cautions that come with a material. */
export function productCautions(product: Product): readonly string[] {
  const own = product.hazards;
  if (product.mechanism === 'solvent') return [CAUTION.solvent, ...own];
  if (product.mechanism === 'moisture-cure' || product.mechanism === 'chemical') {
    return product.does.includes('field') ? [CAUTION.polyurethane, ...own] : own;
  }
  return own;
}

type Needed = Pick<Activity, 'id' | 'title' | 'workerMin' | 'rules' | 'ifRain'> & {
  readonly stage: StageKind;
};

/** An activity with the usual values filled in. It counts towards rain-safe unless told otherwise. */
export function activity(given: Needed & Partial<Activity>): Activity {
  return {
    minPeople: 1,
    maxPeople: 2,
    after: [],
    opens: false,
    oneGo: false,
    noReturn: false,
    forRainSafe: true,
    quantity: null,
    productJob: null,
    holdPoints: [],
    cautions: [],
    ...given,
  };
}

/** Splits a length or area into equal chunks none of which is over the most allowed. */
export function equalChunks(total: number, most: number): number[] {
  if (total <= 0) return [];
  const count = Math.max(1, Math.ceil(total / most - 1e-9));
  return Array.from({ length: count }, () => total / count);
}

/** 'x' or 'x, 2 of 3' when there is more than one. */
export const ofMany = (what: string, index: number, count: number): string =>
  count === 1 ? what : `${what}, ${index + 1} of ${count}`;

export const round1 = (value: number): string => value.toFixed(1).replace(/\.0$/, '');
