import type { RuleId } from '../../stages/index.ts';
import { type DayPlan, dayPlan } from '../day-plan.ts';
import { RULE_BIT, type RuleMask } from '../masks.ts';
import type { Prepared } from '../prepare.ts';

/**
 * The same list on the same day as if some rules of the weather were not there. Without 'rain' no rain
 * falls on open work either; what it leaves wet is another rule ('deck-dry').
 */
export function withoutRules(plan: DayPlan, ids: readonly RuleId[]): DayPlan {
  const activities = plan.work.activities.map((activity) => ({
    ...activity,
    rules: activity.rules.filter((id) => !ids.includes(id)),
  }));
  const bits = ids.reduce((sum, id) => sum | RULE_BIT[id], 0);
  return dayPlan(lifted(plan.prepared, bits), { ...plan.work, activities }, plan.shift);
}

function lifted(prepared: Prepared, bits: number): Prepared {
  const made = new Map<RuleMask, RuleMask>();
  const dry = new Int32Array(prepared.nextRain.length).fill(prepared.grid.steps);
  return {
    ...prepared,
    nextRain: (bits & RULE_BIT.rain) === 0 ? prepared.nextRain : dry,
    mask: (activity) => {
      const was = prepared.mask(activity);
      const now = made.get(was) ?? { ...was, broken: was.broken.map((set) => set & ~bits) };
      made.set(was, now);
      return now;
    },
  };
}
