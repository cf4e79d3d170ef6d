import { z } from 'zod';
import { numberIn } from './numbers.ts';

/**
 * Figures tried on a question: costs other than the job's own and a bay other than its split. They hold
 * for that one answer; nothing is saved.
 */

export const MOST_COST = 10_000_000;
/** Bays under this are no way to lay a roof [m2]. */
export const LEAST_BAY_M2 = 4;
export const MOST_BAY_M2 = 20_000;

const costsShape = {
  standDown: numberIn(0, MOST_COST).exactOptional(),
  calledOff: numberIn(0, MOST_COST).exactOptional(),
  shortened: numberIn(0, MOST_COST).exactOptional(),
  caughtOpen: numberIn(0, MOST_COST).exactOptional(),
  waitPerDay: numberIn(0, MOST_COST).exactOptional(),
};
const bay = numberIn(LEAST_BAY_M2, MOST_BAY_M2).exactOptional();

export type CostName = keyof typeof costsShape;

/** In a body, as numbers. */
export const triedSchema = z.strictObject({ ...costsShape, bay });
export type Tried = z.infer<typeof triedSchema>;

/** The same in a query, where everything is text; what is no number is told with what was typed. */
const inText = (low: number, high: number) =>
  z.preprocess(
    (text) =>
      typeof text === 'string' && /^\s*[+-]?(\d+\.?\d*|\.\d+)\s*$/.test(text) ? Number(text) : text,
    numberIn(low, high),
  );

export const triedBayQuery = { bay: inText(LEAST_BAY_M2, MOST_BAY_M2).exactOptional() };
const money = inText(0, MOST_COST).exactOptional();
export const triedQuery = {
  standDown: money,
  calledOff: money,
  shortened: money,
  caughtOpen: money,
  waitPerDay: money,
  ...triedBayQuery,
} satisfies Record<keyof Tried, z.ZodType>;
