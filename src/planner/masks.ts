import type { Product } from '../products/index.ts';
import { RULE_IDS, type RuleId } from '../stages/index.ts';
import type { SurfaceWeather, WeatherGrid } from '../weather/index.ts';
import type { FirmLimits } from './limits.ts';
import {
  airTemp,
  coldNight,
  daylight,
  deckDry,
  dewMargin,
  humidity,
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
export const SAFETY_BITS = bitsOf([sheetWind, roofWind, daylight].map((rule) => rule.id));

/** Which rules are broken when, for work with one product on one surface. */
export interface RuleMask {
  /** Column of bit sets, see RULE_BIT. */
  readonly broken: Uint16Array;
  readonly rules: readonly Rule[];
  /** Column: what the night after turns out to be, see NIGHT; null where the product does not mind. */
  readonly turnsCold: Uint8Array | null;
}

/**
 * Evaluates every rule once per member and step, so that 'may this start now?' is one look-up.
 * @param fromStep  steps before it are left alone (they are past)
 */
export function buildMask(args: {
  readonly grid: WeatherGrid;
  readonly surface: SurfaceWeather;
  readonly product: Product | null;
  readonly limits: FirmLimits;
  readonly freshlyOpened: boolean;
  readonly fromStep: number;
}): RuleMask {
  const { grid, surface, product, limits, freshlyOpened, fromStep } = args;
  const view: RuleView = { grid, surface, limits, freshlyOpened };
  const cold = product === null ? null : coldNight(product, limits, grid);
  const rules: Rule[] = [rain, deckDry, sheetWind, roofWind, daylight];
  if (product !== null) {
    for (const make of [dewMargin, airTemp, surfaceTemp, humidity]) {
      const rule = make(product, limits);
      if (rule !== null) rules.push(rule);
    }
  }
  if (cold !== null) rules.push(cold.rule);
  const broken = new Uint16Array(grid.steps * grid.memberCount);
  for (let i = Math.max(0, fromStep); i < grid.steps; i += 1) {
    // All work needs daylight: in the dark nothing else is asked.
    const asked = daylight.broken(view, i, i) ? [daylight] : rules;
    for (const rule of asked) {
      const bit = RULE_BIT[rule.id];
      for (let m = 0; m < grid.memberCount; m += 1) {
        const at = m * grid.steps + i;
        if (i < grid.knownSteps[m]! && rule.broken(view, at, i)) broken[at]! |= bit;
      }
    }
  }
  return { broken, rules, turnsCold: cold?.turnsCold ?? null };
}

/** The first of the rules whose bit is set. */
export function firstBroken(mask: RuleMask, broken: number): RuleId {
  const rule = mask.rules.find((candidate) => (broken & RULE_BIT[candidate.id]) !== 0);
  if (rule === undefined) throw new Error(`held by a rule nobody evaluates (bits ${broken})`);
  return rule.id;
}
