/** Hours of rain for members made of one forecast. */
import { type Errors, ranksAt } from './members-from-one-draws.ts';
import {
  AMOUNT_LOG_SPREAD,
  chanceFromAmount,
  timingSpreadHours,
  UNFORECAST_LOG_SPREAD,
  UNFORECAST_MM,
} from './members-from-one-growth.ts';
import { LEAST_WET_MM } from './rain-timing-model.ts';

export interface RainDraws {
  /** Wetter or drier than forecast; its ranks say who is wet. */
  readonly wetness: Errors;
  /** Earlier or later. */
  readonly timing: Errors;
  readonly amount: Errors;
  /** Rounds a chance to a whole number of members, up or down, 0 <= x < 1 by hour. */
  readonly rounding: Float64Array;
}

/**
 * Who is wet in an hour, and how much. Where a chance is given, just that share of the members is wet,
 * those whose wetness ranks highest, so that spells hang together; where none is, each member has the
 * forecast's rain some hours earlier or later, and keeps it or not by the chance its amount leaves.
 * Amounts are the forecast's own about that time, with spread about the same mean.
 * @param rainMm     the forecast's, NaN = missing
 * @param chancePct  its chance of 0.1 mm and more, 0..100, NaN = missing; null = none given
 * @returns [member][hour], NaN in the hours the forecast lacks
 */
export function rainOf(
  rainMm: Float64Array,
  chancePct: Float64Array | null,
  leadDays: Float64Array,
  draws: RainDraws,
): Float64Array[] {
  const count = draws.wetness.length;
  const out = Array.from({ length: count }, () => new Float64Array(rainMm.length));
  for (let h = 0; h < rainMm.length; h += 1) {
    if (Number.isNaN(rainMm[h]!)) {
      for (const column of out) column[h] = Number.NaN;
      continue;
    }
    const ranks = ranksAt(draws.wetness, h);
    const given = (chancePct?.[h] ?? Number.NaN) / 100;
    const spreadHours = timingSpreadHours(leadDays[h]!);
    for (let m = 0; m < count; m += 1) {
      const shift = Math.round(spreadHours * draws.timing[m]![h]!);
      const moved = rainMm[h + shift] ?? Number.NaN;
      // Beyond either end there is nothing to move here.
      const amountMm = Number.isNaN(moved) ? rainMm[h]! : moved;
      const chance = Number.isNaN(given) ? chanceFromAmount(amountMm, leadDays[h]!) : given;
      const level = (count - 1 - ranks[m]! + draws.rounding[h]!) / count;
      if (level < chance) out[m]![h] = wetMm(amountMm, rainMm[h]!, draws.amount[m]![h]!);
    }
  }
  return out;
}

function wetMm(movedMm: number, unmovedMm: number, error: number): number {
  const amountMm = movedMm >= LEAST_WET_MM ? movedMm : unmovedMm;
  const drawn =
    amountMm >= LEAST_WET_MM
      ? amountMm * Math.exp(AMOUNT_LOG_SPREAD * error - AMOUNT_LOG_SPREAD ** 2 / 2)
      : UNFORECAST_MM * Math.exp(UNFORECAST_LOG_SPREAD * error);
  return Math.max(LEAST_WET_MM, drawn);
}
