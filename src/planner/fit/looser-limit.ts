import type { Limit, Product, ProductLimits } from '../../products/index.ts';
import type { RuleId } from '../../stages/index.ts';
import { stepAt } from '../../weather/index.ts';
import { masksOn, type RuleMask } from '../masks.ts';
import { type Prepared, productOfActivity, surfaceOf } from '../prepare.ts';
import type { BestMoment } from './best-moment.ts';
import { type DayLaid, firstDayLaid } from './day-laid.ts';
import { limitOf } from './miss-words.ts';
import type { NeverMet } from './never-met.ts';
import { variantWith } from './other-products.ts';

/** What limits of the firm's own would have to be for the job to be laid, as tried. */
export interface LooserLimits {
  readonly limits: readonly LooserLimit[];
  readonly source: Limit['source'];
  readonly laid: DayLaid;
}

export interface LooserLimit {
  readonly rule: Loosened;
  readonly value: number;
  readonly unit: '°C' | '%' | 'K';
  readonly what: string;
  readonly side: BestMoment['side'];
}

type Loosened = 'air-temp' | 'surface-temp' | 'humidity' | 'dew-margin' | 'cold-night';

/** In which steps a limit is moved, and how far at the most from the first value that lets an hour through. */
const STEP: Readonly<Record<Loosened, number>> = {
  'air-temp': 1,
  'surface-temp': 1,
  humidity: 2,
  'dew-margin': 0.5,
  'cold-night': 1,
};
const MOST_STEPS = 6;
/** Wetter than this, or nearer to dew, no limit lets anybody bond. */
const MOST_HUMIDITY_PCT = 100;
const LEAST_DEW_MARGIN_K = 0.5;

/**
 * How far limits that are the firm's to change would have to move. A limit off a data sheet is never
 * moved, nor one that is there for safety, nor visible moisture.
 * @param moments  of each of `unmet`, how near its rule comes
 * @returns null where a limit is not the firm's to change, or no values tried let the job be laid
 */
export function looserLimits(
  prepared: Prepared,
  unmet: readonly NeverMet[],
  moments: readonly (BestMoment | null)[],
): LooserLimits | null {
  const sources = new Set<Limit['source']>();
  const worst = new Map<Loosened, BestMoment>();
  for (const [n, { kind, rules }] of unmet.entries()) {
    const [rule] = rules;
    const moment = moments[n] ?? null;
    if (rules.length > 1 || rule === undefined || moment === null || !isLoosened(rule)) return null;
    const limit = limitOf(kind.product, rule, moment.side);
    // A product without a margin of its own over the dew point is held by the firm's.
    const source = limit?.source ?? 'user';
    if (source === 'data sheet') return null;
    sources.add(source);
    const before = worst.get(rule);
    if (before !== undefined && before.side !== moment.side) return null;
    if (before === undefined || moment.short > before.short) worst.set(rule, moment);
  }
  for (let n = 0; n < MOST_STEPS; n += 1) {
    const limits = [...worst].map(([rule, moment]) => limitAt(rule, moment, n));
    if (limits.some((limit) => limit === null)) return null;
    const moved = limits.filter((limit) => limit !== null);
    const laid = laidWithLimits(prepared, unmet, moved);
    if (laid === null) continue;
    const source = sources.has('user') ? 'user' : [...sources][0]!;
    return { limits: moved, source, laid };
  }
  return null;
}

const NAMES: Readonly<Record<Loosened, Pick<LooserLimit, 'unit' | 'what'>>> = {
  'air-temp': { unit: '°C', what: 'air' },
  'surface-temp': { unit: '°C', what: 'a surface' },
  humidity: { unit: '%', what: 'humidity' },
  'dew-margin': { unit: 'K', what: 'a margin over the dew point of' },
  'cold-night': { unit: '°C', what: 'air in the hours after' },
};

const isLoosened = (rule: RuleId): rule is Loosened => Object.hasOwn(STEP, rule);

/** The n-th value tried; null where nobody would bond at it. */
function limitAt(rule: Loosened, { got, side }: BestMoment, n: number): LooserLimit | null {
  const step = STEP[rule];
  const down = side === 'at least';
  const value = ((down ? Math.floor(got / step) : Math.ceil(got / step)) + (down ? -n : n)) * step;
  if (rule === 'humidity' && value > MOST_HUMIDITY_PCT) return null;
  if (rule === 'dew-margin' && value < LEAST_DEW_MARGIN_K) return null;
  return { rule, value, side, ...NAMES[rule] };
}

function laidWithLimits(
  prepared: Prepared,
  unmet: readonly NeverMet[],
  limits: readonly LooserLimit[],
): DayLaid | null {
  const roles = [...new Set(unmet.map(({ kind }) => kind.role))].filter((role) => role !== null);
  // What does two jobs stays one product.
  const made = new Map<Product, Product>();
  const changed = roles.map((role) => {
    const was = prepared.products[role];
    const product = made.get(was) ?? limits.reduce(withLimit, was);
    made.set(was, product);
    return { role, product };
  });
  const margin = limits.find(({ rule }) => rule === 'dew-margin');
  const base =
    margin === undefined
      ? prepared
      : withDewMargin(prepared, Math.min(prepared.limits.dewMarginMinK, margin.value));
  const variant = variantWith(base, changed);
  return variant === null ? null : firstDayLaid(variant);
}

const KEY = {
  'air-temp': { 'at least': 'airMinC', 'at most': 'airMaxC' },
  'surface-temp': { 'at least': 'surfaceMinC', 'at most': 'surfaceMaxC' },
  humidity: { 'at least': 'relHumMaxPct', 'at most': 'relHumMaxPct' },
  'dew-margin': { 'at least': 'dewMarginMinK', 'at most': 'dewMarginMinK' },
  'cold-night': { 'at least': 'afterMinC', 'at most': 'afterMinC' },
} as const satisfies Record<Loosened, Record<BestMoment['side'], keyof ProductLimits>>;

const loosened = new WeakMap<Product, Map<string, Product>>();

/**
 * A product of its own to the planner, so that both can be asked for on one roof; the same one each time
 * it is asked for, as a roof that is kept between questions wants it.
 */
function withLimit(product: Product, { rule, side, value }: LooserLimit): Product {
  const key = KEY[rule][side];
  const was = product.limits[key];
  if (was === undefined || (side === 'at least' ? was.value <= value : was.value >= value))
    return product;
  const id = `${product.id} ${key} ${value}`;
  const known = loosened.get(product) ?? new Map<string, Product>();
  loosened.set(product, known);
  const limits = { ...product.limits, [key]: { value, source: was.source } };
  const looser = known.get(id) ?? { ...product, id, limits };
  known.set(id, looser);
  return looser;
}

/** The same weather under a smaller margin over the dew point. */
function withDewMargin(prepared: Prepared, dewMarginMinK: number): Prepared {
  const limits = { ...prepared.limits, dewMarginMinK };
  const maskOf = masksOn(prepared.grid, limits, stepAt(prepared.grid, prepared.nowMs));
  const masks = new Map<string, RuleMask>();
  const looser = (of: Prepared): Prepared => ({
    ...of,
    limits,
    mask: (activity) => {
      const id = productOfActivity(activity, of.products);
      const kind = surfaceOf(activity);
      const key = `${id}|${kind}`;
      const mask =
        masks.get(key) ??
        maskOf({
          surface: of.surface(kind),
          product: of.productById.get(id) ?? null,
          freshlyOpened: kind !== 'deck' || of.job.buildUp.strip,
        });
      masks.set(key, mask);
      return mask;
    },
    variant: (change) => looser(of.variant(change)),
  });
  return looser(prepared);
}
