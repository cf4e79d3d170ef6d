import type { Verdict } from '../planner/index.ts';

/**
 * What the programme is made from: plain data, nothing of how it was found. Dates are local,
 * 'YYYY-MM-DD'; money is in the firm's own currency, all of it in the same one.
 */

export interface Place {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** What the planner makes of one day for one job, with a crew of a stated size. */
export interface DayValue {
  readonly date: string;
  /** 'no' is never planned; 'unknown' is never newly planned, but a booking may stay on it. */
  readonly verdict: Verdict;
  /** 0..1: how often the day's plan finishes; null = cannot be said. */
  readonly chance: number | null;
  /** Expected cost of aborted, shortened and caught-open days, 0 or more. */
  readonly expectedCost: number;
  readonly startMs: number | null;
  /** What a data sheet, the law or visible moisture forbids that day; moves even a frozen booking. */
  readonly hardStop: string | null;
  /** The commonest reason against the day. */
  readonly reason: string | null;
}

/** The work of a job as a crew of at least so many people does it. */
export interface CrewSizeWork {
  readonly people: number;
  /** Laying days still needed, 1 or more. */
  readonly lengthDays: number;
  readonly days: readonly DayValue[];
}

export interface Promised {
  /** The roof is done by this date. */
  readonly date: string;
  readonly price: number;
  /** On top, for each calendar day later. */
  readonly perDayLate: number;
}

export interface JobAsk {
  readonly id: string;
  readonly name: string;
  readonly client: string;
  readonly place: Place;
  /** Every one of these must be in the crew. */
  readonly skills: readonly string[];
  readonly earliest: string | null;
  readonly latest: string | null;
  readonly materialsFrom: string | null;
  /** Scaffold stands from the first to the last of these days; null = none needed. */
  readonly scaffold: { readonly from: string; readonly to: string } | null;
  readonly promise: Promised | null;
  /** Multiplies the cost of waiting: 1 = as usual, 2 = twice as pressing. */
  readonly priority: number;
  /** What finishing the job is worth to the firm, over all its laying days. */
  readonly worth: number;
  /** Cost of each calendar day until it is done. */
  readonly waitPerDay: number;
  /** Working days of the crew that may lie between its laying days, all together, 0..3. */
  readonly gapDaysAllowed: number;
  /** The crew that has begun it; another one costs the price of a change of crew. */
  readonly startedBy: string | null;
  /** For each crew size that makes a difference; a crew takes the largest it can fill. */
  readonly work: readonly CrewSizeWork[];
}

/** A day of work that waits for no weather: trims in the yard, surveys, deck repair under cover. */
export interface FillerWork {
  readonly id: string;
  readonly name: string;
  /** null = in the crew's own yard. */
  readonly place: Place | null;
  readonly skills: readonly string[];
  readonly earliest: string | null;
  readonly latest: string | null;
  readonly worth: number;
}

export interface CrewDays {
  readonly id: string;
  readonly name: string;
  readonly people: number;
  readonly skills: readonly string[];
  readonly base: Place;
  /** 1 = Monday ... 7 = Sunday. */
  readonly workDays: readonly number[];
  readonly daysOff: readonly string[];
  readonly worksBankHolidays: boolean;
  readonly dayCost: number;
  /** Paid only for days it is used, as a hired crew is. */
  readonly hired: boolean;
  /** Paid minutes of a working day; prices a minute on the road. */
  readonly shiftMin: number;
}

/** From distance to minutes on the road. */
export interface TravelRule {
  /** Road over straight line, 1 or more. */
  readonly roadFactor: number;
  readonly speedKmh: number;
  /** Loading, parking, on every trip. */
  readonly fixedMin: number;
}

export interface ProgrammePrices {
  /** A roof left sealed but unfinished over a working day of its crew. */
  readonly gapPerDay: number;
  /** Another crew goes on with a job that one has begun. */
  readonly crewChange: number;
  /** Taken off filler work on a day that is certain to be good for laying; in proportion below that. */
  readonly fillerOnGoodDay: number;
  /** A job left out counts as done so many calendar days after the first day. */
  readonly leftOutDays: number;
  /** What a booked day that cannot be judged yet counts as, 0..1. */
  readonly unknownChance: number;
}

export interface ProgrammeAsk {
  /** Following calendar days; the first is today. */
  readonly days: readonly string[];
  readonly bankHolidays: readonly string[];
  readonly crews: readonly CrewDays[];
  readonly jobs: readonly JobAsk[];
  readonly fillers: readonly FillerWork[];
  readonly travel: TravelRule;
  readonly prices: ProgrammePrices;
}

/** Money for and against one visit; `total` is their sum. */
export interface VisitWorth {
  readonly gain: number;
  readonly weather: number;
  readonly travel: number;
  readonly hire: number;
  readonly wait: number;
  readonly promise: number;
  readonly gaps: number;
  readonly crewChange: number;
  readonly total: number;
}

/** A job or a filler with the crew and the days it is to be done on. */
export interface Placement {
  readonly jobId: string;
  readonly crewId: string;
  readonly dates: readonly string[];
}

export interface PlacedVisit extends Placement {
  readonly filler: boolean;
  /** Least chance of its days: the whole is never likelier; null where a day cannot be judged. */
  readonly chance: number | null;
  readonly startMs: readonly (number | null)[];
  readonly travelMin: number;
  readonly worth: VisitWorth;
}

export type LeftOutCode =
  | 'no crew can'
  | 'no day allowed'
  | 'no day fit'
  | 'not enough days together'
  | 'costs more than it brings'
  | 'others are worth more';

export interface LeftOut {
  readonly jobId: string;
  readonly code: LeftOutCode;
  readonly sentence: string;
}
