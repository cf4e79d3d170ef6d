import { hotMagnusWaterHPa, vapourPressureHPa } from '../physics/index.ts';
import { cureLawOf, type FilmAir, type FilmLaw, filmLawOf } from './film-laws.ts';
import type { FilmWeather } from './film-weather.ts';
import { readTimesTable } from './times-table.ts';
import type { ClockEvent, Product, TimesTable } from './types.ts';

export type { FilmAir } from './film-laws.ts';

/** What a test panel gives back to a film on it [W/m2K]: a wood panel over ten minutes (from memory). */
export const TEST_PANEL_WM2K = 15;

/**
 * How fast an event of a product comes nearer, relative to its reference conditions (1 = as fast as its
 * sheet says), as a function of what the film feels. An evaporating film is cooler than its surface by
 * what evaporation costs, so that sun and wind speed it up less than they would a dry balance. The
 * rate does not depend on the film's age: progress is a plain integral over time.
 * Zero only where physics says so: vapour-pressure difference zero or negative, or frozen; never for
 * the open time of a film closed wet, whose only clock is its end.
 * - water: vapour-pressure difference times convective transfer (Lewis relation)
 * - solvent: vapour pressure at film temperature times mass transfer (Mackay & Matsugu 1973)
 * - moisture cure: water vapour in the air times Arrhenius (sharp front, Comyn 1998)
 * - chemical: Arrhenius
 * Curing under the closed sheet (foot traffic, full cure) follows temperature alone, whatever left the
 * film before, unless the product cures by moisture.
 * Where the sheet has a table of the event's times, the table rules: see `tableLaw`.
 * @returns [-], 0 or more
 * @throws Error on a product that would not dry at its own reference, or a table of an event without a time
 */
export function rateLaw(product: Product, event: ClockEvent): (air: FilmAir) => number {
  return rateOf(product, event).at;
}

/**
 * The same for many cells at once, to the last bit as `rateLaw` has each.
 * @returns a law whose `fill` takes cells of a film's columns
 * @throws as `rateLaw`
 */
export function rateOf(product: Product, event: ClockEvent): FilmLaw {
  if (product.mechanism === 'none') return filmLawOf(product);
  const cures = event === 'footTraffic' || event === 'fullCure';
  const law = cures ? cureLawOf(product) : filmLawOf(product);
  const table = product.tables.find((sheet) => sheet.event === event);
  if (table !== undefined) return cellByCell(tableLaw(product, table, law.at));
  const { reference } = product;
  const atReference = law.at({
    surfaceTempC: reference.airTempC,
    vapourHPa: vapourPressureHPa(reference),
    windMps: reference.windMps,
    substrateWm2K: TEST_PANEL_WM2K,
  });
  if (!(atReference > 0))
    throw new Error(`${product.id} does not dry at its own reference conditions`);
  const least = product.closing !== 'wet' || cures ? 0 : SLOWEST_WHILE_WET;
  return {
    at: (air) => Math.max(least, law.at(air) / atReference),
    fill(film, from, count, into, intoFrom) {
      law.fill(film, from, count, into, intoFrom);
      for (let at = intoFrom; at < intoFrom + count; at += 1)
        into[at] = Math.max(least, into[at]! / atReference);
    },
  };
}

function cellByCell(at: (air: FilmAir) => number): FilmLaw {
  return {
    at,
    fill(film: FilmWeather, from, count, into, intoFrom) {
      const { surfaceTempC, dewPointC, windMps, toFilm, substrateWm2K } = film;
      for (let k = 0; k < count; k += 1) {
        into[intoFrom + k] = at({
          surfaceTempC: surfaceTempC[from + k]!,
          vapourHPa: hotMagnusWaterHPa(dewPointC[from + k]!),
          windMps: windMps[from + k]! * toFilm,
          substrateWm2K,
        });
      }
    },
  };
}

/**
 * A film that is closed wet goes on losing its open time however cold and damp it is: the deck drinks
 * from it, it levels and skins. The trade stretches such open times to about two and a half times at
 * 5 °C, damp (common practice); counting on more would be the dangerous side.
 */
const SLOWEST_WHILE_WET = 0.4;

/**
 * A sheet's own table over the physics. It is read at the temperature of the film's surface and the
 * humidity that the air's vapour has at that temperature, because sheets mean film and air alike in
 * both. Physics only says what the table cannot: how wind and what lies below differ from a panel at
 * the sheet's reference wind and, outside the table's range, how the weather differs from its nearest
 * point. The same at the border from either side, so that nothing jumps there.
 */
function tableLaw(
  product: Product,
  table: TimesTable,
  raw: (air: FilmAir) => number,
): (air: FilmAir) => number {
  const time = product[table.event];
  if (time === null)
    throw new Error(`${product.id} has a table of ${table.event} but no time for it`);
  const { reference, closing } = product;
  const read = readTimesTable(table, reference.relHumPct);
  const floored = closing === 'wet' && table.event === 'openUntil';
  return (air) => {
    const saturatedHPa = hotMagnusWaterHPa(air.surfaceTempC);
    const point = read(air.surfaceTempC, (100 * air.vapourHPa) / saturatedHPa);
    const atPoint = time.typicalMin / point.minutes;
    const asPrinted = raw({
      surfaceTempC: point.tempC,
      vapourHPa: point.inside
        ? air.vapourHPa
        : (point.relHumPct / 100) * hotMagnusWaterHPa(point.tempC),
      windMps: reference.windMps,
      substrateWm2K: TEST_PANEL_WM2K,
    });
    const now = raw(air);
    // Physics has nothing to compare with where it would not dry at all: there the sheet is alone.
    const beside = asPrinted > 0 ? now / asPrinted : point.inside ? 1 : 0;
    const rate = atPoint * beside;
    return floored ? Math.max(Math.min(SLOWEST_WHILE_WET, atPoint), rate) : rate;
  };
}
