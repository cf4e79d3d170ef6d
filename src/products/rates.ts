import {
  arrheniusFactor,
  hotConvectionWm2K,
  hotMagnusWaterHPa,
  massTransferMps,
  SOLVENTS,
  vapourPressureHPa,
} from '../physics/index.ts';
import { KELVIN_AT_0C } from '../units/index.ts';
import { readTimesTable } from './times-table.ts';
import type { ClockEvent, Product, TimesTable } from './types.ts';

/** Activation energy of curing [kJ/mol]; coatings run 40-100, 50 is the usual default. */
const CURE_KJMOL = 50;
/** Below this the solvent's own vapour keeps the air over the film moving [m/s] (from memory). */
const STILL_AIR_MPS = 0.5;
/** Length of a coated section along the wind [m] (common practice). */
const SECTION_LENGTH_M = 2;
/** Schmidt number of a solvent in air (1.4 for acetone to 2.5 for heptane, from their diffusivities). */
const SCHMIDT = 2;
/** Long-wave exchange of a film with its surroundings [W/m2K]: 4 e s T^3 near 20 °C. */
const RADIATION_WM2K = 5.2;
/** Latent over convective heat of water per hPa: latent heat x 0.622 / (pressure x cp x Le^2/3) at sea level. */
const LATENT_PER_HPA = (2.45e6 * 0.622) / (1013 * 1006 * 0.9);
/** What a test panel gives back to a film on it [W/m2K]: a wood panel over ten minutes (from memory). */
export const TEST_PANEL_WM2K = 15;

/** Newton steps after the closed form, which already lies within a few tenths of a kelvin. */
const CORRECTIONS = { water: 2, solvent: 1 } as const;

/**
 * x with x exp(x) = u, within 1 % (Winitzki's approximation, from memory): a film's balance of heat is
 * of that form where its vapour pressure is taken as exponential in temperature.
 */
function lambertW(u: number): number {
  const l = Math.log1p(u);
  return l * (1 - Math.log1p(l) / (2 + l));
}

/** What a film feels at one moment. */
export interface FilmAir {
  /** Temperature the surface has, or would have, without the film on it. */
  readonly surfaceTempC: number;
  readonly vapourHPa: number;
  /** Over the film, not the 10 m wind. */
  readonly windMps: number;
  /** Heat the surface gives a cooler film on it [W/m2K]. */
  readonly substrateWm2K: number;
}

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
  if (product.mechanism === 'none') return () => 0;
  const { reference } = product;
  const cures = event === 'footTraffic' || event === 'fullCure';
  const raw = cures ? cureRateOf(product) : rawRate(product);
  const table = product.tables.find((sheet) => sheet.event === event);
  if (table !== undefined) return tableLaw(product, table, raw);
  const atReference = raw({
    surfaceTempC: reference.airTempC,
    vapourHPa: vapourPressureHPa(reference),
    windMps: reference.windMps,
    substrateWm2K: TEST_PANEL_WM2K,
  });
  if (!(atReference > 0))
    throw new Error(`${product.id} does not dry at its own reference conditions`);
  if (product.closing !== 'wet' || cures) return (air) => raw(air) / atReference;
  return (air) => Math.max(SLOWEST_WHILE_WET, raw(air) / atReference);
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

function cureRateOf(product: Product): (air: FilmAir) => number {
  switch (product.mechanism) {
    case 'moisture-cure':
      return rawRate(product);
    case 'water':
      return (air) => (air.surfaceTempC <= 0 ? 0 : cureLaw(air));
    default:
      return cureLaw;
  }
}

function rawRate(product: Product): (air: FilmAir) => number {
  switch (product.mechanism) {
    case 'water':
      return waterRate;
    case 'solvent':
      return solventRate(product);
    case 'moisture-cure':
      return ({ surfaceTempC, vapourHPa }) =>
        surfaceTempC <= 0 ? 0 : vapourHPa * cureRate(surfaceTempC);
    case 'chemical':
      return cureLaw;
    case 'none':
      return () => 0;
  }
}

/** Evaporation of water from a film in balance with its surface [W/m2]. */
function waterRate({ surfaceTempC, vapourHPa, windMps, substrateWm2K }: FilmAir): number {
  if (surfaceTempC <= 0 || hotMagnusWaterHPa(surfaceTempC) <= vapourHPa) return 0;
  const hc = hotConvectionWm2K(windMps);
  const supply = hc + RADIATION_WM2K + substrateWm2K;
  const perHPa = hc * LATENT_PER_HPA;
  const atSurface = hotMagnusWaterHPa(surfaceTempC);
  const steep = (17.62 * 243.12) / (243.12 + surfaceTempC) ** 2;
  // supply x drop = perHPa (saturated x exp(-steep drop) - vapour), solved for the drop.
  const held = (perHPa * vapourHPa) / supply;
  const drop =
    lambertW((steep * perHPa * atSurface * Math.exp(steep * held)) / supply) / steep - held;
  let tempC = surfaceTempC - drop;
  for (let k = 0; k < CORRECTIONS.water; k += 1) {
    const saturated = hotMagnusWaterHPa(tempC);
    const slope = (saturated * 17.62 * 243.12) / (243.12 + tempC) ** 2;
    tempC +=
      (supply * (surfaceTempC - tempC) - perHPa * (saturated - vapourHPa)) /
      (supply + perHPa * slope);
  }
  return Math.max(0, perHPa * (hotMagnusWaterHPa(tempC) - vapourHPa));
}

/** Evaporation of a solvent from a film in balance with its surface, in mol per area and time. */
function solventRate(product: Product): (air: FilmAir) => number {
  if (product.solvent === null) throw new Error(`${product.id} dries by solvent but names none`);
  const { a, b, c } = SOLVENTS[product.solvent].antoine;
  const atOneMps = massTransferMps({ windMps: 1, lengthM: SECTION_LENGTH_M, schmidt: SCHMIDT });
  const lnA = Math.LN10 * a + Math.log(1e5);
  const lnB = Math.LN10 * b;
  return ({ surfaceTempC, windMps, substrateWm2K }) => {
    const transfer = atOneMps * Math.max(STILL_AIR_MPS, windMps) ** WIND_POWER;
    const supply = hotConvectionWm2K(windMps) + RADIATION_WM2K + substrateWm2K;
    const surfaceK = surfaceTempC + KELVIN_AT_0C;
    // Clausius-Clapeyron on the Antoine curve: heat carried off = k P T ln10 B / (T + C)^2.
    const steepAt = (kelvin: number): number => lnB / (kelvin + c) ** 2;
    const steep = steepAt(surfaceK);
    const atSurface = transfer * Math.exp(lnA - lnB / (surfaceK + c)) * surfaceK * steep;
    let kelvin = surfaceK - lambertW((steep * atSurface) / supply) / steep;
    let pressurePa = Math.exp(lnA - lnB / (kelvin + c));
    for (let k = 0; k < CORRECTIONS.solvent; k += 1) {
      const heat = transfer * pressurePa * kelvin * steepAt(kelvin);
      kelvin += (supply * (surfaceK - kelvin) - heat) / (supply + heat * steepAt(kelvin));
      pressurePa = Math.exp(lnA - lnB / (kelvin + c));
    }
    return (transfer * pressurePa) / kelvin;
  };
}

/** Wind exponent of Mackay & Matsugu 1973; disputed: Woodward & Krishna 2002 found far less in a tunnel. */
const WIND_POWER = 0.78;

const cureLaw = ({ surfaceTempC }: FilmAir): number => cureRate(surfaceTempC);

/** Cure speed relative to 20 °C. */
function cureRate(tempC: number): number {
  return 1 / arrheniusFactor({ tempC, refTempC: 20, activationKJmol: CURE_KJMOL });
}
