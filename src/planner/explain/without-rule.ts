import type { RuleId } from '../../stages/index.ts';
import { type DayPlan, dayPlan } from '../day-plan.ts';
import { bitsOf, type RuleMask } from '../masks.ts';
import type { Prepared } from '../prepare.ts';
import { planUntil } from '../search/plan-for.ts';

/**
 * The same day as if some rules of the weather were not there. Without 'rain' no rain falls on open work
 * either; what it leaves wet is another rule ('deck-dry').
 * @param list  'same' = the list as it stands; 'sized anew' = with sections for the hours that then open
 *   up, where the list was sized for a day in which nothing could be laid
 */
export function withoutRules(
  plan: DayPlan,
  ids: readonly RuleId[],
  list: 'same' | 'sized anew',
): DayPlan {
  const free = lifted(plan.prepared, ids, list === 'sized anew' || ids.includes('cold-night'));
  const work = list === 'same' ? plan.work : planUntil(free, plan.shift).work;
  const activities = work.activities.map((activity) => ({
    ...activity,
    rules: activity.rules.filter((id) => !ids.includes(id)),
  }));
  return dayPlan(free, { ...work, activities }, plan.shift);
}

/**
 * What a task's own rules do not say: rain on open work, and the masks, which tell how large sections can
 * be and for what night a roof is not opened.
 */
function lifted(prepared: Prepared, ids: readonly RuleId[], masks: boolean): Prepared {
  const { nextRain, grid } = prepared;
  const bits = bitsOf(ids);
  const made = new Map<RuleMask, RuleMask>();
  const cleared = (was: RuleMask): RuleMask => {
    const now = made.get(was) ?? { ...was, broken: was.broken.map((set) => set & ~bits) };
    made.set(was, now);
    return now;
  };
  return {
    ...prepared,
    nextRain: ids.includes('rain') ? new Int32Array(nextRain.length).fill(grid.steps) : nextRain,
    mask: masks ? (activity) => cleared(prepared.mask(activity)) : prepared.mask,
  };
}
