import type { SurfaceSpec } from './types.ts';

/** Surface resistance of the inner face, heat flow upwards [m2K/W] (EN ISO 6946: 0.10). */
const INNER_RESISTANCE = 0.1;
/** Still to light air under a folded-back sheet [W/m2K] (from memory: 5-10 for both faces together). */
const UNDERSIDE_WM2K = 8;
/** A layer this good an insulator keeps what is below it out of the 5-minute balance [W/mK]. */
const INSULATION_WMK = 0.06;

/** What the layers under a surface come to for a balance with one temperature. */
export interface Stack {
  /** Heat stored in the layers above the first insulation [J/m2K]. */
  readonly capacityJm2K: number;
  /** From the surface to what is below [W/m2K]. */
  readonly conductanceWm2K: number;
  /** Share of the sky a face sees: 1 flat, one half for a wall. */
  readonly skyView: number;
}

/**
 * Layers lumped into one storage and one conductance. Thin roofs over insulation follow the weather
 * within minutes; a wood panel takes 10-20 minutes (by their heat capacity over a usual heat transfer).
 */
export function stackOf(spec: SurfaceSpec): Stack {
  let capacity = 0;
  let resistance = 0;
  let insulated = false;
  for (const layer of spec.layers) {
    insulated ||= layer.conductivityWmK < INSULATION_WMK;
    if (!insulated) capacity += layer.thicknessM * layer.densityKgM3 * layer.heatCapacityJkgK;
    resistance += layer.thicknessM / layer.conductivityWmK;
  }
  const below = spec.below.kind === 'room' ? INNER_RESISTANCE : 1 / UNDERSIDE_WM2K;
  return {
    capacityJm2K: capacity,
    conductanceWm2K: 1 / (resistance + below),
    skyView: (1 + Math.cos((spec.fallDeg * Math.PI) / 180)) / 2,
  };
}

/** Time over which a fresh film draws heat from what it lies on [s]: the first ten minutes. */
const FILM_TIME_S = 600;

/**
 * Heat that a surface gives a cooler film on it, averaged over the film's first minutes: a thick
 * layer by its effusivity (half-space, constant difference), a thin one by what it holds at most.
 * @returns [W/m2K]
 * @source half-space conduction, mean flux 2 e / sqrt(pi t) (textbook, from memory)
 */
export function substrateWm2K(spec: SurfaceSpec): number {
  const top = spec.layers[0];
  if (top === undefined) throw new Error(`surface ${spec.id} has no layers`);
  const perVolume = top.densityKgM3 * top.heatCapacityJkgK;
  const asHalfSpace =
    (2 * Math.sqrt(top.conductivityWmK * perVolume)) / Math.sqrt(Math.PI * FILM_TIME_S);
  const asThinLayer = (top.thicknessM * perVolume) / FILM_TIME_S;
  return Math.min(asHalfSpace, asThinLayer);
}
