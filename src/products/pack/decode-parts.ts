import type { ClockEvent, Closing } from '../types.ts';
import { Fault, type Reader } from './reader.ts';
import type {
  PackClock,
  PackColumn,
  PackProduct,
  PackSurface,
  PackTime,
  PackTimeName,
} from './types.ts';

/** Longest product time [hundredths of a minute]: 60 days. */
const LONGEST = 60 * 1440 * 100;
/** Most progress in a step: a thousand times the reference. */
const MOST_A_STEP = 1000 * 60 * 100;
const ALL_FLAGS = 511;
const TIME_NAMES: readonly PackTimeName[] = [
  'touchDry',
  'openUntil',
  'rainAfter',
  'closeFrom',
  'footTraffic',
  'fullCure',
];

export function readProducts(list: readonly Reader[], closings: readonly Closing[]): PackProduct[] {
  const products = list.map((each): PackProduct => {
    const times = each.inner('times');
    const limits = each.inner('limits');
    const limit = (name: string): number | null =>
      limits.orNull(name, () => limits.whole(name, -1000, 2000));
    return {
      id: each.text('id', 60),
      name: each.text('name', 200),
      closing: each.oneOf('closing', closings),
      openEndsBy: each.oneOf('openEndsBy', ['drying', 'time']),
      faces: each.whole('faces', 1, 2) as 1 | 2,
      times: Object.fromEntries(
        TIME_NAMES.map((name) => [
          name,
          times.orNull(name, () => times.rising(name, 3, 0, LONGEST) as unknown as PackTime),
        ]),
      ) as Record<PackTimeName, PackTime | null>,
      limits: {
        surfaceMinC: limit('surfaceMinC'),
        surfaceMaxC: limit('surfaceMaxC'),
        relHumMaxPct: limit('relHumMaxPct'),
      },
    };
  });
  if (new Set(products.map(({ id }) => id)).size < products.length) {
    throw new Fault('The clock pack cannot be read: it names a product twice. Fetch it again.');
  }
  return products;
}

export function readColumns(list: readonly Reader[], steps: number): PackColumn[] {
  return list.map((each) => {
    const mid = each.column('mid', 2, steps, 0, MOST_A_STEP);
    const slower = each.column('slower', 1, steps, 0, MOST_A_STEP);
    const faster = each.column('faster', 1, steps, 0, MOST_A_STEP);
    if (slower.some((less, i) => less > mid[i]!)) {
      throw new Fault('The clock pack cannot be read: a film in it dries backwards.');
    }
    return {
      slow: mid.map((step, i) => step - slower[i]!),
      mid,
      fast: mid.map((step, i) => step + faster[i]!),
      perK: each.column('perK', 1, steps, -MOST_SENSITIVE, MOST_SENSITIVE),
      perPct: each.column('perPct', 1, steps, -MOST_SENSITIVE, MOST_SENSITIVE),
    };
  });
}

/** A rate that changes by half for a kelvin or for a per cent [thousandths]. */
export const MOST_SENSITIVE = 500;

export function readClocks(
  list: readonly Reader[],
  known: {
    readonly steps: number;
    readonly events: readonly ClockEvent[];
    readonly surfaces: readonly PackSurface[];
    readonly productIds: readonly string[];
    readonly columnCount: number;
  },
): PackClock[] {
  return list.map((each) => {
    const laws = each.inner('laws');
    const named = known.events.filter((event) => laws.has(event));
    return {
      productId: each.oneOf('productId', known.productIds),
      surface: each.oneOf('surface', known.surfaces),
      laws: Object.fromEntries(
        named.map((event) => [event, laws.whole(event, 0, known.columnCount - 1)]),
      ),
      flags: each.column('flags', 1, known.steps, 0, ALL_FLAGS),
    };
  });
}
