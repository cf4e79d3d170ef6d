import { GAS_CONSTANT, inRange, KELVIN_AT_0C } from '../units/index.ts';

/** Constants of one liquid. */
export interface SolventData {
  /** log10 of the vapour pressure [bar] = a - b / (T + c), T in kelvin. */
  readonly antoine: { readonly a: number; readonly b: number; readonly c: number };
  /** Range the constants were fitted over [°C]; used outside, with growing error. */
  readonly fittedC: readonly [low: number, high: number];
  readonly molarMassGmol: number;
  /** In air at 0 °C, 1 atm [cm2/s]. */
  readonly diffusivityCm2S: number;
  readonly source: string;
}

const NIST = 'NIST WebBook SRD 69';
const PERRY = "Perry's Handbook table 2-324";
/** Estimated; within 5 % of Perry where both are known, but 16 % low for acetone. */
const FULLER = 'Fuller, Schettler & Giddings 1966 (atomic volumes from memory)';

const antoine = (a: number, b: number, c: number) => ({ a, b, c });
const kelvinRange = (low: number, high: number): [number, number] => [
  Math.round(low - KELVIN_AT_0C),
  Math.round(high - KELVIN_AT_0C),
];

/** The liquids rates are known for; n-butyl acetate is the reference liquid of relative rates. */
export const SOLVENTS = {
  toluene: {
    antoine: antoine(4.07827, 1343.943, -53.773),
    fittedC: kelvinRange(308, 385),
    molarMassGmol: 92.14,
    diffusivityCm2S: 0.0723,
    source: `${NIST}; diffusivity Welty, Wicks & Wilson 1984, 0.0844 at 25 °C scaled to 0 °C`,
  },
  'n-heptane': {
    antoine: antoine(4.02832, 1268.636, -56.199),
    fittedC: kelvinRange(299, 372),
    molarMassGmol: 100.2,
    diffusivityCm2S: 0.0613,
    source: `${NIST}; diffusivity ${FULLER}`,
  },
  'n-hexane': {
    antoine: antoine(4.00266, 1171.53, -48.784),
    fittedC: kelvinRange(286, 343),
    molarMassGmol: 86.18,
    diffusivityCm2S: 0.0665,
    source: `${NIST}; diffusivity ${FULLER}`,
  },
  acetone: {
    antoine: antoine(4.42448, 1312.253, -32.445),
    fittedC: kelvinRange(259, 508),
    molarMassGmol: 58.08,
    diffusivityCm2S: 0.109,
    source: `${NIST}; diffusivity ${PERRY}`,
  },
  cyclohexane: {
    antoine: antoine(3.96988, 1203.526, -50.287),
    fittedC: kelvinRange(293, 355),
    molarMassGmol: 84.16,
    diffusivityCm2S: 0.0655,
    source: `${NIST}; diffusivity ${PERRY}, 0.0719 at 15 °C scaled to 0 °C`,
  },
  mek: {
    antoine: antoine(3.9894, 1150.207, -63.904),
    fittedC: kelvinRange(315, 370),
    molarMassGmol: 72.11,
    diffusivityCm2S: 0.0798,
    source: `${NIST} from memory; diffusivity ${FULLER}`,
  },
  'n-butyl-acetate': {
    // log10 of pascals 9.5 in the source; 5 less gives bar.
    antoine: antoine(4.5, 1596.7, -43.85),
    fittedC: [-13, 153],
    molarMassGmol: 116.16,
    diffusivityCm2S: 0.058,
    source: `Poling et al., 5th ed. (fitted range from memory); diffusivity ${PERRY}`,
  },
} as const satisfies Record<string, SolventData>;

export type Solvent = keyof typeof SOLVENTS;

export function solventData(solvent: Solvent): SolventData {
  const data: SolventData | undefined = SOLVENTS[solvent];
  if (data === undefined) {
    throw new RangeError(`solvent (${solvent}) must be one of ${Object.keys(SOLVENTS).join(', ')}`);
  }
  return data;
}

/**
 * Vapour pressure of a pure solvent.
 * @param args.solvent see `SOLVENTS`
 * @param args.tempC [°C], -60..150
 * @returns [kPa]
 * @throws RangeError for another solvent or temperature, NaN included
 * @source Antoine equation, NIST WebBook SRD 69 constants (MEK from memory);
 *   tests/published/solvent.test.ts
 * @accuracy 1 % at 25 °C (MEK 2.5 %, n-butyl acetate 10 %); below the fitted range errors grow: toluene
 *   1.5 % and MEK 3 % low at 5 °C
 */
export function solventVapourPressureKPa(args: { solvent: Solvent; tempC: number }): number {
  const { a, b, c } = solventData(args.solvent).antoine;
  const t = inRange('tempC', args.tempC, -60, 150) + KELVIN_AT_0C;
  return 100 * 10 ** (a - b / (t + c));
}

/**
 * Heat of vaporisation that goes with the Antoine curve (Clausius-Clapeyron, ideal vapour).
 * @param args.solvent see `SOLVENTS`
 * @param args.tempC [°C], -60..150
 * @returns [J/kg]
 * @throws RangeError for another solvent or temperature, NaN included
 * @accuracy within 3 % of table values at 25 °C (toluene 38.0, acetone 31.0 kJ/mol; from memory)
 */
export function solventLatentHeatJkg(args: { solvent: Solvent; tempC: number }): number {
  const data = solventData(args.solvent);
  const t = inRange('tempC', args.tempC, -60, 150) + KELVIN_AT_0C;
  const jPerMol = (GAS_CONSTANT * t * t * Math.LN10 * data.antoine.b) / (t + data.antoine.c) ** 2;
  return (1000 * jPerMol) / data.molarMassGmol;
}

/** Kinematic viscosity of air near 15-25 °C [cm2/s]. */
const AIR_VISCOSITY_CM2S = 0.15;

/** Schmidt number in air of a diffusivity given at 0 °C [cm2/s], at a temperature [°C]. */
export function schmidtNumber(diffusivityCm2S: number, tempC: number): number {
  const t = inRange('tempC', tempC, -60, 150) + KELVIN_AT_0C;
  return AIR_VISCOSITY_CM2S / (diffusivityCm2S * (t / KELVIN_AT_0C) ** 1.75);
}

/**
 * Transfer of vapour from a flat pool or film to the wind.
 * k = 0.0048 U^n L^(-1/9) Sc^(-2/3) in SI. The exponent of wind is disputed (7/9 in the open,
 * 0.10 fitted in a tunnel), so it is a parameter; all exponents agree at 1 m/s.
 * @param args.windMps over the film [m/s], 0..60; 0 gives 0: still air needs a floor, the caller's choice
 * @param args.lengthM of the wet area along the wind [m], 0.05..1000
 * @param args.schmidt number of the vapour in air, 0.2..10
 * @param args.windExponent 0..1, default 7/9
 * @returns [m/s]
 * @throws RangeError outside these ranges, NaN included
 * @source Mackay & Matsugu 1973 in the SI form of Stiver & Mackay 1984, Kawamura & Mackay 1987;
 *   tests/published/solvent.test.ts
 * @accuracy within 1.5 % of the 1973 form (exponents 0.78, 0.11, 0.67) over 1..8 m/s
 */
export function massTransferMps(args: {
  windMps: number;
  lengthM: number;
  schmidt: number;
  windExponent?: number;
}): number {
  const wind = inRange('windMps', args.windMps, 0, 60);
  const length = inRange('lengthM', args.lengthM, 0.05, 1000);
  const schmidt = inRange('schmidt', args.schmidt, 0.2, 10);
  const exponent = inRange('windExponent', args.windExponent ?? 7 / 9, 0, 1);
  return 0.0048 * wind ** exponent * length ** (-1 / 9) * schmidt ** (-2 / 3);
}

/**
 * Solvent leaving a film that is still wet (the surface-controlled stage).
 * @param args.solvent see `SOLVENTS`
 * @param args.filmTempC [°C], -60..150
 * @param args.windMps, args.lengthM, args.windExponent as `massTransferMps`
 * @param args.activity of the solvent in the film, 0..1, default 1 (pure)
 * @returns [kg/m2s]
 * @throws RangeError outside these ranges, NaN included
 * @source k M P / (R T); tests/published/solvent.test.ts
 */
export function solventFluxKgM2S(args: {
  solvent: Solvent;
  filmTempC: number;
  windMps: number;
  lengthM: number;
  activity?: number;
  windExponent?: number;
}): number {
  const data = solventData(args.solvent);
  const filmTempC = inRange('filmTempC', args.filmTempC, -60, 150);
  const activity = inRange('activity', args.activity ?? 1, 0, 1);
  const k = massTransferMps({
    windMps: args.windMps,
    lengthM: args.lengthM,
    schmidt: schmidtNumber(data.diffusivityCm2S, filmTempC),
    ...(args.windExponent === undefined ? {} : { windExponent: args.windExponent }),
  });
  const pascals = 1000 * solventVapourPressureKPa({ solvent: args.solvent, tempC: filmTempC });
  const kgPerM3 =
    (pascals * data.molarMassGmol) / 1000 / (GAS_CONSTANT * (filmTempC + KELVIN_AT_0C));
  return k * kgPerM3 * activity;
}
