import {
  arrheniusFactor,
  hotConvectionWm2K,
  hotMagnusWaterHPa,
  SOLVENTS,
} from '../physics/index.ts';
import { KELVIN_AT_0C } from '../units/index.ts';
import type { FilmWeather } from './film-weather.ts';
import type { Product } from './types.ts';
import { convectionColumn, solventTransferColumn, solventTransferMps } from './wind-columns.ts';

/** Activation energy of curing [kJ/mol]; coatings run 40-100, 50 is the usual default. */
const CURE_KJMOL = 50;
/** Long-wave exchange of a film with its surroundings [W/m2K]: 4 e s T^3 near 20 °C. */
const RADIATION_WM2K = 5.2;
/** Latent over convective heat of water per hPa: latent heat x 0.622 / (pressure x cp x Le^2/3) at sea level. */
const LATENT_PER_HPA = (2.45e6 * 0.622) / (1013 * 1006 * 0.9);

/** Newton steps after the closed form, which already lies within a few tenths of a kelvin. */
const CORRECTIONS = { water: 2, solvent: 1 } as const;

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
 * How fast a film goes, in a unit of the law's own. Asked of one moment, or of a row of them: both give
 * the same to the last bit, for both run the same arithmetic.
 */
export interface FilmLaw {
  at(air: FilmAir): number;
  /** Of `count` cells of a film's columns from `from` on, into `into` from `intoFrom` on. */
  fill(film: FilmWeather, from: number, count: number, into: Float64Array, intoFrom: number): void;
}

/** Drying or curing of a film that lies open. */
export function filmLawOf(product: Product): FilmLaw {
  switch (product.mechanism) {
    case 'water':
      return waterLaw;
    case 'solvent':
      return solventLaw(product);
    case 'moisture-cure':
      return moistureLaw;
    case 'chemical':
      return cureLaw;
    case 'none':
      return standsStill;
  }
}

/** Curing under the closed sheet follows temperature alone, unless the product cures by moisture. */
export function cureLawOf(product: Product): FilmLaw {
  switch (product.mechanism) {
    case 'moisture-cure':
      return moistureLaw;
    case 'water':
      return cureAboveFrost;
    default:
      return cureLaw;
  }
}

/**
 * x with x exp(x) = u, within 1 % (Winitzki's approximation, from memory): a film's balance of heat is
 * of that form where its vapour pressure is taken as exponential in temperature.
 */
function lambertW(u: number): number {
  const l = Math.log1p(u);
  return l * (1 - Math.log1p(l) / (2 + l));
}

/** Evaporation of water from a film in balance with its surface [W/m2]. */
const waterLaw: FilmLaw = {
  at: ({ surfaceTempC, vapourHPa, windMps, substrateWm2K }) =>
    waterRate(surfaceTempC, vapourHPa, hotConvectionWm2K(windMps), substrateWm2K),
  fill(film, from, count, into, intoFrom) {
    const { surfaceTempC, dewPointC, substrateWm2K } = film;
    const convectionWm2K = convectionColumn(film);
    for (let k = 0; k < count; k += 1) {
      const at = from + k;
      const vapourHPa = hotMagnusWaterHPa(dewPointC[at]!);
      const rate = waterRate(surfaceTempC[at]!, vapourHPa, convectionWm2K[at]!, substrateWm2K);
      into[intoFrom + k] = rate;
    }
  },
};

function waterRate(
  surfaceTempC: number,
  vapourHPa: number,
  convectionWm2K: number,
  substrateWm2K: number,
): number {
  if (surfaceTempC <= 0) return 0;
  const atSurface = hotMagnusWaterHPa(surfaceTempC);
  if (atSurface <= vapourHPa) return 0;
  const supply = convectionWm2K + RADIATION_WM2K + substrateWm2K;
  const perHPa = convectionWm2K * LATENT_PER_HPA;
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
function solventLaw(product: Product): FilmLaw {
  if (product.solvent === null) throw new Error(`${product.id} dries by solvent but names none`);
  const { a, b, c } = SOLVENTS[product.solvent].antoine;
  const lnA = Math.LN10 * a + Math.log(1e5);
  const lnB = Math.LN10 * b;
  return {
    at: ({ surfaceTempC, windMps, substrateWm2K }) => {
      const supply = hotConvectionWm2K(windMps) + RADIATION_WM2K + substrateWm2K;
      return solventRate(surfaceTempC, solventTransferMps(windMps), supply, lnA, lnB, c);
    },
    fill(film, from, count, into, intoFrom) {
      const { surfaceTempC, substrateWm2K } = film;
      const convectionWm2K = convectionColumn(film);
      const transferMps = solventTransferColumn(film);
      for (let k = 0; k < count; k += 1) {
        const at = from + k;
        const supply = convectionWm2K[at]! + RADIATION_WM2K + substrateWm2K;
        into[intoFrom + k] = solventRate(surfaceTempC[at]!, transferMps[at]!, supply, lnA, lnB, c);
      }
    },
  };
}

/** @param lnA, lnB, c  vapour pressure [Pa] as exp(lnA - lnB / (kelvin + c)), after Antoine */
function solventRate(
  surfaceTempC: number,
  transferMps: number,
  supplyWm2K: number,
  lnA: number,
  lnB: number,
  c: number,
): number {
  const surfaceK = surfaceTempC + KELVIN_AT_0C;
  // Clausius-Clapeyron on the Antoine curve: heat carried off = k P T ln10 B / (T + C)^2.
  const steep = lnB / (surfaceK + c) ** 2;
  const atSurface = transferMps * Math.exp(lnA - lnB / (surfaceK + c)) * surfaceK * steep;
  let kelvin = surfaceK - lambertW((steep * atSurface) / supplyWm2K) / steep;
  let pressurePa = Math.exp(lnA - lnB / (kelvin + c));
  for (let k = 0; k < CORRECTIONS.solvent; k += 1) {
    const steepHere = lnB / (kelvin + c) ** 2;
    const heat = transferMps * pressurePa * kelvin * steepHere;
    kelvin += (supplyWm2K * (surfaceK - kelvin) - heat) / (supplyWm2K + heat * steepHere);
    pressurePa = Math.exp(lnA - lnB / (kelvin + c));
  }
  return (transferMps * pressurePa) / kelvin;
}

/** Vapour in the air times Arrhenius; it does not cure frozen. */
const moistureLaw: FilmLaw = {
  at: ({ surfaceTempC, vapourHPa }) => moistureRate(surfaceTempC, vapourHPa),
  fill({ surfaceTempC, dewPointC }, from, count, into, intoFrom) {
    for (let k = 0; k < count; k += 1) {
      const at = from + k;
      into[intoFrom + k] = moistureRate(surfaceTempC[at]!, hotMagnusWaterHPa(dewPointC[at]!));
    }
  },
};

function moistureRate(surfaceTempC: number, vapourHPa: number): number {
  return surfaceTempC <= 0 ? 0 : vapourHPa * cureRate(surfaceTempC);
}

/** A law of the surface's temperature and nothing else. */
function temperatureLaw(rate: (surfaceTempC: number) => number): FilmLaw {
  return {
    at: ({ surfaceTempC }) => rate(surfaceTempC),
    fill({ surfaceTempC }, from, count, into, intoFrom) {
      for (let k = 0; k < count; k += 1) into[intoFrom + k] = rate(surfaceTempC[from + k]!);
    },
  };
}

/** Cure speed relative to 20 °C. */
function cureRate(tempC: number): number {
  return 1 / arrheniusFactor({ tempC, refTempC: 20, activationKJmol: CURE_KJMOL });
}

const cureLaw = temperatureLaw(cureRate);
const cureAboveFrost = temperatureLaw((tempC) => (tempC <= 0 ? 0 : cureRate(tempC)));
const standsStill = temperatureLaw(() => 0);
