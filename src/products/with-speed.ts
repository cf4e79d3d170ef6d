import { inRange } from '../units/index.ts';
import type { ClockEvent, Product, RefTime, TimesTable } from './types.ts';

/** What a firm's own films say of a product's speed of drying. */
export interface SpeedCorrection {
  /** Speed over the sheet's, 1 = as the sheet says, 2 = twice as fast. */
  readonly factor: number;
  /** Width of the range of touch-dry times over the sheet's, on a logarithmic scale, above 0 to 1. */
  readonly spread: number;
}

/**
 * The product as this firm's films dry: touch dry, the end of open time where drying ends it, and
 * 'rain after' come sooner or later by the factor, in the sheet's own tables too. Only the range of
 * touch dry narrows, since only that was watched. Open time never lasts beyond the sheet's own latest
 * time, however slowly a firm's films dry: counting on more would be the dangerous side.
 * Limits, curing under the closed sheet and all else stay as they are. Starts from the sheet, also where
 * the product given was corrected before.
 * @param correction  factor 0.01..100, spread above 0 to 1
 * @returns a new product with the changed times marked 'user'; an equal one where factor and spread are 1
 * @throws RangeError outside these ranges, NaN included
 */
export function withSpeed(given: Product, correction: SpeedCorrection): Product {
  const product = asOnSheet(given);
  const factor = inRange('factor', correction.factor, 0.01, 100);
  const spread = inRange('spread', correction.spread, 1e-6, 1);
  if (factor === 1 && spread === 1) return product;
  const touchDry = scaled(product.touchDry, factor, spread);
  const openUntil =
    product.openEndsBy === 'drying' ? neverLater(product.openUntil, factor) : product.openUntil;
  const rainAfter = scaled(product.rainAfter, factor, 1);
  const changed = { touchDry, openUntil, rainAfter };
  const tables = product.tables.map((table): TimesTable => {
    const ratio = ratioOf(product, changed, table.event);
    if (ratio === 1) return table;
    const minutes = table.minutes.map((row) => row.map((min) => min * ratio));
    return { ...table, minutes, source: 'user' };
  });
  const sheet = {
    touchDry: product.touchDry,
    openUntil: product.openUntil,
    rainAfter: product.rainAfter,
    tables: product.tables,
  };
  return { ...product, ...changed, tables, learned: { factor, spread, sheet } };
}

/** The product as its sheet has it, whatever the firm's films taught. */
export function asOnSheet(product: Product): Product {
  if (product.learned === undefined) return product;
  const { learned, ...rest } = product;
  return { ...rest, ...learned.sheet };
}

/** The printed number is left out: it is not what these times say any more. */
function scaled(time: RefTime | null, factor: number, spread: number): RefTime | null {
  if (time === null) return null;
  const typicalMin = time.typicalMin / factor;
  return {
    lowMin: typicalMin * (time.lowMin / time.typicalMin) ** spread,
    typicalMin,
    highMin: typicalMin * (time.highMin / time.typicalMin) ** spread,
    source: 'user',
  };
}

function neverLater(sheet: RefTime | null, factor: number): RefTime | null {
  const time = scaled(sheet, factor, 1);
  if (time === null || sheet === null || factor >= 1) return time;
  const capped = (minutes: number): number => Math.min(minutes, sheet.highMin);
  return {
    lowMin: capped(time.lowMin),
    typicalMin: capped(time.typicalMin),
    highMin: capped(time.highMin),
    source: time.source,
  };
}

/** By how much an event's times changed, which its table must follow. */
function ratioOf(
  product: Product,
  changed: Pick<Product, 'touchDry' | 'openUntil' | 'rainAfter'>,
  event: ClockEvent,
): number {
  if (event === 'footTraffic' || event === 'fullCure') return 1;
  const before = product[event];
  const after = changed[event];
  return before === null || after === null ? 1 : after.typicalMin / before.typicalMin;
}
