import type { SurfaceSpec } from './types.ts';

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
