import type { Step } from './day-plan.ts';

/** How the tasks of a day's list hang together: the same for every run of it. */
export interface ListLinks {
  /** Per task: those that can only begin once it is done. */
  readonly followers: readonly (readonly number[])[];
  /** Per task: how many come before it. */
  readonly before: readonly number[];
  readonly forRainSafe: number;
  /** One NaN per task. */
  readonly noTimes: readonly number[];
}

const known = new WeakMap<readonly Step[], ListLinks>();

export function linksOf(steps: readonly Step[]): ListLinks {
  const links = known.get(steps) ?? link(steps);
  known.set(steps, links);
  return links;
}

function link(steps: readonly Step[]): ListLinks {
  const followers: number[][] = steps.map(() => []);
  const before = steps.map(({ after, rest, closes }, n) => {
    const first = new Set(after);
    if (rest !== null) first.add(rest.after);
    if (closes !== null) first.add(closes);
    for (const earlier of first) followers[earlier]!.push(n);
    return first.size;
  });
  return {
    followers,
    before,
    forRainSafe: steps.filter((step) => step.activity.forRainSafe).length,
    noTimes: steps.map(() => Number.NaN),
  };
}
