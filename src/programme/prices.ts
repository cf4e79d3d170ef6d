import type { ProgrammePrices, TravelRule } from './types.ts';

/** Generic starting values (judged), in a currency of the size of euro or dollar; the firm sets its own. */
export const STARTER_PRICES: ProgrammePrices = {
  gapPerDay: 120,
  crewChange: 250,
  fillerOnGoodDay: 80,
  leftOutDays: 28,
  unknownChance: 0.5,
};

/** Generic starting values (judged): ordinary roads, a loaded van. */
export const STARTER_TRAVEL: TravelRule = { roadFactor: 1.3, speedKmh: 45, fixedMin: 10 };

/** What changing an agreed plan costs besides what the new plan is worth. */
export interface MovePrices {
  /** Any change at all: trust, and somebody's half hour. */
  readonly perMove: number;
  /** Each person to ring. */
  readonly perCall: number;
  /** A date that the client has been promised is given up. */
  readonly confirmedDate: number;
  /** A date that was only pencilled in is given up. */
  readonly pencilledDate: number;
}

/** Generic starting values (judged). */
export const STARTER_MOVE_PRICES: MovePrices = {
  perMove: 40,
  perCall: 15,
  confirmedDate: 150,
  pencilledDate: 20,
};
