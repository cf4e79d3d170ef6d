import { RULE_IDS, type RuleId } from '../../stages/index.ts';
import { RULE_BIT } from '../masks.ts';
import type { Prepared } from '../prepare.ts';
import type { WorkHours } from './work-hours.ts';
import type { WorkKind } from './work-kinds.ts';

/** Work that no hour lets begin, and the fewest rules that together see to that. */
export interface NeverMet {
  readonly kind: WorkKind;
  /** One rule that is never met; or several, each met at times and never all at once. */
  readonly rules: readonly RuleId[];
  /** Forecasts in which it is so, of those that reach into the working hours. */
  readonly count: number;
  readonly of: number;
}

/** A stray forecast in twenty may have an hour, and the work still counts as never to be begun (judged). */
const STRAY_SHARE = 1 / 20;

export const strayOf = (forecasts: number): number => Math.floor(STRAY_SHARE * forecasts + 1e-9);

/**
 * Which rules keep a kind of work from ever being begun: over all lit working hours, in all forecasts but
 * a stray few. Where several sets of equally few rules do, each is told.
 * @returns empty where there is an hour for it
 */
export function neverMet(prepared: Prepared, hours: WorkHours, kind: WorkKind): NeverMet[] {
  const of = hours.members.length;
  if (of === 0 || hours.litSteps.length === 0) return [];
  const patterns = hours.members.map((m) => patternsIn(prepared, hours, kind, m));
  const asked = RULE_IDS.filter((id) => (kind.bits & RULE_BIT[id]) !== 0 && id !== 'daylight');
  for (let size = 1; size <= asked.length; size += 1) {
    const found = subsets(asked, size).flatMap((rules): NeverMet[] => {
      const bits = rules.reduce((sum, id) => sum | RULE_BIT[id], 0);
      const held = patterns.filter((seen) => seen.every((broken) => (broken & bits) !== 0)).length;
      return of - held > strayOf(of) ? [] : [{ kind, rules, count: held, of }];
    });
    if (found.length > 0) return found;
  }
  return [];
}

/** Every combination of broken rules that a forecast shows. */
function patternsIn(
  { grid }: Prepared,
  { litSteps }: WorkHours,
  { mask, bits }: WorkKind,
  m: number,
): number[] {
  const seen = new Set<number>();
  for (const i of litSteps) {
    if (i < grid.knownSteps[m]!) seen.add(mask.broken[m * grid.steps + i]! & bits);
  }
  return [...seen];
}

function subsets<T>(of: readonly T[], size: number): T[][] {
  if (size === 0) return [[]];
  return of.flatMap((first, n) =>
    subsets(of.slice(n + 1), size - 1).map((rest) => [first, ...rest]),
  );
}
