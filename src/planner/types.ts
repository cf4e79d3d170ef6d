import type { AnyRoof, TakeOffOptions } from '../roof/index.ts';
import type { BuildUp, RateId } from '../stages/index.ts';
import type { Terrain } from '../weather/index.ts';

export interface Site {
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly elevationM: number;
  readonly timeZone: string;
  readonly terrain: Terrain;
  readonly roofHeightM: number;
  /** What else stands round the roof, a tree line say: height of the skyline by direction; [] = open. */
  readonly skyline: readonly { readonly azimuthDeg: number; readonly elevationDeg: number }[];
  /** Height of a parapet round the roof; shelters what dries, never what is handled. */
  readonly parapetHeightM: number;
  /** Height of a wall shading the roof and the direction it stands in; null = none. */
  readonly wall: {
    readonly heightM: number;
    readonly azimuthDeg: number;
    readonly distanceM: number;
  } | null;
}

/** Local wall-clock time 'HH:mm'. */
export type WallTime = string;

export interface Crew {
  readonly name: string;
  readonly people: number;
  readonly dayStart: WallTime;
  readonly dayEnd: WallTime;
  readonly breaks: readonly { readonly from: WallTime; readonly minutes: number }[];
  /** 1 = Monday ... 7 = Sunday. */
  readonly workDays: readonly number[];
  /** Holidays and other days nobody comes, local dates 'YYYY-MM-DD'. */
  readonly daysOff: readonly string[];
}

/** The firm's own stated costs; they decide between days, never against a safety rule. */
export interface Costs {
  readonly currency: string;
  readonly standDown: number;
  /** Calling a day off before it begins; left out = a usual share of `standDown`, see `calledOffCost`. */
  readonly calledOff?: number;
  readonly shortened: number;
  readonly caughtOpen: number;
  readonly waitPerDay: number;
}

export interface Job {
  readonly id: string;
  readonly name: string;
  readonly client: string;
  /** Demo jobs run on the demo clock and the invented forecast; all others never do. */
  readonly demo: boolean;
  readonly site: Site;
  readonly roof: AnyRoof;
  readonly buildUp: BuildUp;
  readonly crew: Crew;
  readonly costs: Costs;
  /** The firm's own typical output instead of the usual, in the rate's own unit. */
  readonly rates: Readonly<Partial<Record<RateId, number>>>;
  /** Roll widths, laps, and what is turned, moved or fixed in the sheet layout. */
  readonly layout: TakeOffOptions;
  /** Largest area for one laying day, where the firm wants it smaller than reckoned [m2]; null = as reckoned. */
  readonly bayAreaM2: number | null;
  /** Laying days already done; the next bay is the one planned. */
  readonly baysDone: number;
  /** Earliest and latest local dates, 'YYYY-MM-DD'. */
  readonly earliest: string | null;
  readonly latest: string | null;
  /** Share of forecasts in which a last safe start must still get the roof rain-safe, 0.5..0.99. */
  readonly confidence: number;
}
