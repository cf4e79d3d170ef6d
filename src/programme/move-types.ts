import type { SearchReport } from './assign.ts';
import type { Placement } from './types.ts';

/** Something hired or arranged for a booking: skip, crane, scaffold, delivery, access, inspection. */
export interface ResourceBooked {
  readonly name: string;
  readonly supplier: string;
  readonly dates: readonly string[];
  /** Called off or moved after this, it costs `charge`. */
  readonly cancelByMs: number;
  readonly charge: number;
}

export interface Booking extends Placement {
  /** The client has been promised these dates. */
  readonly confirmed: boolean;
  readonly resources: readonly ResourceBooked[];
}

export type MoveKind = 'moved' | 'other crew' | 'longer' | 'shorter' | 'taken off' | 'booked';

/** Somebody who has to agree before the move stands. */
export interface WordNeeded {
  readonly who: 'client' | 'crew' | 'supplier';
  readonly name: string;
  readonly about: string;
}

export interface MovePrice {
  readonly change: number;
  readonly calls: number;
  readonly givenUp: number;
  readonly charges: number;
  readonly total: number;
}

/** A change to agree to or to leave. */
export interface Move {
  /** Names the move: a job moves at most once. */
  readonly jobId: string;
  readonly kind: MoveKind;
  readonly filler: boolean;
  readonly from: Placement | null;
  readonly to: Placement | null;
  /** Least chance of the days as they are booked, by the new forecast; 0 where it cannot go ahead at all. */
  readonly chanceBefore: number | null;
  readonly chanceAfter: number | null;
  readonly why: string;
  /** It cannot stay as it is: a hard rule or a 'no' of the planner stands against it. */
  readonly forced: boolean;
  /** A data sheet, the law, moisture, or nobody and nothing there to work with. */
  readonly hardStop: boolean;
  /** Moves without which this one finds its crew taken. */
  readonly needs: readonly string[];
  readonly words: readonly WordNeeded[];
  readonly price: MovePrice;
  /** What it brings after its price; below 0 for one that only makes room. */
  readonly gain: number;
  readonly ifNot: string;
  /** As booked, resources of given-up days left away; null = taken off. */
  readonly booking: Booking | null;
}

/** Moves that hang together, most gain first; groups do not touch each other. */
export interface MoveGroup {
  readonly jobIds: readonly string[];
  readonly gain: number;
}

/** A booking that stays although something is against it. */
export interface Stays {
  readonly jobId: string;
  readonly sentence: string;
}

export interface Replanned {
  readonly moves: readonly Move[];
  readonly groups: readonly MoveGroup[];
  readonly stays: readonly Stays[];
  readonly search: SearchReport;
}
