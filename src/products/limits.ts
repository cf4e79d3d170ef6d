import { relHumFromDewPct } from '../physics/index.ts';
import { inRange } from '../units/index.ts';
import type { Limit, Product } from './types.ts';

/** The air and surface a product meets at one moment. */
export interface Conditions {
  readonly airTempC: number;
  readonly surfaceTempC: number;
  readonly dewPointC: number;
}

/** Limits that the weather of one moment can break, in the order they are told. */
export const WEATHER_LIMITS = [
  'airMinC',
  'airMaxC',
  'surfaceMinC',
  'surfaceMaxC',
  'dewMarginMinK',
  'relHumMaxPct',
] as const;
export type WeatherLimit = (typeof WEATHER_LIMITS)[number];

export interface LimitBreak {
  readonly limit: WeatherLimit | 'afterMinC';
  readonly got: number;
  readonly need: number;
  readonly words: string;
  readonly source: Limit['source'];
}

/** What a limit is held against, and which side of it is inside. */
interface LimitTest {
  readonly side: 'min' | 'max';
  readonly got: (now: Conditions) => number;
  readonly words: (got: number, need: number) => string;
}

/** Exactly on a limit is inside it, whatever rounding the columns and differences carry [K or %]. */
const ROUNDING = 1e-3;

const oneDecimal = (value: number): string => value.toFixed(1).replace('-', '−');
const deg = (value: number): string => `${oneDecimal(value)} °C`;
const least = (what: string) => (got: number, need: number) =>
  `${what} ${deg(got)}, at least ${deg(need)} asked`;
const most = (what: string) => (got: number, need: number) =>
  `${what} ${deg(got)}, at most ${deg(need)} allowed`;

// An unknown temperature is a bug: it must never count as a limit met.
const air = ({ airTempC }: Conditions): number => inRange('airTempC', airTempC, -90, 70);
const surface = ({ surfaceTempC }: Conditions): number =>
  inRange('surfaceTempC', surfaceTempC, -100, 150);

const TESTS: Readonly<Record<WeatherLimit, LimitTest>> = {
  airMinC: { side: 'min', got: air, words: least('air') },
  airMaxC: { side: 'max', got: air, words: most('air') },
  surfaceMinC: { side: 'min', got: surface, words: least('surface') },
  surfaceMaxC: { side: 'max', got: surface, words: most('surface') },
  dewMarginMinK: {
    side: 'min',
    got: (now) => surface(now) - inRange('dewPointC', now.dewPointC, -100, 60),
    words: (got, need) => `surface ${oneDecimal(got)} K above dew point, at least ${need} K asked`,
  },
  relHumMaxPct: {
    side: 'max',
    // Forecasts print air a hair below its dew point; that is 100 %.
    got: ({ airTempC, dewPointC }) =>
      relHumFromDewPct({ airTempC, dewPointC: Math.min(dewPointC, airTempC) }),
    words: (got, need) => `humidity ${got.toFixed(0)} %, at most ${need} % allowed`,
  },
};

/** Is this limit broken? Never by a product that does not have it. */
export function breaksLimit(product: Product, limit: WeatherLimit, now: Conditions): boolean {
  const need = product.limits[limit]?.value;
  if (need === undefined) return false;
  const { side, got } = TESTS[limit];
  return side === 'min' ? got(now) < need - ROUNDING : got(now) > need + ROUNDING;
}

/**
 * Which of a product's own limits these conditions break. Breaking one does not stop the film from
 * drying; it puts it outside the data sheet. The limit for the hours after laying is not looked at
 * here: it needs a forecast. The temperature of the material is the crew's to see to.
 * @throws RangeError on a temperature out of range, NaN included
 */
export function brokenLimits(product: Product, now: Conditions): LimitBreak[] {
  // Every temperature is looked at, whether or not a limit asks for it: an unknown one is a bug.
  for (const limit of WEATHER_LIMITS) TESTS[limit].got(now);
  return WEATHER_LIMITS.filter((limit) => breaksLimit(product, limit, now)).map((limit) => {
    const { value: need, source } = product.limits[limit]!;
    const { got, words } = TESTS[limit];
    return { limit, got: got(now), need, words: words(got(now), need), source };
  });
}
