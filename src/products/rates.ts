import {
  arrheniusFactor,
  hotConvectionWm2K,
  hotMagnusWaterHPa,
  massTransferMps,
  solventVapourPressureKPa,
  vapourPressureHPa,
} from '../physics/index.ts';
import { KELVIN_AT_0C } from '../units/index.ts';
import type { Product } from './types.ts';

/** Activation energy of curing [kJ/mol]; coatings run 40-100, 50 is the default (reference/physics section 7). */
const CURE_KJMOL = 50;
/** Below this the solvent's own vapour keeps the air over the film moving [m/s] (from memory). */
const STILL_AIR_MPS = 0.5;
/** Length of a coated section along the wind [m] and Schmidt number: they cancel in the ratio. */
const SECTION_LENGTH_M = 2;
const SCHMIDT = 2;

/** What a film feels at one moment. `windMps` is the wind over the film, not the 10 m wind. */
export interface FilmAir {
  readonly surfaceTempC: number;
  readonly vapourHPa: number;
  readonly windMps: number;
}

/**
 * How fast a product gets ready, relative to its reference conditions (1 = as fast as its sheet
 * says), as a function of what the film feels. The film takes the surface's temperature; it does
 * not depend on the film's age, so that progress is a plain integral over time.
 * Zero only where physics says so: vapour-pressure difference zero or negative, or frozen.
 * - water: vapour-pressure difference times convective transfer (reference/physics sections 5, 7)
 * - solvent: vapour pressure at film temperature times mass transfer (Mackay & Matsugu 1973)
 * - moisture cure: water vapour in the air times Arrhenius (Comyn 1998; reference/physics section 7)
 * - chemical: Arrhenius
 * @returns [-], 0 or more
 */
export function rateLaw(product: Product): (air: FilmAir) => number {
  const { reference } = product;
  const refVapourHPa = vapourPressureHPa(reference);
  const refAir = {
    surfaceTempC: reference.airTempC,
    vapourHPa: refVapourHPa,
    windMps: reference.windMps,
  };
  const raw = rawRate(product);
  const atReference = raw(refAir);
  if (!(atReference > 0)) return () => 0;
  return (air) => raw(air) / atReference;
}

function rawRate(product: Product): (air: FilmAir) => number {
  switch (product.mechanism) {
    case 'water':
      return ({ surfaceTempC, vapourHPa, windMps }) => {
        if (surfaceTempC <= 0) return 0;
        return Math.max(
          0,
          hotConvectionWm2K(windMps) * (hotMagnusWaterHPa(surfaceTempC) - vapourHPa),
        );
      };
    case 'solvent':
      return ({ surfaceTempC, windMps }) =>
        (massTransferMps({
          windMps: Math.max(STILL_AIR_MPS, windMps),
          lengthM: SECTION_LENGTH_M,
          schmidt: SCHMIDT,
        }) *
          solventVapourPressureKPa({ solvent: solventOf(product), tempC: surfaceTempC })) /
        (surfaceTempC + KELVIN_AT_0C);
    case 'moisture-cure':
      return ({ surfaceTempC, vapourHPa }) =>
        surfaceTempC <= 0 ? 0 : vapourHPa * cureRate(surfaceTempC);
    case 'chemical':
      return ({ surfaceTempC }) => cureRate(surfaceTempC);
    case 'none':
      return () => 0;
  }
}

/** Cure speed relative to 20 °C. */
function cureRate(tempC: number): number {
  return 1 / arrheniusFactor({ tempC, refTempC: 20, activationKJmol: CURE_KJMOL });
}

function solventOf(product: Product): NonNullable<Product['solvent']> {
  if (product.solvent === null) throw new Error(`${product.id} dries by solvent but names none`);
  return product.solvent;
}
