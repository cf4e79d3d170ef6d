import { type Closure, closeLags, NO_PATH } from './closure.ts';
import type { CoreProject } from './types.ts';

/** A checked project in typed arrays, with what follows from its lags alone. */
export interface Model {
  readonly count: number;
  readonly duration: Int32Array;
  /** [activity * resources + resource] */
  readonly demand: Int32Array;
  readonly capacity: Int32Array;
  readonly resources: number;
  readonly lagFrom: Int32Array;
  readonly lagTo: Int32Array;
  readonly minLag: Int32Array;
  /** Longest path between starts, [from * count + to]; NO_PATH where nothing is implied. */
  readonly dist: Int32Array;
  /** Earliest start by lags and own limits. */
  readonly head: Int32Array;
  /** Periods from an activity's start to the end of the project, at least. */
  readonly tail: Int32Array;
  /** Latest start by own limits and lags; NO_LIMIT where there is none. */
  readonly latest: Int32Array;
  /** If there is any schedule, there is one that ends by then. */
  readonly horizon: number;
  /** True when no activity is held from above: an acyclic net of lags, all free to start at 0 or later. */
  readonly plain: boolean;
  /** Set when lags contradict each other or an own limit; then nothing else here means anything. */
  readonly contradiction: readonly number[] | null;
}

export const NO_LIMIT = 1 << 29;
const MOST_PERIODS = 1 << 22;

/**
 * Checks a project and works out what its lags imply.
 * @throws RangeError naming every value that is no whole number in range
 */
export function modelOf(project: CoreProject): Model {
  const problems = problemsOf(project);
  if (problems.length > 0) throw new RangeError(problems.join('; '));
  const { activities, lags, capacities } = project;
  const count = activities.length;
  const resources = capacities.length;
  const duration = Int32Array.from(activities, ({ duration }) => duration);
  const demand = new Int32Array(count * resources);
  activities.forEach(({ demands }, i) => {
    demand.set(demands, i * resources);
  });
  const release = Int32Array.from(activities, ({ earliestStart }) => earliestStart ?? 0);
  const due = Int32Array.from(activities, ({ latestStart }) => latestStart ?? NO_LIMIT);
  const longest = Int32Array.from(duration);
  lags.forEach(({ from, minLag: lag }) => {
    longest[from] = Math.max(longest[from]!, lag);
  });
  const horizon = longest.reduce((sum, value) => sum + value, release.reduce(larger, 0));
  if (horizon > MOST_PERIODS) {
    throw new RangeError(
      `durations and lags add up to ${horizon} periods, more than ${MOST_PERIODS}`,
    );
  }
  // What lies further apart than the whole project never binds.
  const binding = lags.filter((lag) => lag.minLag >= -horizon);
  const lagFrom = Int32Array.from(binding, ({ from }) => from);
  const lagTo = Int32Array.from(binding, ({ to }) => to);
  const minLag = Int32Array.from(binding, (lag) => lag.minLag);
  const closure = closeLags(count, lagFrom, lagTo, minLag, -horizon);
  const { head, latest, tail } = windows(closure, release, due, duration);
  const missed = head.findIndex((earliest, i) => earliest > latest[i]!);
  return {
    count,
    duration,
    demand,
    capacity: Int32Array.from(capacities),
    resources,
    lagFrom,
    lagTo,
    minLag,
    dist: closure.dist,
    head,
    tail,
    latest,
    horizon,
    plain:
      !closure.circular && due.every((at) => at === NO_LIMIT) && release.every((at) => at === 0),
    contradiction: closure.contradiction ?? (missed >= 0 ? [missed] : null),
  };
}

function larger(a: number, b: number): number {
  return Math.max(a, b);
}

/** Windows of the starts and the way left to the end, from the closure. */
function windows(
  { dist, count }: Closure,
  release: Int32Array,
  due: Int32Array,
  duration: Int32Array,
): { head: Int32Array; latest: Int32Array; tail: Int32Array } {
  const head = Int32Array.from(release);
  const latest = Int32Array.from(due);
  const tail = Int32Array.from(duration);
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j < count; j += 1) {
      const path = dist[i * count + j]!;
      if (path === NO_PATH) continue;
      head[j] = Math.max(head[j]!, release[i]! + path);
      tail[i] = Math.max(tail[i]!, path + duration[j]!);
      if (due[j]! < NO_LIMIT) latest[i] = Math.min(latest[i]!, due[j]! - path);
    }
  }
  return { head, latest, tail };
}

function problemsOf({ activities, lags, capacities }: CoreProject): string[] {
  const problems: string[] = [];
  const whole = (name: string, value: number, low: number): void => {
    if (Number.isInteger(value) && value >= low && value <= MOST_PERIODS) return;
    problems.push(`${name} (${value}) must be a whole number in ${low}..${MOST_PERIODS}`);
  };
  capacities.forEach((capacity, k) => {
    whole(`capacities[${k}]`, capacity, 0);
  });
  activities.forEach(({ duration, demands, earliestStart, latestStart }, i) => {
    whole(`activities[${i}].duration`, duration, 0);
    if (earliestStart !== undefined) whole(`activities[${i}].earliestStart`, earliestStart, 0);
    // A last start before period 0 is no mistake in form: it says that there is no schedule.
    if (latestStart !== undefined)
      whole(`activities[${i}].latestStart`, latestStart, -MOST_PERIODS);
    if (demands.length !== capacities.length) {
      problems.push(
        `activities[${i}].demands has ${demands.length} values for ${capacities.length} resources`,
      );
    }
    demands.forEach((demand, k) => {
      whole(`activities[${i}].demands[${k}]`, demand, 0);
    });
  });
  lags.forEach(({ from, to, minLag }, k) => {
    for (const [name, index] of [['from', from] as const, ['to', to] as const]) {
      if (Number.isInteger(index) && index >= 0 && index < activities.length) continue;
      problems.push(
        `lags[${k}].${name} (${index}) must be an activity, 0..${activities.length - 1}`,
      );
    }
    whole(`lags[${k}].minLag`, minLag, -MOST_PERIODS);
  });
  return problems;
}
