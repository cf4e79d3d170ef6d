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

/** What a limit of the firm's own would have to be for the job to be laid, as tried. */
export interface LooserLimit {
  readonly value: number;
  readonly unit: '°C' | '%' | 'K';
  readonly what: 'air' | 'surface' | 'humidity' | 'dew margin' | 'coldest air after';
  readonly side: BestMoment['side'];
  readonly source: Limit['source'];
  readonly laid: DayLaid;
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
 * How far one limit that is the firm's to change would have to move. A limit off a data sheet is never
 * moved, nor one that is there for safety, nor visible moisture.
 * @param moments  of each of `unmet`, how near its rule comes
 * @returns null where the limit is not the firm's alone, or no value tried lets the job be laid
 */
export function looserLimit(
  prepared: Prepared,
  unmet: readonly NeverMet[],
  moments: readonly (BestMoment | null)[],
): LooserLimit | null {
  const [first] = unmet;
  const rule = first?.rules[0];
  const known = moments.filter((moment) => moment !== null);
  const [moment] = known;
  if (rule === undefined || moment === undefined || known.length < unmet.length) return null;
  if (!isLoosened(rule)) return null;
  const oneRule = unmet.every(({ rules }) => rules.length === 1 && rules[0] === rule);
  if (!oneRule || known.some(({ side }) => side !== moment.side)) return null;
  const limits = unmet.map(({ kind }) => limitOf(kind.product, rule, moment.side));
  if (limits.some((limit) => limit?.source === 'data sheet')) return null;
  const worst = known.reduce((far, next) => (next.short > far.short ? next : far));
  for (const value of valuesFrom(rule, worst)) {
    const laid = laidWithLimit(prepared, unmet, rule, moment.side, value);
    if (laid === null) continue;
    const source = limits.find((limit) => limit !== undefined)?.source ?? 'user';
    return { value, ...NAMES[rule], side: moment.side, source, laid };
  }
  return null;
}

const NAMES: Readonly<Record<Loosened, Pick<LooserLimit, 'unit' | 'what'>>> = {
  'air-temp': { unit: '°C', what: 'air' },
  'surface-temp': { unit: '°C', what: 'surface' },
  humidity: { unit: '%', what: 'humidity' },
  'dew-margin': { unit: 'K', what: 'dew margin' },
  'cold-night': { unit: '°C', what: 'coldest air after' },
};

const isLoosened = (rule: RuleId): rule is Loosened => Object.hasOwn(STEP, rule);

function valuesFrom(rule: Loosened, { got, side }: BestMoment): number[] {
  const step = STEP[rule];
  const down = side === 'at least';
  const from = (down ? Math.floor(got / step) : Math.ceil(got / step)) * step;
  return Array.from({ length: MOST_STEPS }, (_, n) => from + (down ? -n : n) * step).filter(
    (value) =>
      !(rule === 'humidity' && value > MOST_HUMIDITY_PCT) &&
      !(rule === 'dew-margin' && value < LEAST_DEW_MARGIN_K),
  );
}

function laidWithLimit(
  prepared: Prepared,
  unmet: readonly NeverMet[],
  rule: Loosened,
  side: BestMoment['side'],
  value: number,
): DayLaid | null {
  const roles = [...new Set(unmet.map(({ kind }) => kind.role))].filter((role) => role !== null);
  const changed = roles.map((role) => ({
    role,
    product: withLimit(prepared.products[role], rule, side, value),
  }));
  const base =
    rule === 'dew-margin'
      ? withDewMargin(prepared, Math.min(prepared.limits.dewMarginMinK, value))
      : prepared;
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

/** A product of its own to the planner, so that both can be asked for on one roof. */
function withLimit(
  product: Product,
  rule: Loosened,
  side: BestMoment['side'],
  value: number,
): Product {
  const key = KEY[rule][side];
  const was = product.limits[key];
  if (was === undefined) return product;
  const limits = { ...product.limits, [key]: { value, source: was.source } };
  return { ...product, id: `${product.id} ${key} ${value}`, limits };
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
