/**
 * What the clock makes of the trade's times at other temperatures than the data sheet's, side by side
 * with what the trade says. Run by itself it prints the tables of docs/accuracy.md, section Clock.
 */
import { pathToFileURL } from 'node:url';
import { dewPointC } from '../../src/physics/index.ts';
import {
  buildDoseTable,
  type ClockRange,
  constantFilm,
  type Product,
  type RefTime,
  readClock,
} from '../../src/products/index.ts';
import { productById } from './clock-products.ts';

/** Still weather a film meets; the wind is the one over the film. */
export interface Still {
  readonly airTempC: number;
  readonly relHumPct: number;
  readonly surfaceTempC: number;
  readonly windMps: number;
}

const at = (airTempC: number, relHumPct: number, surfaceTempC = airTempC): Still => ({
  airTempC,
  relHumPct,
  surfaceTempC,
  windMps: 1,
});

export interface TradeTime {
  readonly product: string;
  readonly event: 'touchDry' | 'usableUntil' | 'rainAfter';
  readonly weather: string;
  readonly still: Still;
  /** What the trade says, from coating [min]; Infinity = 'or never'. */
  readonly lowMin: number;
  readonly highMin: number;
  /**
   * The trade's 20 °C time of the same thing, where it is another than the product's own: it prints how
   * long one-part polyurethane may be laid into, ours runs to the skin. Like is compared with like.
   */
  readonly at20?: RefTime;
}

const COLD = ['5 °C, 80 %', at(5, 80)] as const;
const HOT = ['30 °C, 40 %, shade', at(30, 40)] as const;
const SUN = ['30 °C, 40 %, deck 45 °C in sun', at(30, 40, 45)] as const;

type Rest = readonly [string, Still, number, number];

const rows = (product: string, event: TradeTime['event'], ...all: readonly Rest[]): TradeTime[] =>
  all.map(([weather, still, lowMin, highMin]) => ({
    product,
    event,
    weather,
    still,
    lowMin,
    highMin,
  }));

/**
 * Times of the trade at 5 and 30 °C (common practice, some from memory). Humidity is not printed with
 * most: a cold roof is taken as damp (80 %), a hot one as 40 %; each hot row stands twice, in the
 * shade and on a deck that the sun has warmed, because the trade does not say which it means.
 */
export const TRADE_TIMES: readonly TradeTime[] = [
  ...rows(
    'deck-adhesive-two-side',
    'touchDry',
    [...COLD, 90, Number.POSITIVE_INFINITY],
    ['10 °C, 80 %', at(10, 80), 90, Number.POSITIVE_INFINITY],
    [...HOT, 10, 15],
    [...SUN, 10, 15],
  ),
  ...rows('contact-solvent', 'touchDry', [...COLD, 30, 60], [...HOT, 3, 8], [...SUN, 3, 8]),
  ...rows(
    'contact-low-voc',
    'touchDry',
    [...COLD, 60, Number.POSITIVE_INFINITY],
    [...HOT, 8, 15],
    [...SUN, 8, 15],
  ),
  ...rows('tape-primer', 'touchDry', [...COLD, 15, 30], [...HOT, 1, 3], [...SUN, 1, 3]),
  ...rows(
    'deck-adhesive-wet-lay',
    'usableUntil',
    [...COLD, 15, 30],
    ['23 °C, 30 %', at(23, 30), 3, 5],
    ['23 °C, 50 %', at(23, 50), 8, 12],
    ['23 °C, 75 %', at(23, 75), 18, 24],
    [...SUN, 2, 5],
  ),
  ...rows(
    'polyurethane-one-part',
    'usableUntil',
    [...COLD, 20, 40],
    [...HOT, 3, 8],
    [...SUN, 3, 8],
  ).map((row) => ({
    ...row,
    at20: { lowMin: 5, typicalMin: 10, highMin: 15, source: 'common practice' as const },
  })),
  ...rows('lap-sealant', 'rainAfter', [...COLD, 60, 180]),
];

export interface Found {
  readonly row: TradeTime;
  readonly earlyMin: number;
  readonly midMin: number;
  readonly lateMin: number;
  /** 1 = our middle lies in the trade's range; above 1 = so many times too slow; below = too quick. */
  readonly off: number;
}

const HOURS = 96;
const minutes = (ms: number | null): number =>
  ms === null ? Number.POSITIVE_INFINITY : ms / 60_000;

/** Early, middle and late of one event after coating in weather that does not change [min]. */
export function stillTimes(
  product: Product,
  event: TradeTime['event'],
  still: Still,
): { earlyMin: number; midMin: number; lateMin: number } {
  const film = constantFilm({
    startMs: 0,
    hours: HOURS,
    surfaceTempC: still.surfaceTempC,
    dewPointC: dewPointC(still),
    windMps: still.windMps,
  });
  const range: ClockRange | null = readClock(product, buildDoseTable(product, film), 0)[event];
  if (range === null) throw new Error(`${product.id} has no ${event}`);
  return {
    earlyMin: minutes(range.earlyMs),
    midMin: minutes(range.midMs),
    lateMin: minutes(range.lateMs),
  };
}

export function found(row: TradeTime): Found {
  const product = productById(row.product);
  const asked = row.at20 === undefined ? product : { ...product, openUntil: row.at20 };
  const times = stillTimes(asked, row.event, row.still);
  // The trade rounds to whole minutes, and so does the comparison.
  const mid = Math.round(times.midMin);
  const off = mid < row.lowMin ? mid / row.lowMin : mid > row.highMin ? mid / row.highMin : 1;
  return { row, ...times, off };
}

/** The trade's rule of thumb for water-borne films, times relative to 20 °C and 50 %. */
export const SCALING_RULE: readonly {
  readonly words: string;
  readonly still: Still;
  readonly factor: number;
}[] = [
  { words: '15 °C, 70 %', still: at(15, 70), factor: 2.3 },
  { words: '10 °C, 80 %', still: at(10, 80), factor: 4.8 },
  { words: '5 °C, 85 %', still: at(5, 85), factor: 9 },
  { words: '30 °C, 40 %', still: at(30, 40), factor: 0.5 },
  { words: '10 °C, 80 %, deck sun-warmed to 25 °C', still: at(10, 80, 25), factor: 0.5 },
  { words: '10 °C, 80 %, deck cooled to 8 °C', still: at(10, 80, 8), factor: 13 },
];

/** Time relative to 20 °C, 50 %, as the clock has it: with the film cooled by its own evaporation. */
export function ourFactor(still: Still): number {
  const product = productById('deck-adhesive-two-side');
  const times = (now: Still): number => stillTimes(product, 'touchDry', now).midMin;
  return times(still) / times(at(20, 50));
}

const EVENT_WORDS = {
  touchDry: 'touch dry',
  usableUntil: 'usable until',
  rainAfter: 'skinned',
} as const;
const range = (low: number, high: number): string =>
  Number.isFinite(high) ? `${low}-${high}` : `${low}+`;

export function timesMarkdown(): string {
  const lines = TRADE_TIMES.map(found).map(({ row, earlyMin, midMin, lateMin, off }) => {
    const verdict =
      off === 1
        ? 'inside'
        : off > 1
          ? `${off.toFixed(1)} times too slow`
          : `${(1 / off).toFixed(1)} times too quick`;
    const ours = `${Math.round(midMin)} (${Math.round(earlyMin)}-${Math.round(lateMin)})`;
    const event = row.at20 === undefined ? EVENT_WORDS[row.event] : 'lay in until';
    return `| ${row.product} | ${event} | ${row.weather} | ${range(row.lowMin, row.highMin)} | ${ours} | ${verdict} |`;
  });
  return [
    '| product class | event | weather | trade, min | ours, min | |',
    '|---|---|---|--:|--:|---|',
    ...lines,
  ].join('\n');
}

export function scalingMarkdown(): string {
  return [
    '| weather | trade rule | ours | ours over rule |',
    '|---|--:|--:|--:|',
    ...SCALING_RULE.map(({ words, still, factor }) => {
      const ours = ourFactor(still);
      return `| ${words} | ${factor} | ${ours.toFixed(2)} | ${(ours / factor).toFixed(2)} |`;
    }),
  ].join('\n');
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  console.log(`## Clock against the trade's times\n\n${timesMarkdown()}\n\n${scalingMarkdown()}`);
}
