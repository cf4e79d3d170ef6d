import { vapourPressureHPa } from '../physics/index.ts';
import { TIME_WORDS } from './number-words.ts';
import type { SheetFigures } from './own-product-settle.ts';
import { TIMES, type TimeField } from './parse-times.ts';
import { brief } from './printed-units.ts';
import { rateLaw, TEST_PANEL_WM2K } from './rates.ts';
import { readTimesTable } from './times-table.ts';
import type { ClockEvent, Product, RefTime } from './types.ts';

export type Times = Record<TimeField, RefTime | null>;

/**
 * The times of a product that starts from a class, at the sheet's reference conditions.
 * - a time the sheet prints is the sheet's
 * - one it only tabulates is read off the table at the reference conditions; the class lends its
 *   scatter in proportion, and where the class has no such time there is none
 * - one of the class alone is carried from the class's reference conditions to the sheet's by the
 *   product's own rate law, unless it runs by plain time
 * @param reference  the conditions the sheet gives its times for
 * @returns the times, and a sentence for each that was read off or carried
 */
export function ownTimes(
  klass: Product,
  reference: Product['reference'],
  figures: SheetFigures,
): { readonly times: Times; readonly notes: readonly string[] } {
  const notes: string[] = [];
  const times: Times = { ...klass, ...figures.times };
  for (const key of TIMES) {
    const ofClass = klass[key];
    if (figures.times[key] !== undefined) continue;
    const table = figures.tables.find(({ event }) => event === key);
    const read =
      table &&
      readable(() =>
        readTimesTable(table, reference.relHumPct)(reference.airTempC, reference.relHumPct),
      );
    if (table && read?.inside) {
      const share = ofClass === null ? null : read.minutes / ofClass.typicalMin;
      const at = (min: number | undefined): number =>
        share === null || min === undefined ? read.minutes : round(min * share);
      times[key] = {
        lowMin: Math.min(read.minutes, at(ofClass?.lowMin)),
        typicalMin: read.minutes,
        highMin: Math.max(read.minutes, at(ofClass?.highMin)),
        source: table.source,
      };
      notes.push(
        `${TIME_WORDS[key]}: ${brief(read.minutes)} min at ${conditions(reference)} is read off the sheet's table${ofClass === null ? '' : "; low and high keep the class's proportions"}.`,
      );
      continue;
    }
    const slower = ofClass === null ? 1 : slowing(klass, key, reference);
    if (ofClass === null || slower === 1) continue;
    const { lowMin, typicalMin, highMin, source } = ofClass;
    times[key] = {
      lowMin: round(lowMin * slower),
      typicalMin: round(typicalMin * slower),
      highMin: round(highMin * slower),
      source,
    };
    notes.push(
      `${TIME_WORDS[key]}: the class's ${brief(typicalMin)} min at ${conditions(klass.reference)} is ${brief(times[key].typicalMin)} min at the sheet's ${conditions(reference)}.`,
    );
  }
  return { times, notes };
}

const conditions = ({ airTempC, relHumPct }: Product['reference']): string =>
  `${brief(airTempC)} °C and ${brief(relHumPct)} %`;

/** How many times longer the class takes at other reference conditions than at its own. */
function slowing(klass: Product, key: TimeField, reference: Product['reference']): number {
  const { airTempC, relHumPct, windMps } = klass.reference;
  const alike =
    airTempC === reference.airTempC &&
    relHumPct === reference.relHumPct &&
    windMps === reference.windMps;
  const byPlainTime = key === 'openUntil' && klass.openEndsBy === 'time';
  if (alike || byPlainTime || klass.mechanism === 'none') return 1;
  // Cream time is the same reaction that ends the open time.
  const event: ClockEvent = key === 'closeFrom' ? 'openUntil' : key;
  const rate = readable(() =>
    rateLaw(
      klass,
      event,
    )({
      surfaceTempC: reference.airTempC,
      vapourHPa: vapourPressureHPa(reference),
      windMps: reference.windMps,
      substrateWm2K: TEST_PANEL_WM2K,
    }),
  );
  return rate !== undefined && rate > 0 ? 1 / rate : 1;
}

/** A table or reference out of range is told by the checks that follow; here it only gives no figure. */
function readable<T>(read: () => T): T | undefined {
  try {
    return read();
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}

/** To the tenth of a minute: a carried figure is no more exact than that. */
const round = (min: number): number => Math.round(min * 10) / 10;
