import { type Closure, closeLags, NO_PATH } from './closure.ts';
import { allowedStarts, MOST_PERIODS, windowLags, windowProblems } from './start-windows.ts';
import type { CoreProject, CoreWindow } from './types.ts';

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
  /** Periods from an activity's start to the end of the project, at least; below 0 where neither it nor what follows counts. */
  readonly tail: Int32Array;
  /** Latest start by own limits and lags; NO_LIMIT where there is none. */
  readonly latest: Int32Array;
  /** Per activity the periods it may start in, rising; null where any will do. */
  readonly allowed: readonly (Int32Array | null)[];
  readonly windows: readonly CoreWindow[];
  /** If there is any schedule, there is one that ends by then. */
  readonly horizon: number;
  /** True when no activity is held from above: an acyclic net of lags, all free to start at 0 or later, all counting. */
  readonly plain: boolean;
  /** Set when lags contradict each other or an own limit; then nothing else here means anything. */
  readonly contradiction: readonly number[] | null;
}

export const NO_LIMIT = 1 << 29;

/**
 * Checks a project and works out what its lags imply.
 * @throws RangeError naming every value that is no whole number in range
 */
export function modelOf(project: CoreProject): Model {
  const problems = problemsOf(project);
  if (problems.length > 0) throw new RangeError(problems.join('; '));
  const { activities, capacities, windows = [] } = project;
  const count = activities.length;
  const allowed = allowedStarts(project);
  const never = allowed.findIndex((starts) => starts?.length === 0);
  const lags = [...project.lags, ...windowLags(windows, allowed)];
  const resources = capacities.length;
  const duration = Int32Array.from(activities, ({ duration }) => duration);
  const demand = new Int32Array(count * resources);
  activities.forEach(({ demands }, i) => {
    demand.set(demands, i * resources);
  });
  const release = Int32Array.from(activities, ({ earliestStart }, i) =>
    Math.max(earliestStart ?? 0, allowed[i]?.[0] ?? 0),
  );
  const due = Int32Array.from(activities, ({ latestStart }, i) =>
    Math.min(latestStart ?? NO_LIMIT, allowed[i]?.at(-1) ?? NO_LIMIT),
  );
  const longest = Int32Array.from(duration);
  lags.forEach(({ from, minLag: lag }) => {
    longest[from] = Math.max(longest[from]!, lag);
  });
  windows.forEach(({ from, earliest }) => {
    for (const s of allowed[from]!) longest[from] = Math.max(longest[from]!, earliest[s]! - s);
  });
  // From the last start that anything forbids, all can be pushed together.
  const free = allowed.reduce((last, starts) => Math.max(last, starts?.at(-1) ?? 0), 0);
  const horizon = longest.reduce((sum, value) => sum + value, release.reduce(larger, free));
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
  const counts = activities.map((activity) => activity.counts ?? true);
  const { head, latest, tail } = spans(closure, release, due, duration, counts, horizon);
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
    allowed,
    windows,
    horizon,
    plain:
      !closure.circular &&
      due.every((at) => at === NO_LIMIT) &&
      release.every((at) => at === 0) &&
      counts.every(Boolean),
    contradiction:
      never >= 0 ? [never] : (closure.contradiction ?? (missed >= 0 ? [missed] : null)),
  };
}

function larger(a: number, b: number): number {
  return Math.max(a, b);
}

/** Windows of the starts and the way left to the end, from the closure. */
function spans(
  { dist, count }: Closure,
  release: Int32Array,
  due: Int32Array,
  duration: Int32Array,
  counts: readonly boolean[],
  horizon: number,
): { head: Int32Array; latest: Int32Array; tail: Int32Array } {
  const head = Int32Array.from(release);
  const latest = Int32Array.from(due);
  const tail = duration.map((periods, i) => (counts[i]! ? periods : -horizon));
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j < count; j += 1) {
      const path = dist[i * count + j]!;
      if (path === NO_PATH) continue;
      head[j] = Math.max(head[j]!, release[i]! + path);
      if (counts[j]!) tail[i] = Math.max(tail[i]!, path + duration[j]!);
      if (due[j]! < NO_LIMIT) latest[i] = Math.min(latest[i]!, due[j]! - path);
    }
  }
  return { head, latest, tail };
}

function problemsOf(project: CoreProject): string[] {
  const { activities, lags, capacities } = project;
  const problems = windowProblems(project);
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
