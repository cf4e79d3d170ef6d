import type { TimeField } from './parse-times.ts';
import type { Quantity } from './printed-units.ts';
import type { ProductLimits, Substrate } from './types.ts';

type Key = keyof ProductLimits;

/** What each limit is a figure of. */
export const LIMIT_QUANTITY: Readonly<Record<Key, Quantity>> = {
  airMinC: 'temperature',
  airMaxC: 'temperature',
  surfaceMinC: 'temperature',
  surfaceMaxC: 'temperature',
  dewMarginMinK: 'difference',
  relHumMaxPct: 'humidity',
  afterMinC: 'temperature',
  hoursAfter: 'hours',
};

/** What it says, our unit, and which way is stricter. */
export const LIMIT_NAMES: Readonly<
  Record<Key, { readonly words: string; readonly unit: string; readonly stricter: 'more' | 'less' }>
> = {
  airMinC: { words: 'Air at least', unit: '°C', stricter: 'more' },
  airMaxC: { words: 'Air at most', unit: '°C', stricter: 'less' },
  surfaceMinC: { words: 'Surface at least', unit: '°C', stricter: 'more' },
  surfaceMaxC: { words: 'Surface at most', unit: '°C', stricter: 'less' },
  dewMarginMinK: { words: 'Above dew point at least', unit: 'K', stricter: 'more' },
  relHumMaxPct: { words: 'Humidity at most', unit: '%', stricter: 'less' },
  afterMinC: { words: 'Air afterwards at least', unit: '°C', stricter: 'more' },
  hoursAfter: { words: 'Hours it must stay so', unit: 'h', stricter: 'more' },
};

export const TIME_WORDS: Readonly<Record<TimeField, string>> = {
  touchDry: 'Touch dry after',
  openUntil: 'Usable until',
  rainAfter: 'Rain does no harm after',
  closeFrom: 'Lay in from',
  footTraffic: 'Foot traffic after',
  fullCure: 'Cured through after',
};

export const SUBSTRATE_WORDS: Readonly<Record<Substrate, string>> = {
  osb: 'OSB',
  plywood: 'plywood',
  'faced-board': 'faced board',
  'existing-sheet': 'an existing sheet',
  concrete: 'concrete',
  fleece: 'fleece',
};
