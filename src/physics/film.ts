import { GAS_CONSTANT, inRange, KELVIN_AT_0C } from '../units/index.ts';
import { AIR_SPECIFIC_HEAT_JKGK, hotLatentHeatJkg, hotMagnusWaterHPa } from './hot.ts';
import {
  massTransferMps,
  type Solvent,
  schmidtNumber,
  solventData,
  solventLatentHeatJkg,
  solventVapourPressureKPa,
} from './solvent.ts';

/** A drying film: one of the solvents, or water. */
export type FilmLiquid = Solvent | 'water';

/** Prandtl number of air. */
const AIR_PRANDTL = 0.71;
/** Molar mass [g/mol] and diffusivity in air at 0 °C [cm2/s] of water (Perry's table 2-324). */
const WATER_MOLAR_MASS = 18.015;
const WATER_DIFFUSIVITY = 0.219;

export interface FilmArgs {
  readonly liquid: FilmLiquid;
  /** [°C], -30..60. */
  readonly airTempC: number;
  /** Over the film [m/s], above 0, up to 60. */
  readonly windMps: number;
  /** Wet length along the wind [m], 0.05..1000. */
  readonly lengthM: number;
  /** Radiation absorbed, sun and net long wave together [W/m2], -200..1600. */
  readonly absorbedWm2: number;
  /** From the film into what it lies on [W/m2K], 0..1000; 0 = nothing comes from below. */
  readonly conductanceWm2K: number;
  /** What it lies on [°C], -40..100. */
  readonly belowTempC: number;
  /** Pressure of the same vapour in the air [hPa], 0..200; 0 for solvents in the open, else water's. */
  readonly ambientHPa: number;
  /** Of the liquid in the film, 0..1; 1 = pure. */
  readonly activity: number;
  /** Default 7/9, see `massTransferMps`. */
  readonly windExponent?: number;
}

function checkFilm(a: FilmArgs): void {
  if (a.liquid !== 'water') solventData(a.liquid);
  inRange('airTempC', a.airTempC, -30, 60);
  inRange('windMps', a.windMps, Number.MIN_VALUE, 60);
  inRange('absorbedWm2', a.absorbedWm2, -200, 1600);
  inRange('conductanceWm2K', a.conductanceWm2K, 0, 1000);
  inRange('belowTempC', a.belowTempC, -40, 100);
  inRange('ambientHPa', a.ambientHPa, 0, 200);
  inRange('activity', a.activity, 0, 1);
}

/** Flux [kg/m2s], its heat [W/m2] and the heat transfer that belongs to it [W/m2K]. */
function transfer(a: FilmArgs, tempC: number): { kgM2S: number; heatWm2: number; hWm2K: number } {
  const water = a.liquid === 'water';
  const molarMass = a.liquid === 'water' ? WATER_MOLAR_MASS : solventData(a.liquid).molarMassGmol;
  const diffusivity =
    a.liquid === 'water' ? WATER_DIFFUSIVITY : solventData(a.liquid).diffusivityCm2S;
  const meanC = (tempC + a.airTempC) / 2;
  const schmidt = schmidtNumber(diffusivity, meanC);
  const k = massTransferMps({
    windMps: a.windMps,
    lengthM: a.lengthM,
    schmidt,
    ...(a.windExponent === undefined ? {} : { windExponent: a.windExponent }),
  });
  const saturatedHPa =
    a.liquid === 'water'
      ? hotMagnusWaterHPa(tempC)
      : 10 * solventVapourPressureKPa({ solvent: a.liquid, tempC });
  const meanK = meanC + KELVIN_AT_0C;
  const kgM2S =
    (k * (a.activity * saturatedHPa - a.ambientHPa) * 100 * (molarMass / 1000)) /
    (GAS_CONSTANT * meanK);
  const latent = water
    ? hotLatentHeatJkg(Math.max(0, tempC))
    : solventLatentHeatJkg({ solvent: a.liquid as Solvent, tempC });
  const airKgM3 = 101325 / (287.05 * meanK);
  const hWm2K = k * airKgM3 * AIR_SPECIFIC_HEAT_JKGK * (schmidt / AIR_PRANDTL) ** (2 / 3);
  return { kgM2S, heatWm2: kgM2S * latent, hWm2K };
}

/**
 * Temperature a drying film settles at: what the air, radiation and deck bring equals what
 * evaporation takes. Heat transfer is the one that belongs to the vapour transfer (Chilton-Colburn), so
 * without help from the deck the answer does not depend on wind. Quasi-steady: a film of 0.1 mm
 * follows within a minute. A film of water is taken as liquid below 0 °C too.
 * @param args see `FilmArgs`
 * @returns [°C], solved to 1e-6 K
 * @throws RangeError outside its ranges, NaN included, or where the film would leave -59..149 °C
 * @source h (Ta - Tf) + absorbed + U (Tb - Tf) = flux x latent heat; tests/published/solvent.test.ts
 * @accuracy within 4 K for pure solvents with nothing from below; real films on decks cool by 2-8 K
 *   (from memory), so the deck's conductance decides
 */
export function filmTempC(args: FilmArgs): number {
  checkFilm(args);
  const gain = (tempC: number): number => {
    const t = transfer(args, tempC);
    return (
      t.hWm2K * (args.airTempC - tempC) +
      args.absorbedWm2 +
      args.conductanceWm2K * (args.belowTempC - tempC) -
      t.heatWm2
    );
  };
  let low = -59;
  let high = 149;
  if (gain(low) < 0 || gain(high) > 0) {
    throw new RangeError(`filmTempC would lie outside ${low}..${high} for ${JSON.stringify(args)}`);
  }
  while (high - low > 1e-7) {
    const mid = (low + high) / 2;
    if (gain(mid) > 0) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}

/**
 * What leaves a film at the temperature it settles at.
 * @param args see `FilmArgs`
 * @returns [kg/m2s], negative = water settling on the film
 * @throws RangeError as `filmTempC`
 */
export function filmFluxKgM2S(args: FilmArgs): number {
  return transfer(args, filmTempC(args)).kgM2S;
}

/**
 * What would leave it were it held at a given temperature.
 * @param args see `FilmArgs`
 * @param tempC film temperature [°C], -59..149
 * @returns [kg/m2s]
 * @throws RangeError outside these ranges, NaN included
 */
export function filmFluxAtKgM2S(args: FilmArgs, tempC: number): number {
  checkFilm(args);
  return transfer(args, inRange('tempC', tempC, -59, 149)).kgM2S;
}
