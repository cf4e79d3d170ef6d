/** One activity of a project on an integer grid of periods. */
export interface CoreActivity {
  /** Periods it takes, a whole number >= 0; fixed. It is not interrupted. */
  readonly duration: number;
  /** What it takes of each resource while it runs, in the order of the project's capacities; whole numbers >= 0. */
  readonly demands: readonly number[];
  /** First period in which it may start; 0 when left out. */
  readonly earliestStart?: number;
  /** Last period in which it may start; no such limit when left out. */
  readonly latestStart?: number;
  /** The only periods in which it may start, rising whole numbers >= 0; any when left out. */
  readonly allowedStarts?: readonly number[];
  /** False = its end does not count in the makespan. */
  readonly counts?: boolean;
}

/**
 * start[to] >= start[from] + minLag, from start to start. A negative `minLag` is a maximum lag the other
 * way round: { from: j, to: i, minLag: -b } says that j starts at most b periods after i.
 */
export interface CoreLag {
  /** Index into the project's activities. */
  readonly from: number;
  readonly to: number;
  readonly minLag: number;
}

/**
 * Lags that depend on when `from` starts: where it starts in period s, `to` starts in
 * earliest[s]..latest[s]. Both lists are as long; past their end, and where earliest[s] > latest[s],
 * `from` may not start at all. Whole numbers.
 */
export interface CoreWindow {
  readonly from: number;
  readonly to: number;
  readonly earliest: readonly number[];
  readonly latest: readonly number[];
}

/** Activities, what must lie between their starts, and how much of each resource there is in every period. */
export interface CoreProject {
  readonly activities: readonly CoreActivity[];
  readonly lags: readonly CoreLag[];
  readonly windows?: readonly CoreWindow[];
  readonly capacities: readonly number[];
}

/** How much work an answer may take. No clock: the same budget gives the same answer on any machine. */
export interface CoreBudget {
  /** Schedules the list search may make; a justification pass counts as one more. Default 20,000. */
  readonly schedules?: number;
  /** Decisions and dead ends the complete search may go through. 0 = none. Default 20,000; Infinity goes on to the proof. */
  readonly nodes?: number;
}

export interface SolveOptions {
  readonly budget?: CoreBudget;
  /** Same project, budget and seed: same answer. Default 1. */
  readonly seed?: number;
  /** Asked now and then; once it says true the best so far comes back. */
  readonly shouldStop?: () => boolean;
  /** Only schedules of at most this makespan are of interest. */
  readonly upperBound?: number;
}

/**
 * optimal: no schedule is shorter. feasible: a schedule, perhaps not the shortest. infeasible: proved that
 * there is none (none of at most `upperBound`, where one was given). unknown: none found, none ruled out.
 */
export type SolveStatus = 'optimal' | 'feasible' | 'infeasible' | 'unknown';

export interface SolveAnswer {
  readonly status: SolveStatus;
  /** Start of each activity in periods, or null when there is no schedule to show. */
  readonly starts: readonly number[] | null;
  /** End of the last activity that counts, in periods from 0; null without a schedule. */
  readonly makespan: number | null;
  /** No schedule ends sooner; Infinity for a project proved infeasible. */
  readonly lowerBound: number;
  readonly schedulesMade: number;
  readonly nodes: number;
  /** For lags that contradict each other: activities of a circle of lags that adds up to more than 0. */
  readonly contradiction: readonly number[] | null;
}
