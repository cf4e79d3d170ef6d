import type { Value } from '../contract/index.ts';
import { type DayOption, forecastsWords } from '../planner/index.ts';
import { money } from '../units/index.ts';

/** Forecasts of which none is caught open leave this much doubt, 0..1 (one-sided, the usual 5 %). */
const DOUBT = 0.05;

/** Cost of standing down against the loss it avoids, the chance of that loss, and where the two meet. */
export function dayValue({ plan, outcomes, chance, value }: DayOption): Value {
  const { costs } = plan.prepared.job;
  const { threshold } = value;
  const { of } = chance;
  const caught = of < 2 ? null : value.caughtChance;
  const made = chance.made === true;
  const rule = ruleWords(costs, threshold);
  const here =
    caught === null
      ? 'by one forecast alone no chance of it can be given'
      : hereWords({ caught: outcomes.caughtOpen, of, made }, caught, threshold);
  return {
    standDown: costs.standDown,
    loss: costs.caughtOpen,
    chance: caught,
    threshold,
    words: `${rule}; ${here}.`,
  };
}

function ruleWords(
  { currency, standDown, caughtOpen }: DayOption['plan']['prepared']['job']['costs'],
  threshold: number,
): string {
  const down = `Standing down costs ${money(standDown, currency)}`;
  const open = `being caught open ${money(caughtOpen, currency)}`;
  if (standDown === 0)
    return `${down}: on cost alone no chance of being caught open is worth taking`;
  if (threshold >= 1)
    return `${down}, ${open}, no more than that: on cost alone the crew is never stood down for it`;
  return `${down}, ${open}: stand down when the chance of being caught open passes ${inHundred(threshold)}`;
}

function hereWords(
  { caught, of, made }: { readonly caught: number; readonly of: number; readonly made: boolean },
  chance: number,
  threshold: number,
): string {
  const forecasts = forecastsWords(of, made);
  if (caught === 0) {
    if (made) return `here none of the ${forecasts} is caught open`;
    const most = 1 - DOUBT ** (1 / of);
    return `here none of ${forecasts} is caught open, which only rules out more than about ${inHundred(most)}`;
  }
  const side = chance > threshold ? 'so standing down pays' : 'under that';
  return `here it is about ${inHundred(chance)} (${caught} of ${forecasts}), ${side}`;
}

/** '8 in 100', finer where that would be none. */
export function inHundred(share: number): string {
  if (share >= 0.0095 || share === 0) return `${Math.round(share * 100)} in 100`;
  return share < 0.001 ? 'under 1 in 1,000' : `${Math.round(share * 1000)} in 1,000`;
}
