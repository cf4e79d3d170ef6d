import type { ProductLimits } from '../../products/index.ts';
import type { RuleId } from '../../stages/index.ts';
import { stepAt } from '../../weather/index.ts';
import type { DayPlan } from '../day-plan.ts';
import type { DayRun } from '../day-run.ts';
import { RULE_BIT } from '../masks.ts';
import type { Rule, Whose } from '../rules/index.ts';

/**
 * The limits that were broken in working hours for some task on the list, or that ended a day, over the
 * forecasts named; one each rule, of several products' the one broken longest; the longest first.
 */
export function rulesInTheWay(
  plan: DayPlan,
  runs: readonly DayRun[],
  members: readonly number[],
): readonly Rule[] {
  const found = new Map<RuleId, { readonly rule: Rule; readonly length: number }>();
  const keep = (rule: Rule, length: number): void => {
    const before = found.get(rule.id);
    if (before === undefined || length > before.length) found.set(rule.id, { rule, length });
  };
  const counted = new Map<string, number>();
  for (const { mask, bits } of plan.steps) {
    for (const rule of mask.rules) {
      if ((bits & RULE_BIT[rule.id]) === 0) continue;
      const length = counted.get(rule.words) ?? brokenSteps(plan, mask.broken, rule.id, members);
      counted.set(rule.words, length);
      if (length > 0) keep(rule, length);
    }
  }
  for (const m of members) {
    const { cause } = runs[m]!;
    const rule = plan.steps.flatMap(({ mask }) => mask.rules).find(({ id }) => id === cause);
    if (rule !== undefined) keep(rule, 0);
  }
  return [...found.values()].sort((a, b) => b.length - a.length).map(({ rule }) => rule);
}

function brokenSteps(
  { prepared: { grid }, shift }: DayPlan,
  broken: Uint16Array,
  id: RuleId,
  members: readonly number[],
): number {
  const first = Math.max(0, stepAt(grid, shift.startMs));
  const last = Math.min(grid.steps, stepAt(grid, shift.endMs));
  let count = 0;
  for (const m of members) {
    for (let i = first; i < last; i += 1) {
      if ((broken[m * grid.steps + i]! & RULE_BIT[id]) !== 0) count += 1;
    }
  }
  return count;
}

/** The figures of a product that make each rule. */
const FIGURES: Readonly<Partial<Record<RuleId, readonly (keyof ProductLimits)[]>>> = {
  'air-temp': ['airMinC', 'airMaxC'],
  'surface-temp': ['surfaceMinC', 'surfaceMaxC'],
  humidity: ['relHumMaxPct'],
  'dew-margin': ['dewMarginMinK'],
  'cold-night': ['afterMinC', 'hoursAfter'],
};

/** Whose a limit is once all that comes under its rule that day is looked at: a printed figure among them is its sheet's. */
export function ownerOnDay(plan: DayPlan, rule: Rule): Whose {
  if (rule.whose !== 'firm') return rule.whose;
  const products = new Set(
    plan.steps.flatMap(({ film, activity }) => [
      film?.product,
      plan.prepared.productById.get(activity.coats?.productId ?? ''),
    ]),
  );
  for (const { primer, lapTape, patch, sealant, nightSeal } of [plan.prepared.products])
    for (const product of [primer, lapTape, patch, sealant, nightSeal]) products.add(product);
  const printed = [...products].some((product) =>
    (FIGURES[rule.id] ?? []).some((key) => product?.limits[key]?.source === 'data sheet'),
  );
  return printed ? 'data sheet' : 'firm';
}
