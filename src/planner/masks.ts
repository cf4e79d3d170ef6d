import type { Product } from '../products/index.ts';
import { RULE_IDS, type RuleId } from '../stages/index.ts';
import type { SurfaceWeather, WeatherGrid } from '../weather/index.ts';
import type { FirmLimits } from './limits.ts';
import {
  type Asked,
  airTemp,
  askedOf,
  chill,
  coldNight,
  daylight,
  daysFrom,
  deckDry,
  dewMargin,
  heat,
  humidity,
  lightning,
  type Rule,
  type RuleView,
  rain,
  roofWind,
  sheetWind,
  surfaceTemp,
} from './rules/index.ts';

export const RULE_BIT: Readonly<Record<RuleId, number>> = Object.fromEntries(
  RULE_IDS.map((id, n) => [id, 1 << n]),
) as Record<RuleId, number>;

export function bitsOf(rules: readonly RuleId[]): number {
  return rules.reduce((bits, id) => bits | RULE_BIT[id], 0);
}

/** Rules that hold even a film that lies open: people come before adhesive. */
export const SAFETY_BITS = bitsOf(
  [sheetWind, roofWind, lightning, heat, chill, daylight].map((rule) => rule.id),
);

/** Which rules are broken when, for work with one product on one surface. */
export interface RuleMask {
  /** Column of bit sets, see RULE_BIT. */
  readonly broken: Uint16Array;
  readonly rules: readonly Rule[];
  /** Column: what the night after turns out to be, see NIGHT; null where the product does not mind. */
  readonly turnsCold: Uint8Array | null;
}

/** What a mask is for: work with one product on one surface. */
export interface MaskOf {
  readonly surface: SurfaceWeather;
  readonly product: Product | null;
  readonly freshlyOpened: boolean;
}

/** Rules that ask neither what is laid nor on what. */
const SITE_RULES = [rain, sheetWind, roofWind, lightning, heat, chill] as const;
const PRODUCT_RULES = [dewMargin, airTemp, surfaceTemp, humidity] as const;

/**
 * Evaluates every rule once per member and step, so that 'may this start now?' is one look-up. All work
 * needs daylight: in the dark nothing else is asked.
 * @param fromStep  steps before it are left alone (they are past)
 */
export function masksOn(
  grid: WeatherGrid,
  limits: FirmLimits,
  fromStep: number,
): (of: MaskOf) => RuleMask {
  const first = Math.max(0, fromStep);
  const atAll = askedOf(grid, [{ from: first, to: grid.steps }]);
  const byDay = askedOf(grid, daysFrom(grid, first));
  const mark = (rule: Rule, view: RuleView, asked: Asked, broken: Uint16Array): void =>
    rule.mark(view, { ...asked, broken, bit: RULE_BIT[rule.id] });
  let ofTheSite: Uint16Array | null = null;

  return ({ surface, product, freshlyOpened }) => {
    const view: RuleView = { grid, surface, limits, freshlyOpened };
    if (ofTheSite === null) {
      ofTheSite = new Uint16Array(grid.steps * grid.memberCount);
      mark(daylight, view, atAll, ofTheSite);
      for (const rule of SITE_RULES) mark(rule, view, byDay, ofTheSite);
    }
    const cold = product === null ? null : coldNight(product, limits, grid);
    const ofTheProduct = product === null ? [] : PRODUCT_RULES.map((of) => of(product, limits));
    const ofTheWork = [...ofTheProduct, cold?.rule ?? null].filter((rule) => rule !== null);
    const broken = ofTheSite.slice();
    for (const rule of [deckDry, ...ofTheWork]) mark(rule, view, byDay, broken);
    // Of several that are broken the first is told.
    const [wet, ...others] = SITE_RULES;
    const rules = [wet, deckDry, ...others, daylight, ...ofTheWork];
    return { broken, rules, turnsCold: cold?.turnsCold ?? null };
  };
}

/** The first of the rules whose bit is set. */
export function firstBroken(mask: RuleMask, broken: number): RuleId {
  for (const { id } of mask.rules) if ((broken & RULE_BIT[id]) !== 0) return id;
  throw new Error(`held by a rule nobody evaluates (bits ${broken})`);
}
