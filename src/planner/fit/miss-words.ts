import type { Limit, Product } from '../../products/index.ts';
import type { RuleId } from '../../stages/index.ts';
import { WHOSE } from '../clock-words.ts';
import type { Prepared } from '../prepare.ts';
import type { BestMoment } from './best-moment.ts';
import type { Role, WorkKind } from './work-kinds.ts';

/**
 * What a rule asks and by how much it is missed at the best moment, as a clause of a sentence.
 * @param product  what to call the product whose limit it is
 */
export function missWords(
  prepared: Prepared,
  kind: WorkKind,
  rule: RuleId,
  moment: BestMoment | null,
  product = kind.product?.name ?? 'this work',
): string {
  if (moment === null) return BARE_WORDS[rule];
  const { side, short } = moment;
  // A miss too small for a tenth is told in thousandths, never as none.
  const digits = short >= 0.05 ? 1 : 3;
  const got = minus(moment.got.toFixed(digits));
  const by = short.toFixed(digits);
  const asks = limitWords({ prepared, kind, rule, moment, product });
  const off = side === 'at least' ? 'short of' : 'over';
  switch (moment.what) {
    case 'air':
    case 'surface': {
      const best = side === 'at least' ? 'at its warmest' : 'at its coolest';
      return `the ${moment.what} is ${got} °C ${best}, ${by} K ${off} ${asks}`;
    }
    case 'dew margin':
      return `the surface is ${got} K above dew point at best, ${by} K ${off} ${asks}`;
    case 'humidity':
      return `humidity is ${got} % at its lowest, ${by} points ${off} ${asks}`;
    case 'wind':
    case 'gusts':
      return `${moment.what === 'wind' ? 'the wind is' : 'gusts are'} ${got} m/s at the calmest, ${by} m/s ${off} ${asks}`;
    case 'rain':
      return `it rains in every working hour, ${got} mm/h at the least`;
    case 'night':
      return `the air falls to ${got} °C even on the warmest of the nights after, ${by} K ${off} ${asks}`;
  }
}

const BARE_WORDS: Readonly<Record<RuleId, string>> = {
  'air-temp': 'the air is outside what is asked',
  'surface-temp': 'the surface is outside what is asked',
  'dew-margin': 'the surface is too near the dew point',
  humidity: 'the air is too damp',
  'cold-night': 'too many forecasts turn too cold in the hours after',
  'sheet-wind': 'there is too much wind to handle sheet',
  'roof-wind': 'there is too much wind to work on the roof',
  lightning: 'lightning is likely',
  heat: 'it is too hot for people to work',
  chill: 'it is too cold for people to work',
  rain: 'it rains in every working hour',
  'deck-dry': 'the surface stays wet or damp',
  daylight: 'it is dark',
};

function limitWords(args: {
  readonly prepared: Prepared;
  readonly kind: WorkKind;
  readonly rule: RuleId;
  readonly moment: BestMoment;
  readonly product: string;
}): string {
  const { prepared, kind, rule, product } = args;
  const { what, side, need } = args.moment;
  const limit = limitOf(kind.product, rule, side);
  const asked = side === 'at least' ? 'asks' : 'allows';
  switch (what) {
    case 'wind':
    case 'gusts': {
      const stops = rule === 'roof-wind' ? 'all work on the roof stops' : 'sheets are not handled';
      return `the ${need} m/s at which ${stops} (a safety limit, not to be loosened)`;
    }
    case 'dew margin':
      return limit !== undefined && limit.value >= prepared.limits.dewMarginMinK
        ? `the ${need} K that ${product} ${asked} (${WHOSE[limit.source]})`
        : `the ${need} K that the firm asks`;
    case 'night':
      return `the ${minus(`${need}`)} °C that ${product} ${asked} for ${kind.product?.limits.hoursAfter?.value} h (${whoseWords(limit)})`;
    default:
      return `the ${minus(`${need}`)} ${what === 'humidity' ? '%' : '°C'} that ${product} ${asked} (${whoseWords(limit)})`;
  }
}

const minus = (number: string): string => number.replace('-', '−');
const whoseWords = (limit: Limit | undefined): string => WHOSE[limit?.source ?? 'user'];

/** The product's own limit behind a rule. */
export function limitOf(
  product: Product | null,
  rule: RuleId,
  side: BestMoment['side'],
): Limit | undefined {
  const limits = product?.limits ?? {};
  switch (rule) {
    case 'air-temp':
      return side === 'at least' ? limits.airMinC : limits.airMaxC;
    case 'surface-temp':
      return side === 'at least' ? limits.surfaceMinC : limits.surfaceMaxC;
    case 'humidity':
      return limits.relHumMaxPct;
    case 'dew-margin':
      return limits.dewMarginMinK;
    case 'cold-night':
      return limits.afterMinC;
    default:
      return undefined;
  }
}

const ROLE_WORDS: Readonly<Record<Role, string>> = {
  field: 'Bonding the field',
  perimeter: 'Bonding edges and upstands',
  primer: 'Priming laps and patches',
  lapTape: 'Taping laps',
  patch: 'Patching details',
  sealant: 'Sealing lap and cut edges',
  nightSeal: 'The night seal',
};

export function kindWords({ role, activity }: WorkKind): string {
  if (role !== null) return ROLE_WORDS[role];
  return activity.rules.includes('sheet-wind') ? 'Handling sheet' : 'Work on the roof';
}
