import { inRange } from '../../units/index.ts';
import { baseRate, type JudgedChance } from './cases.ts';

export interface WarningRates {
  /** Share of the events that were acted on, 0..1. */
  readonly hitRate: number;
  /** Share of the other cases that were acted on all the same, 0..1. */
  readonly falseAlarmRate: number;
  /** Share of cases with the event, 0..1. */
  readonly baseRate: number;
}

/**
 * Relative value of acting on warnings to someone whom protecting costs C and an unprotected event L:
 * 1 as if the future were known, 0 as always or never protecting, whichever is cheaper; below 0 worse.
 * @param ratio  C / L
 * @returns null where there is nothing to gain: ratio or base rate 0 or 1
 * @source D. S. Richardson, Quarterly Journal of the Royal Meteorological Society 126 (2000), 649-667
 */
export function relativeValue(rates: WarningRates, ratio: number): number | null {
  const hit = inRange('hitRate', rates.hitRate, 0, 1);
  const alarm = inRange('falseAlarmRate', rates.falseAlarmRate, 0, 1);
  const often = inRange('baseRate', rates.baseRate, 0, 1);
  inRange('ratio', ratio, 0, 1);
  if (often === 0 || often === 1 || ratio === 0 || ratio === 1) return null;
  const without = Math.min(ratio, often);
  const cost = alarm * ratio * (1 - often) - hit * often * (1 - ratio) + often;
  return (without - cost) / (without - often * ratio);
}

export interface ValuePoint {
  readonly ratio: number;
  /** Acting when the chance is at or above C / L, as one does who trusts it. */
  readonly trusting: number | null;
  /** Acting from whichever chance turns out best: what a calibration might win. */
  readonly best: number | null;
}

/** Value over a range of C / L. @throws RangeError without cases */
export function valueCurve(
  cases: readonly JudgedChance[],
  ratios: readonly number[],
): ValuePoint[] {
  const often = baseRate(cases);
  const thresholds = [...new Set(cases.map(({ chance }) => chance)), Number.POSITIVE_INFINITY];
  const rates = new Map(thresholds.map((from) => [from, ratesFrom(cases, from, often)]));
  return ratios.map((ratio) => {
    const values = [...rates.values()].map((of) => relativeValue(of, ratio));
    return {
      ratio,
      trusting: relativeValue(ratesFrom(cases, ratio, often), ratio),
      best: values.includes(null) ? null : Math.max(...(values as number[])),
    };
  });
}

function ratesFrom(cases: readonly JudgedChance[], from: number, often: number): WarningRates {
  let hits = 0;
  let alarms = 0;
  for (const { chance, happened } of cases) {
    if (chance < from) continue;
    if (happened) hits += 1;
    else alarms += 1;
  }
  const events = often * cases.length;
  return {
    hitRate: events > 0 ? hits / events : 0,
    falseAlarmRate: events < cases.length ? alarms / (cases.length - events) : 0,
    baseRate: often,
  };
}
