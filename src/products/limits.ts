import { relHumFromDewPct } from '../physics/index.ts';
import { inRange } from '../units/index.ts';
import type { Limit, Product } from './types.ts';

/** The air and surface a product meets at one moment. */
export interface Conditions {
  readonly airTempC: number;
  readonly surfaceTempC: number;
  readonly dewPointC: number;
}

export interface LimitBreak {
  readonly limit:
    | 'airMinC'
    | 'airMaxC'
    | 'surfaceMinC'
    | 'surfaceMaxC'
    | 'dewMarginMinK'
    | 'relHumMaxPct'
    | 'afterMinC';
  readonly got: number;
  readonly need: number;
  readonly words: string;
  readonly source: Limit['source'];
}

/** Exactly on a limit is inside it, whatever rounding the columns and differences carry [K or %]. */
const ROUNDING = 1e-3;

const deg = (value: number): string => `${value.toFixed(1).replace('-', '−')} °C`;

/**
 * Which of a product's own limits these conditions break. Breaking one does not stop the film from
 * drying; it puts it outside the data sheet. The limit for the hours after laying is not looked at
 * here: it needs a forecast.
 * @throws RangeError on a temperature out of range, NaN included
 */
export function brokenLimits(product: Product, now: Conditions): LimitBreak[] {
  const { limits } = product;
  const broken: LimitBreak[] = [];
  const check = (
    key: LimitBreak['limit'],
    limit: Limit | undefined,
    got: number,
    side: 'min' | 'max',
    words: (value: number) => string,
  ) => {
    if (limit === undefined) return;
    if (side === 'min' ? got < limit.value - ROUNDING : got > limit.value + ROUNDING) {
      broken.push({
        limit: key,
        got,
        need: limit.value,
        words: words(limit.value),
        source: limit.source,
      });
    }
  };
  const { airTempC, dewPointC } = now;
  const surfaceTempC = inRange('surfaceTempC', now.surfaceTempC, -100, 150);
  const relHumPct = relHumFromDewPct({ airTempC, dewPointC: Math.min(dewPointC, airTempC) });
  const marginK = surfaceTempC - dewPointC;
  check(
    'airMinC',
    limits.airMinC,
    airTempC,
    'min',
    (v) => `air ${deg(airTempC)}, at least ${deg(v)} asked`,
  );
  check(
    'airMaxC',
    limits.airMaxC,
    airTempC,
    'max',
    (v) => `air ${deg(airTempC)}, at most ${deg(v)} allowed`,
  );
  check(
    'surfaceMinC',
    limits.surfaceMinC,
    surfaceTempC,
    'min',
    (v) => `surface ${deg(surfaceTempC)}, at least ${deg(v)} asked`,
  );
  check(
    'surfaceMaxC',
    limits.surfaceMaxC,
    surfaceTempC,
    'max',
    (v) => `surface ${deg(surfaceTempC)}, at most ${deg(v)} allowed`,
  );
  check(
    'dewMarginMinK',
    limits.dewMarginMinK,
    marginK,
    'min',
    (v) => `surface ${marginK.toFixed(1)} K above dew point, at least ${v} K asked`,
  );
  check(
    'relHumMaxPct',
    limits.relHumMaxPct,
    relHumPct,
    'max',
    (v) => `humidity ${relHumPct.toFixed(0)} %, at most ${v} % allowed`,
  );
  return broken;
}
