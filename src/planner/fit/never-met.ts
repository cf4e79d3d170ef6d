import { RULE_IDS, type RuleId } from '../../stages/index.ts';
import { RULE_BIT } from '../masks.ts';
import type { Prepared } from '../prepare.ts';
import { NIGHT } from '../rules/index.ts';
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
  const patterns = hours.members
    .map((m) => patternsIn(prepared, hours, kind, m))
    .filter((seen) => seen.length > 0);
  const of = patterns.length;
  if (of === 0) return [];
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
  kind: WorkKind,
  m: number,
): number[] {
  const seen = new Set<number>();
  for (const i of litSteps) {
    const at = m * grid.steps + i;
    const broken = i < grid.knownSteps[m]! ? brokenAt(kind, at) : null;
    if (broken !== null) seen.add(broken);
  }
  return [...seen];
}

/**
 * What keeps a kind of work from being begun at a column index, or makes it in vain: a film whose own
 * night turns cold is no film, even where the others did not say so.
 * @returns bit set; null where the forecast does not reach over the night that is asked about
 */
export function brokenAt({ mask, bits }: WorkKind, at: number): number | null {
  const broken = mask.broken[at]! & bits;
  if (mask.turnsCold === null || (bits & RULE_BIT['cold-night']) === 0) return broken;
  const night = mask.turnsCold[at];
  if (night === NIGHT.unknown) return null;
  return night === NIGHT.cold ? broken | RULE_BIT['cold-night'] : broken;
}

function subsets<T>(of: readonly T[], size: number): T[][] {
  if (size === 0) return [[]];
  return of.flatMap((first, n) =>
    subsets(of.slice(n + 1), size - 1).map((rest) => [first, ...rest]),
  );
}
