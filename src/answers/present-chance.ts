import type { Chance } from '../contract/index.ts';
import type { AdjustedChance } from '../planner/index.ts';

/** A chance as it crosses the wire; `shrunk` with it, which the firm's record of calls is fitted to. */
export function presentChance(chance: AdjustedChance): Chance {
  return { ...chance };
}
